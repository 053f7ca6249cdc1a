"""The metering curve as SVG: chart, what is expected now, catches, the notch chosen."""

from collections.abc import Sequence
from dataclasses import dataclass

from evenstand.engine.calibration.chart import Curve
from evenstand.engine.calibration.choose import CaughtAt, Choice
from evenstand.engine.calibration.meter import expected_rate, predict
from evenstand.engine.catch.target import Target
from evenstand.engine.drill.drill import Gear, Scale, number
from evenstand.engine.quantities.phrases import Style, say
from evenstand.engine.quantities.units import CATCHES, RATE
from evenstand.engine.statistics.budget import Estimate

from . import svg
from .axis import Axis

WIDE, TALL = 400, 226
LEFT, RIGHT, TOP, BOTTOM = 48, 390, 10, 190
POINTS = 40  # along a curve
Point = tuple[float, float]


@dataclass(frozen=True)
class Paper:
    """Where settings and rates lie on the drawing; rates in the reader's unit."""

    x: Axis
    y: Axis
    style: Style

    @property
    def size(self) -> float:
        """The reader's unit of rate. [kg/m²]"""
        return self.style.unit(RATE).size

    def at(self, setting: float, rate: float) -> Point:
        """Place of a setting and a rate, kept on the paper."""
        across = (setting - self.x.low) / (self.x.high - self.x.low)
        up = min(1.0, max(0.0, (rate - self.y.low) / (self.y.high - self.y.low)))
        return LEFT + across * (RIGHT - LEFT), BOTTOM - up * (BOTTOM - TOP)

    def holds(self, setting: float, rate: float) -> bool:
        """Whether a setting and a rate lie on the paper."""
        inside = self.x.low <= setting <= self.x.high
        return inside and self.y.low <= rate <= self.y.high

    def frame(self, *, chosen: float | None = None, wanted: float | None = None) -> str:
        """Draw both axes with their numbers; those of the choice come first."""
        parts = [svg.line((LEFT, BOTTOM), (RIGHT, BOTTOM)), svg.line((LEFT, TOP), (LEFT, BOTTOM))]
        near_y = None if wanted is None else self.at(self.x.low, wanted)[1]
        for tick in self.y.ticks(5):
            y = self.at(self.x.low, tick)[1]
            if near_y is None or abs(y - near_y) > 18:
                text = self.style.number(tick, 4)
                parts.append(svg.words(text, LEFT - 6, y + 5, at="end", colour=svg.SOFT))
        near_x = None if chosen is None else self.at(chosen, 0)[0]
        if chosen is not None and near_x is not None:
            parts.append(svg.words(number(chosen), near_x, 210, colour=svg.RUST))
        for tick in self.x.ticks(6):
            x = self.at(tick, 0)[0]
            if near_x is None or abs(x - near_x) > 26:
                parts.append(svg.words(number(tick), x, 210))
        return "".join(parts)

    def wanted(self, target: Target) -> str:
        """Shade the band around the target and name its middle."""
        top, bottom, middle = (
            self.at(self.x.low, rate / self.size)[1]
            for rate in (target.high, target.low, target.rate)
        )
        label = self.style.number(target.rate / self.size)
        return (
            svg.band(LEFT, top, width=RIGHT - LEFT, height=bottom - top)
            + svg.line((LEFT, middle), (RIGHT, middle), colour=svg.RUST, dash="4 3")
            + svg.words(label, LEFT - 6, middle + 5, at="end", colour=svg.RUST)
        )

    def notch(self, setting: float, rate: float) -> str:
        """Mark the notch that was chosen."""
        x, y = self.at(setting, rate)
        foot = svg.line((x, BOTTOM), (x, y), colour=svg.RUST, width=2.5)
        return foot + svg.dot(x, y, colour=svg.RUST, full=True, radius=7)


