"""A stand drawn: its range against what was wished for, and the places it comes of."""

from collections.abc import Sequence

from evenstand.engine.quantities.phrases import Phrase, Style, say
from evenstand.engine.quantities.units import PLANTS
from evenstand.engine.stand.place import Place
from evenstand.engine.statistics.budget import Estimate, nominal

from . import svg
from .axis import Axis
from .charts import WIDE, across, strip, strip_axis

TALL, LEFT, TOP, FOOT = 210, 46, 12, 178


def stand_strip(stand: Estimate, wish: float | None, style: Style) -> str:
    """Draw a stand as a tick with its range as a bar; from the wish on lies what is enough.

    Parameters
    ----------
    stand : Estimate
        [1/m²]
    wish : float or None
        [1/m²]
    """
    size = style.unit(PLANTS).size
    edges = [stand.low, stand.value, stand.high, *([] if wish is None else [wish])]
    axis = strip_axis(edges, size=size, room=0.12, least=0.0)
    return strip(
        stand,
        axis,
        "" if wish is None else _wish(axis, wish / size, style),
        size=size,
        title=style.write(say("Stand against its goal")),
        describe=style.write(_strip_in_words(stand, wish)),
        name="stand",
        style=style,
    )


def _wish(axis: Axis, wish: float, style: Style) -> str:
    x = across(axis, wish)
    label = style.write(say("goal {stand}", stand=style.number(wish)))
    return (
        svg.band(x, 22, width=WIDE - x, height=30)
        + svg.line((x, 16), (x, 60), colour=svg.RUST, width=2, dash="4 3")
        + svg.words(label, min(max(x, 70), WIDE - 70), 12, colour=svg.RUST)
    )


def _strip_in_words(stand: Estimate, wish: float | None) -> Phrase:
    found = say(
        "{value}, range {low} to {high}",
        value=PLANTS(stand.value),
        low=PLANTS(stand.low),
        high=PLANTS(stand.high),
    )
    if wish is None:
        return found
    return say("{range}; goal {stand}", range=found, stand=PLANTS(wish))


def places_chart(
    places: Sequence[Place], stand: Estimate, *, wish: float | None, style: Style
) -> str:
    """Draw each place as a dot over a band, the range of the mean.

    Parameters
    ----------
    stand : Estimate
        [1/m²]
    wish : float or None
        [1/m²]
    """
    size = style.unit(PLANTS).size
    seen = [place.total / nominal(place.area) / size for place in places]
    highs = [*seen, stand.value / size, *([wish / size] if wish else [])]
    high = stand.high / size
    highs += [high] if high <= 3 * max(highs) or not any(seen) else []
    axis = Axis(0.0, 1.08 * max(highs) or 1.0, TALL)
    top, bottom = (_up(axis, v / size) for v in (stand.high, stand.low))
    step = (WIDE - LEFT) / len(seen)
    middle = _up(axis, stand.value / size)
    return svg.drawing(
        WIDE,
        TALL,
        *_frame(axis, style),
        svg.area([(LEFT, top), (WIDE, top), (WIDE, bottom), (LEFT, bottom)], colour=svg.SOFT),
        svg.line((LEFT, middle), (WIDE, middle), width=2.5),
        _wish_across(axis, wish / size) if wish else "",
        *(
            svg.dot(LEFT + step * (i + 0.5), _up(axis, each), radius=5 if len(seen) < 40 else 3)
            for i, each in enumerate(seen)
        ),
        *_numbers(len(seen), step),
        title=style.write(say("Plants in each spot")),
        describe=style.write(_places_in_words(seen, style)),
        name="places",
    )


def _frame(axis: Axis, style: Style) -> list[str]:
    drawn = [svg.line((LEFT, FOOT), (WIDE, FOOT))]
    for tick in axis.ticks(5):
        y = _up(axis, tick)
        drawn.append(svg.line((LEFT - 5, y), (LEFT, y), colour=svg.SOFT))
        drawn.append(svg.words(style.number(tick), LEFT - 9, y + 5, at="end", colour=svg.SOFT))
    return drawn


def _wish_across(axis: Axis, wish: float) -> str:
    y = _up(axis, wish)
    return svg.line((LEFT, y), (WIDE, y), colour=svg.RUST, width=2, dash="4 3")


def _numbers(places: int, step: float) -> list[str]:
    every = 1 if places <= 15 else 5 if places <= 60 else 25
    return [
        svg.words(str(i), LEFT + step * (i - 0.5), TALL - 12, colour=svg.SOFT)
        for i in range(1, places + 1)
        if i % every == 0
    ]


def _places_in_words(seen: Sequence[float], style: Style) -> Phrase:
    size = style.unit(PLANTS).size
    return say(
        "{n} spots, from {low} to {high}",
        n=len(seen),
        low=PLANTS(min(seen) * size),
        high=PLANTS(max(seen) * size),
    )


def _up(axis: Axis, value: float) -> float:
    value = min(max(value, axis.low), axis.high)
    return FOOT - (value - axis.low) / (axis.high - axis.low) * (FOOT - TOP)
