"""What was written down while a job was sown, as its job file would have it."""

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from math import sqrt
from typing import Any

from evenstand.book.book import Book
from evenstand.book.kinds import machine, sown, work
from evenstand.book.kinds.shape import Body, Typed
from evenstand.engine.quantities.units import (
    FIELD,
    LENGTH,
    LOAD,
    NUMBER,
    RATE,
    SHARE,
    SPACING,
    TEST_WEIGHT,
    VOLUME,
    Kind,
)
from evenstand.engine.seeding.field_area import SownGround
from evenstand.engine.statistics.budget import Estimate, nominal

from ..boxes.kept import body_of
from ..calibration.stand_rate import stand_rate
from ..job.kept import Kept, chosen_of
from ..parsing.written import as_written
from .on_the_way import OnTheWay

AMOUNTS: Mapping[str, Kind] = {
    "at": FIELD,
    "bags": NUMBER,
    "bag": LOAD,
    "weight": LOAD,
    "tote": LOAD,
    "mark": SHARE,
    "left": LOAD,
    "level": SHARE,
}


@dataclass(frozen=True, kw_only=True)
class Event:
    """A table [[loads]] and the entry it was made of; ``id`` is empty for one not kept yet."""

    id: str
    table: dict[str, Any]


def sow_tables(
    book: Book, way: OnTheWay, *, known: Collection[str] = ()
) -> tuple[dict[str, Any], list[Event]]:
    """Return [field], [order], [drill], [[sow]] and [[loads]], and what each load was made of.

    Parameters
    ----------
    way : OnTheWay
        Boxes into which nothing was put yet are left out.
    known : collection of str
        Boxes of which Set has found the curve: their lever is followed.
    """
    events = [event for kept in way.boxes for event in _events(way, kept)]
    begun = [kept for kept in way.boxes if any(e.table.get("box", "") == kept.box for e in events)]
    tables = {
        "field": _field(way),
        "order": _amounts(way.order, {"overlap": SHARE}) if way.order else {},
        "drill": _drill(way),
        "sow": [_sow(book, way, kept, lever=kept.box in known) for kept in begun],
        "loads": [event.table for event in events],
    }
    return {key: table for key, table in tables.items() if table}, events


def _field(way: OnTheWay) -> dict[str, Any]:
    table = _field_table(way.boxes[0]) if way.boxes else {}
    order, finished = way.order, way.finished
    table |= _amounts(order, {"area": FIELD, "pass_length": LENGTH}) if order else {}
    return table | (_amounts(finished, {"area": FIELD}) if finished else {})


def _drill(way: OnTheWay) -> dict[str, Any]:
    drill, job = (way.boxes[0].drill, way.boxes[0].body) if way.boxes else (None, None)
    if drill is None or job is None:
        return {}
    shut = {"blocked": job.blocked, "blocked_end": job.blocked_end}
    return {
        "name": drill.name,
        "rows": drill.rows,
        "spacing": as_written(drill.spacing, SPACING),
    } | {key: number for key, number in shut.items() if number}


def _field_table(kept: Kept) -> dict[str, Any]:
    field = kept.field or work.Field(name=kept.body.name)
    table = {"name": field.name, "state": field.state} | _amounts(field, {"area": FIELD})
    return {key: text for key, text in table.items() if text}


def _sow(book: Book, way: OnTheWay, kept: Kept, *, lever: bool) -> dict[str, Any]:
    wanted = kept.wanted
    if wanted is None:
        return {}
    table = _box(kept) | {"rate": as_written(wanted.rate, RATE)}
    if wanted.tolerance:
        table["tolerance"] = as_written(wanted.tolerance, SHARE)
    if wanted.test_weight:
        table["test_weight"] = as_written(wanted.test_weight, TEST_WEIGHT)
    table |= _volume(kept) | _edge(way, kept) | _ground(way)
    chosen = body_of(chosen_of(book, kept), work.Chosen)
    if chosen and lever:
        table |= {"setting": chosen.setting} | ({"gear": chosen.gear} if chosen.gear else {})
    if way.finished and any(left.box == kept.box for left in way.finished.left):
        table["done"] = True
        table |= _static(book, way, kept)
    return table


def _box(kept: Kept) -> dict[str, Any]:
    return {"box": kept.box} if kept.box else {}


def _volume(kept: Kept) -> dict[str, Any]:
    """Volume of the box, where both it and the test weight of its seed are known."""
    volume = volume_of(kept)
    if volume is None or kept.wanted is None or kept.wanted.test_weight is None:
        return {}
    return {"volume": as_written(volume, VOLUME)}


def volume_of(kept: Kept) -> Typed | None:
    """Return the volume of a box; that of the only one where the job names none."""
    box = _box_of(kept)
    return box.volume if box else None


def _box_of(kept: Kept) -> machine.Box | None:
    boxes = kept.drill.boxes if kept.drill else ()
    named = [box for box in boxes if box.name == kept.box or (not kept.box and len(boxes) == 1)]
    return named[0] if named else None


def _edge(way: OnTheWay, kept: Kept) -> dict[str, Any]:
    """Seed that still waits at the edge: as last told, less what was loaded since."""
    loads = sorted(way.of(sown.Load, box=kept.box), key=lambda load: load.at.value)
    told = [i for i, load in enumerate(loads) if load.edge is not None]
    table = _heel(way, kept)
    if not told:
        return table
    last = loads[told[-1]]
    waiting = last.edge.value if last.edge else 0.0
    waiting -= sum(weight_of(load) for load in loads[told[-1] + 1 :])
    return table | {"at_edge": f"{max(0.0, waiting):.10g} kg"}


