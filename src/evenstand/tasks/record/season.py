"""A season of a book: its jobs, its drills, and the seed of each species."""

from collections.abc import Iterator
from dataclasses import dataclass

from evenstand.book import work
from evenstand.book.book import Book
from evenstand.engine.catch.target import odds_in_words
from evenstand.engine.drill.drill import number
from evenstand.engine.quantities.phrases import Figure, Phrase, Value, say, series
from evenstand.engine.quantities.units import FIELD, LOAD, PLANTS, RATE
from evenstand.engine.seed.tag import Month
from evenstand.engine.statistics.budget import nominal, ranged, total
from evenstand.report.document import Cell, Printed, Section, Table
from evenstand.report.pen import Pen

from ..whole_job.achieved import Achieved, achieved
from ..whole_job.gather import BoxSet, JobSoFar, days_sown, gather
from ..whole_job.made_at import moment
from .frame import RANGES, Reader
from .stand import plants

MOST_JOBS = 60


@dataclass(frozen=True, kw_only=True)
class Season:
    """Jobs of one season, the oldest first; ``name`` is empty for jobs of none."""

    name: str
    jobs: tuple[JobSoFar, ...]


def seasons(book: Book) -> tuple[str, ...]:
    """Return the seasons that jobs name, the newest first."""
    names = (t.body.season for t in book.things("job") if isinstance(t.body, work.Job))
    return tuple(dict.fromkeys(names))


def season(book: Book, name: str, reader: Reader, *, today: Month) -> Printed:
    """Write the summary of a season.

    Parameters
    ----------
    name : str
        As the jobs name it; empty for those that name none.
    today : Month
        For the age of tests.
    """
    things = [
        t for t in book.things("job") if isinstance(t.body, work.Job) and t.body.season == name
    ]
    jobs = tuple(gather(book, t.id, today=today) for t in reversed(things[:MOST_JOBS]))
    pen = reader.pen
    return reader.document(
        "season",
        title=say("Season"),
        about=name or pen.write(say("no season entered")),
        lead=_lead(jobs),
        facts=[pen.fact(each, value) for each, value in _facts(jobs, pen)],
        sections=list(_sections(jobs, reader)),
        foot=(RANGES, *_left_out(len(things))),
        made=max((job.made for job in jobs), default=moment(0)),
    )


def _left_out(jobs: int) -> tuple[Phrase, ...]:
    """Say where not all jobs stand here."""
    if jobs <= MOST_JOBS:
        return ()
    return (say("Only the newest {n} of {jobs} jobs are shown.", n=MOST_JOBS, jobs=jobs),)


def _lead(jobs: tuple[JobSoFar, ...]) -> Phrase:
    sown = [job.ground for job in jobs if job.ground is not None]
    if not jobs:
        return say("No jobs yet.")
    n = say("1 job") if len(jobs) == 1 else say("{n} jobs", n=len(jobs))
    if not sown:
        return say("{jobs}; no seeded area entered.", jobs=n)
    return say("{jobs}, {ground} seeded.", jobs=n, ground=FIELD(nominal(total(sown))))


def _facts(jobs: tuple[JobSoFar, ...], pen: Pen) -> Iterator[tuple[Value, Value | Cell | None]]:
    planned = [job.planned for job in jobs if job.planned is not None]
    sown = [job.ground for job in jobs if job.ground is not None]
    yield say("Jobs"), str(len(jobs))
    yield say("Area planned"), pen.amount(total(planned), FIELD) if planned else None
    yield say("Area seeded"), pen.amount(total(sown), FIELD) if sown else None
    yield say("Catches"), str(sum(len(each.kept.catches) for job in jobs for each in job.sets))


def _sections(jobs: tuple[JobSoFar, ...], reader: Reader) -> Iterator[Section]:
    if not jobs:
        return
    yield reader.section(say("Jobs"), _jobs(jobs, reader.pen))
    yield reader.section(say("Lever settings"), _settings(jobs, reader.pen))
    seed = _seed(jobs, reader.pen)
    if seed.rows:
        yield reader.section(say("Seed planted"), seed)


def _jobs(jobs: tuple[JobSoFar, ...], pen: Pen) -> Table:
    return Table(
        caption=pen.write(say("This season's jobs")),
        heads=(
            pen.write(say("Job")),
            pen.write(say("Field")),
            pen.write(say("Drill")),
            pen.write(say("planned, {unit}", unit=pen.unit(FIELD))),
            pen.write(say("seeded, {unit}", unit=pen.unit(FIELD))),
            pen.write(say("Seeded on")),
            pen.write(say("Stand, {unit}", unit=pen.unit(PLANTS))),
        ),
        rows=tuple(_job(job, pen) for job in jobs),
        words=(1, 2, 5),
    )


def _job(job: JobSoFar, pen: Pen) -> tuple[Cell, ...]:
    came, kept = plants(job), job.kept
    return (
        Cell(kept.body.name),
        pen.cell(kept.field.name if kept.field else None),
        pen.cell(kept.drill.name if kept.drill else None),
        pen.number(job.planned, FIELD),
        pen.number(job.ground, FIELD),
        pen.cell(next((day for day in days_sown(job.said, job.way) if day), None)),
        pen.ranged(came.range if came else None, PLANTS),
    )


def _settings(jobs: tuple[JobSoFar, ...], pen: Pen) -> Table:
    return Table(
        caption=pen.write(say("What each box was set to")),
        heads=(
            pen.write(say("Job")),
            pen.write(say("Box")),
            pen.write(say("Seed")),
            pen.write(say("Target rate, {unit}", unit=pen.unit(RATE))),
            pen.write(say("Lever")),
            pen.write(say("Within tolerance")),
            pen.write(say("seeded, {unit}", unit=pen.unit(RATE))),
        ),
        rows=tuple(_set(job, each, pen) for job in jobs for each in job.sets),
        words=(1, 2, 5),
    )


def _set(job: JobSoFar, found: BoxSet, pen: Pen) -> tuple[Cell, ...]:
    wanted, chosen = found.kept.wanted, found.chosen
    rate, weighed = job.achieved(found.name)
    return (
        Cell(job.kept.body.name),
        pen.cell(found.name or None),
        pen.cell(wanted.seed if wanted and wanted.seed else None),
        pen.number(wanted.rate.value if wanted else None, RATE),
        pen.cell(Figure(number(chosen.setting)) if chosen else None),
        pen.cell(odds_in_words(chosen.odds) if chosen and chosen.odds else None),
        pen.ranged(ranged(rate) if weighed and rate is not None else None, RATE),
    )


def _seed(jobs: tuple[JobSoFar, ...], pen: Pen) -> Table:
    """Write the seed of each species that went on ground which is written down."""
    found: dict[str, list[tuple[JobSoFar, Achieved]]] = {}
    for job in jobs:
        for each in achieved(job):
            if each.whole is not None:
                found.setdefault(each.name, []).append((job, each))
    return Table(
        caption=pen.write(say("Total seed of each species")),
        heads=(
            pen.write(say("Species")),
            pen.write(say("bulk, {unit}", unit=pen.unit(LOAD))),
            pen.write(say("PLS, {unit}", unit=pen.unit(LOAD))),
            pen.write(say("Jobs")),
        ),
        rows=tuple(
            (
                pen.cell(name),
                pen.ranged(ranged(total(e.whole or 0.0 for _, e in each)), LOAD),
                pen.ranged(ranged(total(e.whole_pls or 0.0 for _, e in each)), LOAD),
                pen.cell(series(dict.fromkeys(j.kept.body.name for j, _ in each))),
            )
            for name, each in found.items()
        ),
        words=(3,),
    )
