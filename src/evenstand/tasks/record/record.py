"""The record of a job: what was planned, what was done, what came of it, to be signed."""

from collections.abc import Iterator
from math import isclose

from evenstand.book.book import Book
from evenstand.book.kinds import work
from evenstand.engine.quantities.phrases import Iso, Phrase, Value, say
from evenstand.engine.quantities.units import FIELD, SHARE, SPACING
from evenstand.engine.seed.tag import Month
from evenstand.engine.statistics.budget import Quantity, nominal
from evenstand.report.document import Block, Cell, Printed, Section, Signatures, Words
from evenstand.report.pen import Pen

from ..whole_job.gather import JobSoFar, days_sown, gather
from .achieved import achieved_section
from .boxes import set_section, used_section
from .frame import RANGES, Reader
from .seed import mix_section, seed_section
from .sow import sow_section
from .stand import stand_section

# What the fields of the record follow; read in documents of state offices, 2006 to 2020.
SOURCE = say(
    "These fields follow what USDA NRCS asks you to document for practices 327, "
    "340, 342, 512 and 550 (Field Office Technical Guide, section IV). Ask your "
    "local office what else it needs."
)
KEEP = say("Keep the tags: they are the record of the seed.")
SOILS = {
    "firm": say("firm"),
    "loose": say("loose"),
    "wet": say("wet"),
    "residue": say("residue"),
}
Named = tuple[Value, Value | Cell | None]


def record(book: Book, job: str, reader: Reader, *, today: Month) -> Printed:
    """Write the record of a job, as far as it is.

    Parameters
    ----------
    job : str
        Id of the job.
    today : Month
        For the age of tests.

    Raises
    ------
    MeasurementError
        For a job that is not there.
    """
    so_far = gather(book, job, today=today)
    pen = reader.pen
    return reader.document(
        "record",
        title=say("Seeding record"),
        about=so_far.kept.body.name,
        lead=_lead(so_far),
        facts=[pen.fact(name, value) for name, value in _facts(so_far, pen)],
        sections=list(_sections(so_far, reader, today=today)),
        foot=(RANGES, SOURCE, KEEP),
        made=so_far.made,
        author=so_far.said.producer,
    )


def _lead(job: JobSoFar) -> Phrase:
    """Say what was sown, where and when; or that nobody wrote it down."""
    where = job.kept.field.name if job.kept.field else job.kept.body.name
    days = days_in_words(*days_sown(job.said, job.way))
    if days is None:
        return say("{where}: no seeding entered yet.", where=where)
    ground = FIELD(nominal(job.ground)) if job.ground is not None else None
    if ground is None:
        return say("{where} seeded {days}.", where=where, days=days)
    return say("{ground} of {where} seeded {days}.", ground=ground, where=where, days=days)


def days_in_words(first: str | None, last: str | None) -> Phrase | None:
    """Say when it was sown, None where nobody wrote it down."""
    if first and last and first != last:
        return say("from {first} to {last}", first=Iso(first), last=Iso(last))
    day = first or last
    return say("on {day}", day=Iso(day)) if day else None


def _facts(job: JobSoFar, pen: Pen) -> Iterator[Named]:
    said, kept = job.said, job.kept
    first, last = days_sown(said, job.way)
    yield say("Producer"), said.producer
    yield say("Farm"), said.farm
    yield say("Tract"), said.tract
    yield say("Field"), kept.field.name if kept.field else None
    yield say("Practice"), said.practice
    yield say("Season"), kept.body.season
    yield say("Area planned"), _ground(job.planned, pen)
    yield say("Area seeded"), _ground(job.ground, pen)
    yield from _measured(job, pen)
    yield say("Start date"), Iso(first) if first else None
    yield say("End date"), Iso(last) if last else None
    yield say("Drill"), kept.drill.name if kept.drill else None
    yield say("Seeded by"), said.sown_by
    yield say("Depth"), pen.typed(said.depth, SPACING) if said.depth else None
    yield say("Method"), said.method
    yield say("Seedbed"), said.seedbed
    yield say("Soil and weather"), said.soil or _soil(job)
    yield say("Fertilizer"), said.fertility
    yield say("Inoculant"), said.inoculant or _inoculants(job, pen)
    yield say("Termination"), said.termination


def _soil(job: JobSoFar) -> Phrase | None:
    """Say how the ground was, as it was written at the end of the field."""
    return SOILS.get(job.way.finished.soil) if job.way.finished else None


def _measured(job: JobSoFar, pen: Pen) -> Iterator[Named]:
    """Name the other areas that are known apart, as they were typed."""
    order, done = job.way.order, job.way.finished
    if done and job.shown:
        whole = isclose(job.shown, done.at.value)
        shown = Cell(pen.typed(done.at, FIELD)) if whole else pen.amount(job.shown, FIELD)
        yield say("Area by the meter, as read"), shown
    if job.mapped:
        yield say("Area by the map"), pen.typed(job.mapped, FIELD)
    if order and order.overlap:
        yield say("Overlap planned"), pen.typed(order.overlap, SHARE)
    if job.driven is not None and nominal(job.driven) > nominal(job.ground or 0.0):
        yield say("Area the drill covered, with overlap"), pen.amount(job.driven, FIELD)


def _ground(area: Quantity | None, pen: Pen) -> Cell | None:
    return None if area is None else pen.amount(area, FIELD)


def _inoculants(job: JobSoFar, pen: Pen) -> str | None:
    """Say what the order reckoned with, where nobody wrote what was used."""
    done = job.ordered.inoculations if job.ordered else ()
    ordered = " ".join(pen.write(each.say) for each in done)
    return pen.write(say("as ordered: {what}", what=ordered)) if ordered else None


def _sections(job: JobSoFar, reader: Reader, *, today: Month) -> Iterator[Section]:
    yield seed_section(job, reader, today=today)
    yield mix_section(job, reader)
    yield set_section(job, reader)
    yield sow_section(job, reader)
    yield used_section(job, reader)
    yield achieved_section(job, reader)
    yield stand_section(job, reader)
    yield reader.section(say("Notes"), *_notes(job, reader.pen))
    yield reader.section(say("Signatures"), *_signatures(job, reader.pen))


def _notes(job: JobSoFar, pen: Pen) -> Iterator[Block]:
    things = reversed(job.book.things("note", of=job.kept.thing.id))
    bodies = [thing.body.text for thing in things if isinstance(thing.body, work.Note)]
    written = [text for text in (job.kept.body.note, job.said.note, *bodies) if text]
    for text in written or [pen.write(say("not recorded"))]:
        yield Words(text)


def _signatures(job: JobSoFar, pen: Pen) -> Iterator[Block]:
    names = job.said.signers or (pen.write(say("Producer")), pen.write(say("Checked by")))
    yield Words(pen.write(say("To the best of my knowledge, this is what was done.")))
    yield Signatures(names, pen.write(say("Date")))
