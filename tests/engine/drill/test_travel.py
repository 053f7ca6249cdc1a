"""Turns, distances and slip: published examples, trade practice, refusals."""

from math import nan, pi, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

import labels
from evenstand.engine.drill.course import course, seconds_per_turn
from evenstand.engine.drill.drill import Drill
from evenstand.engine.drill.travel import (
    driven,
    rolled,
    slip_from_turns,
    sown,
    taped,
    turned,
    wheel_turns,
)
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import ACRE, FOOT, INCH, KM_PER_HOUR
from evenstand.engine.statistics.budget import budget, give_or_take, nominal, standard_uncertainty

wheels = st.floats(0.5, 5)
slips = st.floats(0, 0.3)


def one_row(width):
    return Drill(rows=1, spacing=width)


def test_a_95_inch_wheel_needs_18_and_a_third_turns_for_a_twentieth_acre():
    """Common practice, no source: 15 ft wide, 145.2 ft long, 7.92 ft a turn."""
    laid_out = course(Drill(rows=24, spacing=7.5 * INCH), rolled(95 * INCH), area=ACRE / 20)
    assert nominal(laid_out.width) / FOOT == pytest.approx(15)
    assert nominal(laid_out.distance) / FOOT == pytest.approx(145.2)
    assert nominal(laid_out.turns) == pytest.approx(18 + 1 / 3, abs=0.01)


def test_distances_for_a_fraction_of_an_acre(published):
    for row in published("distance_for_area.csv"):
        drill = one_row(row["width"] * FOOT)
        for parts in (100, 50, 40, 20, 10):
            distance = course(drill, rolled(1.0), area=ACRE / parts).distance
            assert nominal(distance) / FOOT == pytest.approx(row[f"1/{parts}"], abs=0.05001)


def test_published_turns_and_where_they_are_wrong(published):
    for row in published("turns_examples.csv"):
        turns = course(one_row(row["width"]), rolled(row["wheel"]), area=row["area"]).turns
        assert nominal(turns) == pytest.approx(row["exact"], rel=1e-4), row["source"]
    # Rounding three times in a row lost 15 % of the ground.
    quarter = next(r for r in published("turns_examples.csv") if "0.25 ha" in r["source"])
    assert quarter["published"] / quarter["exact"] == pytest.approx(0.848, abs=0.001)


def test_turns_for_a_twenty_fifth_hectare():
    """Indian university lecture: N = 400 ÷ (π D W) for 400 m²."""
    laid_out = course(one_row(1.8), rolled(pi * 0.6), area=400)
    assert nominal(laid_out.turns) == pytest.approx(400 / (pi * 0.6 * 1.8))


def test_handle_turns_for_a_twentieth_hectare():
    """Seeder manual (Australia): 500 × handle turns per wheel turn ÷ (width × wheel)."""
    wheel = course(one_row(4.0), rolled(1.5), area=500).turns
    handle = 500 * 2.4 / (4.0 * 1.5)
    assert nominal(wheel_turns(handle, crank_per_wheel=2.4)) == pytest.approx(nominal(wheel))


def test_a_crank_is_counted_at_the_crank():
    """48 ÷ 2.4 = 20 turns of 95 in; the marks are read at the crank: √(2/3) × 0.05 ÷ 48."""
    run = turned(rolled(95 * INCH), 48.0, crank_per_wheel=2.4)
    assert nominal(run.distance) / INCH == pytest.approx(1900)
    assert (run.turns, run.by_crank) == (48.0, True)
    share = {s.name: s.u for s in budget(run.distance, {})}["turn count"]
    assert share / nominal(run.distance) == pytest.approx(sqrt(2 / 3) * 0.05 / 48)
    style = Style()
    assert [line.sum(style) for line in run.working] == ["48 turns ÷ 2.4", "20 turns × 95 in ÷ 12"]


def test_slip_from_counted_turns():
    """Planter manual: 28 turns over a course of 30 without slip, printed cut off as 6.6%."""
    slip = slip_from_turns(counted=28, without_slip=30)
    assert slip == pytest.approx(1 / 15)
    # 315 ft in 28 turns: the tape of 10.5 ft and that slip give the ground per turn back.
    assert nominal(taped(10.5 * FOOT, slip=slip).ground) == pytest.approx(315 / 28 * FOOT)


@given(wheels, slips)
def test_slip_enters_once(wheel, slip):
    """A rolled distance that has the slip inside is the same wheel as tape and slip apart."""
    apart, inside = taped(wheel, slip=slip), rolled(wheel / (1 - slip))
    assert nominal(apart.ground) == pytest.approx(nominal(inside.ground))
    area = course(one_row(3.0), apart, area=100.0)
    assert nominal(area.turns) == pytest.approx(
        nominal(course(one_row(3.0), inside, area=100.0).turns)
    )
    run = turned(apart, 10.0)
    ground = nominal(run.distance / (1 - run.slip))
    assert ground == pytest.approx(nominal(turned(inside, 10.0).distance))


