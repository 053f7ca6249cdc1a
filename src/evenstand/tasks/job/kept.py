"""From the things of a book to the job whose next setting is worked out."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeVar

from evenstand.book.book import Book
from evenstand.book.kinds import machine, work
from evenstand.book.storage.thing import Thing
from evenstand.engine.catch import weighing
from evenstand.engine.drill.drill import Drill
from evenstand.engine.drill.travel import Wheel
from evenstand.engine.parsing.parse import Reading, read
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import CATCH

from ..drill.machines import engine_drill, run_of, wheel_of
from .calibration import CatchMade, weigh_scales

Known = TypeVar("Known")


@dataclass(frozen=True, kw_only=True)
class Kept:
    """A job of the book with the things it names; what is missing is None.

    ``catches`` are those of the box that is being set, oldest first.
    """

    thing: Thing
    body: work.Job
    field: work.Field | None
    drill_id: str | None
    drill: machine.Drill | None
    wanted: work.Wanted | None
    catches: tuple[Thing, ...] = ()

    @property
    def box(self) -> str:
        """Name of the box that is being set; empty where the drill has one."""
        return self.wanted.box if self.wanted else ""


def find(book: Book, job: str, *, box: str | None = None) -> Kept:
    """Gather a job with its drill, its field and what one of its boxes has caught.

    Parameters
    ----------
    job : str
        Id of the job.
    box : str, optional
        One of the boxes that a rate is wanted for; the first without.

    Raises
    ------
    MeasurementError
        For a job or box that is not there.
    """
    thing = book.get(job)
    body = thing.body
    if not isinstance(body, work.Job):
        raise MeasurementError("job", job, say("enter the ID of a job"))
    wanted = _wanted(body, box)
    drill = named(book, body.drill, machine.Drill)
    return Kept(
        thing=thing,
        body=body,
        field=named(book, body.field, work.Field),
        drill_id=body.drill if drill else None,
        drill=drill,
        wanted=wanted,
        catches=catches_of(book, job, box=wanted.box if wanted else ""),
    )


def _wanted(body: work.Job, box: str | None) -> work.Wanted | None:
    if box is None:
        return body.wanted[0] if body.wanted else None
    found = [each for each in body.wanted if each.box == box]
    if not found:
        raise MeasurementError("box", box, say("no box by that name has a target rate"))
    return found[0]


def named(book: Book, id: str | None, kind: type[Known]) -> Known | None:
    """Return the body of a thing that is named, None where it is not here or not of the kind.

    One that was taken off its list since is still that of those who name it.
    """
    thing = _thing(book, id)
    return thing.body if thing and isinstance(thing.body, kind) else None


def standing(book: Book, id: str | None, kind: type[Known]) -> Known | None:
    """Return the body of a thing that is named, None where it was removed too."""
    thing = _thing(book, id)
    return thing.body if thing and not thing.removed and isinstance(thing.body, kind) else None


def _thing(book: Book, id: str | None) -> Thing | None:
    try:
        return None if id is None else book.get(id)
    except MeasurementError:
        return None


def catches_of(book: Book, job: str, *, box: str) -> tuple[Thing, ...]:
    """Return the catches of a job from one box, oldest first."""
    things = [t for t in book.things("catch", of=job) if isinstance(t.body, work.Catch)]
    return tuple(t for t in reversed(things) if catch_body(t).box == box)


def chosen_of(book: Book, kept: Kept) -> Thing | None:
    """Return the setting last taken for a box, None where none was."""
    for thing in book.things("setting", of=kept.thing.id):
        if isinstance(thing.body, work.Chosen) and thing.body.box == kept.box:
            return thing if thing.body.accepted else None
    return None


def catch_body(thing: Thing) -> work.Catch:
    """Return what a catch says."""
    if not isinstance(thing.body, work.Catch):
        raise MeasurementError("catch", thing.id, say("enter the ID of a catch"))
    return thing.body


def job_drill(kept: Kept) -> Drill:
    """Return the engine's drill, with the rows this job shuts off."""
    if kept.drill is None:
        raise MeasurementError("drill", None, say("choose the drill first"))
    return engine_drill(kept.drill, kept.body)


def job_wheel(kept: Kept) -> Wheel | None:
    """Return the drive wheel as measured for this job, else as the drill has it."""
    return wheel_of(kept.drill, kept.body)


def chart_for(book: Book, kept: Kept) -> machine.Chart | None:
    """Return the chart a box begins from: the one chosen, else the newest that fits the box."""
    if kept.wanted and kept.wanted.chart:
        return standing(book, kept.wanted.chart, machine.Chart)
    charts = charts_of(book, kept.drill_id)
    bodies = [t.body for t in charts if isinstance(t.body, machine.Chart)]
    fitting = [chart for chart in bodies if chart.box in ("", kept.box)]
    return fitting[0] if fitting else None


def charts_of(book: Book, drill: str | None) -> list[Thing]:
    """Return the charts of a drill, newest first."""
    return book.things("chart", of=drill) if drill else []


def catches_made(kept: Kept, *, drill: Drill, wheel: Wheel | None) -> tuple[CatchMade, ...]:
    """Return the catches of a job as the Set step takes them."""
    bodies = [catch_body(thing) for thing in kept.catches]
    return tuple(
        catch_made(kept, body, drill=drill, wheel=wheel, scale=scale)
        for body, scale in zip(bodies, scales_of(kept.body, bodies), strict=True)
    )


def scales_of(job: work.Job, catches: Sequence[work.Catch]) -> tuple[weighing.WeighScale, ...]:
    """Return the scale that weighed each catch of a job."""
    own = [catch.resolution for catch in catches]
    return weigh_scales(job, [_as_typed(catch) for catch in catches], own=own)


def _as_typed(catch: work.Catch) -> list[Reading]:
    """Read the weights of a catch again with their digits; none where one has no text."""
    weights = [catch.gross] if catch.gross else [bag.weight for bag in catch.bags]
    try:
        return [read(weight.text, CATCH, field="weight") for weight in weights]
    except MeasurementError:
        return []


def catch_made(
    kept: Kept,
    catch: work.Catch,
    *,
    drill: Drill,
    wheel: Wheel | None,
    scale: weighing.WeighScale,
) -> CatchMade:
    """Return a catch as the Set step takes it."""
    return CatchMade(
        setting=catch.setting,
        gear=drill.gear(catch.gear or None),
        bags=tuple(
            weighing.Bag(weight=b.weight.value, rows=b.rows, first=b.row) for b in catch.bags
        ),
        run=run_of(
            catch,
            drill=drill,
            wheel=wheel,
            crank_per_wheel=kept.drill.crank_per_wheel if kept.drill else None,
        ),
        scale=scale,
        counted=catch.counted,
        note=catch.note,
    )
