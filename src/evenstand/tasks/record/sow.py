"""The sowing of a record: every load and level along the ground, and what followed."""

from collections.abc import Iterator

from evenstand.book.kinds import sown
from evenstand.book.kinds.shape import Typed
from evenstand.engine.drill.drill import number
from evenstand.engine.quantities.phrases import Figure, Phrase, Value, say
from evenstand.engine.quantities.units import FIELD, LOAD, SHARE
from evenstand.report.document import Block, Cell, Section, Table, Words
from evenstand.report.pen import Pen

from ..seeding.kept import weight_of
from ..whole_job.gather import JobSoFar
from .frame import Reader
from .seed import NOT_WRITTEN

Written = sown.Load | sown.Level | sown.Moved | sown.Finished
KINDS: tuple[type[Written], ...] = (sown.Level, sown.Load, sown.Moved, sown.Finished)


def sow_section(job: JobSoFar, reader: Reader) -> Section:
    """Write what was put in, read and moved on the way, in the order of the area meter."""
    pen, title = reader.pen, say("Seeding")
    if not job.way.begun:
        return reader.section(title, Words(pen.write(NOT_WRITTEN)))
    table = Table(
        caption=pen.write(say("Loads, levels and lever changes across the field")),
        heads=(
            pen.write(say("Item")),
            pen.write(say("Box")),
            pen.write(say("acre meter, {unit}", unit=pen.unit(FIELD))),
            pen.write(say("put in, {unit}", unit=pen.unit(LOAD))),
            pen.write(say("in the box, {unit}", unit=pen.unit(LOAD))),
            pen.write(say("Date")),
        ),
        rows=tuple(_row(body, box, pen) for body, box in _written(job)),
        words=(1, 5),
    )
    return reader.section(title, table, *_told(job, pen))


def _written(job: JobSoFar) -> Iterator[tuple[Written, str]]:
    """Yield everything with its box; the end of the field once for each box."""
    bodies = [body for kind in KINDS for body in job.way.of(kind)]
    for body in sorted(bodies, key=lambda each: each.at.value):
        boxes = [left.box for left in body.left] if isinstance(body, sown.Finished) else [body.box]
        yield from ((body, box) for box in boxes)


def _row(body: Written, box: str, pen: Pen) -> tuple[Cell, ...]:
    what, put, inside = _said(body, box, pen)
    day = getattr(body, "day", None)
    return (
        pen.cell(what),
        pen.cell(box or None),
        pen.number(body.at.value, FIELD),
        put,
        inside,
        pen.cell(pen.style.dated(day) if day else None),
    )


def _said(body: Written, box: str, pen: Pen) -> tuple[Phrase, Cell, Cell]:
    none = pen.cell(None)
    match body:
        case sown.Load():
            put = weight_of(body)
            weighed = pen.number(put, LOAD, 4) if put else _share(body.mark, pen)
            return say("load"), weighed, _inside(body.left, body.level, pen)
        case sown.Level():
            return say("level"), none, _inside(body.left, body.level, pen)
        case sown.Moved():
            return say("lever to {setting}", setting=Figure(number(body.setting))), none, none
        case _:
            left = next(each.weight for each in body.left if each.box == box)
            return say("left at the end"), none, pen.number(left.value, LOAD, 4)


def _inside(left: Typed | None, level: Typed | None, pen: Pen) -> Cell:
    return pen.number(left.value, LOAD, 4) if left else _share(level, pen)


def _share(part: Typed | None, pen: Pen) -> Cell:
    """Write how full a box was, as it was typed."""
    return Cell(pen.typed(part, SHARE)) if part else pen.cell(None)


def _told(job: JobSoFar, pen: Pen) -> Iterator[Block]:
    """Say what every box has laid down, once it is known."""
    for each in job.sown.boxes if job.sown else ():
        said: Value = each.closed.say if each.closed else each.found.say
        yield Words(
            pen.write(say("{box}: {said}", box=each.name, said=said) if each.name else said)
        )
