"""What happens while a field is sown, as it is typed: into what is kept, and back."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from functools import partial
from typing import Any

from msgspec import structs

from evenstand.book.kinds.shape import Body, Typed
from evenstand.book.kinds.sown import Check, Dug, Finished, Ground, Left, Level, Load, Moved
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import FIELD, LOAD, SPACING, TEST_WEIGHT

from ..job.kept import Kept, job_drill
from ..parsing.given import Given, lent, listed
from ..parsing.structs import read, texts
from ..parsing.writing import RefusalsError, Writing, as_typed
from .rules import LOADS, check_sown

MOST_ROWS = 200  # counted, or dug, at once


def read_sown(
    given: Given, kept: Kept, kind: str, *, boxes: Sequence[str], latest: float = 0.0
) -> Body:
    """Read an entry from the fields of its form.

    Parameters
    ----------
    given : Given
        Fields as the body names them; ``seeds`` and ``dug`` as lists.
    kept : Kept
        The job, with the box that it is about.
    kind : str
        Of the body: ``load``, ``level``…
    boxes : sequence of str
        All boxes that a rate is wanted from, for the end of the field.
    latest : float
        What the area meter showed before; less is refused, unless ``late`` says
        that it is written down late. [m²]

    Raises
    ------
    RefusalsError
        Each under the field it was typed in.
    """
    with Writing(given) as form:
        body = _READ[kind](form, kept, boxes)
        _in_order(form, body, latest)
    try:
        check_sown(body, kept)
    except MeasurementError as refused:
        raise RefusalsError([given.refuse(refused.field, refused.need)]) from None
    return body


def with_test_weight(given: Given, kept: Kept) -> Kept:
    """Put a test weight that was entered with a reading to the job's box that has none.

    Raises
    ------
    RefusalsError
        For one that cannot be.
    """
    old = kept.wanted
    if old is None or old.test_weight is not None or "test_weight" not in given:
        return kept
    form = Writing(given)
    weight = form.amount("test_weight", TEST_WEIGHT)
    form.done()
    new = structs.replace(old, test_weight=weight)
    all_ = tuple(new if each is old else each for each in kept.body.wanted)
    return replace(kept, body=structs.replace(kept.body, wanted=all_), wanted=new)


def _in_order(form: Writing, body: Body, latest: float) -> None:
    """Refuse an area that goes backwards, unless it is written down late."""
    at = getattr(body, "at", None)
    if at is None or "late" in form.given or "at" not in form.given:
        return
    if at.value < latest * (1 - 1e-9):
        need = say(
            "the meter went backward from {before}: enter what the meter shows, "
            "or mark it as a late entry",
            before=FIELD(latest),
        )
        form.refuse(form.given.refuse("at", need))


def _load(form: Writing, kept: Kept, boxes: Sequence[str]) -> Load:
    given = form.given
    if all(key not in given for key in (*LOADS, "mark")):
        form.refuse(given.refuse("weight", say("enter what was put in")))
    own = _none("bag") if "bags" not in given else {}
    return read(form, Load, job=kept.thing.id, box=kept.box, **own)


def _none(*names: str) -> dict[str, Any]:
    """Leave fields out that mean nothing without another."""
    return dict.fromkeys(names)


def _level(form: Writing, kept: Kept, boxes: Sequence[str]) -> Level:
    if "left" not in form.given and "level" not in form.given:
        form.refuse(form.given.refuse("left", say("enter what is in the box")))
    return read(form, Level, job=kept.thing.id, box=kept.box)


def _ground(form: Writing, kept: Kept, boxes: Sequence[str]) -> Ground:
    given = form.given
    if "known" not in given and "passes" not in given:
        form.refuse(given.refuse("known", say("enter the area, or passes and their length")))
    own = _none("length", "lap") if "passes" not in given else {}
    return read(form, Ground, job=kept.thing.id, **own)


def _moved(form: Writing, kept: Kept, boxes: Sequence[str]) -> Moved:
    def gear() -> str:
        return form.attempt(lambda: _gear(form.given, kept), otherwise="")

    return read(form, Moved, job=kept.thing.id, box=kept.box, gear=gear)


def _gear(given: Given, kept: Kept) -> str:
    if kept.drill is None or len(kept.drill.gears) < 2 or "gear" not in given:
        return ""
    with given.pointing():
        return job_drill(kept).gear(given.text("gear")).name


def _check(form: Writing, kept: Kept, boxes: Sequence[str]) -> Check:
    given = form.given
    none: tuple[int, ...] = ()
    undug: tuple[Dug, ...] = ()
    if "seeds" not in given and "dug" not in given:
        form.refuse(given.refuse("seeds", say("enter the seeds in some rows, or their depths")))
    for key, goes_with in (("length", "seeds"), ("wanted", "dug")):
        if goes_with in given:
            form.attempt(partial(given.text, key), otherwise="")
    return read(
        form,
        Check,
        job=kept.thing.id,
        box=kept.box,
        seeds=lambda: form.attempt(lambda: _seeds(given), otherwise=none),
        dug=lambda: form.attempt(lambda: _dug(given), otherwise=undug),
    )


def _seeds(given: Given) -> tuple[int, ...]:
    """Read the seeds of each row, as ``33 28 35`` or with commas between."""
    if "seeds" not in given:
        return ()
    texts = given.text("seeds").replace(",", " ").replace(";", " ").split()
    if len(texts) > MOST_ROWS or not all(text.isdecimal() and len(text) < 7 for text in texts):
        need = say("enter whole numbers, one per row, such as {example}", example="33 28 35")
        raise given.refuse("seeds", need)
    return tuple(int(text) for text in texts)


def _dug(given: Given) -> tuple[Dug, ...]:
    """Read depths, each row on a line of its own."""
    if "dug" not in given:
        return ()
    unit = given.texts.get("dug_in", "")
    lines = [line for line in given.text("dug").splitlines() if line.strip()]
    if len(lines) > MOST_ROWS:
        raise given.refuse("dug", say("enter at most {n} rows", n=MOST_ROWS))
    return tuple(Dug(depths=tuple(_depths(given, line, unit))) for line in lines)


def _depths(given: Given, line: str, unit: str) -> list[Typed]:
    apart = ";" in line or ", " in line or ("." in line and "," in line)
    texts = listed(line) if apart else line.split()
    found = []
    for text in texts:
        depth = as_typed(given.part(lent(text, unit), "dug", SPACING))
        if not depth.value >= 0:
            raise given.refuse("dug", say("enter 0 for seed on the surface, or a depth"))
        found.append(depth)
    return found


def _finished(form: Writing, kept: Kept, boxes: Sequence[str]) -> Finished:
    left = []
    for i, box in enumerate(boxes, start=1):
        if weight := form.zero_or_more(f"left{i}", LOAD):
            left.append(Left(box=box, weight=weight))
    if not left:
        need = say("weigh what is left in the box (0 if empty)")
        form.refuse(form.given.refuse("left1", need))
    return read(form, Finished, job=kept.thing.id, left=tuple(left))


_READ: Mapping[str, Callable[[Writing, Kept, Sequence[str]], Body]] = {
    "load": _load,
    "level": _level,
    "area": _ground,
    "moved": _moved,
    "check": _check,
    "finished": _finished,
}


def sown_texts(body: Body, *, boxes: Sequence[str]) -> dict[str, str]:
    """Return the fields of a form as they were filled in."""
    written = texts(body, but=("box",))
    match body:
        case Check():
            written["seeds"] = " ".join(str(count) for count in body.seeds)
            written["dug"] = "\n".join("; ".join(d.text for d in row.depths) for row in body.dug)
        case Finished():
            of_box = {left.box: left.weight.text for left in body.left}
            written |= {f"left{i}": of_box.get(box, "") for i, box in enumerate(boxes, start=1)}
    return written
