"""Odd amounts raise a question, ordinary ones none."""

import re
from math import inf, nan, sqrt

import pytest

import labels
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
            labels.MORE_THAN_RARE(
                value="301 lb/ac", limit="300 lb/ac", question="is the unit the one that is meant?"
            ),
        ),
        (
            "rate",
            0.09 * POUND_PER_ACRE,
            RATE,
            labels.LESS_THAN_RARE(
                value="0.09 lb/ac", limit="0.1 lb/ac", question="is the unit the one that is meant?"
            ),
        ),
        (
            "rolled_distance",
            16 * FOOT,
            TRAVEL,
            labels.MORE_THAN_RARE(
                value="16 ft/turn",
                limit="15 ft/turn",
                question="is it one whole turn of the wheel?",
            ),
        ),
        (
            "rolled_distance",
            2.9 * FOOT,
            TRAVEL,
            labels.LESS_THAN_RARE(
                value="2.9 ft/turn",
                limit="3 ft/turn",
                question="is it one whole turn of the wheel?",
            ),
        ),
        (
            "spacing",
            75 * INCH,
            SPACING,
            labels.MORE_THAN_RARE(
                value="75 in", limit="40 in", question="is it from one row to the next?"
            ),
        ),
        (
            "spacing",
            0.75 * INCH,
            SPACING,
            labels.LESS_THAN_RARE(
                value="0.75 in", limit="4 in", question="is it from one row to the next?"
            ),
        ),
        (
            "rows",
            120,
            ROWS,
            labels.MORE_THAN_RARE(
                value="120 rows", limit="100 rows", question="is it the number of rows?"
            ),
        ),
        (
            "slip",
            0.3,
            SHARE,
            labels.MORE_THAN_RARE(
                value="30%", limit="20%", question="is it the part of the turns that skid?"
            ),
        ),
        (
            "tolerance",
            0.5,
            SHARE,
            labels.MORE_THAN_RARE(
                value="50%", limit="25%", question="is it the part that the rate may be off by?"
            ),
        ),
        (
            "test_weight",
            77 * POUND_PER_BUSHEL,
            TEST_WEIGHT,
            labels.MORE_THAN_RARE(
                value="77 lb/bu",
                limit="70 lb/bu",
                question="is it the weight that fills the measure?",
            ),
        ),
        (
            "speed",
            20 * MILE_PER_HOUR,
            SPEED,
            labels.MORE_THAN_RARE(
                value="20 mph", limit="12 mph", question="is the unit the one that is meant?"
            ),
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
    assert re.match(
        labels.MORE_THAN_RARE.like(value="125 cm", limit="102 cm"), Style("metric").write(asked)
    )


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
    assert Style("metric").write(asked) == (labels.FEW_STEPS_SCALE(catch="26 g", rounding="1.1%"))


def test_from_thirty_steps_on_rounding_is_below_one_percent():
    assert warn_of_small_catch(30 * GRAM, resolution=GRAM) == ()
    assert len(warn_of_small_catch(29.9 * GRAM, resolution=GRAM)) == 1
    assert 1 / (FEWEST_STEPS * sqrt(12)) < 0.01


@pytest.mark.parametrize("catch", [0.0, -1.0, nan])
def test_what_is_no_catch_is_for_others_to_refuse(catch):
    assert warn_of_small_catch(catch, resolution=GRAM) == ()
