"""A season of a book: its jobs, its drills, and the seed of each species."""

from collections.abc import Iterable, Iterator
from contextlib import nullcontext, suppress
from dataclasses import dataclass, field, replace
from datetime import datetime
from functools import lru_cache

from evenstand.book.book import Book
from evenstand.book.errors import BookError
from evenstand.book.kinds import work
from evenstand.engine.catch.target import odds_in_words
from evenstand.engine.drill.drill import number
from evenstand.engine.quantities.phrases import Figure, Phrase, Value, say, series
from evenstand.engine.quantities.units import FIELD, LOAD, PLANTS, RATE
from evenstand.engine.seed.tag import Month
from evenstand.engine.statistics.budget import Quantity, nominal, ranged, total
from evenstand.report.document import Cell, Printed, Section, Table
from evenstand.report.pen import Pen

from ..whole_job.achieved import achieved
from ..whole_job.gather import BoxSet, JobSoFar, days_sown, gather
from ..whole_job.made_at import moment
from .frame import RANGES, Reader
from .frozen import standing, versions
from .stand import plants

ON_PAGE = 60  # jobs in the tables of a page
REMEMBERED = 4_096  # jobs
MOST_NAMED = 10  # jobs beside the seed of a species
Row = tuple[Cell, ...]


@dataclass(frozen=True, kw_only=True)
class Line:
    """What a season tells of one job: its ground [m²], its rows, and seed by species [kg]."""

    name: str
    made: datetime
    planned: Quantity | None
    ground: Quantity | None
    catches: int
    row: Row
    sets: tuple[Row, ...]
    seed: tuple[tuple[str, Quantity, Quantity], ...]
    whole: bool = True


@dataclass(frozen=True)
class Asked:
    """A job of a season for one reader: known again by what it rests on.

    ``frozen`` is the fingerprint of its record; empty where ``now`` tells which book it is, and
    how far.
    """

    job: str
    frozen: str
    now: tuple[int, int]
    today: Month
    as_read: tuple[str, ...]
    book: Book = field(compare=False)
    reader: Reader = field(compare=False)


def seasons(book: Book) -> tuple[str, ...]:
    """Return the seasons that jobs name, the newest first."""
    names = (t.body.season for t in book.things("job") if isinstance(t.body, work.Job))
    return tuple(dict.fromkeys(names))


def season(
    book: Book, name: str, reader: Reader, *, today: Month, page: int | None = None
) -> Printed:
    """Write the summary of a season.

    Parameters
    ----------
    name : str
        As the jobs name it; empty for those that name none.
    today : Month
        For the age of tests.
    page : int, optional
        Which jobs stand in its tables, `ON_PAGE` at a time, 1 for the first; all of them without.
        Totals are those of all jobs.
    """
    things = [
        t for t in book.things("job") if isinstance(t.body, work.Job) and t.body.season == name
    ]
    jobs = tuple(_line_of(book, t.id, reader, today=today) for t in reversed(things))
    shown = jobs if page is None else jobs[(page - 1) * ON_PAGE : page * ON_PAGE]
    pen = reader.pen
    return reader.document(
        "season",
        title=say("Season"),
        about=name or pen.write(say("no season entered")),
        lead=_lead(jobs),
        facts=[pen.fact(each, value) for each, value in _facts(jobs, pen)],
        sections=list(_sections(jobs, shown, reader)),
        foot=(RANGES, *_not_whole(jobs)),
        made=max((job.made for job in jobs), default=moment(0)),
    )


def _not_whole(jobs: tuple[Line, ...]) -> tuple[Phrase, ...]:
    """Say which finished jobs are told as the book is now."""
    names = [job.name for job in jobs if not job.whole]
    if not names:
        return ()
    text = "Not fully synced yet, so shown as the book is now: {names}."
    return (say(text, names=_jobs_named(names)),)


