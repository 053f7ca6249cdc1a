"""Charts as SVG: a result on its strip, and the rows side by side."""

from collections.abc import Sequence
from math import inf, isfinite

from evenstand.engine.catch.target import Target
from evenstand.engine.quantities.phrases import Phrase, Style, say
from evenstand.engine.quantities.units import PERCENT, RATE, SHARE
from evenstand.engine.rows.evenness import Evenness
from evenstand.engine.statistics.budget import Estimate

from . import svg
from .axis import Axis

WIDE = 400
ROWS_TALL, MIDDLE, REACH = 200, 90, 75  # of the drawing of the rows
ROWS_LEFT = 86


def result_strip(
    rate: Estimate, target: Target | None, style: Style, *, name: str = "strip"
) -> str:
    """Draw a rate as a tick with its range as a bar, over the band that is wanted.

    Parameters
    ----------
    rate : Estimate
        Of the kind that the target is on. [kg/m²]
    name : str
        Told apart from other drawings of a page by it.
    """
    size = style.unit(RATE).size
    edges = [target.low, target.high] if target else []
    axis = strip_axis([rate.low, rate.high, rate.value, *edges], size=size, room=0.08)
    return strip(
        rate,
        axis,
        _wanted_on_strip(axis, target, style) if target else "",
        size=size,
        title=style.write(say("Rate against its target")),
        describe=style.write(_strip_in_words(rate, target)),
        name=name,
        style=style,
    )


def strip_axis(edges: Sequence[float], *, size: float, room: float, least: float = -inf) -> Axis:
    """Return the axis of a strip: over its edges, in units of some size, with room beside them."""
    # A range without an end leaves the paper.
    inside = [edge / size for edge in edges if isfinite(edge)]
    pad = room * (max(inside) - min(inside)) or 1.0
    return Axis(max(least, min(inside) - pad), max(inside) + pad, WIDE)


def strip(
    found: Estimate, axis: Axis, wanted: str, *, size: float, style: Style, **words: str
) -> str:
    """Draw a value as a tick with its range as a bar, over what is wanted, drawn already."""
    low, high, value = (across(axis, v / size) for v in (found.low, found.high, found.value))
    return svg.drawing(
        WIDE,
        92,
        wanted,
        svg.line((low, 37), (high, 37), width=9, colour=svg.SOFT),
        svg.line((value, 20), (value, 54), width=5),
        svg.line((0, 68), (WIDE, 68)),
        *(svg.words(style.number(t, 4), _inside(across(axis, t)), 86) for t in axis.ticks(5)),
        **words,
    )


def _strip_in_words(rate: Estimate, target: Target | None) -> Phrase:
    found = say(
        "{value}, range {low} to {high}",
        value=RATE(rate.value),
        low=RATE(rate.low),
        high=RATE(rate.high),
    )
    if target is None:
        return say("{range}; {wanted}", range=found, wanted=say("no target"))
    wanted = say("target {low} to {high}", low=RATE(target.low), high=RATE(target.high))
    return say("{range}; {wanted}", range=found, wanted=wanted)


def _wanted_on_strip(axis: Axis, target: Target, style: Style) -> str:
    size = style.unit(RATE).size
    low, high, middle = (across(axis, v / size) for v in (target.low, target.high, target.rate))
    label = style.write(say("target {rate}", rate=style.number(target.rate / size)))
    return (
        svg.band(low, 22, width=high - low, height=30)
        + svg.line((middle, 16), (middle, 60), colour=svg.RUST, width=2, dash="4 3")
        + svg.words(label, min(max(middle, 60), WIDE - 60), 12, colour=svg.RUST)
    )


def row_chart(found: Evenness, style: Style) -> str:
    """Draw each row as a stem from the mean; odd rows are crossed and named."""
    odd = {row.row for row in found.odd_rows}
    top = max([0.05, *(abs(row.off) for row in found.rows)])
    step = (WIDE - ROWS_LEFT) / len(found.rows)
    every = 1 if len(found.rows) <= 12 else 2 if len(found.rows) <= 24 else 5
    parts = [_row_frame(top, style)]
    for i, row in enumerate(found.rows):
        place = ROWS_LEFT + step * (i + 0.5), MIDDLE - REACH * row.off / top
        named = str(row.row) if row.row in odd or i % every == 0 else ""
        parts.append(_row_mark(*place, odd=row.row in odd, named=named))
    return svg.drawing(
        WIDE,
        ROWS_TALL,
        *parts,
        title=style.write(say("Rows compared with their average")),
        describe=style.write(_rows_in_words(found)),
        name="rows",
    )


def _row_frame(top: float, style: Style) -> str:
    parts = [
        svg.line((ROWS_LEFT - 6, MIDDLE), (WIDE, MIDDLE)),
        svg.words(
            style.write(say("average")), ROWS_LEFT - 12, MIDDLE + 5, at="end", colour=svg.SOFT
        ),
    ]
    for share in (-top, top):
        label, y = style.write(SHARE(share, 2)), MIDDLE + 5 - REACH * share / top
        parts.append(svg.words(label, ROWS_LEFT - 12, y, at="end", colour=svg.SOFT))
    return "".join(parts)


def _row_mark(x: float, y: float, *, odd: bool, named: str) -> str:
    colour = svg.RUST if odd else svg.INK
    mark = svg.line((x, MIDDLE), (x, y), colour=colour, width=2.5)
    if odd:
        mark += svg.line((x - 5, y - 5), (x + 5, y + 5), colour=colour, width=2.5)
        mark += svg.line((x - 5, y + 5), (x + 5, y - 5), colour=colour, width=2.5)
    else:
        mark += svg.dot(x, y, radius=3.5, full=True)
    return mark + (svg.words(named, x, 192, colour=colour) if named else "")


def _rows_in_words(found: Evenness) -> Phrase:
    worst = max(found.rows, key=lambda row: abs(row.off))
    return say(
        "{n} rows; the farthest from average is row {row} at {off}%",
        n=len(found.rows),
        row=worst.row,
        off=f"{worst.off / PERCENT:+.0f}",
    )


def across(axis: Axis, value: float) -> float:
    """Return where a value lies on a strip; what is beyond its ends lies on them."""
    value = min(max(value, axis.low), axis.high)
    return (value - axis.low) / (axis.high - axis.low) * WIDE


def _inside(x: float) -> float:
    """Keep a label on the paper."""
    return min(WIDE - 16.0, max(16.0, x))
