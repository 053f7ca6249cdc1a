"""A count of a lot as it is typed: into what is kept, what it comes to, and back."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import sqrt

from evenstand.book.seed import Lot, Sample, SeedCount
from evenstand.book.shape import Typed
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import SCALE_STEP, SEEDS, SHARE
from evenstand.engine.seed.count import PER_REPLICATE, REPLICATES, Counted, samples_for
from evenstand.engine.seed.tag import Month
from evenstand.engine.statistics.budget import (
    Estimate,
    budget,
    estimate,
    nominal,
    standard_uncertainty,
)

from ..parsing.given import Given
from ..parsing.writing import Writing, as_typed
from .kept import read_kept

MOST_SAMPLES, MOST_WEIGHTS = 8, 2 * REPLICATES
WITHIN = 0.03  # range wanted of a count where nobody said
FIELDS = {"counted": "sample1_weight", "replicates": "weight1"}


@dataclass(frozen=True, kw_only=True)
class CountSheet:
    """What a count comes to: seeds in a weight [1/kg], and the samples for a wanted range.

    ``reach`` is half its range as a share of it. ``needed`` are samples in all
    for ``within``, None where no number of them is enough.
    """

    counted: Counted
    range: Estimate
    reach: float
    samples: int
    within: float
    needed: int | None

    @property
    def more(self) -> int:
        """Samples still to count for the range wanted."""
        return 0 if self.needed is None else self.needed - self.samples


def read_count_form(given: Given, *, lot_id: str, lot: Lot, today: Month) -> SeedCount:
    """Read a count from the fields of its form.

    Parameters
    ----------
    given : Given
        ``way``: samples, with ``sample1_seeds`` and ``sample1_weight``…, or
        replicates, with ``weight1``…; ``unit`` of all weights, ``resolution``.

    Raises
    ------
    RefusalsError or MeasurementError
        Each under the field it was typed in.
    """
    form = Writing(given)
    replicates = form.text("way") == "replicates"
    samples = tuple(_replicates(form) if replicates else _samples(form))
    if not samples and replicates:
        form.refuse(given.refuse("weight1", say("weigh {n} times 100 seeds", n=REPLICATES)))
    elif not samples:
        need = say("give at least one count and its weight")
        form.refuse(given.refuse("sample1_seeds", need))
    count = SeedCount(
        lot=lot_id,
        samples=samples,
        way="replicates" if replicates else "samples",
        resolution=_weight(form, "resolution")
        if form.text("resolution") and not replicates
        else None,
        note=form.text("note"),
    )
    form.done()
    try:
        read_kept(lot, today=today, count=count)
    except MeasurementError as refused:
        field = FIELDS.get(refused.field, refused.field)
        raise MeasurementError(field, given.texts.get(field), refused.need) from None
    return count


def _samples(form: Writing) -> Iterator[Sample]:
    for i in range(1, MOST_SAMPLES + 1):
        seeds, weight = f"sample{i}_seeds", f"sample{i}_weight"
        if form.text(seeds) or form.text(weight):
            form.name(seeds)
            number = form.count(seeds, SEEDS, otherwise=1, least=1)
            yield Sample(seeds=number, weight=_weight(form, weight))


def _replicates(form: Writing) -> Iterator[Sample]:
    for i in range(1, MOST_WEIGHTS + 1):
        if form.text(f"weight{i}"):
            yield Sample(seeds=PER_REPLICATE, weight=_weight(form, f"weight{i}"))


def _weight(form: Writing, key: str) -> Typed:
    """Read a weight; a bare number takes the unit of the form."""

    def read() -> Typed:
        text, unit = form.given.text(key), form.text("unit")
        bare = unit and not any(letter.isalpha() for letter in text)
        given = form.given.piece(key, f"{text} {unit}" if bare else text)
        found = given.reading(key, SCALE_STEP)
        if not found.value > 0 or found.give_or_take:
            raise given.refuse(key, say("give a weight above 0, without ±"))
        return as_typed(found)

    return form.attempt(read, otherwise=Typed(value=1.0))


def read_within(given: Given) -> float:
    """Read the range that is wanted of a count, as a share.

    Raises
    ------
    MeasurementError
        For a share that is not above 0 % and below 100 %.
    """
    if "within" not in given:
        return WITHIN
    found = given.reading("within", SHARE)
    if not 0 < found.value < 1 or found.give_or_take:
        raise given.refuse("within", say("give a share above 0 % and below 100 %"))
    return found.value


def count_sheet(
    lot: Lot, count: SeedCount, *, today: Month, within: float = WITHIN
) -> CountSheet | None:
    """Work out what a count comes to, and how many more samples a range needs.

    Raises
    ------
    MeasurementError
        As `read_kept` does.
    """
    counted = read_kept(lot, today=today, count=count).count
    if counted is None:
        return None
    found = counted.seeds_per_kg
    value, relative = nominal(found), standard_uncertainty(found) / nominal(found)
    ranged = estimate(found, budget(found, counted.causes))
    samples = len(count.samples) - len(counted.dropped)
    cv = relative * sqrt(samples)
    needed = samples_for(within, cv=cv, dof=counted.dof, samples=samples) if relative else None
    return CountSheet(
        counted=counted,
        range=ranged,
        reach=(ranged.high - value) / value,
        samples=samples,
        within=within,
        needed=needed,
    )


def count_texts(count: SeedCount) -> dict[str, str]:
    """Return the fields of the form as they were filled in."""
    texts = {"way": count.way, "note": count.note}
    texts |= {"resolution": count.resolution.text} if count.resolution else {}
    for i, sample in enumerate(count.samples, 1):
        if count.way == "replicates":
            texts[f"weight{i}"] = sample.weight.text
        else:
            texts |= {
                f"sample{i}_seeds": str(sample.seeds),
                f"sample{i}_weight": sample.weight.text,
            }
    return texts
