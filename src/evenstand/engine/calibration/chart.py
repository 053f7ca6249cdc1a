"""Where the metering curve starts: a chart, own history, or nothing at all."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import fsum

from ..drill.drill import Drill, Gear, Scale
from ..quantities.errors import MeasurementError, Path, require_positive
from ..quantities.phrases import say
from ..statistics.budget import nominal
from ..statistics.line import through_origin
from ..statistics.vectors import Matrix, Vector
from .meter import Belief, features, update

SCATTER, SCATTER_DOF = 0.02, 12.0
GEAR_ERROR = 0.015  # ratio in work against the ratio counted from the teeth
LOT_ERROR = 0.06  # one lot or year against another on the same drill, test weight allowed for


@dataclass(frozen=True, slots=True, kw_only=True)
class Trust:
    """How far a starting curve is believed: relative standard deviations.

    Parameters
    ----------
    factor : float
        All rates together too high or too low.
    shift : float
        Zero of the scale, as a share of the whole scale.
    bend : float
        Curvature, as a share of the rise over the scale.

    References
    ----------
    Charts off by 10% or more, and by 25–50% (university extension pages on
    drill calibration); the values between are our judgement.
    """

    factor: float
    shift: float
    bend: float


CHART = Trust(factor=0.20, shift=0.05, bend=0.06)
NOTHING = Trust(factor=0.80, shift=0.15, bend=0.10)


@dataclass(frozen=True, slots=True, kw_only=True)
class Chart:
    """Setting and rate as the manual prints them, or as caught before.

    Parameters
    ----------
    points : tuple of (setting, rate)
        Rates as printed, at the chart's own spacing, gear and test weight. [kg/m²]
    spacing : float, optional
        Row spacing the chart was made for; None: the drill's. [m]
    test_weight : float, optional
        Of the chart's seed; None: not printed. [kg/m³]

    Raises
    ------
    MeasurementError
        For no points or a rate that is not above zero.
    """

    points: tuple[tuple[float, float], ...]
    gear: str | None = None
    spacing: float | None = None
    test_weight: float | None = None

    def __post_init__(self) -> None:
        if not self.points:
            raise MeasurementError(
                Path("chart", "points"), (), say("enter at least one setting and its rate")
            )
        for _, rate in self.points:
            require_positive(Path("chart", "points"), rate, "kg/m²")


@dataclass(frozen=True, slots=True, kw_only=True)
class Curve:
    """A belief about a drill's meter, with the drill it belongs to.

    ``start`` is the curve before any gear effect: it scales those effects.
    """

    drill: Drill
    belief: Belief
    start: Vector
    trusted: bool

    @property
    def scale(self) -> Scale:
        """The drill's scale, without which there is no curve."""
        return _scale(self.drill)

    def at(self, setting: float, gear: Gear) -> Vector:
        """Features of a setting in a gear."""
        opening = self.scale.opening(setting)
        plain = features(opening, ratio=gear.ratio)
        if len(self.drill.gears) == 1:
            return plain
        expected = fsum(x * m for x, m in zip(plain, self.start, strict=True))
        effects = [expected if g == gear else 0.0 for g in self.drill.gears]
        return features(opening, ratio=gear.ratio, gear_effect=effects)

    def believing(self, belief: Belief) -> "Curve":
        """Return the same curve with another belief."""
        return Curve(drill=self.drill, belief=belief, start=self.start, trusted=self.trusted)


def scaled_points(
    chart: Chart, drill: Drill, *, test_weight: float | None
) -> list[tuple[float, float]]:
    """Chart points as opening and rate in gear ratio 1, for this drill and seed.

    rate × (chart spacing ÷ spacing) × (test weight ÷ chart's) × sown share ÷ gear ratio

    A chart is for all rows; where some between sown rows are shut off the
    ground gets that much less.

    Raises
    ------
    MeasurementError
        For a setting off the scale, rates that do not rise as the meter
        opens, or a test weight known for only one of chart and seed.

    References
    ----------
    Metering is by volume: NDSU AE-1144 (Hofman 1998).
    """
    if (chart.test_weight is None) != (test_weight is None):
        of = "seed" if test_weight is None else "chart"
        need = say("enter both test weights, the chart seed's and this seed's, or neither")
        raise MeasurementError(Path(of, "test_weight"), None, need)
    ratio = drill.gear(chart.gear).ratio
    factor = drill.sown_share / ratio
    if chart.spacing is not None:
        require_positive(Path("chart", "spacing"), chart.spacing, "m")
        factor *= chart.spacing / nominal(drill.spacing)
    if chart.test_weight is not None and test_weight is not None:
        require_positive(Path("chart", "test_weight"), chart.test_weight, "kg/m³")
        require_positive(Path("seed", "test_weight"), test_weight, "kg/m³")
        factor *= test_weight / chart.test_weight
    scale = _scale(drill)
    for setting, _ in chart.points:
        scale.check(setting, field=Path("chart", "points"))
    points = sorted((scale.opening(setting), rate * factor) for setting, rate in chart.points)
    if any(o2 <= o1 or r2 <= r1 for (o1, r1), (o2, r2) in pairwise(points)):
        need = say("enter rates that go up as the meter opens; does the scale read backward?")
        raise MeasurementError(Path("chart", "points"), [p[1] for p in chart.points], need)
    return points


