"""The stand of a record: what came up, as the Stand step says it."""

from collections.abc import Iterator

from evenstand.book.kinds.work import StandCount
from evenstand.engine.catch.target import odds_in_words
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Value, say
from evenstand.engine.quantities.units import PLANTS, SHARE
from evenstand.engine.stand.stand import Stand
from evenstand.report.document import Cell, Points, Section, Table, Words
from evenstand.report.pen import Pen

from ..stand.job import read_kept_stand, stand_alone
from ..stand.seed_down import SeedDown
from ..stand.stand import OfSpecies, Stood
from ..whole_job.gather import JobSoFar
from .frame import Reader
from .seed import NOT_WRITTEN


def stood(job: JobSoFar) -> tuple[Stood, SeedDown] | None:
    """Judge all counts of a job, with the live seed that went on the ground; None without any."""
    if not job.counts:
        return None
    try:
        return read_kept_stand(job.book, job.kept, today=job.today)
    except MeasurementError:
        return None


def plants(job: JobSoFar) -> Stand | None:
    """Return the stand alone, without what came up of the seed; None without a count."""
    if not job.counts:
        return None
    try:
        return stand_alone(job.book, job.kept).stand
    except MeasurementError:
        return None


def stand_section(job: JobSoFar, reader: Reader) -> Section:
    """Write plants per ground and what came up of the live seed."""
    pen, title, read = reader.pen, say("Stand count"), stood(job)
    if read is None:
        return reader.section(title, Words(pen.write(NOT_WRITTEN)))
    found, down = read
    table = Table(
        caption=pen.write(say("Plants by species")),
        heads=(
            pen.write(say("Species")),
            pen.unit(PLANTS),
            pen.write(say("came up, % of live seed")),
        ),
        rows=tuple(_row(each, pen) for each in found.species),
    )
    told = Points(tuple(pen.write(each) for each in found.advice[1:]))
    known = (Words(pen.write(each), quiet=True) for each in down.known)
    return reader.section(title, pen.facts(_facts(job, found, pen)), table, *known, told)


def _facts(job: JobSoFar, found: Stood, pen: Pen) -> Iterator[tuple[Value, Value | Cell | None]]:
    bodies = [thing.body for thing in job.counts if isinstance(thing.body, StandCount)]
    days = sorted({body.day for body in bodies if body.day})
    yield say("Counted on"), ", ".join(pen.style.dated(day) for day in days)
    yield say("Spots"), str(found.stand.places)
    yield say("All plants"), pen.amount(found.stand.range, PLANTS)
    if found.wish is not None and found.odds is not None:
        yield say("Goal"), PLANTS(found.wish)
        yield say("Odds of meeting the goal"), odds_in_words(found.odds)


def _row(each: OfSpecies, pen: Pen) -> tuple[Cell, ...]:
    share = each.emergence.share if each.emergence else None
    return (
        pen.cell(each.name or say("all plants")),
        pen.ranged(each.stand.range, PLANTS),
        pen.ranged(share, SHARE),
    )
