"""The metering curve in characters: what lies above what, and at which rate."""

import pytest

from evenstand.engine.calibration.chart import Chart, curve_from_charts, curve_without_chart
from evenstand.engine.calibration.choose import CaughtAt, choose
from evenstand.engine.catch.target import Target
from evenstand.engine.drill.drill import Drill, Gear, Scale
from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import POUND_PER_ACRE
from evenstand.report.terminal.notebook import Sheet
from evenstand.report.terminal.plot import curve_plot

LB = POUND_PER_ACRE
FULL, HALF = Gear(name="full"), Gear(name="half", ratio=0.5)
TARGET = Target(rate=54 * LB)
DRILL = Drill(rows=20, spacing=0.19, scale=Scale(low=0, high=60), gears=(FULL, HALF))
CHART = Chart(points=((20, 36 * LB), (30, 54 * LB), (40, 72 * LB)), gear="full")


def plot(*catches, chart=CHART, width=80, factor=1.0, target=TARGET):
    start = curve_from_charts([chart], DRILL) if chart else curve_without_chart(DRILL, rate=54 * LB)
    choice = choose(start, catches, target, gears=(FULL,), factor=factor)
    drawn = curve_plot(
        Sheet(width),
        choice,
        start=start,
        catches=catches,
        target=target,
        factor=factor,
        style=Style(),
    )
    return [line.plain for line in drawn]


def caught(setting, rate, gear=FULL):
    return CaughtAt(setting=setting, gear=gear, rate=rate * LB, cv=0.01)


def row_of(lines, sign):
    return next(i for i, line in enumerate(lines) if sign in line[8:])


def row_labelled(lines, label):
    return next(i for i, line in enumerate(lines) if line[:6].strip() == label)


def test_the_notch_stands_at_its_rate_inside_the_band():
    lines = plot()
    # The chart gives 54 at 30, the rate wanted.
    assert row_of(lines, "◆") == row_labelled(lines, "54")
    assert "░" in lines[row_labelled(lines, "54")]
    below = next(line for line in lines if "┴" in line)
    assert below[lines[row_of(lines, "◆")].index("◆")] == "┴"


def test_a_catch_in_another_gear_stands_at_what_it_means_in_this():
    """Half gear meters half the seed: 27 lb/ac there are 54 in full."""
    lines = plot(caught(30, 27, gear=HALF))
    assert row_of(lines, "1") == row_labelled(lines, "54")


def test_light_catches_leave_the_chart_above_what_is_expected():
    lines = plot(caught(30, 45), caught(36, 54))
    chart = {line.index("·", 8): i for i, line in enumerate(lines[:14]) if "·" in line[8:]}
    expected = {
        column: i for i, line in enumerate(lines[:14]) for column, c in enumerate(line) if c == "━"
    }
    both = [(chart[column], expected[column]) for column in chart if column in expected]
    assert both
    assert all(above < below for above, below in both)


def test_before_any_catch_the_chart_is_what_is_expected():
    assert not any("·" in line[8:] for line in plot()[:14])


def test_a_field_target_is_drawn_in_field_rates():
    # Nine tenths reach the field: 60 at the stand, 33.3 on the chart, for 54 in the field.
    lines = plot(factor=0.9)
    assert abs(row_of(lines, "◆") - row_labelled(lines, "54")) <= 1
    numbers = next(line for line in lines if line.lstrip()[:2].isdigit() and "┤" not in line)
    assert "33" in numbers


def test_no_chart_no_chart_line():
    lines = plot(caught(30, 45), chart=None)
    assert "· chart" not in lines[-1]
    assert not any("·" in line[8:] for line in lines[:14])


@pytest.mark.parametrize("width", [40, 60, 80])
def test_it_fits_its_paper(width):
    assert max(map(len, plot(caught(30, 45), width=width))) <= width
