"""Rows, scales, gears, and the way to a notch."""

import re
from math import nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

import labels
from evenstand.engine.drill.drill import Drill, Gear, Scale, move
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.units import FOOT, INCH
from evenstand.engine.statistics.budget import nominal, standard_uncertainty


def test_24_rows_at_7_and_a_half_inches_are_15_feet():
    """Common practice, no source."""
    assert nominal(Drill(rows=24, spacing=7.5 * INCH).width) == pytest.approx(15 * FOOT)


def test_nine_furrows_at_25_cm():
    """Drill manual (India), calibration page: 2.25 m."""
    assert nominal(Drill(rows=9, spacing=0.25).width) == pytest.approx(2.25)


def test_rows_blocked_between_keep_their_ground_and_rows_blocked_at_an_end_do_not():
    between = Drill(rows=24, spacing=7.5 * INCH, blocked=12)
    assert nominal(between.width) == pytest.approx(15 * FOOT)
    assert (between.open_rows, between.covered_rows) == (12, 24)
    narrow = Drill(rows=24, spacing=7.5 * INCH, blocked_end=8)
    assert nominal(narrow.width) == pytest.approx(10 * FOOT)
    assert (narrow.open_rows, narrow.covered_rows) == (16, 16)


def test_a_spacing_without_limits_is_given_a_sixteenth_of_an_inch_and_says_so():
    drill = Drill(rows=24, spacing=7.5 * INCH)
    # JCGM 100:2008, 4.3.7: limits ÷ √3.
    assert standard_uncertainty(drill.spacing) / INCH == pytest.approx(0.0361, abs=0.00005)
    assert re.search(labels.ROW_SPACING_KNOWN.like(), str(drill.assumed[0]))


def test_settings_of_an_even_scale_and_of_named_stops():
    assert Scale(low=0, high=2, step=0.5).settings() == (0, 0.5, 1, 1.5, 2)
    assert Scale(low=0, high=40, stops=(1, 2, 5)).settings() == (1, 2, 5)


def test_a_scale_that_runs_backwards_opens_towards_its_low_end():
    """A grass-seed unit of a drill manual: handle 0 to 21, 0 is the most seed."""
    scale = Scale(low=0, high=21, reversed=True)
    assert scale.opening(0) == 1
    assert scale.opening(21) == 0


@pytest.mark.parametrize(("backwards", "left"), [(False, (4, 5, 6)), (True, (0, 1, 2))])
def test_the_dead_part_of_a_scale_is_not_offered(backwards, left):
    scale = Scale(low=0, high=6, closed=3, reversed=backwards)
    assert scale.settings() == left


@given(st.floats(0, 1), st.booleans())
def test_opening_runs_from_0_to_1_and_back_when_reversed(part, backwards):
    setting = 10 + 30 * part
    opening = Scale(low=10, high=40, reversed=backwards).opening(setting)
    assert opening == pytest.approx(1 - part if backwards else part, abs=1e-12)


@pytest.mark.parametrize(
    ("slack", "way", "said"),
    [
        (
            "below",
            (None, 31),
            labels.SET_TO(levers=labels.THE_LEVER, to=31) + ", " + labels.COMING_UP_BELOW,
        ),
        (
            "below",
            (31, 33),
            labels.MOVE_FROM_TO(levers=labels.THE_LEVER, from_=31, to=33)
            + ", "
            + labels.COMING_UP_BELOW,
        ),
        (
            "below",
            (33, 31),
            labels.MOVE_FROM_TO(levers=labels.THE_LEVER, from_=33, to=31)
            + ", "
            + labels.PAST_THEN_UP,
        ),
        (
            "above",
            (33, 31),
            labels.MOVE_FROM_TO(levers=labels.THE_LEVER, from_=33, to=31)
            + ", "
            + labels.COMING_DOWN_ABOVE,
        ),
        (
            "above",
            (31, 33),
            labels.MOVE_FROM_TO(levers=labels.THE_LEVER, from_=31, to=33)
            + ", "
            + labels.PAST_THEN_DOWN,
        ),
        ("none", (31, 33.5), labels.MOVE_FROM_TO(levers=labels.THE_LEVER, from_=31, to="33.5")),
        ("below", (31, 31), labels.LEAVE_AT(levers=labels.THE_LEVER, to=31)),
    ],
)
def test_the_way_to_a_notch_takes_up_slack_on_one_side(slack, way, said):
    came_from, to = way
    assert str(move(Scale(low=0, high=100, slack=slack), came_from, to=to)) == said


def test_several_levers_are_all_moved():
    assert str(move(Scale(low=0, high=9, levers=2), None, to=4)).startswith(
        labels.SET_TO(levers=labels.ALL_LEVERS(n=2), to=4)
    )


def test_a_gear_is_found_by_name_and_the_only_one_without():
    drill = Drill(rows=2, spacing=0.2, gears=(Gear(name="full"), Gear(name="half", ratio=0.5)))
    assert drill.gear("half").ratio == 0.5
    assert Drill(rows=2, spacing=0.2).gear(None).ratio == 1
    with pytest.raises(MeasurementError, match=labels.GIVE_ONE.like(names="full, half")):
        drill.gear(None)


@pytest.mark.parametrize(
    ("make", "field"),
    [
        (lambda: Drill(rows=0, spacing=0.2), "rows"),
        (lambda: Drill(rows=4, spacing=nan), "spacing"),
        (lambda: Drill(rows=4, spacing=-0.2), "spacing"),
        (lambda: Drill(rows=4, spacing=0.2, blocked=4), "blocked"),
        (lambda: Drill(rows=4, spacing=0.2, blocked_end=-1), "blocked_end"),
        (lambda: Drill(rows=4, spacing=0.2, blocked=2, blocked_end=2), "blocked"),
        (lambda: Scale(low=5, high=5), "scale high"),
        (lambda: Scale(low=0, high=5, step=0), "scale step"),
        (lambda: Scale(low=0, high=5, step=1e-6), "scale step"),
        (lambda: Scale(low=0, high=5, stops=(6,)), "scale stops"),
        (lambda: Scale(low=0, high=5, closed=-1), "scale closed"),
        (lambda: Scale(low=0, high=5).check(5.1), "setting"),
        (lambda: Gear(ratio=0), "gear ratio"),
    ],
)
def test_refuses_and_names_the_field(make, field):
    with pytest.raises(MeasurementError) as refusal:
        make()
    assert refusal.value.field == field
