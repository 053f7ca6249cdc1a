"""Where the curve starts: charts scaled to the drill and seed, history, nothing."""

from math import nan

import pytest

from evenstand.engine.calibration.chart import (
    Chart,
    curve_from_charts,
    curve_without_chart,
    scaled_points,
    with_history,
)
from evenstand.engine.calibration.meter import predict
from evenstand.engine.drill.drill import Drill, Gear, Scale
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.units import INCH, POUND_PER_ACRE, POUND_PER_BUSHEL

FULL, HALF = Gear(name="full"), Gear(name="half", ratio=0.5)
POINTS = ((10.0, 10.0), (20.0, 20.0), (30.0, 30.0))


def drill(*, gears=(FULL,), backwards=False, scale=True):
    lever = Scale(low=0, high=100, reversed=backwards) if scale else None
    return Drill(rows=20, spacing=7.5 * INCH, scale=lever, gears=gears)


def expected(curve, setting, gear=FULL):
    return predict(curve.belief, curve.at(setting, gear))


def test_one_known_setting_gives_the_proportional_rule():
    """Drill manuals (NZ, German): 70 gave 175 kg/ha, 125 is wanted: set 50."""
    curve = curve_from_charts([Chart(points=((70, 175.0),))], drill())
    assert expected(curve, 50)[0] == pytest.approx(125, rel=1e-6)


def test_a_straight_chart_is_followed_and_between_its_rows_too():
    curve = curve_from_charts([Chart(points=POINTS)], drill())
    assert expected(curve, 25)[0] == pytest.approx(25, rel=1e-3)


def test_two_settings_are_joined_by_a_line_with_a_zero_of_its_own():
    curve = curve_from_charts([Chart(points=((20, 30.0), (40, 50.0)))], drill())
    assert expected(curve, 30)[0] == pytest.approx(40)
    assert expected(curve, 60)[0] == pytest.approx(70)


def test_a_bent_chart_is_followed():
    bent = tuple((s, 0.5 * s + 0.002 * s * s) for s in range(10, 101, 10))
    curve = curve_from_charts([Chart(points=bent)], drill())
    assert expected(curve, 55)[0] == pytest.approx(0.5 * 55 + 0.002 * 55 * 55, rel=0.01)


def test_a_chart_is_scaled_by_test_weight_spacing_and_gear():
    """Metering is by volume (NDSU AE-1144), over the ground of one row."""
    chart = Chart(
        points=((40, 60 * POUND_PER_ACRE),),
        gear="half",
        spacing=6 * INCH,
        test_weight=60 * POUND_PER_BUSHEL,
    )
    (opening, rate), *_ = scaled_points(
        chart, drill(gears=(FULL, HALF)), test_weight=54 * POUND_PER_BUSHEL
    )
    # 60 × 6/7.5 × 54/60 ÷ 0.5 = 86.4.
    assert rate / POUND_PER_ACRE == pytest.approx(86.4)
    assert opening == pytest.approx(0.4)


def test_a_half_speed_drive_meters_half_at_the_same_setting():
    """Common practice, no source."""
    curve = curve_from_charts([Chart(points=POINTS, gear="full")], drill(gears=(FULL, HALF)))
    full, half = (expected(curve, 20, gear)[0] for gear in (FULL, HALF))
    assert half == pytest.approx(full / 2)


def test_charts_of_two_gears_share_one_curve():
    halved = tuple((s, r / 2) for s, r in POINTS)
    both = [Chart(points=POINTS, gear="full"), Chart(points=halved, gear="half")]
    curve = curve_from_charts(both, drill(gears=(FULL, HALF)))
    assert expected(curve, 25)[0] == pytest.approx(25, rel=1e-3)


def test_a_reversed_scale_mirrors_its_chart():
    mirrored = tuple((100 - s, r) for s, r in POINTS)
    curve = curve_from_charts([Chart(points=mirrored)], drill(backwards=True))
    assert expected(curve, 75)[0] == pytest.approx(25, rel=1e-3)


def test_a_chart_is_believed_to_about_a_fifth():
    """Charts are 10% off or more (Kentucky), 25–50% (Mississippi State)."""
    rate, u = expected(curve_from_charts([Chart(points=POINTS)], drill()), 25)
    assert 0.15 < u / rate < 0.35


def test_nothing_known_is_hardly_believed():
    rate, u = expected(curve_without_chart(drill(), rate=50.0), 50)
    assert rate == pytest.approx(50)
    assert u / rate > 0.7


def test_own_history_moves_and_narrows_the_curve():
    curve = curve_from_charts([Chart(points=POINTS)], drill())
    past = [Chart(points=((20.0, 24.0), (30.0, 36.0)))]
    learned = with_history(curve, past, test_weight=None)
    rate, u = expected(learned, 25)
    assert rate == pytest.approx(30, rel=0.02)
    # Another lot may differ by 6 %; the chart alone would leave some 20 %.
    assert 0.055 < u / rate < 0.075


@pytest.mark.parametrize(
    ("make", "field"),
    [
        (lambda: Chart(points=()), "chart points"),
        (lambda: Chart(points=((10, 0.0),)), "chart points"),
        (lambda: Chart(points=((10, nan),)), "chart points"),
        (lambda: curve_from_charts([Chart(points=((120, 9.0),))], drill()), "chart points"),
        (
            lambda: curve_from_charts([Chart(points=((10, 9.0), (20, 8.0)))], drill()),
            "chart points",
        ),
        (
            lambda: curve_from_charts([Chart(points=((10, 9.0), (10, 9.5)))], drill()),
            "chart points",
        ),
        (lambda: curve_from_charts([Chart(points=((0, 9.0),))], drill()), "chart points"),
        (lambda: curve_from_charts([Chart(points=POINTS)], drill(scale=False)), "drill scale"),
        (
            lambda: scaled_points(Chart(points=POINTS), drill(), test_weight=700.0),
            "chart test_weight",
        ),
        (
            lambda: scaled_points(
                Chart(points=POINTS, test_weight=700.0), drill(), test_weight=None
            ),
            "seed test_weight",
        ),
        (
            lambda: scaled_points(Chart(points=POINTS, spacing=0.0), drill(), test_weight=None),
            "chart spacing",
        ),
        (
            lambda: scaled_points(
                Chart(points=POINTS, gear="low"), drill(gears=(FULL, HALF)), test_weight=None
            ),
            "gear",
        ),
        (lambda: curve_without_chart(drill(), rate=0.0), "target"),
    ],
)
def test_refuses_and_names_the_field(make, field):
    with pytest.raises(MeasurementError) as refusal:
        make()
    assert refusal.value.field == field