def pages(book: Book, name: str) -> int:
    """Count the pages that the tables of a season take."""
    bodies = [thing.body for thing in book.things("job")]
    jobs = sum(isinstance(each, work.Job) and each.season == name for each in bodies)
    return max(1, -(-jobs // ON_PAGE))


def _line_of(book: Book, job: str, reader: Reader, *, today: Month) -> Line:
    """Gather a job: as its record was frozen, else as the book is now."""
    style = reader.style
    as_read = (style.system, style.decimal, style.thousands, reader.language)
    if known := versions(book, job):
        month, sha256 = known[-1].month, known[-1].body.sha256
        with suppress(BookError):  # not all that it rests on has come here yet
            return _line(Asked(job, sha256, (0, 0), month, as_read, book, reader))
    now = _line(Asked(job, "", (id(book), book.cursor()), today, as_read, book, reader))
    return replace(now, whole=not known)


@lru_cache(maxsize=REMEMBERED)
def _line(asked: Asked) -> Line:
    """Remember what the same entries came to: a season asks for all its jobs again and again."""
    stood = standing(asked.book, asked.job, today=asked.today)
    with stood if asked.frozen else nullcontext((asked.book, asked.today)) as (book, today):
        job, pen = gather(book, asked.job, today=today), asked.reader.pen
        found = [each for each in achieved(job) if each.whole is not None]
        return Line(
            name=job.kept.body.name,
            made=job.made,
            planned=job.planned,
            ground=job.ground,
            catches=sum(len(each.kept.catches) for each in job.sets),
            row=_job(job, pen),
            sets=tuple(_set(job, each, pen) for each in job.sets),
            seed=tuple((each.name, each.whole or 0.0, each.whole_pls or 0.0) for each in found),
        )


def _lead(jobs: tuple[Line, ...]) -> Phrase:
    sown = [job.ground for job in jobs if job.ground is not None]
    if not jobs:
        return say("No jobs yet.")
    n = say("1 job") if len(jobs) == 1 else say("{n} jobs", n=len(jobs))
    if not sown:
        return say("{jobs}; no seeded area entered.", jobs=n)
    return say("{jobs}, {ground} seeded.", jobs=n, ground=FIELD(nominal(total(sown))))


def _facts(jobs: tuple[Line, ...], pen: Pen) -> Iterator[tuple[Value, Value | Cell | None]]:
    planned = [job.planned for job in jobs if job.planned is not None]
    sown = [job.ground for job in jobs if job.ground is not None]
    yield say("Jobs"), str(len(jobs))
    yield say("Area planned"), pen.amount(total(planned), FIELD) if planned else None
    yield say("Area seeded"), pen.amount(total(sown), FIELD) if sown else None
    yield say("Catches"), str(sum(job.catches for job in jobs))


def _sections(jobs: tuple[Line, ...], shown: tuple[Line, ...], reader: Reader) -> Iterator[Section]:
    if not jobs:
        return
    yield reader.section(say("Jobs"), _jobs(shown, reader.pen))
    yield reader.section(say("Lever settings"), _settings(shown, reader.pen))
    seed = _seed(jobs, reader.pen)
    if seed.rows:
        yield reader.section(say("Seed planted"), seed)


def _jobs(jobs: tuple[Line, ...], pen: Pen) -> Table:
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
        rows=tuple(job.row for job in jobs),
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
        pen.cell(next((pen.style.dated(day) for day in days_sown(job.said, job.way) if day), None)),
        pen.ranged(came.range if came else None, PLANTS),
    )


def _settings(jobs: tuple[Line, ...], pen: Pen) -> Table:
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
        rows=tuple(row for job in jobs for row in job.sets),
        words=(1, 2, 5),
    )


def _set(job: JobSoFar, found: BoxSet, pen: Pen) -> tuple[Cell, ...]:
    wanted, chosen = found.kept.wanted, found.chosen
    rate, weighed = job.achieved(found.name)
    return (
        Cell(job.kept.body.name),
        pen.cell(found.name or None),
        pen.cell(pen.style.listed(wanted.seed) if wanted and wanted.seed else None),
        pen.number(wanted.rate.value if wanted else None, RATE),
        pen.cell(Figure(number(chosen.setting)) if chosen else None),
        pen.cell(odds_in_words(chosen.odds) if chosen and chosen.odds else None),
        pen.ranged(ranged(rate) if weighed and rate is not None else None, RATE),
    )


def _seed(jobs: tuple[Line, ...], pen: Pen) -> Table:
    """Write the seed of each species that went on ground which is written down."""
    found: dict[str, list[tuple[str, Quantity, Quantity]]] = {}
    for job in jobs:
        for species, whole, pls in job.seed:
            found.setdefault(species, []).append((job.name, whole, pls))
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
                pen.ranged(ranged(total(whole for _, whole, _ in each)), LOAD),
                pen.ranged(ranged(total(pls for _, _, pls in each)), LOAD),
                pen.cell(_jobs_named(dict.fromkeys(job for job, _, _ in each))),
            )
            for name, each in found.items()
        ),
        words=(3,),
    )


def _jobs_named(names: Iterable[str]) -> Phrase:
    """Name some jobs; how many more where they are many."""
    known = list(names)
    if len(known) <= MOST_NAMED:
        return series(known)
    return say(
        "{names} and {n} more", names=", ".join(known[:MOST_NAMED]), n=len(known) - MOST_NAMED
    )
