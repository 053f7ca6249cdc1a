"""Moving the lever on the way: by the curve that Set learned, or not at all."""

import re
from math import sqrt

import pytest

import labels
from evenstand.engine.calibration.chart import Chart, curve_from_charts
from evenstand.engine.calibration.choose import CaughtAt, learn
from evenstand.engine.catch.target import Target
from evenstand.engine.drill.drill import Drill, Gear, Scale
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.units import INCH, POUND_PER_ACRE
from evenstand.engine.seeding.lever import lever_factor, move_lever
from evenstand.engine.statistics.budget import Estimate, nominal, standard_uncertainty

GEAR = Gear()
DRILL = Drill(rows=20, spacing=7.5 * INCH, scale=Scale(low=0, high=60), gears=(GEAR,))
TARGET = Target(rate=60 * POUND_PER_ACRE)


def curve():
    """2 lb/ac a notch and no rate at zero, caught at three settings."""
    points = tuple((s, 2 * s * POUND_PER_ACRE) for s in (10.0, 20.0, 30.0, 40.0, 50.0))
    start = curve_from_charts([Chart(points=points)], DRILL)
    catches = [
        CaughtAt(setting=s, gear=GEAR, rate=2 * s * POUND_PER_ACRE, cv=0.01)
        for s in (26.0, 30.0, 34.0)
    ]
    return learn(start, catches)[0]


def told(rate, *, u=0.5, setting=30.0):
    value, u = rate * POUND_PER_ACRE, u * POUND_PER_ACRE
    seen = Estimate(value, value - 1.96 * u, value + 1.96 * u, u)
    return move_lever(curve(), seen, TARGET, setting=setting, gear=GEAR)


def test_a_tenth_too_much_goes_back_by_a_tenth_of_the_curve():
    """66 lb/ac at 30 of a straight scale: 60 at 30 × 60 ÷ 66 = 27.3."""
    found = told(66.0)
    assert found.setting == 27
    assert not found.leave
    assert found.factor == pytest.approx(27 / 30, abs=0.002)
    assert found.rate.value / POUND_PER_ACRE == pytest.approx(59.4, abs=0.2)
    assert found.verdict.word == "on target"
    assert str(found.say).startswith("Move the lever from 30 to 27, go past it, then come up to it")


def test_too_little_goes_the_other_way():
    assert told(54.0).setting == 33


def test_a_rate_that_is_right_leaves_the_lever():
    found = told(60.2)
    assert found.leave
    assert found.setting == 30
    assert re.match(labels.LEAVE_LEVER_ODDS.like(setting=30), str(found.say))


def test_the_curve_s_shape_counts_and_not_its_height():
    """Field 66 where the stand showed 60: the whole curve is 10% up, so 27 it is."""
    assert told(66.0).setting == 27
    assert told(2 * 60.0, u=1.0).setting == 15


def test_doubt_of_the_rate_goes_with_it_to_the_new_notch():
    found = told(66.0, u=2.0)
    own = found.factor_u / found.factor
    assert found.rate.u / found.rate.value == pytest.approx(sqrt((2 / 66) ** 2 + own**2))
    assert own < 0.02


def test_nothing_is_clearly_better_where_nobody_knows():
    found = told(61.5, u=12.0)
    assert found.leave
    assert str(found.say) == labels.LEAVE_LEVER_NO(setting=30)


def test_a_setting_off_the_scale_is_refused():
    with pytest.raises(MeasurementError) as refusal:
        told(60.0, setting=70.0)
    assert refusal.value.field == "setting"


def test_the_factor_of_a_lever_that_was_moved():
    """A straight scale: 33 gives 1.1 times what 30 does."""
    factor = lever_factor(curve(), 30.0, 33.0, gear=GEAR)
    assert nominal(factor) == pytest.approx(1.1, abs=0.003)
    assert 0 < standard_uncertainty(factor) < 0.02
    assert nominal(lever_factor(curve(), 30.0, 30.0, gear=GEAR)) == 1


def test_a_chart_that_is_all_too_high_moves_no_factor():
    """Charts are believed to ± 20% in height; from 30 to 33 that drops out."""
    chart = curve_from_charts([Chart(points=((10.0, 2e-3), (30.0, 6e-3), (50.0, 1e-2)))], DRILL)
    factor = lever_factor(chart, 30.0, 33.0, gear=GEAR)
    assert standard_uncertainty(factor) < 0.03


@pytest.mark.parametrize("new", [70.0, 0.0])
def test_a_factor_needs_settings_at_which_seed_flows(new):
    with pytest.raises(MeasurementError) as refusal:
        lever_factor(
            curve_from_charts([Chart(points=((10.0, 1e-3), (40.0, 9e-3)))], DRILL),
            30.0,
            new,
            gear=GEAR,
        )
    assert refusal.value.field == "setting"
