"""Every form in which an amount is written, and every refusal with its words."""

from math import sqrt

import pytest

from evenstand.engine.parsing.parse import Reading, read
from evenstand.engine.quantities.units import (
    ACRE,
    BAGS,
    CATCH,
    COST,
    DENSITY,
    FIELD,
    FOOT,
    GROUND,
    HOURS,
    INCH,
    LENGTH,
    LOAD,
    MINUTES,
    MONEY,
    NUMBER,
    OUNCE,
    PLANTS,
    POUND,
    POUND_PER_ACRE,
    POUND_PER_BUSHEL,
    PRICE,
    RATE,
    ROWS,
    SECONDS,
    SEED_COUNT,
    SEED_WEIGHT,
    SHARE,
    SPACING,
    SPEED,
    SQUARE_FOOT,
    TEST_WEIGHT,
    TRAVEL,
    TURNS,
    VOLUME,
    WORK_RATE,
)
from evenstand.engine.statistics.budget import nominal, standard_uncertainty

WHEAT = 60 * POUND_PER_BUSHEL


# Values by hand, in SI or as a multiple of a unit whose size has its own test.
@pytest.mark.parametrize(
    ("text", "kind", "value"),
    [
        ("21 1/2 in", SPACING, 21.5 * INCH),
        ("21-1/2 in", SPACING, 21.5 * INCH),
        ("7.5in", SPACING, 0.1905),
        ("7,5 in", SPACING, 0.1905),
        ('7½"', SPACING, 0.1905),
        ("12.5 cm", SPACING, 0.125),
        ("125 mm", SPACING, 0.125),
        ("99 in", TRAVEL, 8.25 * FOOT),
        ("8 ft 3 in", TRAVEL, 8.25 * FOOT),
        ("8 ft, 3 in", TRAVEL, 8.25 * FOOT),
        ("8 feet and 3 inches", TRAVEL, 8.25 * FOOT),
        ("8 pies y 3 pulgadas", TRAVEL, 8.25 * FOOT),
        ("8ft3in", TRAVEL, 8.25 * FOOT),
        ("2.5 m/turn", TRAVEL, 2.5),
        ("2.5 m per turn", TRAVEL, 2.5),
        ("7'11\"", LENGTH, 95 * INCH),
        ("7' 11\"", LENGTH, 95 * INCH),
        ("7'-11\"", LENGTH, 95 * INCH),
        ("7′ 11″", LENGTH, 95 * INCH),
        ("7’ 11”", LENGTH, 95 * INCH),
        ("7‘ 11“", LENGTH, 95 * INCH),
        ("7' 11''", LENGTH, 95 * INCH),
        ("7 ft 11 1/2 in", LENGTH, 95.5 * INCH),
        ("7' 11½\"", LENGTH, 95.5 * INCH),
        ("1 yd 2 ft 3 in", LENGTH, 63 * INCH),
        ("-7 ft 11 in", LENGTH, -95 * INCH),
        ("9 oz", CATCH, 9 * OUNCE),
        ("8oz", CATCH, 8 * OUNCE),
        ("⅛ oz", CATCH, OUNCE / 8),
        ("2 lb 3 oz", CATCH, 35 * OUNCE),
        ("2lb3oz", CATCH, 35 * OUNCE),
        ("2# 3 oz.", CATCH, 35 * OUNCE),
        ("2 libras 3 onzas", CATCH, 35 * OUNCE),
        ("251 g", CATCH, 0.251),
        ("1 kg 20 g", CATCH, 1.02),
        ("-5 g", CATCH, -0.005),
        ("−5 g", CATCH, -0.005),
        ("+5 g", CATCH, 0.005),
        ("1,850 lb", LOAD, 1850 * POUND),
        ("1.2 t", LOAD, 1200.0),
        ("15 cwt", LOAD, 1500 * POUND),
        ("60 lb/ac", RATE, 60 * POUND_PER_ACRE),
        ("60 lbs per acre", RATE, 60 * POUND_PER_ACRE),
        ("60 Lb. / Ac.", RATE, 60 * POUND_PER_ACRE),
        ("67 kg/ha", RATE, 0.0067),
        ("67 kg ha⁻¹", RATE, 0.0067),
        ("12 g/m2", RATE, 0.012),
        ("12 g/m²", RATE, 0.012),
        ("22 seeds/ft2", DENSITY, 22 / SQUARE_FOOT),
        ("22 seeds/ft²", DENSITY, 22 / SQUARE_FOOT),
        ("22 seeds/ft^2", DENSITY, 22 / SQUARE_FOOT),
        ("22 seeds per sq ft", DENSITY, 22 / SQUARE_FOOT),
        ("22 per square foot", DENSITY, 22 / SQUARE_FOOT),
        ("22/ft2", DENSITY, 22 / SQUARE_FOOT),
        ("22 semillas por pie cuadrado", DENSITY, 22 / SQUARE_FOOT),
        ("958,320 seeds/ac", DENSITY, 958_320 / ACRE),
        ("240 plants/m2", PLANTS, 240.0),
        ("18100 seeds/lb", SEED_COUNT, 18_100 / POUND),
        ("18,100 seeds/lb", SEED_COUNT, 18_100 / POUND),
        ("18,100/lb", SEED_COUNT, 18_100 / POUND),
        ("40 seeds/g", SEED_COUNT, 40_000.0),
        ("25 g", SEED_WEIGHT, 25e-6),
        ("25 g/1000", SEED_WEIGHT, 25e-6),
        ("25 g per 1,000 seeds", SEED_WEIGHT, 25e-6),
        ("25 mg/seed", SEED_WEIGHT, 25e-6),
        ("60 lb/bu", TEST_WEIGHT, WHEAT),
        ("60#/bu", TEST_WEIGHT, WHEAT),
        ("77 kg/hL", TEST_WEIGHT, 770.0),
        ("770 g/L", TEST_WEIGHT, 770.0),
        ("1/20 ac", FIELD, ACRE / 20),
        ("38.5 ac", FIELD, 38.5 * ACRE),
        ("38 1/2 acres", FIELD, 38.5 * ACRE),
        ("4 ha", FIELD, 40_000.0),
        ("4 hectáreas", FIELD, 40_000.0),
        ("2178 ft2", GROUND, ACRE / 20),
        ("50 bu", VOLUME, 50 * 0.03523907016688),
        ("80 L", VOLUME, 0.08),
        ("3 ft3", VOLUME, 3 * FOOT * FOOT * FOOT),
        ("2 gal", VOLUME, 462 * INCH * INCH * INCH),
        ("5 mph", SPEED, 2.2352),
        ("8 km/h", SPEED, 8 / 3.6),
        ("2 m/s", SPEED, 2.0),
        ("9 ac/h", WORK_RATE, 9 * ACRE / 3600),
        ("20 min", MINUTES, 1200.0),
        ("2 h 30 min", HOURS, 9000.0),
        ("45 s", SECONDS, 45.0),
        ("5 %", SHARE, 0.05),
        ("5%", SHARE, 0.05),
        ("5 percent", SHARE, 0.05),
        ("5 por ciento", SHARE, 0.05),
        ("18 1/3", NUMBER, 55 / 3),
        ("18⅓", NUMBER, 55 / 3),
        ("0,95", NUMBER, 0.95),
        ("20", TURNS, 20.0),
        ("20 turns", TURNS, 20.0),
        ("1 turn", TURNS, 1.0),
        ("20 vueltas", TURNS, 20.0),
        ("20 rows", ROWS, 20.0),
        ("12 bags", BAGS, 12.0),
        ("$180", MONEY, 180.0),
        ("$1,800", MONEY, 1800.0),
        ("180 $", MONEY, 180.0),
        ("-$5", MONEY, -5.0),
        ("$3.50/lb", PRICE, 3.5 / POUND),
        ("$ 3.50 per lb", PRICE, 3.5 / POUND),
        ("3.50 $/lb", PRICE, 3.5 / POUND),
        ("35¢/lb", PRICE, 0.35 / POUND),
        ("$40/ac", COST, 40 / ACRE),
    ],
)
def test_read(text, kind, value):
    reading = read(text, kind, field="x")
    assert reading.value == pytest.approx(value, rel=1e-14)
    assert reading.give_or_take == 0
    assert reading.text == text