def weight_of(load: sown.Load) -> float:
    """Seed that was put in by weight; 0 where the box was only filled to a mark. [kg]"""
    if load.bags and load.bag:
        return load.bags.value * load.bag.value
    return sum(each.value for each in (load.weight, load.tote) if each)


def _heel(way: OnTheWay, kept: Kept) -> dict[str, Any]:
    """What must stay in a box: as typed, else its dead part, where its test weight is known."""
    heels = {each.box: each.weight for each in way.order.heels} if way.order else {}
    if kept.box in heels:
        return {"heel": as_written(heels[kept.box], LOAD)}
    box, wanted = _box_of(kept), kept.wanted
    if not (box and box.dead and box.volume and wanted and wanted.test_weight):
        return {}
    return {"heel": f"{box.dead * box.volume.value * wanted.test_weight.value:.10g} kg"}


def _ground(way: OnTheWay) -> dict[str, Any]:
    """The area meter's check; the one over the most ground counts, else the whole field."""
    checks = way.of(sown.Ground)
    if not checks:
        return _by_end(way)
    best = max(checks, key=lambda check: check.shown.value)
    table = _amounts(best, {"shown": FIELD, "known": FIELD, "passes": NUMBER, "lap": SPACING})
    return table | ({"pass_length": as_written(best.length, LENGTH)} if best.length else {})


def _by_end(way: OnTheWay) -> dict[str, Any]:
    """Hold the area meter against the field once it is done, overlap counted twice."""
    finished, field = way.finished, way.boxes[0].field if way.boxes else None
    area = (finished and finished.area) or (way.order and way.order.area) or (field and field.area)
    shown = shown_of(way)
    if not area or not shown:
        return {}
    driven = nominal(SownGround(area=area.value, overlap=overlap_of(way)).driven(shown=shown))
    return {"known": f"{driven:.12g} m²", "shown": f"{shown:.12g} m²"}


def shown_of(way: OnTheWay) -> float:
    """Return what the area meter showed for the whole field, 0 where it was not read. [m²]"""
    if way.finished is None:
        return 0.0
    at = [each.at.value for kept in way.boxes for each in _of_box(way, kept)]
    return max(0.0, way.finished.at.value - min(at, default=0.0))


def overlap_of(way: OnTheWay) -> float:
    """Return the overlap that was planned, as a share of the field. [-]"""
    return way.order.overlap.value if way.order and way.order.overlap else 0.0


def _events(way: OnTheWay, kept: Kept) -> list[Event]:
    """Tables of one box in the order of the area meter, however they were written down."""
    placed = [found for id, body in way.things for found in _placed(id, body, kept)]
    return [event for _, event in sorted(placed, key=lambda each: each[0])]


Place = tuple[float, int, str]


def _placed(id: str, body: Body, kept: Kept) -> Iterator[tuple[Place, Event]]:
    """At one place a level comes before the load, unless it says that the box was filled."""
    finished = isinstance(body, sown.Finished)
    if not finished and getattr(body, "box", None) != kept.box:
        return
    match body:
        case sown.Load():
            yield (body.at.value, 1, id), _event(id, kept, _amounts(body, AMOUNTS))
        case sown.Level():
            rank = 2 if body.filled else 0
            yield (body.at.value, rank, id), _event(id, kept, _amounts(body, AMOUNTS))
        case sown.Moved():
            table = _amounts(body, AMOUNTS) | {"setting": body.setting}
            table |= {"gear": body.gear} if body.gear else {}
            yield (body.at.value, 3, id), _event(id, kept, table)
        case sown.Finished():
            for left in (each for each in body.left if each.box == kept.box):
                table = _amounts(body, {"at": FIELD}) | {"left": as_written(left.weight, LOAD)}
                yield (body.at.value, 4, id), _event(id, kept, table)


def _event(id: str, kept: Kept, table: dict[str, Any]) -> Event:
    return Event(id=id, table=_box(kept) | table)


def _amounts(body: Body, kinds: Mapping[str, Kind]) -> dict[str, Any]:
    found = ((key, getattr(body, key, None), kind) for key, kind in kinds.items())
    return {key: as_written(typed, kind) for key, typed, kind in found if typed is not None}


def _static(book: Book, way: OnTheWay, kept: Kept) -> dict[str, Any]:
    """What the stand promised for the settings in use, by the ground sown at each."""
    rate = static_of(book, way, kept)
    if rate is None or not rate.value > 0:
        return {}
    reach = rate.u * sqrt(3)
    return {"static": f"{rate.value / RATE.us.size:.12g} ± {reach / RATE.us.size:.12g} lb/ac"}


def static_of(book: Book, way: OnTheWay, kept: Kept) -> Estimate | None:
    """Work out what the stand promised for a box; None where no catch was made. [kg/m²]"""
    chosen = body_of(chosen_of(book, kept), work.Chosen)
    if chosen is None or not kept.catches:
        return None
    stretches = list(_settings(way, kept, start=(chosen.setting, chosen.gear)))
    return stand_rate(book, kept, stretches)


def _settings(
    way: OnTheWay, kept: Kept, *, start: tuple[float, str]
) -> Iterator[tuple[tuple[float, str], float]]:
    """Yield each setting in use with the ground sown at it."""
    at = [event.at.value for event in _of_box(way, kept)]
    end = way.finished.at.value if way.finished else max(at, default=0.0)
    begin, place = min(at, default=0.0), start
    for moved in sorted(way.of(sown.Moved, box=kept.box), key=lambda each: each.at.value):
        yield place, moved.at.value - begin
        begin, place = moved.at.value, (moved.setting, moved.gear or place[1])
    yield place, end - begin


def _of_box(way: OnTheWay, kept: Kept) -> Iterable[sown.Load | sown.Level]:
    return (*way.of(sown.Load, box=kept.box), *way.of(sown.Level, box=kept.box))
