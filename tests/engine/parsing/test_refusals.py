"""What is not an amount is refused, with the field and a sentence that reads well aloud."""

import pytest

import labels
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
        ("", RATE, labels.WRITE_SUCH(wanted="a rate by weight", example="60 lb/ac")),
        ("  ", TURNS, labels.WRITE_SUCH(wanted="a number of turns", example="10 turns")),
        ("nan", RATE, labels.WRITE_SUCH(wanted="a rate by weight", example="60 lb/ac")),
        ("inf lb", LOAD, labels.WRITE_SUCH(wanted="a weight", example="500 lb")),
        ("lb/ac", RATE, labels.WRITE_SUCH(wanted="a rate by weight", example="60 lb/ac")),
        ("± 2%", SHARE, labels.WRITE_SUCH(wanted="a share", example="5%")),
        ("3% ±", SHARE, labels.WRITE_SUCH(wanted="a share", example="5%")),
        ("60", RATE, labels.WRITE_UNIT_TOO(example="60 lb/ac")),
        ("180", MONEY, labels.WRITE_UNIT_TOO(example="$180.00")),
        ("5", SHARE, labels.WRITE_PERCENT_SIGN(example="5%")),
        ("0.05", SHARE, labels.WRITE_PERCENT_SIGN(example="5%")),
        (
            "8 ft",
            CATCH,
            labels.WANTED_SUCH(given="8 ft", name="a length", wanted="a weight", example="8 oz"),
        ),
        (
            "8 ft 3 in",
            CATCH,
            labels.WANTED_SUCH(
                given="8 ft 3 in", name="a length", wanted="a weight", example="8 oz"
            ),
        ),
        (
            "95 in ± 2 lb",
            TRAVEL,
            labels.WANTED_SUCH(
                given="2 lb", name="a weight", wanted="a length per turn", example="8 ft/turn"
            ),
        ),
        (
            "8 ft/turn",
            LENGTH,
            labels.WANTED_SUCH(
                given="8 ft/turn", name="a length per turn", wanted="a length", example="8 ft"
            ),
        ),
        (
            "95%",
            NUMBER,
            labels.WANTED_SUCH(given="95%", name="a share", wanted="a number", example=10),
        ),
        (
            "20 rows",
            TURNS,
            labels.WANTED_SUCH(
                given="20 rows",
                name="a number of rows",
                wanted="a number of turns",
                example="10 turns",
            ),
        ),
        (
            "22 plants/ft2",
            DENSITY,
            labels.WANTED_SUCH(
                given="22 plants/ft2",
                name="a number of plants per area",
                wanted="a number of seeds per area",
                example="22 seeds/ft²",
            ),
        ),
        (
            "25 mg",
            SEED_WEIGHT,
            labels.WANTED_SUCH(
                given="25 mg",
                name="a weight",
                wanted="a weight per 1,000 seeds",
                example="25 g per 1,000",
            ),
        ),
        (
            "60/ac",
            RATE,
            labels.WANTED_SUCH(
                given="60/ac",
                name="a number per area",
                wanted="a rate by weight",
                example="60 lb/ac",
            ),
        ),
        (
            "2 lb/ft",
            RATE,
            labels.NOT_SUCH(given="2 lb/ft", wanted="a rate by weight", example="60 lb/ac"),
        ),
        (
            "1.2 bu/ac",
            RATE,
            "1.2 bu/ac is a rate by volume: enter this seed's test weight too, "
            "or enter a rate by weight, such as 60 lb/ac",
        ),
        (
            "$12/bu",
            PRICE,
            "$12/bu is a price by volume: enter this seed's test weight too, "
            "or enter a price by weight, such as $3.50/lb",
        ),
        (
            "500 lb",
            VOLUME,
            labels.WANTED_SUCH(given="500 lb", name="a weight", wanted="a volume", example="10 bu"),
        ),
        ("8 acr", FIELD, labels.NOT_UNIT_KNOWN(unit="acr", near="acre")),
        ("60 lb/arce", RATE, labels.NOT_UNIT_KNOWN(unit="arce", near="acre")),
        (
            "5 zorkmids",
            LOAD,
            labels.NOT_UNIT_KNOWN_HERE(unit="zorkmids", wanted="a weight", example="500 lb"),
        ),
        (
            "60 lb/ac/yr",
            RATE,
            labels.NOT_UNIT_KNOWN_HERE(
                unit="lb/ac/yr", wanted="a rate by weight", example="60 lb/ac"
            ),
        ),
        (
            "8 oz oops",
            CATCH,
            labels.NOT_UNIT_KNOWN_HERE(unit="oz oops", wanted="a weight", example="8 oz"),
        ),
        ("8 oz!", CATCH, labels.NOT_UNIT_KNOWN(unit="oz!", near="oz")),
        (
            "8 ft 3 zork",
            LENGTH,
            labels.NOT_UNIT_KNOWN_HERE(unit="zork", wanted="a length", example="8 ft"),
        ),
        (
            "2 tons",
            LOAD,
            labels.CAN_MEAN_MORE(unit="tons", better="t (1,000 kg) or short tons (2,000 lb)"),
        ),
        ("8 9 oz", CATCH, labels.WRITE_ONE_NUMBER(example="8 oz")),
        ("8 oz 9", CATCH, labels.WRITE_ONE_NUMBER(example="8 oz")),
        ("18 100 lb", LOAD, labels.WRITE_ONE_NUMBER(example="500 lb")),
        ("8-9 oz", CATCH, labels.WRITE_ONE_NUMBER(example="8 oz")),
        ("5'7", LENGTH, labels.WRITE_ONE_NUMBER(example="8 ft")),
        ("3 oz 2 lb", CATCH, labels.WRITE_ONE_NUMBER(example="8 oz")),
        ("3 in 3 in", LENGTH, labels.WRITE_ONE_NUMBER(example="8 ft")),
        ("1 ha 2 ac", FIELD, labels.WRITE_ONE_NUMBER(example="40 ac")),
        ("1,2,3 lb", LOAD, labels.CANNOT_READ_ONE(number="1,2,3")),
        ("1/0 oz", CATCH, labels.FRACTION_CANNOT_DIVIDED),
        ("1e999 lb", LOAD, labels.WRITE_NUMBER_NOT),
        ("3 ± 2 ± 1%", SHARE, labels.WRITE_ABOUT_ONCE),
        ("3 ± -2%", SHARE, labels.WRITE_NUMBER_MORE),
        ("60 lb/ac ± -5%", RATE, labels.WRITE_NUMBER_MORE),
        ("8 ft 3 in ± 1", TRAVEL, labels.WRITE_UNIT_AFTER(unit="in")),
        ("60 ± 5%", RATE, labels.WRITE_UNIT_TOO(example="60 lb/ac")),
        ("9" * 81 + " lb", LOAD, labels.WRITE_SHORTER_SUCH(example="500 lb")),
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
    with pytest.raises(MeasurementError, match=labels.CAN_READ_TWO.like(large=1234, small="1,234")):
        read("1.234 lb", LOAD, field="load", decimal=",")


def test_a_volume_needs_no_test_weight():
    assert read("1 bu", VOLUME, field="box").value == BUSHEL
