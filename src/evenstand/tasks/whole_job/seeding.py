"""The Sow step of a kept job: all boxes along the acres, and whether a new entry can be."""

from collections.abc import Sequence
from dataclasses import dataclass

from evenstand.book.book import Book
from evenstand.book.kinds import sown
from evenstand.book.kinds.shape import Body
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Iso, say

from ..calibration.setting import Setting, where_next
from ..job.kept import Kept, chosen_of
from ..seeding.kept import sow_said
from ..seeding.on_the_way import OnTheWay, on_the_way
from ..seeding.said import Happened
from ..seeding.seeding import SownBox, SownField, read_sow
from .calibration import set_job

_GROUND = {"pass_length": "length"}
# Where something of an entry is refused that no table names: the first of these that it has.
_FIELDS = ("bags", "weight", "tote", "left", "level", "mark", "known", "passes", "setting")


@dataclass(frozen=True, kw_only=True)
class Sown:
    """What was written down of a job, and what it comes to: None before the first load."""

    way: OnTheWay
    field: SownField | None
    events: tuple[Happened, ...]

    def box(self, name: str) -> SownBox | None:
        """Return a box that was begun."""
        boxes = self.field.boxes if self.field else ()
        return next((box for box in boxes if box.name == name), None)


def sow_job(book: Book, kept: Kept) -> Sown:
    """Follow every box of a job that was begun.

    Raises
    ------
    MeasurementError
        Named as in a job file, for what cannot be.
    """
    return followed(book, on_the_way(book, kept))


def followed(book: Book, way: OnTheWay) -> Sown:
    """Follow every box along what was written down; raises as `sow_job`."""
    if not way.begun:
        return Sown(way=way, field=None, events=())
    sets = sets_of(book, way)
    said = sow_said(book, way, known=sets)
    return Sown(way=way, field=read_sow(said, sets=sets), events=said.events)


def sets_of(book: Book, way: OnTheWay) -> dict[str, Setting]:
    """Return what Set found for each box whose setting was taken."""
    found = {}
    for kept in way.boxes:
        if chosen_of(book, kept) and (setting := _set(book, kept)):
            found[kept.box] = setting
    return found


def _set(book: Book, kept: Kept) -> Setting | None:
    try:
        return where_next(set_job(book, kept))
    except MeasurementError:
        return None


def check_entry(book: Book, kept: Kept, body: Body, *, about: str = "") -> None:
    """See that an entry goes together with all that was written down before.

    Parameters
    ----------
    about : str
        Id of the thing that it corrects.

    Raises
    ------
    MeasurementError
        Under the name of a field of the entry. What was wrong before it came
        is not refused again.
    """
    way = on_the_way(book, kept, new=body, about=about)
    _check_end(way, body)
    try:
        followed(book, way)
    except MeasurementError as refused:
        event = _event(refused, sow_said(book, way).events)
        if own := _own(refused, body, event=event, about=about):
            raise own from None
        if _sound(book, kept, without=about):
            raise MeasurementError(_field(body), None, refused.need) from None


def _check_end(way: OnTheWay, body: Body) -> None:
    """See that a field ends once, and not before its seed was loaded."""
    if isinstance(body, sown.Finished) and len(way.of(sown.Finished)) > 1:
        need = say("the end of this field is already entered: correct that entry")
        raise MeasurementError("at", None, need)
    ended = way.finished.day if way.finished else None
    loaded = max((load.day for load in way.of(sown.Load) if load.day), default=None)
    if ended and loaded and ended < loaded and isinstance(body, sown.Load | sown.Finished):
        text = "enter a date that fits the others: loaded on {loaded}, finished on {ended}"
        raise MeasurementError("day", body.day, say(text, loaded=Iso(loaded), ended=Iso(ended)))


def _event(refused: MeasurementError, events: Sequence[Happened]) -> Happened | None:
    match refused.path:
        case ("loads", int(number), _):
            return events[number - 1]
        case _:
            return None


def _own(
    refused: MeasurementError, body: Body, *, event: Happened | None, about: str
) -> MeasurementError | None:
    """Return a refusal of the entry itself under its own field."""
    key = str(refused.path[-1])
    if event is not None and event.id == about:
        if isinstance(body, sown.Finished) and key == "left":
            names = [left.box for left in body.left]
            key = f"left{names.index(event.load.box) + 1}"
        elif not hasattr(body, key):
            key = _field(body)
        return refused.at(key)
    key = _GROUND.get(key, key)
    if isinstance(body, sown.Ground) and event is None and hasattr(body, key):
        return refused.at(key)
    return None


def _sound(book: Book, kept: Kept, *, without: str) -> bool:
    """Whether all is well without the entry."""
    try:
        followed(book, on_the_way(book, kept, without=without))
    except MeasurementError:
        return False
    return True


def _field(body: Body) -> str:
    if isinstance(body, sown.Finished):
        return "at"
    return next((key for key in _FIELDS if getattr(body, key, None)), "at")


def latest(way: OnTheWay, *, box: str) -> float:
    """Return what the area meter showed when something was last written of a box. [m²]"""
    bodies: tuple[sown.Load | sown.Level | sown.Moved, ...] = (
        *way.of(sown.Load, box=box),
        *way.of(sown.Level, box=box),
        *way.of(sown.Moved, box=box),
    )
    return max((body.at.value for body in bodies), default=0.0)
