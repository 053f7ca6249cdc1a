"""What an entry of sowing must be by itself: asked of forms and of programs."""

from collections.abc import Callable, Mapping
from typing import Any

from evenstand.book.kinds.shape import Body
from evenstand.book.kinds.sown import Check, Finished, Ground, Level, Load, Moved
from evenstand.engine.quantities.errors import MeasurementError, Path
from evenstand.engine.quantities.phrases import say

from ..drill.rules import check_once
from ..job.kept import Kept, job_drill
from .kept import volume_of

LOADS = ("bags", "weight", "tote")


def check_sown(body: Body, kept: Kept) -> None:
    """See that an entry can be right by itself.

    Parameters
    ----------
    body : Body
        One of those of `book.sown`.
    kept : Kept
        Its job, with the box that it is about.

    Raises
    ------
    MeasurementError
        Under the name of its field.
    """
    _CHECKS[type(body)](body, kept)


def _load(body: Load, kept: Kept) -> None:
    said = [key for key in LOADS if getattr(body, key)]
    if len(said) > 1:
        need = say("enter bags, a weight or a tote, only one of them")
        raise MeasurementError(said[-1], None, need)
    if not said and not body.mark:
        raise MeasurementError("weight", None, say("enter what was put in"))
    if bool(body.bags) != bool(body.bag):
        raise MeasurementError("bag", None, say("enter the net weight of a bag"))
    _read_once(body)
    _readable(body, kept, ("mark", "level"))


def _level(body: Level, kept: Kept) -> None:
    if body.left is None and body.level is None:
        raise MeasurementError("left", None, say("enter what is in the box"))
    _read_once(body)
    _readable(body, kept, ("level",))


def _read_once(body: Load | Level) -> None:
    if body.left is not None and body.level is not None:
        raise MeasurementError(
            "level", None, say("enter what was weighed or what was read, not both")
        )


def _readable(body: Load | Level, kept: Kept, keys: tuple[str, ...]) -> None:
    """See that a share of the box can be turned into a weight."""
    for key in keys:
        if getattr(body, key, None) is None:
            continue
        if volume_of(kept) is None:
            need = say("enter the box's volume with the drill first, or weigh the seed")
            raise MeasurementError(key, None, need)
        if kept.wanted is None or kept.wanted.test_weight is None:
            need = say("enter the seed's test weight too, or weigh the seed")
            raise MeasurementError("test_weight", None, need)


def _ground(body: Ground, kept: Kept) -> None:
    if bool(body.known) == bool(body.passes):
        key = "passes" if body.known else "known"
        need = say("enter the area, or passes and their length")
        raise MeasurementError(key, None, need)
    if bool(body.passes) != bool(body.length):
        raise MeasurementError("length", None, say("enter the pass length"))
    if body.passes and kept.drill is None:
        raise MeasurementError("passes", None, say("choose the drill first"))


def _moved(body: Moved, kept: Kept) -> None:
    drill = job_drill(kept)
    if body.gear:
        drill.gear(body.gear)
    drill.check(body.setting)


def _check(body: Check, kept: Kept) -> None:
    if not body.seeds and not body.dug:
        need = say("enter the seeds in some rows, or their depths")
        raise MeasurementError("seeds", None, need)
    if body.seeds and body.length is None:
        raise MeasurementError("length", None, say("enter the row length you uncovered"))
    if body.dug and body.wanted is None:
        raise MeasurementError("wanted", None, say("enter the target depth"))
    if body.dug and sum(len(row.depths) for row in body.dug) < 2:
        raise MeasurementError("dug", None, say("dig up at least two seeds"))


def _finished(body: Finished, kept: Kept) -> None:
    if not body.left:
        need = say("weigh what is left in the box (0 if empty)")
        raise MeasurementError("left", None, need)
    names, known = [each.box for each in body.left], [w.box for w in kept.body.wanted]
    check_once(Path("left", "box"), names)
    for name in names:
        if name not in known:
            need = say("choose one of {names}", names=", ".join(known))
            raise MeasurementError(Path("left", "box"), name, need)
    if body.area is None and (kept.field is None or kept.field.area is None):
        raise MeasurementError("area", None, say("enter the area seeded"))


_CHECKS: Mapping[type[Body], Callable[[Any, Kept], None]] = {
    Load: _load,
    Level: _level,
    Ground: _ground,
    Moved: _moved,
    Check: _check,
    Finished: _finished,
}
