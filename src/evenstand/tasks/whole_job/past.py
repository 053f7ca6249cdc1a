"""What a drill has shown before, in other jobs with the same seed from the same box."""

from collections.abc import Iterator
from itertools import islice

from evenstand.book.book import Book
from evenstand.book.kinds import machine, work
from evenstand.book.storage.thing import Thing
from evenstand.engine.calibration.chart import Chart
from evenstand.engine.catch.rate import measure
from evenstand.engine.catch.weighing import WeighScale
from evenstand.engine.quantities.errors import MeasurementError

from ..drill.machines import prior
from ..job.kept import Kept, catch_body, catch_made, find, job_drill, job_wheel, scales_of

MOST_JOBS, MOST_CATCHES = 20, 12  # the latest ones; older ones say little more


def earlier_rates(book: Book, kept: Kept, *, with_test_weight: bool) -> tuple[Chart, ...]:
    """Return the stand rates of earlier catches, newest first, each as a chart of one point.

    Parameters
    ----------
    kept : Kept
        The job that is being set. Without a seed named there is nothing to look for.
    with_test_weight : bool
        Whether this seed's test weight is known: only catches whose seed's is
        known or unknown too can be compared with it.
    """
    if kept.wanted is None or not kept.wanted.seed or kept.drill_id is None:
        return ()
    rates = (
        rate
        for thing in book.things("job", of=kept.drill_id, limit=MOST_JOBS)
        if (past := _same_seed(book, thing, kept))
        and bool(past.wanted and past.wanted.test_weight) == with_test_weight
        for rate in _rates(past)
    )
    return tuple(islice(rates, MOST_CATCHES))


def _same_seed(book: Book, thing: Thing, kept: Kept) -> Kept | None:
    """Return an earlier job that sowed the same seed from the same box."""
    job, wanted = thing.body, kept.wanted
    if thing.id == kept.thing.id or not isinstance(job, work.Job) or wanted is None:
        return None
    for other in job.wanted:
        if other.box == wanted.box and other.seed.casefold() == wanted.seed.casefold():
            return find(book, thing.id, box=other.box)
    return None


def _rates(past: Kept) -> Iterator[Chart]:
    if past.drill is None or past.wanted is None:
        return
    weight = past.wanted.test_weight.value if past.wanted.test_weight else None
    bodies = [catch_body(thing) for thing in past.catches]
    scales = scales_of(past.body, bodies)
    for body, scale in reversed(list(zip(bodies, scales, strict=True))):
        rate = _stand_rate(past, body, drill=past.drill, scale=scale)
        if rate is not None:
            setting, gear, value = rate
            yield Chart(points=((setting, value),), gear=gear, test_weight=weight)


def _stand_rate(
    past: Kept, body: work.Catch, *, drill: machine.Drill, scale: WeighScale
) -> tuple[float, str, float] | None:
    """Measure an earlier catch as that of all rows; None where it cannot be, or was in work."""
    try:
        rows = job_drill(past)
        made = catch_made(past, body, drill=rows, wheel=job_wheel(past), scale=scale)
        if made.run.in_field or not made.counts:
            return None
        found = measure(
            [made.bags],
            run=made.run,
            drill=rows,
            scale=scale,
            prior=prior(drill),
        )
    except MeasurementError:
        return None
    return made.setting, made.gear.name, found.static.value / rows.sown_share
