"""The tables of drills and charts. A key is a field of the form that reads it."""

from collections.abc import Callable
from operator import attrgetter
from typing import Any

from evenstand.book.kinds.machine import Gear
from evenstand.engine.quantities import units as u
from evenstand.engine.quantities.phrases import Phrase, say

from ..drill.form import MOST_BOXES, MOST_GEARS
from .columns import ID, NOTE, Get, amount, from_body, nth, spare, text, ticked
from .model import Column, Table, TableLine, yes


def _scale(name: str) -> Get:
    return lambda drill: getattr(drill.scale, name) if drill.scale else None


def _stops(line: TableLine) -> str:
    stops = line.body.scale.stops if line.body.scale else ()
    return "; ".join(f"{stop:.12g}" for stop in stops)


def _plain_ratio(gear: Gear) -> float | None:
    """Return a ratio that was given as a number, not as teeth."""
    return None if gear.driver else gear.ratio


def _gear(i: int) -> tuple[Column, ...]:
    def teeth(name: str) -> Callable[[TableLine], Any]:
        return nth("gears", i, lambda gear: getattr(gear, name) or None)

    return (
        spare(f"gear{i}_name", say("gear {n}", n=i), nth("gears", i, attrgetter("name"))),
        spare(
            f"gear{i}_ratio",
            say("gear {n}, ratio", n=i),
            nth("gears", i, _plain_ratio),
            measure=u.NUMBER,
        ),
        spare(f"gear{i}_driver", say("gear {n}, driver teeth", n=i), teeth("driver")),
        spare(f"gear{i}_driven", say("gear {n}, driven teeth", n=i), teeth("driven")),
    )


def _box(i: int) -> tuple[Column, ...]:
    def of(get: Get) -> Callable[[TableLine], Any]:
        return nth("boxes", i, get)

    return (
        spare(f"box{i}_name", say("box {n}", n=i), of(attrgetter("name"))),
        spare(f"box{i}_seed", say("box {n}, seed", n=i), of(attrgetter("seed"))),
        spare(
            f"box{i}_volume",
            say("box {n}, volume", n=i),
            of(attrgetter("volume")),
            measure=u.VOLUME,
        ),
        spare(
            f"box{i}_dead",
            say("box {n}, dead space", n=i),
            of(lambda box: box.dead or None),
            measure=u.SHARE,
        ),
        spare(
            f"box{i}_agitator",
            say("box {n}, agitator", n=i),
            of(lambda box: yes(box.agitator)),
            sort="yes",
        ),
        spare(
            f"box{i}_least",
            say("box {n}, minimum rate", n=i),
            of(attrgetter("least")),
            measure=u.RATE,
        ),
        spare(
            f"box{i}_most",
            say("box {n}, maximum rate", n=i),
            of(attrgetter("most")),
            measure=u.RATE,
        ),
        spare(
            f"box{i}_shared_depth",
            say("box {n}, same depth as another box", n=i),
            of(lambda box: None if box.own_depth else "yes"),
            sort="yes",
        ),
    )


def _scaled(key: str, label: Phrase, name: str, **more: Any) -> Column:
    return Column(key=key, label=label, value=from_body(_scale(name)), **more)


DRILLS = Table(
    name="drills",
    kind="drill",
    label=say("Drills"),
    columns=(
        text("name", say("name"), needed=True, also=("drill",)),
        text("rows", say("rows"), sort="number", needed=True),
        amount("spacing", say("row spacing"), u.SPACING, needed=True, also=("row spacing",)),
        amount("rolled", say("rolled distance"), u.TRAVEL, also=("rolled",)),
        amount("taped", say("taped circumference"), u.TRAVEL, also=("taped",)),
        amount("slip", say("slip"), u.SHARE),
        amount("crank_per_wheel", say("crank turns per wheel turn"), u.NUMBER),
        amount("row_cv", say("row-to-row variation"), u.SHARE),
        _scaled("scale_low", say("scale, low end"), "low", sort="number"),
        _scaled("scale_high", say("scale, high end"), "high", sort="number"),
        _scaled("scale_step", say("scale, step"), "step", sort="number"),
        Column(key="scale_stops", label=say("scale, notches"), value=_stops),
        Column(
            key="scale_reversed",
            label=say("scale, runs backward"),
            value=ticked(_scale("reversed")),
            sort="yes",
        ),
        _scaled("scale_closed", say("scale, closed at"), "closed", sort="number"),
        _scaled("scale_slack", say("scale, approach from"), "slack"),
        _scaled("scale_levers", say("levers"), "levers", sort="number"),
        *(column for i in range(1, MOST_GEARS + 1) for column in _gear(i)),
        *(column for i in range(1, MOST_BOXES + 1) for column in _box(i)),
        NOTE,
        ID,
    ),
)

CHARTS = Table(
    name="charts",
    kind="chart",
    label=say("Charts"),
    parts=attrgetter("points"),
    columns=(
        Column(key="chart", label=say("chart"), value=lambda line: line.thing.id),
        Column(
            key="drill",
            label=say("drill"),
            value=lambda line: line.names(line.body.drill),
            needed=True,
        ),
        text("seed", say("seed")),
        text("box", say("box")),
        text("gear", say("gear")),
        amount("spacing", say("row spacing"), u.SPACING),
        amount("test_weight", say("test weight"), u.TEST_WEIGHT),
        Column(
            key="setting",
            label=say("setting"),
            value=lambda line: line.part.setting,
            sort="number",
            needed=True,
            also=("notch",),
        ),
        Column(
            key="rate",
            label=say("rate"),
            value=lambda line: line.part.rate,
            measure=u.RATE,
            needed=True,
        ),
        text("source", say("source")),
    ),
)
