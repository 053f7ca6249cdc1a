"""What was written down while a job was sown, as it is read."""

from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import replace
from math import sqrt

from msgspec import structs

from evenstand.book.book import Book
from evenstand.book.kinds import machine, sown, work
from evenstand.book.kinds.shape import Body, Typed
from evenstand.engine.seeding.field_area import SownGround
from evenstand.engine.statistics.budget import Estimate, nominal

from ..boxes.kept import body_of
from ..calibration.stand_rate import stand_rate
from ..job.kept import Kept, chosen_of, job_drill
from ..job.tables import InTables
from ..parsing.given import Given
from ..parsing.structs import texts
from .on_the_way import OnTheWay
from .said import BoxSaid, Happened, SowSaid


def sow_said(book: Book, way: OnTheWay, *, known: Collection[str] = ()) -> SowSaid:
    """Return what is said of a field while it is sown.

    Parameters
    ----------
    way : OnTheWay
        Boxes into which nothing was put yet are left out.
    known : collection of str
        Boxes of which Set has found the curve: their lever is followed.
    """
    happened: list[list[Happened]] = []
    for kept in way.boxes:
        before = sum(map(len, happened))
        happened.append(_events(way, kept, before=before))
    first, order, finished = way.boxes[0] if way.boxes else None, way.order, way.finished
    area = (finished and finished.area) or _area(way)
    begun = [(kept, events) for kept, events in zip(way.boxes, happened, strict=True) if events]
    return SowSaid(
        boxes=tuple(
            _box(book, way, kept, number=number, events=events, lever=kept.box in known)
            for number, (kept, events) in enumerate(begun, start=1)
        ),
        area=area,
        pass_length=order.pass_length if order else None,
        overlap=order.overlap if order else None,
        drill=job_drill(first) if first and first.drill else None,
        of_field=Given({}, InTables("field").part),
    )


def _area(way: OnTheWay) -> Typed | None:
    """Area to be sown: as the order says, else all of the field."""
    field = way.boxes[0].field if way.boxes else None
    if way.order and way.order.area:
        return way.order.area
    return field.area if field else None


def _box(
    book: Book,
    way: OnTheWay,
    kept: Kept,
    *,
    number: int,
    events: Sequence[Happened],
    lever: bool,
) -> BoxSaid:
    wanted = kept.wanted or work.Wanted(rate=Typed(value=0.0))
    chosen = body_of(chosen_of(book, kept), work.Chosen) if lever else None
    done = way.finished and any(left.box == kept.box for left in way.finished.left)
    given = Given(texts(wanted), InTables("sow", number).part)
    return BoxSaid(
        given=given,
        aim=given,
        wanted=structs.replace(wanted, on="field"),
        events=tuple(events),
        volume=volume_of(kept) if wanted.test_weight else None,
        setting=chosen.setting if chosen else None,
        gear=chosen.gear if chosen else "",
        ground=_ground(way),
        at_edge=_edge(way, kept),
        heel=_heel(way, kept),
        static=_static(book, way, kept) if done else None,
        done=bool(done),
    )


def volume_of(kept: Kept) -> Typed | None:
    """Return the volume of a box; that of the only one where the job names none."""
    box = _box_of(kept)
    return box.volume if box else None


def _box_of(kept: Kept) -> machine.Box | None:
    boxes = kept.drill.boxes if kept.drill else ()
    named = [box for box in boxes if box.name == kept.box or (not kept.box and len(boxes) == 1)]
    return named[0] if named else None


def _edge(way: OnTheWay, kept: Kept) -> float | None:
    """Seed that still waits at the edge: as last told, less what was loaded since. [kg]"""
    loads = sorted(way.of(sown.Load, box=kept.box), key=lambda load: load.at.value)
    told = [(i, load.edge.value) for i, load in enumerate(loads) if load.edge is not None]
    if not told:
        return None
    last, waiting = told[-1]
    return max(0.0, waiting - sum(weight_of(load) for load in loads[last + 1 :]))