def curve_chart(
    choice: Choice,
    *,
    start: Curve,
    catches: Sequence[CaughtAt],
    target: Target,
    factor: float,
    style: Style,
) -> str:
    """Draw the rate over the lever's settings, in the gear that was chosen.

    Parameters
    ----------
    start : Curve
        The chart, before any catch.
    catches : sequence of CaughtAt
        Static rates; those of another gear are drawn at what they mean in this.
    factor : float
        Wanted kind of rate ÷ static rate. [-]
    """
    gear, size = choice.best.gear, style.unit(RATE).size
    x = _settings(choice, catches)
    along = [x.low + (x.high - x.low) * i / POINTS for i in range(POINTS + 1)]
    now = [_expected(choice.curve, s, gear=gear, factor=factor) for s in along]
    rates = [c.rate * factor * gear.ratio / c.gear.ratio / size for c in catches]
    tall = [target.low / size, target.high / size, *rates, *(e.value / size for e in now)]
    paper = Paper(x, _rates(tall), style)
    best = choice.best.rate.value / size
    parts = [paper.wanted(target), *_expected_range(paper, along, now)]
    if start.trusted:
        parts.append(_chart_line(paper, start, along, gear=gear, factor=factor))
    parts += [svg.dot(*paper.at(c.setting, rate)) for c, rate in zip(catches, rates, strict=True)]
    parts += [paper.notch(choice.best.setting, best)]
    parts += [paper.frame(chosen=choice.best.setting, wanted=target.rate / size)]
    describe = say(
        "Setting {setting} drops {rate}; {catches} so far",
        setting=number(choice.best.setting),
        rate=RATE(choice.best.rate.value),
        catches=CATCHES(len(catches)),
    )
    return svg.drawing(
        WIDE,
        TALL,
        *parts,
        title=style.write(say("Rate by setting")),
        describe=style.write(describe),
        name="curve",
    )


def points_chart(
    points: Sequence[tuple[float, float]], *, scale: Scale | None, style: Style, name: str
) -> str:
    """Draw a printed chart: its settings and rates, joined.

    Parameters
    ----------
    points : sequence of (setting, rate), at least one
        Rates as printed. [kg/m²]
    scale : Scale, optional
        Of the drill; the drawing shows it whole.
    name : str
        Told apart from other drawings of a page by it.
    """
    size = style.unit(RATE).size
    settings = [s for s, _ in points] + ([scale.low, scale.high] if scale else [])
    pad = 0.0 if scale else 0.1 * (max(settings) - min(settings)) or 1.0
    x = Axis(min(settings) - pad, max(settings) + pad, RIGHT - LEFT)
    paper = Paper(x, _rates([0.0, *(rate / size for _, rate in points)]), style)
    places = [paper.at(s, rate / size) for s, rate in sorted(points)]
    describe = say(
        "{n} points, from {low} at {from_} to {high} at {to}",
        n=len(points),
        low=RATE(min(points)[1]),
        from_=number(min(points)[0]),
        high=RATE(max(points)[1]),
        to=number(max(points)[0]),
    )
    return svg.drawing(
        WIDE,
        TALL,
        svg.path(places, colour=svg.SOFT, width=1.5, dash="2 4"),
        *(svg.dot(*place) for place in places),
        paper.frame(),
        title=style.write(say("The chart: {unit} by setting", unit=style.unit(RATE).symbol)),
        describe=style.write(describe),
        name=name,
    )


def _expected(curve: Curve, setting: float, *, gear: Gear, factor: float) -> Estimate:
    return expected_rate(curve.belief, curve.at(setting, gear), factor=factor)


def _expected_range(
    paper: Paper, along: Sequence[float], now: Sequence[Estimate]
) -> tuple[str, str]:
    """Shade the range and draw the line of what is expected."""
    seen = list(zip(along, now, strict=True))
    below = [paper.at(s, e.low / paper.size) for s, e in seen]
    above = [paper.at(s, e.high / paper.size) for s, e in reversed(seen)]
    middle = [paper.at(s, e.value / paper.size) for s, e in seen]
    return svg.area(below + above), svg.path(middle)


def _chart_line(
    paper: Paper, start: Curve, along: Sequence[float], *, gear: Gear, factor: float
) -> str:
    said = [(s, predict(start.belief, start.at(s, gear))[0] * factor / paper.size) for s in along]
    inside = [paper.at(s, rate) for s, rate in said if paper.holds(s, rate)]
    return svg.path(inside, colour=svg.SOFT, width=1.5, dash="2 4") if inside else ""


def _settings(choice: Choice, catches: Sequence[CaughtAt]) -> Axis:
    """Show the settings that matter, with some of the scale on both sides."""
    scale, gear = choice.curve.scale, choice.best.gear
    shown = [choice.best.setting, *(c.setting for c in catches)]
    shown += [c.setting for c in choice.candidates if c.gear == gear]
    pad = 0.15 * (max(shown) - min(shown)) or 1.0
    return Axis(max(scale.low, min(shown) - pad), min(scale.high, max(shown) + pad), 320)


def _rates(tall: Sequence[float]) -> Axis:
    room = 0.1 * (max(tall) - min(tall)) or 1.0
    return Axis(max(0.0, min(tall) - room), max(tall) + room, 180)
