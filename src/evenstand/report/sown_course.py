"""What went down along the acres as SVG: rate with its range, band, stretches, loads, changes."""

from collections.abc import Iterator

from evenstand.engine.catch.target import Target
from evenstand.engine.drill.drill import number
from evenstand.engine.quantities.phrases import Phrase, Style, say
from evenstand.engine.quantities.units import FIELD, RATE
from evenstand.engine.seeding.balance import Balance
from evenstand.engine.seeding.change_point import Turning
from evenstand.engine.seeding.events import Change, Fill, Load
from evenstand.engine.statistics.budget import nominal

from . import svg
from .axis import Axis
from .curve import BOTTOM, LEFT, RIGHT, TALL, TOP, WIDE, Paper

MOST_OFF = 0.35  # of the target: what lies farther off is drawn at the edge
ROOM = 0.1


def course_chart(
    balance: Balance,
    target: Target,
    style: Style,
    *,
    ground: float = 0.0,
    turning: Turning | None = None,
    name: str = "course",
) -> str:
    """Draw the rate of a box from the first acre on.

    Parameters
    ----------
    ground : float
        Of the whole field; the drawing ends there, or where the box is. [m²]
    turning : Turning, optional
        A change that was found.
    name : str
        Told apart from other drawings of a page by it.
    """
    acre = style.unit(FIELD).size
    whole = max(ground, nominal(balance.ground), acre / 10) / acre
    paper = Paper(Axis(0.0, whole, RIGHT - LEFT), _rates(balance, target, style), style)
    parts = [
        paper.wanted(target),
        _range(paper, balance, acre),
        _found(paper, turning, acre) if turning else "",
        *_stretches(paper, balance, acre),
        *_events(paper, balance, acre),
        paper.frame(wanted=target.rate / paper.size),
    ]
    return svg.drawing(
        WIDE,
        TALL,
        *parts,
        title=style.write(say("Rate across the field")),
        describe=style.write(_in_words(balance, turning)),
        name=name,
    )


def _rates(balance: Balance, target: Target, style: Style) -> Axis:
    size, edge = style.unit(RATE).size, MOST_OFF * target.rate
    seen = [balance.rate.low, balance.rate.high, target.low, target.high]
    seen += [stretch.rate.value for stretch in balance.stretches]
    inside = [min(max(rate, target.rate - edge), target.rate + edge) for rate in seen]
    room = ROOM * (max(inside) - min(inside)) or 1.0
    return Axis(max(0.0, (min(inside) - room) / size), (max(inside) + room) / size, BOTTOM - TOP)


def _range(paper: Paper, balance: Balance, acre: float) -> str:
    """Shade the range and draw the line; up to the first reading it is what that has told."""
    read = [point for point in balance.points if point.z is not None and point.ground > 0]
    if not read:
        return ""
    first = read[0]
    later = [point for point in balance.points if point.ground >= first.ground]
    seen = [(0.0, first.rate), *((point.ground / acre, point.rate) for point in later)]
    below = [paper.at(x, rate.low / paper.size) for x, rate in seen]
    above = [paper.at(x, rate.high / paper.size) for x, rate in seen]
    middle = [paper.at(x, rate.value / paper.size) for x, rate in seen]
    return svg.area(below + above[::-1]) + svg.path(middle)


def _stretches(paper: Paper, balance: Balance, acre: float) -> Iterator[str]:
    """Draw what each stretch got by itself."""
    for stretch in balance.stretches:
        rate = stretch.rate.value / paper.size
        ends = [paper.at(x / acre, rate) for x in (stretch.start, stretch.end)]
        yield svg.path(ends, colour=svg.SOFT, width=2, dash="6 3")


def _events(paper: Paper, balance: Balance, acre: float) -> Iterator[str]:
    """Mark loads at the foot, and where the lever was moved."""
    for event, point in zip(balance.events, balance.points, strict=True):
        x = paper.at(point.ground / acre, paper.y.low)[0]
        if isinstance(event, Load | Fill):
            yield svg.dot(x, BOTTOM, full=True, radius=4)
        if isinstance(event, Change):
            yield svg.line((x, TOP), (x, BOTTOM), colour=svg.RUST, dash="3 3")
            label = number(event.setting)
            yield svg.words(label, min(x + 4, RIGHT), TOP + 12, at="start", colour=svg.RUST)


def _found(paper: Paper, turning: Turning, acre: float) -> str:
    """Shade where a change lies."""
    low, middle, high = (
        paper.at(max(0.0, place) / acre, paper.y.low)[0]
        for place in (turning.place.low, turning.place.value, turning.place.high)
    )
    corners = [(low, TOP), (high, TOP), (high, BOTTOM), (low, BOTTOM)]
    shade = svg.area(corners, colour=svg.RUST)
    return shade + svg.line((middle, TOP), (middle, BOTTOM), colour=svg.RUST, width=2.5)


def _in_words(balance: Balance, turning: Turning | None) -> Phrase:
    loads = sum(isinstance(event, Load | Fill) for event in balance.events)
    seen = say(
        "{rate}, range {low} to {high}, after {ground}; {n} loads",
        rate=RATE(balance.rate.value),
        low=RATE(balance.rate.low),
        high=RATE(balance.rate.high),
        ground=FIELD(nominal(balance.ground)),
        n=loads,
    )
    if turning is None:
        return seen
    place = FIELD(turning.place.value)
    return say("{seen}; changed at {place}", seen=seen, place=place)