@pytest.mark.parametrize(
    ("text", "kind", "expected"),
    [
        ("3 ± 2%", SHARE, (0.03, 0.02)),
        ("3 +/- 2%", SHARE, (0.03, 0.02)),
        ("3 +- 2%", SHARE, (0.03, 0.02)),
        ("3% ± 2%", SHARE, (0.03, 0.02)),
        ("3% ± 2", SHARE, (0.03, 0.02)),
        ("3±2%", SHARE, (0.03, 0.02)),
        ("3% give or take 2%", SHARE, (0.03, 0.02)),
        ("3% más o menos 2%", SHARE, (0.03, 0.02)),
        ("95 in ± 1/4 in", TRAVEL, (95 * INCH, INCH / 4)),
        ("95 ± 1/4 in", TRAVEL, (95 * INCH, INCH / 4)),
        ("95 in ± 1/4", TRAVEL, (95 * INCH, INCH / 4)),
        ("95 in ± ¼ in", TRAVEL, (95 * INCH, INCH / 4)),
        ("8 ft 3 in ± 1 in", TRAVEL, (99 * INCH, INCH)),
        ("8 ft 3 in ± 1 ft 1 in", TRAVEL, (99 * INCH, 13 * INCH)),
        ("2.5 m ± 1 cm", TRAVEL, (2.5, 0.01)),
        ("2.5 m/turn ± 1 cm", TRAVEL, (2.5, 0.01)),
        ("60 lb/ac ± 5%", RATE, (60 * POUND_PER_ACRE, 3 * POUND_PER_ACRE)),
        ("-5 g ± 10%", CATCH, (-0.005, 0.0005)),
        ("$3.50/lb ± $0.20/lb", PRICE, (3.5 / POUND, 0.2 / POUND)),
        ("20 ± 0", TURNS, (20, 0)),
        ("20 ± 1/2", TURNS, (20, 0.5)),
    ],
)
def test_give_or_take(text, kind, expected):
    reading = read(text, kind, field="x")
    assert (reading.value, reading.give_or_take) == pytest.approx(expected, rel=1e-14)


