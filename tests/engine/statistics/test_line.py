"""Straight lines against the GUM, NIST's certified values and exact fractions."""

import math
from fractions import Fraction
from functools import partial

import pytest
from hypothesis import given
from hypothesis import strategies as st

from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.statistics.line import straight_line, through_origin

NINE_DIGITS = partial(pytest.approx, rel=1e-9)
points = st.lists(
    st.tuples(st.integers(-50, 50), st.integers(-50, 50)), min_size=4, max_size=9
).filter(lambda pairs: len({x for x, _ in pairs}) > 1)


def test_thermometer_of_the_gum(published):
    """GUM H.3: half a digit of what is printed there."""
    rows = published("gum_h3.csv")
    line = straight_line([row["t"] - 20 for row in rows], y=[row["b"] for row in rows])
    assert line.intercept == pytest.approx(-0.1712, abs=5e-5)
    assert line.u_intercept == pytest.approx(0.0029, abs=5e-5)
    assert line.slope == pytest.approx(0.00218, abs=5e-6)
    assert line.u_slope == pytest.approx(0.00067, abs=5e-6)
    assert line.correlation == pytest.approx(-0.930, abs=5e-4)
    assert line.residual_sd == pytest.approx(0.0035, abs=5e-5)
    assert line.at(10) == (pytest.approx(-0.1494, abs=5e-5), pytest.approx(0.0041, abs=5e-5))
    assert line.dof == 9


def test_certified_ozone_monitors(nist):
    """NIST StRD Norris, to nine of its fifteen certified digits."""
    y, x = zip(*nist("Norris.dat", 61, 96), strict=True)
    line = straight_line(x, y=y)
    assert line.intercept == NINE_DIGITS(-0.262323073774029)
    assert line.u_intercept == NINE_DIGITS(0.232818234301152)
    assert line.slope == NINE_DIGITS(1.00211681802045)
    assert line.u_slope == NINE_DIGITS(0.429796848199937e-3)
    assert line.residual_sd == NINE_DIGITS(0.884796396144373)
    assert line.dof == 34


def test_certified_line_through_the_origin(nist):
    """NIST StRD NoInt1, to nine of its fifteen certified digits."""
    y, x = zip(*nist("NoInt1.dat", 61, 71), strict=True)
    line = through_origin(x, y=y)
    assert line.slope == NINE_DIGITS(2.07438016528926)
    assert line.u_slope == NINE_DIGITS(0.0165289256198347)
    assert line.residual_sd == NINE_DIGITS(3.56753034006338)
    assert (line.slope / line.u_slope) ** 2 == NINE_DIGITS(15750.25)
    assert (line.intercept, line.u_intercept, line.correlation, line.dof) == (0, 0, 0, 10)
    assert line.at(100) == (NINE_DIGITS(207.438016528926), NINE_DIGITS(1.65289256198347))


def test_line_by_hand():
    """x 1, 2, 3, y 1, 3, 4: slope 3/2, intercept 8/3 − 3 = −1/3, residuals −1/6, 1/3, −1/6.

    s² = 1/6 over 1; u(slope)² = s²/2; u(intercept)² = s² (1/3 + 4/2); the mean is known best.
    """
    line = straight_line([1, 2, 3], y=[1, 3, 4])
    assert (line.slope, line.intercept) == (1.5, pytest.approx(-1 / 3))
    assert line.residual_sd == pytest.approx(math.sqrt(1 / 6))
    assert line.u_slope == pytest.approx(math.sqrt(1 / 12))
    assert line.u_intercept == pytest.approx(math.sqrt(7 / 18))
    assert line.at(2) == (pytest.approx(8 / 3), pytest.approx(math.sqrt(1 / 18)))


@pytest.mark.parametrize("fit", [straight_line, through_origin])
def test_unit_of_x_only_scales_the_slope(fit):
    slope = fit([1, 2, 4], y=[1, 3, 4]).slope
    assert fit([1e-6, 2e-6, 4e-6], y=[1, 3, 4]).slope == pytest.approx(1e6 * slope)


@given(points)
def test_line_in_exact_fractions(pairs):
    """The normal equations, solved in fractions."""
    n = len(pairs)
    sx, sy = sum(x for x, _ in pairs), sum(y for _, y in pairs)
    sxx, sxy = sum(x * x for x, _ in pairs), sum(x * y for x, y in pairs)
    slope = Fraction(n * sxy - sx * sy, n * sxx - sx * sx)
    line = straight_line([x for x, _ in pairs], y=[y for _, y in pairs])
    assert line.slope == pytest.approx(float(slope), rel=1e-11, abs=1e-12)
    assert line.intercept == pytest.approx(float((sy - slope * sx) / n), rel=1e-11, abs=1e-11)


@given(points, st.integers(-1000, 1000))
def test_moving_the_points_moves_the_line(pairs, shift):
    here = straight_line([x for x, _ in pairs], y=[y for _, y in pairs])
    there = straight_line([x + shift for x, _ in pairs], y=[y for _, y in pairs])
    assert there.slope == pytest.approx(here.slope, abs=1e-10)
    (value, u), (moved, moved_u) = here.at(3), there.at(3 + shift)
    assert moved == pytest.approx(value, abs=1e-8)
    assert moved_u == pytest.approx(u, rel=1e-5, abs=1e-4)


@pytest.mark.parametrize(
    ("call", "field"),
    [
        (partial(straight_line, [1, 2], y=[1, 2]), "x"),
        (partial(straight_line, [2, 2, 2], y=[1, 2, 3]), "x"),
        (partial(straight_line, [1, 2, math.nan], y=[1, 2, 3]), "x"),
        (partial(straight_line, [1, 2, 3], y=[1, 2]), "y"),
        (partial(straight_line, [1, 2, 3], y=[1, 2, math.inf]), "y"),
        (partial(through_origin, [1], y=[1]), "x"),
        (partial(through_origin, [0, 0], y=[1, 2]), "x"),
        (partial(through_origin, [1, 2], y=[1]), "y"),
    ],
)
def test_what_cannot_be_fitted_is_refused_by_name(call, field):
    with pytest.raises(MeasurementError) as refused:
        call()
    assert refused.value.field == field
