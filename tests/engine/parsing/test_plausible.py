"""Odd amounts raise a question, ordinary ones none."""

from math import inf, nan, sqrt

import pytest

from evenstand.engine.parsing import plausible
from evenstand.engine.parsing.plausible import FEWEST_STEPS, USUAL, warn, warn_of_small_catch
from evenstand.engine.quantities import units
from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import (
    CATCH,
    FOOT,
    GRAM,
    INCH,
    MILE_PER_HOUR,
    POUND_PER_ACRE,
    POUND_PER_BUSHEL,
    RATE,
    ROWS,
    SHARE,
    SPACING,
    SPEED,
    TEST_WEIGHT,
    TRAVEL,
    Kind,
)


# The limits are common practice, no source.
@pytest.mark.parametrize(
    ("field", "value", "kind", "question"),
    [
        (
            "rate",
            301 * POUND_PER_ACRE,
            RATE,
            "301 lb/ac is more than 300 lb/ac, which is rare: is the unit the one that is meant?",
        ),
        (
            "rate",
            0.09 * POUND_PER_ACRE,
            RATE,
            "0.09 lb/ac is less than 0.1 lb/ac, which is rare: is the unit the one that is meant?",
        ),
        (
            "rolled_distance",
            16 * FOOT,
            TRAVEL,
            "16 ft/turn is more than 15 ft/turn, which is rare: is it one whole turn of the wheel?",
        ),
        (
            "rolled_distance",
            2.9 * FOOT,
            TRAVEL,
            "2.9 ft/turn is less than 3 ft/turn, which is rare: is it one whole turn of the wheel?",
        ),
        (
            "spacing",
            75 * INCH,
            SPACING,
            "75 in is more than 40 in, which is rare: is it from one row to the next?",
        ),
        (
            "spacing",
            0.75 * INCH,
            SPACING,
            "0.75 in is less than 4 in, which is rare: is it from one row to the next?",
        ),
        (
            "rows",
            120,
            ROWS,
            "120 rows is more than 100 rows, which is rare: is it the number of rows?",
        ),
        (
            "slip",
            0.3,
            SHARE,
            "30 % is more than 20 %, which is rare: is it the part of the turns that skid?",
        ),
        (
            "tolerance",
            0.5,
            SHARE,
            "50 % is more than 25 %, which is rare: is it the part that the rate may be off by?",
        ),
        (
            "test_weight",
            77 * POUND_PER_BUSHEL,
            TEST_WEIGHT,
            "77 lb/bu is more than 70 lb/bu, which is rare: "
            "is it the weight that fills the measure?",
        ),
        (
            "speed",
            20 * MILE_PER_HOUR,
            SPEED,
            "20 mph is more than 12 mph, which is rare: is the unit the one that is meant?",
        ),
    ],
)
def test_a_question(*, field, value, kind, question):
    (asked,) = warn(field, value, kind)
    assert str(asked) == question


@pytest.mark.parametrize(
    ("field", "value", "kind"),
    [
        ("rate", 60 * POUND_PER_ACRE, RATE),
        ("rate", 300 * POUND_PER_ACRE, RATE),
        ("spacing", 7.5 * INCH, SPACING),
        ("spacing", 4 * INCH, SPACING),
        ("rows", 1, ROWS),
        ("slip", 0.20, SHARE),
        ("slip", -0.02, SHARE),
        ("germination", 0.95, SHARE),
        ("catch", 1e9, CATCH),
        ("speed", nan, SPEED),
    ],
)
def test_no_question(field, value, kind):
    assert warn(field, value, kind) == ()


def test_a_question_in_the_units_of_its_reader():
    (asked,) = warn("spacing", 1.25, SPACING)
    assert Style("metric").write(asked).startswith("125 cm is more than 102 cm")


def test_limits_stand_under_a_kind_or_a_share_and_say_where_they_come_from():
    names = {kind.name for kind in vars(units).values() if isinstance(kind, Kind)}
    assert set(USUAL) - names == {"slip", "tolerance"}
    for limits in USUAL.values():
        assert limits.low < limits.high
        assert (limits.low, limits.high) != (-inf, inf)
        assert limits.source == plausible.PRACTICE


def test_a_small_catch():
    # GUM F.2.2.1: 1 g steps leave 1 g / √12 = 0.29 g, 1.1 % of 26 g.
    (asked,) = warn_of_small_catch(26 * GRAM, resolution=GRAM)
    assert Style("metric").write(asked) == (
        "26 g is few steps of this scale, whose rounding makes it uncertain by 1.1 %: "
        "make more turns or catch more rows"
    )


def test_from_thirty_steps_on_rounding_is_below_one_percent():
    assert warn_of_small_catch(30 * GRAM, resolution=GRAM) == ()
    assert len(warn_of_small_catch(29.9 * GRAM, resolution=GRAM)) == 1
    assert 1 / (FEWEST_STEPS * sqrt(12)) < 0.01


@pytest.mark.parametrize("catch", [0.0, -1.0, nan])
def test_what_is_no_catch_is_for_others_to_refuse(catch):
    assert warn_of_small_catch(catch, resolution=GRAM) == ()
