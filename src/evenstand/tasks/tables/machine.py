"""The tables of drills and charts."""

from collections.abc import Iterator
from operator import attrgetter

from evenstand.book.kinds.machine import Box, Chart, ChartPoint, Drill, Gear, Scale
from evenstand.engine.quantities import units as u
from evenstand.engine.quantities.phrases import say

from ..drill.form import MOST_BOXES, MOST_GEARS
from .columns import ID, NOTES, Fields, nth
from .model import Column, Table, TableLine

_DRILL, _CHART = Fields(Drill), Fields(Chart)
_SCALE = Fields(Scale, attrgetter("body.scale"), line="scale_", sure=False)
_POINT = Fields(ChartPoint, attrgetter("part"))


def _stops(line: TableLine) -> str:
    stops = line.body.scale.stops if line.body.scale else ()
    return "; ".join(f"{stop:.12g}" for stop in stops)


def _gear(i: int) -> Iterator[Column]:
    gear = Fields(Gear, nth("body.gears", i), line=f"gear{i}_", spare=True)

    def plain_ratio(line: TableLine) -> float | None:
        """Return a ratio that was given as a number, not as teeth."""
        found = gear.find(line)
        return None if found is None or found.driver else found.ratio

    ratio = say("gear {n}, ratio", n=i)
    yield gear.column("name", say("gear {n}", n=i))
    yield gear.column("ratio", ratio, value=plain_ratio, measure=u.NUMBER)
    yield gear.column("driver", say("gear {n}, driver teeth", n=i))
    yield gear.column("driven", say("gear {n}, driven teeth", n=i))


def _box(i: int) -> Iterator[Column]:
    return Fields(Box, nth("body.boxes", i), line=f"box{i}_", spare=True).columns(
        name=say("box {n}", n=i),
        seed=say("box {n}, seed", n=i),
        volume=say("box {n}, volume", n=i),
        dead=say("box {n}, dead space", n=i),
        agitator=say("box {n}, agitator", n=i),
        least=say("box {n}, minimum rate", n=i),
        most=say("box {n}, maximum rate", n=i),
        own_depth=say("box {n}, same depth as another box", n=i),
    )


DRILLS = Table(
    name="drills",
    kind="drill",
    label=say("Drills"),
    columns=(
        _DRILL.column("name", also=("drill",)),
        *_DRILL.columns(
            *("rows", "spacing"),
            rolled=say("rolled distance"),
            taped=say("taped circumference"),
            slip=say("slip"),
        ),
        *_DRILL.columns("crank_per_wheel", row_cv=say("row-to-row variation")),
        *_SCALE.columns(
            low=say("scale, low end"),
            high=say("scale, high end"),
            step=say("scale, step"),
        ),
        Column(key="scale_stops", label=say("scale, notches"), value=_stops),
        *_SCALE.columns(
            reversed=say("scale, runs backward"),
            closed=say("scale, closed at"),
            slack=say("scale, approach from"),
        ),
        _SCALE.column("levers"),
        *(column for i in range(1, MOST_GEARS + 1) for column in _gear(i)),
        *(column for i in range(1, MOST_BOXES + 1) for column in _box(i)),
        _DRILL.column("note", also=NOTES),
        ID,
    ),
)
CHARTS = Table(
    name="charts",
    kind="chart",
    label=say("Charts"),
    parts=attrgetter("points"),
    columns=(
        Column(key="chart", label=say("chart"), value=attrgetter("thing.id")),
        *_CHART.columns("drill", "seed", "box", "gear", "spacing", test_weight=say("test weight")),
        _POINT.column("setting", say("setting"), also=("notch",)),
        *_POINT.columns("rate"),
        *_CHART.columns("source"),
    ),
)
