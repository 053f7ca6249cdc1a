"""What a record says beyond the steps, as it is typed: into what is kept, and back."""

from collections.abc import Iterator, Sequence

from evenstand.book.kinds.shape import MOST_NAME
from evenstand.book.kinds.work import Record, Used
from evenstand.engine.quantities.errors import MeasurementError, Of, Path
from evenstand.engine.quantities.phrases import say

from ..parsing.given import Given
from ..parsing.structs import read, texts
from ..parsing.writing import RefusalsError, Writing

MOST_SIGNERS = 6


def read_record(given: Given, job: str, *, boxes: Sequence[str]) -> Record:
    """Read what a record says from the fields of its form.

    Parameters
    ----------
    given : Given
        Words, ``first``, ``last``, ``area``, ``depth``, ``signers`` on lines
        of their own, and for each box ``box1_loaded``, ``box1_left``…
    job : str
        Id of the job.
    boxes : sequence of str
        As they are called, in the order of the form.

    Raises
    ------
    RefusalsError
        Each under the field it was typed in.
    """
    with Writing(given) as form:
        record = read(
            form,
            Record,
            job=job,
            used=lambda: tuple(_used(form, boxes)),
            signers=lambda: _signers(form),
        )
    try:
        check_record(record)
    except MeasurementError as refused:
        raise RefusalsError([_in_form(refused, given, boxes)]) from None
    return record


def check_record(record: Record) -> None:
    """See that a record can be right.

    Raises
    ------
    MeasurementError
        For a last day before the first, or more left in a box than was filled in.
    """
    if record.first and record.last and record.last < record.first:
        raise MeasurementError(
            "last", record.last, say("enter a date that is not before the start date")
        )
    for each in record.used:
        loaded, left = each.loaded, each.left
        if loaded is None:
            need = say("enter the seed loaded too")
            raise MeasurementError(Path("loaded", Of(each.box)), None, need)
        if left is not None and left.value > loaded.value:
            need = say("no more seed can be left than was loaded")
            raise MeasurementError(Path("left", Of(each.box)), left.text, need)


def _in_form(refused: MeasurementError, given: Given, boxes: Sequence[str]) -> MeasurementError:
    """Name what was refused as the form does."""
    key, *of = refused.path
    field = f"box{boxes.index(str(of[0])) + 1}_{key}" if of else str(key)
    return given.refuse(field, refused.need)


def _used(form: Writing, boxes: Sequence[str]) -> Iterator[Used]:
    for number, box in enumerate(boxes, start=1):
        used = read(form, Used, line=f"box{number}_", box=box)
        if used != Used(box=box):
            yield used


def _signers(form: Writing) -> tuple[str, ...]:
    names = tuple(line.strip() for line in form.text("signers").splitlines() if line.strip())
    if len(names) > MOST_SIGNERS or any(len(name) > MOST_NAME for name in names):
        need = say("enter at most {n} names, each on its own line", n=MOST_SIGNERS)
        form.refuse(form.given.refuse("signers", need))
        return ()
    return names


def record_texts(record: Record, *, boxes: Sequence[str]) -> dict[str, str]:
    """Return the fields of the form as they were filled in."""
    written = texts(record) | {"signers": "\n".join(record.signers)}
    used = {each.box: each for each in record.used}
    for number, box in enumerate(boxes, start=1):
        if found := used.get(box):
            written |= texts(found, line=f"box{number}_", but=("box",))
    return written
