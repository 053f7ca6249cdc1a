"""A count of a lot as it is typed: into what is kept, what it comes to, and back."""

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import sqrt
from typing import Any

from evenstand.book.kinds.details import detail
from evenstand.book.kinds.seed import Lot, Sample, SeedCount
from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import SHARE
from evenstand.engine.seed.count import PER_REPLICATE, REPLICATES, Counted, samples_for
from evenstand.engine.seed.tag import Month
from evenstand.engine.statistics.budget import (
    Estimate,
    budget,
    estimate,
    nominal,
    standard_uncertainty,
)

from ..parsing.given import Given, lent
from ..parsing.structs import amount, keys, numbered, read, texts
from ..parsing.writing import Writing
from .kept import read_kept

MOST_SAMPLES, MOST_WEIGHTS = 8, 2 * REPLICATES
WITHIN = 0.03  # range wanted of a count where nobody said
_WEIGHT = re.compile(r"sample\d+_weight|weight\d+|resolution")


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
    with Writing(_with_units(given)) as form:
        replicates = form.text("way") == "replicates"
        samples = tuple(_replicates(form) if replicates else _samples(form))
        if not samples and replicates:
            form.refuse(given.refuse("weight1", say("weigh 100 seeds {n} times", n=REPLICATES)))
        elif not samples:
            need = say("enter at least one count and its weight")
            form.refuse(given.refuse("sample1_seeds", need))
        own: dict[str, Any] = {"resolution": None} if replicates else {}
        way = "replicates" if replicates else "samples"
        count = read(form, SeedCount, lot=lot_id, samples=samples, way=way, **own)
    with given.pointing(counted="sample1_weight", replicates="weight1"):
        read_kept(lot, today=today, count=count)
    return count


def _with_units(given: Given) -> Given:
    """Give each bare weight the unit of the form."""
    unit, texts = given.texts.get("unit", ""), dict(given.texts)
    lended = {key: lent(text, unit) for key, text in texts.items() if _WEIGHT.fullmatch(key)}
    return replace(given, texts=texts | lended)


def _samples(form: Writing) -> Iterator[Sample]:
    for i in numbered(form.given, "sample", keys(Sample), most=MOST_SAMPLES):
        yield read(form, Sample, line=f"sample{i}_")


def _replicates(form: Writing) -> Iterator[Sample]:
    for key in (f"weight{i}" for i in range(1, MOST_WEIGHTS + 1)):
        weight = amount(form, key, detail(Sample, "weight")) if key in form.given else None
        if weight:
            yield Sample(seeds=PER_REPLICATE, weight=weight)


def read_within(given: Given) -> float:
    """Read the range that is wanted of a count, as a share.

    Raises
    ------
    MeasurementError
        For a share that is not above 0% and below 100%.
    """
    if "within" not in given:
        return WITHIN
    found = given.reading("within", SHARE)
    if not 0 < found.value < 1 or found.give_or_take:
        raise given.refuse("within", say("enter a share above 0% and below 100%"))
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
    written = texts(count)
    for i, sample in enumerate(count.samples, 1):
        if count.way == "replicates":
            written[f"weight{i}"] = sample.weight.text
        else:
            written |= texts(sample, line=f"sample{i}_")
    return written
