"""Straight lines through measured points, by least squares."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum, isfinite, sqrt

from ..quantities.errors import MeasurementError
from ..quantities.phrases import say


@dataclass(frozen=True, slots=True)
class FittedLine:
    """A fitted line y = intercept + slope × x.

    ``u_intercept`` and ``u_slope`` are standard uncertainties from the scatter
    of the points about the line, ``correlation`` is that of the two, and
    ``dof`` are the degrees of freedom of all three.
    """

    intercept: float
    slope: float
    u_intercept: float
    u_slope: float
    correlation: float
    residual_sd: float
    dof: int

    def at(self, x: float) -> tuple[float, float]:
        """Value of the line at ``x`` and its standard uncertainty."""
        sloped = self.u_slope * x
        joint = 2 * self.correlation * self.u_intercept * sloped
        variance = self.u_intercept * self.u_intercept + sloped * sloped + joint
        return self.intercept + self.slope * x, sqrt(max(0.0, variance))


def straight_line(x: Sequence[float], *, y: Sequence[float]) -> FittedLine:
    """Fit a straight line, all points of equal weight.

    slope = Σ (x − x̄)(y − ȳ) / Σ (x − x̄)², intercept = ȳ − slope × x̄

    Parameters
    ----------
    x, y : sequence of float, length n ≥ 3
        [any]

    Raises
    ------
    MeasurementError
        For ``x`` with fewer than 3 values or none that differ, ``y`` of another length.

    References
    ----------
    JCGM 100:2008 (GUM), H.3.

    Examples
    --------
    >>> line = straight_line([10.0, 20.0, 30.0], y=[14.1, 23.8, 34.2])
    >>> print(f"{line.intercept:.2f} + {line.slope:.3f} x")
    3.93 + 1.005 x
    """
    _require_points(x, y, 3)
    n = len(x)
    x_mean, y_mean = fsum(x) / n, fsum(y) / n
    dx, dy = [a - x_mean for a in x], [b - y_mean for b in y]
    sxx = _dot(dx, dx)
    if not sxx > 0:
        raise MeasurementError("x", tuple(x), say("enter values that are not all the same"))
    slope = _dot(dx, dy) / sxx
    s = sqrt(_left_over(dx, dy, slope) / (n - 2))
    u_slope = s / sqrt(sxx)
    away = sqrt(sxx / n + x_mean * x_mean)  # root mean square of x
    return FittedLine(
        intercept=y_mean - slope * x_mean,
        slope=slope,
        u_intercept=u_slope * away,
        u_slope=u_slope,
        correlation=-x_mean / away,
        residual_sd=s,
        dof=n - 2,
    )


def through_origin(x: Sequence[float], *, y: Sequence[float]) -> FittedLine:
    """Fit a straight line that passes through the origin, all points of equal weight.

    slope = Σ x y / Σ x²

    Parameters
    ----------
    x, y : sequence of float, length n ≥ 2
        [any]

    Raises
    ------
    MeasurementError
        For ``x`` with fewer than 2 values or all 0, ``y`` of another length.

    References
    ----------
    NIST Statistical Reference Datasets, model of NoInt1.

    Examples
    --------
    >>> print(f"{through_origin([1.0, 2.0], y=[2.0, 4.5]).slope:.1f}")
    2.2
    """
    _require_points(x, y, 2)
    sxx = _dot(x, x)
    if not sxx > 0:
        raise MeasurementError("x", tuple(x), say("enter values that are not all 0"))
    slope = _dot(x, y) / sxx
    s = sqrt(_left_over(x, y, slope) / (len(x) - 1))
    return FittedLine(0.0, slope, 0.0, s / sqrt(sxx), 0.0, s, len(x) - 1)


def _dot(a: Sequence[float], b: Sequence[float]) -> float:
    return fsum(p * q for p, q in zip(a, b, strict=True))


def _left_over(x: Sequence[float], y: Sequence[float], slope: float) -> float:
    """Sum of the squares that the line does not explain."""
    residuals = [b - slope * a for a, b in zip(x, y, strict=True)]
    return _dot(residuals, residuals)


def _require_points(x: Sequence[float], y: Sequence[float], least: int) -> None:
    if len(x) < least or not all(isfinite(a) for a in x):
        raise MeasurementError("x", tuple(x), say("enter at least {n} numbers", n=least))
    if len(y) != len(x) or not all(isfinite(b) for b in y):
        raise MeasurementError(
            "y", tuple(y), say("enter one number for each of the {n} x values", n=len(x))
        )
