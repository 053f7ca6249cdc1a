"""The Stand step of a kept job: its counts judged, with what came up in other jobs of the book."""

from collections.abc import Iterator
from itertools import islice

from evenstand.book.book import Book
from evenstand.book.kinds import work
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.seed.tag import Month
from evenstand.engine.stand.learned import Season
from evenstand.engine.statistics.budget import nominal

from ..boxes.kept import body_of
from ..job.kept import Kept, find
from .kept import bodies_of, counts_of, known_beside, places_counted, where, wish_of
from .next_season import GUESSED, Earlier
from .seed_down import SeedDown, seed_down
from .stand import Stood, emergences, judge

MOST_JOBS = 40  # of one field, as far back as is looked
MOST_COUNTS = 200  # of all fields, as far back as is looked
MOST_STANDS = 12  # of this field, and of others: older ones say little more


def read_kept_stand(book: Book, kept: Kept, *, today: Month) -> tuple[Stood, SeedDown]:
    """Judge the counts of a job, with the seed they came of and earlier counts of the book.

    Parameters
    ----------
    today : Month
        For the age of tests.

    Raises
    ------
    MeasurementError
        For counts that cannot be judged; ``places`` for a job without a count.
    """
    down = _down(book, kept, today=today)
    return stand_alone(book, kept, down, earlier=emerged(book, kept, today=today)), down


def stand_alone(
    book: Book, kept: Kept, down: SeedDown | None = None, *, earlier: tuple[Earlier, ...] = ()
) -> Stood:
    """Judge the counts of a job beside what is given of its seed and of earlier counts.

    Raises
    ------
    MeasurementError
        As `read_kept_stand`.
    """
    places = places_counted(book, kept)
    return judge(places, known_beside(book, kept, down, earlier=earlier))


def _down(book: Book, kept: Kept, *, today: Month) -> SeedDown:
    said = body_of(wish_of(book, kept.thing.id), work.StandWish)
    return seed_down(book, kept.thing.id, said=said, today=today)


def emerged(book: Book, kept: Kept, *, today: Month) -> tuple[Earlier, ...]:
    """Return what came up of the same species in other jobs of the book.

    The latest of the same field, then the latest of others. Plants that were
    not told apart stand for a species only where the job names one seed, the
    same as here.

    Parameters
    ----------
    today : Month
        For the age of tests.
    """
    names, seed = _counted(book, kept.thing.id), _seed_of(kept)

    def came(jobs: Iterator[str]) -> Iterator[list[Earlier]]:
        for job in jobs:
            other = _there(book, job)
            if other is None:
                continue
            told = names if seed and _seed_of(other) == seed else names - {""}
            if told & _counted(book, job) and (up := list(_up(book, other, told, today=today))):
                yield up

    own = dict.fromkeys(_of_field(book, kept))
    others = (job for job in _latest(book) if job not in own and job != kept.thing.id)
    found = [*islice(came(iter(own)), MOST_STANDS), *islice(came(others), MOST_STANDS)]
    return tuple(each for came_up in found for each in came_up)


def _of_field(book: Book, kept: Kept) -> Iterator[str]:
    """Yield the jobs of the same field that were counted, the latest first."""
    if kept.body.field is None:
        return
    ids = [thing.id for thing in book.things("job", of=kept.body.field, limit=MOST_JOBS)]
    counted = book.many.newest("count", of=ids)
    yield from (id for id in ids if id in counted and id != kept.thing.id)


def _latest(book: Book) -> Iterator[str]:
    """Yield the jobs that were counted, the latest first."""
    counts = bodies_of(book.things("count", limit=MOST_COUNTS))
    yield from dict.fromkeys(count.job for count in counts)


def _counted(book: Book, job: str) -> set[str]:
    """Return the species that were counted; a name that is empty for all plants together."""
    counts = bodies_of(counts_of(book, job))
    return {seen.species for count in counts for place in count.places for seen in place.plants}


def _there(book: Book, job: str) -> Kept | None:
    try:
        found = find(book, job)
    except MeasurementError:
        return None
    return None if found.thing.removed else found


def _seed_of(kept: Kept) -> str | None:
    seeds = {wanted.seed.casefold() for wanted in kept.body.wanted}
    return seeds.pop() if len(seeds) == 1 and seeds != {""} else None


def _up(book: Book, kept: Kept, names: set[str], *, today: Month) -> Iterator[Earlier]:
    try:
        down = _down(book, kept, today=today)
        found = emergences(places_counted(book, kept), known_beside(book, kept, down))
    except MeasurementError:
        return
    for name, share in found.items():
        if name not in names or not 0 < share.value < 1:
            continue
        seeds = down.seeds.get(name, down.whole)
        season = Season(field=where(kept), emergence=share.value, u=share.u or GUESSED)
        yield Earlier(species=name, season=season, seeds=nominal(seeds), guessed=not share.u)
