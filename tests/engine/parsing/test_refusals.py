"""What is not an amount is refused, with the field and a sentence that reads well aloud."""

import pytest

from evenstand.engine.parsing.parse import read
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.units import (
    BUSHEL,
    CATCH,
    DENSITY,
    FIELD,
    LENGTH,
    LOAD,
    MONEY,
    NUMBER,
    PRICE,
    RATE,
    SEED_WEIGHT,
    SHARE,
    TRAVEL,
    TURNS,
    VOLUME,
)


@pytest.mark.parametrize(
    ("text", "kind", "need"),
    [
        ("", RATE, "write a rate by weight, such as 60 lb/ac"),
        ("  ", TURNS, "write a number of turns, such as 10 turns"),
        ("nan", RATE, "write a rate by weight, such as 60 lb/ac"),
        ("inf lb", LOAD, "write a weight, such as 500 lb"),
        ("lb/ac", RATE, "write a rate by weight, such as 60 lb/ac"),
        ("± 2 %", SHARE, "write a share, such as 5 %"),
        ("3 % ±", SHARE, "write a share, such as 5 %"),
        ("60", RATE, "write the unit too, such as 60 lb/ac"),
        ("180", MONEY, "write the unit too, such as $180"),
        ("5", SHARE, "write it with its percent sign, such as 5 %"),
        ("0.05", SHARE, "write it with its percent sign, such as 5 %"),
        ("8 ft", CATCH, "8 ft is a length; a weight is wanted, such as 8 oz"),
        ("8 ft 3 in", CATCH, "8 ft 3 in is a length; a weight is wanted, such as 8 oz"),
        (
            "95 in ± 2 lb",
            TRAVEL,
            "2 lb is a weight; a length per turn is wanted, such as 8 ft/turn",
        ),
        ("8 ft/turn", LENGTH, "8 ft/turn is a length per turn; a length is wanted, such as 8 ft"),
        ("95 %", NUMBER, "95 % is a share; a number is wanted, such as 10"),
        (
            "20 rows",
            TURNS,
            "20 rows is a number of rows; a number of turns is wanted, such as 10 turns",
        ),
        (
            "22 plants/ft2",
            DENSITY,
            "22 plants/ft2 is a number of plants per area; a number of seeds per area is wanted, "
            "such as 22 seeds/ft²",
        ),
        (
            "25 mg",
            SEED_WEIGHT,
            "25 mg is a weight; a weight per 1,000 seeds is wanted, such as 25 g per 1,000",
        ),
        ("60/ac", RATE, "60/ac is a number per area; a rate by weight is wanted, such as 60 lb/ac"),
        ("2 lb/ft", RATE, "2 lb/ft is not a rate by weight, such as 60 lb/ac"),
        (
            "1.2 bu/ac",
            RATE,
            "1.2 bu/ac is a rate by volume: give the test weight of this seed too, "
            "or write a rate by weight, such as 60 lb/ac",
        ),
        (
            "$12/bu",
            PRICE,
            "$12/bu is a price by volume: give the test weight of this seed too, "
            "or write a price by weight, such as $3.50/lb",
        ),
        ("500 lb", VOLUME, "500 lb is a weight; a volume is wanted, such as 10 bu"),
        ("8 acr", FIELD, "acr is not a unit known here; did you mean acre?"),
        ("60 lb/arce", RATE, "arce is not a unit known here; did you mean acre?"),
        ("5 zorkmids", LOAD, "zorkmids is not a unit known here: write a weight, such as 500 lb"),
        (
            "60 lb/ac/yr",
            RATE,
            "lb/ac/yr is not a unit known here: write a rate by weight, such as 60 lb/ac",
        ),
        ("8 oz oops", CATCH, "oz oops is not a unit known here: write a weight, such as 8 oz"),
        ("8 oz!", CATCH, "oz! is not a unit known here; did you mean oz?"),
        ("8 ft 3 zork", LENGTH, "zork is not a unit known here: write a length, such as 8 ft"),
        (
            "2 tons",
            LOAD,
            "tons can mean more than one thing: write t (1,000 kg) or short tons (2,000 lb)",
        ),
        ("8 9 oz", CATCH, "write one number with its unit, such as 8 oz"),
        ("8 oz 9", CATCH, "write one number with its unit, such as 8 oz"),
        ("18 100 lb", LOAD, "write one number with its unit, such as 500 lb"),
        ("8-9 oz", CATCH, "write one number with its unit, such as 8 oz"),
        ("5'7", LENGTH, "write one number with its unit, such as 8 ft"),
        ("3 oz 2 lb", CATCH, "write one number with its unit, such as 8 oz"),
        ("3 in 3 in", LENGTH, "write one number with its unit, such as 8 ft"),
        ("1 ha 2 ac", FIELD, "write one number with its unit, such as 40 ac"),
        ("1,2,3 lb", LOAD, "1,2,3 cannot be read as one number"),
        ("1/0 oz", CATCH, "a fraction cannot be divided by 0"),
        ("1e999 lb", LOAD, "write a number that is not so large"),
        ("3 ± 2 ± 1 %", SHARE, "write ± once, behind the value"),
        ("3 ± -2 %", SHARE, "write a number of 0 or more after ±"),
        ("60 lb/ac ± -5 %", RATE, "write a number of 0 or more after ±"),
        ("8 ft 3 in ± 1", TRAVEL, "write the unit after ± too, such as 1 in"),
        ("60 ± 5 %", RATE, "write the unit too, such as 60 lb/ac"),
        ("9" * 81 + " lb", LOAD, "write it shorter, such as 500 lb"),
    ],
)
def test_refuse(text, kind, need):
    with pytest.raises(MeasurementError) as refusal:
        read(text, kind, field="box rate")
    assert refusal.value.field == "box rate"
    assert refusal.value.given == text
    assert str(refusal.value.need) == need


@pytest.mark.parametrize("weight", [0.0, -1.0, float("nan")])
def test_a_test_weight_that_cannot_be(weight):
    with pytest.raises(MeasurementError) as refusal:
        read("1.2 bu/ac", RATE, field="rate", test_weight=weight)
    assert refusal.value.field == "test_weight"


def test_what_a_comma_writer_means_by_a_point_is_asked():
    with pytest.raises(MeasurementError, match="can be read in two ways: write 1234 or 1,234"):
        read("1.234 lb", LOAD, field="load", decimal=",")


def test_a_volume_needs_no_test_weight():
    assert read("1 bu", VOLUME, field="box").value == BUSHEL