def curve_from_charts(
    charts: Sequence[Chart],
    drill: Drill,
    *,
    test_weight: float | None = None,
    trust: Trust = CHART,
) -> Curve:
    """Start from charts; those of several gears share one curve.

    Parameters
    ----------
    charts : sequence of Chart, at least one
    test_weight : float, optional
        Of this lot. [kg/m³]

    Notes
    -----
    P = τ_f²·θ₀θ₀ᵀ + (τ_s·b₀)² on the zero + (τ_c·b₀)² on the bend.
    """
    points = [p for chart in charts for p in scaled_points(chart, drill, test_weight=test_weight)]
    return _curve(drill, _through(points), trust=trust, trusted=True)


def curve_without_chart(drill: Drill, *, rate: float) -> Curve:
    """Start from nothing: the wanted rate somewhere near half open.

    Parameters
    ----------
    rate : float
        Wanted static rate. [kg/m²]
    """
    require_positive("target", rate, "kg/m²")
    ratio = max(gear.ratio for gear in drill.gears)
    return _curve(drill, (0.0, 2 * rate / ratio, 0.0), trust=NOTHING, trusted=False)


def with_history(curve: Curve, history: Sequence[Chart], *, test_weight: float | None) -> Curve:
    """Let a drill's own earlier catches speak, as far as another lot may.

    Each earlier rate counts as a catch; then a factor common to this lot is
    let loose by 6%.

    Parameters
    ----------
    history : sequence of Chart
        Earlier settings and static rates, with their gear and test weight.
    test_weight : float, optional
        Of this lot. [kg/m³]
    """
    belief, drill = curve.belief, curve.drill
    for past in history:
        points = scaled_points(past, drill, test_weight=test_weight)
        for opening, rate in points:
            plain = features(opening, ratio=1.0)
            x = plain + (0.0,) * (len(belief.mean) - len(plain))
            belief = update(belief, x, rate=rate, weight=rate * rate)
    loose = LOT_ERROR * LOT_ERROR / (belief.scatter * belief.scatter)
    spread = tuple(
        tuple(v + loose * a * b for v, b in zip(row, belief.mean, strict=True))
        for row, a in zip(belief.spread, belief.mean, strict=True)
    )
    known = Belief(belief.mean, spread, belief.scatter, belief.dof)
    return Curve(drill=drill, belief=known, start=belief.mean[:3], trusted=True)


def _through(points: Sequence[tuple[float, float]]) -> Vector:
    """Least-squares curve through points: a bend needs four, a zero of its own two."""
    openings, rates = [o for o, _ in points], [rate for _, rate in points]
    if len(set(openings)) == 1:
        require_positive(Path("chart", "points"), openings[0])
        return (0.0, fsum(rates) / fsum(openings), 0.0)
    middle, mean = fsum(openings) / len(points), fsum(rates) / len(points)
    off, above = [opening - middle for opening in openings], [rate - mean for rate in rates]
    slope = through_origin(off, y=above).slope
    straight = (mean - slope * middle, slope, 0.0)
    return straight if len(points) < 4 else _bent(points, straight)


def _bent(points: Sequence[tuple[float, float]], straight: Vector) -> Vector:
    """Let a line through four points or more bend as far as they show it."""
    square = max(rate for _, rate in points) * max(rate for _, rate in points)
    loose: Matrix = ((square, 0.0, 0.0), (0.0, 4 * square, 0.0), (0.0, 0.0, 0.09 * square))
    belief = Belief(straight, loose, 1.0, SCATTER_DOF)
    for opening, rate in points:
        x = features(opening, ratio=1.0)
        belief = update(belief, x, rate=rate, weight=1e-4 * square)
    return belief.mean


def _curve(drill: Drill, start: Vector, *, trust: Trust, trusted: bool) -> Curve:
    slope = start[1]
    gears = len(drill.gears) if len(drill.gears) > 1 else 0
    spread = [[trust.factor * trust.factor * a * b for b in start] for a in start]
    spread[0][0] += trust.shift * slope * trust.shift * slope
    spread[2][2] += trust.bend * slope * trust.bend * slope
    for row in spread:
        row.extend([0.0] * gears)
    for i in range(gears):
        spread.append([GEAR_ERROR * GEAR_ERROR if j == 3 + i else 0.0 for j in range(3 + gears)])
    belief = Belief(
        (*start, *(0.0,) * gears),
        tuple(tuple(v / (SCATTER * SCATTER) for v in row) for row in spread),
        SCATTER,
        SCATTER_DOF,
    )
    return Curve(drill=drill, belief=belief, start=start, trusted=trusted)


def _scale(drill: Drill) -> Scale:
    if drill.scale is None:
        raise MeasurementError(
            Path("drill", "scale"), None, say("enter the low and high end of the scale")
        )
    return drill.scale