def weight_of(load: sown.Load) -> float:
    """Seed that was put in by weight; 0 where the box was only filled to a mark. [kg]"""
    if load.bags and load.bag:
        return load.bags.value * load.bag.value
    return sum(each.value for each in (load.weight, load.tote) if each)


def _heel(way: OnTheWay, kept: Kept) -> float:
    """What must stay in a box: as typed, else its dead part of a known test weight. [kg]"""
    for each in way.order.heels if way.order else ():
        if each.box == kept.box:
            return each.weight.value
    box, wanted = _box_of(kept), kept.wanted
    if not (box and box.volume and wanted and wanted.test_weight):
        return 0.0
    return box.dead * box.volume.value * wanted.test_weight.value


def _ground(way: OnTheWay) -> sown.Ground | None:
    """The area meter's check; the one over the most ground counts, else the whole field."""
    checks = way.of(sown.Ground)
    return max(checks, key=lambda check: check.shown.value) if checks else _by_end(way)


def _by_end(way: OnTheWay) -> sown.Ground | None:
    """Hold the area meter against the field once it is done, overlap counted twice."""
    area = (way.finished and way.finished.area) or _area(way)
    shown = shown_of(way)
    if not area or not shown:
        return None
    driven = nominal(SownGround(area=area.value, overlap=overlap_of(way)).driven(shown=shown))
    return sown.Ground(job="", shown=Typed(value=shown), known=Typed(value=driven))


def shown_of(way: OnTheWay) -> float:
    """Return what the area meter showed for the whole field, 0 where it was not read. [m²]"""
    if way.finished is None:
        return 0.0
    at = [each.at.value for kept in way.boxes for each in _of_box(way, kept)]
    return max(0.0, way.finished.at.value - min(at, default=0.0))


def overlap_of(way: OnTheWay) -> float:
    """Return the overlap that was planned, as a share of the field. [-]"""
    return way.order.overlap.value if way.order and way.order.overlap else 0.0


def _events(way: OnTheWay, kept: Kept, *, before: int) -> list[Happened]:
    """What happened to one box in the order of the area meter, however it was written down.

    Parameters
    ----------
    before : int
        What happened to the boxes before it.
    """
    placed = sorted(
        ((place, each) for id, body in way.things for place, each in _placed(id, body, kept)),
        key=lambda each: each[0],
    )
    return [
        replace(each, given=replace(each.given, path=InTables("loads", number).part))
        for number, (_, each) in enumerate(placed, start=before + 1)
    ]


Place = tuple[float, int, str]


def _placed(id: str, body: Body, kept: Kept) -> Iterator[tuple[Place, Happened]]:
    """At one place a level comes before the load, unless it says that the box was filled."""
    finished = isinstance(body, sown.Finished)
    if not finished and getattr(body, "box", None) != kept.box:
        return
    given = Given(texts(body))
    match body:
        case sown.Load():
            yield (body.at.value, 1, id), Happened(given=given, load=body, id=id)
        case sown.Level():
            load = sown.Load(
                job=body.job, at=body.at, box=body.box, left=body.left, level=body.level
            )
            rank = 2 if body.filled else 0
            yield (body.at.value, rank, id), Happened(given=given, load=load, id=id)
        case sown.Moved():
            load = sown.Load(job=body.job, at=body.at, box=body.box)
            moved = Happened(given=given, load=load, setting=body.setting, gear=body.gear, id=id)
            yield (body.at.value, 3, id), moved
        case sown.Finished():
            for left in (each for each in body.left if each.box == kept.box):
                load = sown.Load(job=body.job, at=body.at, box=kept.box, left=left.weight)
                yield (body.at.value, 4, id), Happened(given=Given(texts(load)), load=load, id=id)


def _static(book: Book, way: OnTheWay, kept: Kept) -> Typed | None:
    """What the stand promised for the settings in use, by the ground sown at each."""
    rate = static_of(book, way, kept)
    if rate is None or not rate.value > 0:
        return None
    return Typed(value=rate.value, give_or_take=sqrt(3) * rate.u)


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
