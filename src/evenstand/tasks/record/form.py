"""What a record says beyond the steps, as it is typed: into what is kept, and back."""

from collections.abc import Iterator, Sequence

from evenstand.book.shape import Typed
from evenstand.book.work import Record, Used
from evenstand.engine.quantities.errors import MeasurementError, Of, Path
from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import FIELD, LOAD, SPACING

from ..parsing.dates import day
from ..parsing.given import Given
from ..parsing.writing import RefusalsError, Writing

MOST_SIGNERS, MOST_NAME = 6, 200
# What is written as it comes, in the order of the form.
TEXTS = (
    "producer", "farm", "tract", "practice", "sown_by", "method", "seedbed", "soil",
    "fertility", "inoculant", "termination", "note",
)  # fmt: skip


def read_record(given: Given, job: str, *, boxes: Sequence[str]) -> Record:
    """Read what a record says from the fields of its form.

    Parameters
    ----------
    given : Given
        `TEXTS`, ``first``, ``last``, ``area``, ``depth``, ``signers`` on lines
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
    form = Writing(given)
    record = Record(
        job=job,
        first=day(form, "first"),
        last=day(form, "last"),
        area=form.amount("area", FIELD),
        depth=form.zero_or_more("depth", SPACING),
        used=tuple(_used(form, boxes)),
        signers=_signers(form),
        **{key: form.text(key) for key in TEXTS},
    )
    form.done()
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
        raise MeasurementError("last", record.last, say("give a day that is not before the first"))
    for each in record.used:
        loaded, left = each.loaded, each.left
        if loaded is None:
            need = say("give what was filled in too")
            raise MeasurementError(Path("loaded", Of(each.box)), None, need)
        if left is not None and left.value > loaded.value:
            need = say("no more can be left than was filled in")
            raise MeasurementError(Path("left", Of(each.box)), left.text, need)


def _in_form(refused: MeasurementError, given: Given, boxes: Sequence[str]) -> MeasurementError:
    """Name what was refused as the form does."""
    key, *of = refused.path
    field = f"box{boxes.index(str(of[0])) + 1}_{key}" if of else str(key)
    return given.refuse(field, refused.need)


def _used(form: Writing, boxes: Sequence[str]) -> Iterator[Used]:
    for number, box in enumerate(boxes, start=1):
        loaded = form.zero_or_more(f"box{number}_loaded", LOAD)
        left = form.zero_or_more(f"box{number}_left", LOAD)
        if loaded or left:
            yield Used(box=box, loaded=loaded, left=left)


def _signers(form: Writing) -> tuple[str, ...]:
    names = tuple(line.strip() for line in form.text("signers").splitlines() if line.strip())
    if len(names) > MOST_SIGNERS or any(len(name) > MOST_NAME for name in names):
        need = say("give at most {n} names, each on a line of its own", n=MOST_SIGNERS)
        form.refuse(form.given.refuse("signers", need))
        return ()
    return names


def record_texts(record: Record, *, boxes: Sequence[str]) -> dict[str, str]:
    """Return the fields of the form as they were filled in."""
    texts = {key: getattr(record, key) for key in TEXTS}
    texts |= {"first": record.first or "", "last": record.last or ""}
    texts |= {"area": _text(record.area), "depth": _text(record.depth)}
    texts["signers"] = "\n".join(record.signers)
    used = {each.box: each for each in record.used}
    for number, box in enumerate(boxes, start=1):
        if found := used.get(box):
            texts[f"box{number}_loaded"] = _text(found.loaded)
            texts[f"box{number}_left"] = _text(found.left)
    return texts


def _text(typed: Typed | None) -> str:
    return typed.text if typed else ""