def test_a_quantity_is_rectangular():
    # GUM 4.3.7: ± a, all equally likely, has the standard uncertainty a / √3.
    travel = read("95 in ± 1/4 in", TRAVEL, field="x").quantity("rolled distance")
    assert nominal(travel) == pytest.approx(95 * INCH)
    assert standard_uncertainty(travel) == pytest.approx(0.25 * INCH / sqrt(3))
    assert [str(part.tag) for part in travel.error_components()] == ["rolled distance"]


def test_without_limits_a_quantity_is_a_plain_number():
    assert type(read("95 in", TRAVEL, field="x").quantity("rolled distance")) is float


def test_a_reading_keeps_what_was_typed():
    assert read("60 lbs per acre", RATE, field="x").unit == "lbs per acre"
    assert read("8 ft 3 in", TRAVEL, field="x").unit == "ft in"
    assert read("$3.50/lb", PRICE, field="x").unit == "$/lb"
    assert read("20", TURNS, field="x") == Reading(20.0, 0.0, "", "20", step=1, of=1)
    assert read("60", RATE, field="x", default_unit=RATE.us).unit == "lb/ac"


def test_bushels_are_weighed_by_the_test_weight():
    # 1.2 bu/ac of 60 lb/bu are 72 lb/ac; $12/bu of it are $0.20/lb; 3 bu are 180 lb.
    def by_weight(text, kind):
        return read(text, kind, field="x", test_weight=WHEAT).value

    assert by_weight("1.2 bu/ac", RATE) == pytest.approx(72 * POUND_PER_ACRE)
    assert by_weight("$12/bu", PRICE) == pytest.approx(0.2 / POUND)
    assert by_weight("3 bushels", LOAD) == pytest.approx(180 * POUND)
    assert by_weight("100 L/ha", RATE) == pytest.approx(0.1 * WHEAT / 10_000)


def test_default_unit():
    assert read("60", RATE, field="x", default_unit=RATE.metric).value == pytest.approx(0.006)
    assert read("5", SHARE, field="x", default_unit=SHARE.us).value == pytest.approx(0.05)
    spread = read("95 ± 1/4", TRAVEL, field="x", default_unit=SPACING.us)
    assert spread.give_or_take == pytest.approx(INCH / 4)
    relative = read("60 ± 5%", RATE, field="x", default_unit=RATE.us)
    assert relative.give_or_take == pytest.approx(3 * POUND_PER_ACRE)
    assert read("60 kg/ha", RATE, field="x", default_unit=RATE.us).value == pytest.approx(0.006)


def test_the_decimal_sign_of_the_writer_decides():
    assert read("1,125 in", SPACING, field="x").value == pytest.approx(1125 * INCH)
    assert read("1,125 in", SPACING, field="x", decimal=",").value == pytest.approx(1.125 * INCH)


def test_what_is_kept_of_a_decimal_comma_is_read_alike_by_everybody():
    typed = read("7,125 in ± 0,250 in", SPACING, field="spacing", decimal=",")
    assert typed.text == "7.125 in ± 0.250 in"
    again = read(typed.text, SPACING, field="spacing")
    assert (again.value, again.give_or_take) == (typed.value, typed.give_or_take)