@pytest.mark.parametrize(("wheel", "lines"), [(rolled(2.4), 0), (taped(2.4, slip=0.03), 2)])
def test_the_working_says_where_slip_is_counted(wheel, lines):
    working = course(one_row(3.0), wheel, area=100.0).working
    said = [str(line.say) for line in working]
    assert sum("lip" in text for text in said) == max(1, lines)
    assert sum(labels.GROUND_PER_WHEEL in text for text in said) == (1 if lines else 0)


def test_the_lines_of_a_taped_course_by_hand():
    # 2.91 m of tape at 3 % slip covers 3 m; 90 m² at 3 m wide is a run of 30 m: 10 turns.
    lines = course(one_row(3.0), taped(2.91, slip=0.03), area=90.0, speed=2.0).working
    assert [line.value.value for line in lines] == pytest.approx([3, 30, 0.97, 3, 10, 1.5])


def test_uncertainty_of_a_course_by_hand():
    # Rolled ± 1 % is u 0.577 %; 7.5 in ± 1/16 in is u 0.481 %. Root of squares: 0.751 %.
    turns = course(Drill(rows=24, spacing=7.5 * INCH), rolled(2.413), area=ACRE / 20).turns
    assert standard_uncertainty(turns) / nominal(turns) == pytest.approx(0.00751, abs=1e-5)
    assert {s.name for s in budget(turns, {})} == {"rolled distance", "row spacing"}


def test_what_is_assumed_is_said_and_what_is_given_is_not():
    assert "± 1%" in str(rolled(2.4).assumed[0])
    assert rolled(give_or_take(2.4, 0.01, "rolled distance")).assumed == ()
    assert len(taped(2.4, slip=0.03).assumed) == 2
    assert len(taped(give_or_take(2.4, 0.01, "taped circumference"), slip=0.03).assumed) == 1


def test_pace_at_field_speed():
    # 2.4 m a turn at 7.2 km/h = 2 m/s: 1.2 s.
    assert seconds_per_turn(rolled(2.4), 7.2 * KM_PER_HOUR) == pytest.approx(1.2)
    line = course(one_row(3.0), rolled(2.4), area=100.0, speed=2.0).working[-1]
    assert Style(system="metric").amount(line.value) == "1.2 s"


def test_an_indian_wheel_at_4_km_per_hour():
    """Drill manual (India): about 30 turns a minute at 4 km/h (exact 35.4)."""
    assert 60 / seconds_per_turn(rolled(pi * 0.6), 4 * KM_PER_HOUR) == pytest.approx(35.4, abs=0.05)


def test_a_pulled_course_and_a_sown_area_are_field_runs():
    assert driven(50.0).in_field
    assert "± 0.5%" in str(driven(50.0).assumed[0])
    assert driven(give_or_take(50.0, 0.1, "measured distance")).assumed == ()
    # Drill manual (NZ): 1/80 ha = 125 m² at 69.4 m is a drill of 1.801 m.
    run = sown(125.0, Drill(rows=12, spacing=1.801 / 12))
    assert run.in_field
    assert nominal(run.distance) == pytest.approx(69.4, abs=0.05)


@pytest.mark.parametrize(
    ("make", "field"),
    [
        (lambda: rolled(0.0), "rolled"),
        (lambda: rolled(nan), "rolled"),
        (lambda: taped(-1.0, slip=0.0), "taped"),
        (lambda: taped(2.4, slip=1.0), "slip"),
        (lambda: taped(2.4, slip=-0.1), "slip"),
        (lambda: slip_from_turns(counted=0, without_slip=30), "counted"),
        (lambda: slip_from_turns(counted=28, without_slip=0), "without_slip"),
        (lambda: wheel_turns(0, crank_per_wheel=2), "crank_turns"),
        (lambda: wheel_turns(10, crank_per_wheel=0), "crank_per_wheel"),
        (lambda: turned(rolled(2.4), 0.0), "turns"),
        (lambda: driven(-5.0), "distance"),
        (lambda: sown(0.0, one_row(3.0)), "area"),
        (lambda: course(one_row(3.0), rolled(2.4), area=nan), "area"),
        (lambda: seconds_per_turn(rolled(2.4), 0), "speed"),
    ],
)
def test_refuses_and_names_the_field(make, field):
    with pytest.raises(MeasurementError) as refusal:
        make()
    assert refusal.value.field == field
