"""The stand of a record: what came up, by the counts of plants."""

from evenstand.book.work import StandCount
from evenstand.engine.emergence_usual import UNKNOWN
from evenstand.engine.errors import MeasurementError
from evenstand.engine.stand_mix import Sown
from evenstand.engine.units import PLANTS, SHARE
from evenstand.engine.words import say
from evenstand.report.document import Cell, Points, Section, Table, Words
from evenstand.report.pen import Pen

from .kept import job_drill
from .kept_count import places_of
from .record_achieved import achieved
from .record_frame import Reader
from .record_gather import JobSoFar
from .record_seed import NOT_WRITTEN
from .stand import Known, OfSpecies, Stood, judge


def stood(job: JobSoFar) -> Stood | None:
    """Judge all counts of a job, with the live seed that went on the ground; None without any."""
    counts = [thing.body for thing in job.counts if isinstance(thing.body, StandCount)]
    if not counts:
        return None
    spacing = job_drill(job.kept).spacing if job.kept.drill else None
    sown = tuple(Sown(name=each.name, seeds=each.live, usual=UNKNOWN) for each in achieved(job))
    try:
        return judge(places_of(counts, spacing=spacing), Known(sown=sown))
    except MeasurementError:
        return None


def stand_section(job: JobSoFar, reader: Reader) -> Section:
    """Write plants per ground and what came up of the live seed."""
    pen, title, found = reader.pen, say("Stand"), stood(job)
    if found is None:
        return reader.section(title, Words(pen.write(NOT_WRITTEN)))
    days = sorted(
        {
            thing.body.day
            for thing in job.counts
            if isinstance(thing.body, StandCount) and thing.body.day
        }
    )
    facts = pen.facts(
        (
            (say("Counted on"), ", ".join(days)),
            (say("Places"), str(found.stand.places)),
            (say("All plants"), pen.amount(found.stand.range, PLANTS)),
        )
    )
    table = Table(
        caption=pen.write(say("Plants by species")),
        heads=(
            pen.write(say("Species")),
            pen.unit(PLANTS),
            pen.write(say("came up of the live seed, %")),
        ),
        rows=tuple(_row(each, pen) for each in found.species),
    )
    told = Points(tuple(pen.write(each) for each in found.advice[1:]))
    return reader.section(title, facts, table, told)


def _row(each: OfSpecies, pen: Pen) -> tuple[Cell, ...]:
    share = each.emergence.share if each.emergence else None
    return (
        pen.cell(each.name or say("all plants")),
        pen.ranged(each.stand.range, PLANTS),
        pen.ranged(share, SHARE),
    )
