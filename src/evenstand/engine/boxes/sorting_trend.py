"""Sorting as a box empties: several samples of it, each with how much was out."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated

from ..quantities.errors import MeasurementError
from ..quantities.phrases import Phrase, join, say
from ..quantities.units import SHARE
from ..quantities.written import put
from ..statistics.budget import Estimate
from ..statistics.composition import Fit
from ..statistics.count_tables import Trend, contingency, linear_trend
from ..statistics.distributions import normal_quantile
from ..statistics.outliers import holm
from .filled import FilledBox
from .sample import Sample
from .sorting import FALSE_ALARM, Sorting, sorting


@dataclass(frozen=True, slots=True, kw_only=True)
class SpeciesTrend:
    """How the share of one species among the seeds changes from full to empty.

    ``change`` is the share when empty less the share when full, on a straight
    line through the samples; ``p`` holds for all species together.
    """

    KEYS = ("name", "shares", "change", "p")

    name: str
    shares: tuple[float, ...]
    change: Annotated[Estimate, SHARE]
    p: float

    @property
    def sure(self) -> bool:
        """Whether the change is more than chance."""
        return self.p < FALSE_ALARM


@dataclass(frozen=True, slots=True, kw_only=True)
class SortingTrend:
    """Samples of one box against each other, and each against the filling.

    ``test`` asks whether the samples differ among themselves, which needs no
    seed counts at all; ``found`` is its answer, or that of a trend.
    """

    KEYS = (put("sorts", "found"), put("p", "test", "p"), "species", "say", "next")

    found: bool
    test: Fit
    species: tuple[SpeciesTrend, ...]
    samples: tuple[Sorting, ...]
    say: Phrase
    next: Phrase


def sorting_trend(filled: FilledBox, samples: Sequence[Sample]) -> SortingTrend:
    """Compare samples that were caught while a box emptied.

    Parameters
    ----------
    samples : sequence of Sample, length ≥ 2
        Each with the share of the box that was out.

    Raises
    ------
    MeasurementError
        As `sorting`, and for fewer than two samples.

    References
    ----------
    Homogeneity: Pearson's chi-square on the table of counts. Trend of each
    share: Cochran (1954), Armitage (1955); species held together by Holm
    (1979).
    """
    if len(samples) < 2:
        need = say("enter two samples or more, such as from a full box and a half-empty one")
        raise MeasurementError("sample", len(samples), need)
    samples = sorted(samples, key=lambda sample: sample.out)
    each_alone = tuple(sorting(filled, sample) for sample in samples)
    table = [sample.of(filled.portions) for sample in samples]
    test = contingency(table)
    species = _species(filled, samples, table)
    found = test.p < FALSE_ALARM or any(each.sure for each in species)
    return SortingTrend(
        found=found,
        test=test,
        species=species,
        samples=each_alone,
        say=_headline(found, species, box=filled.box.name),
        next=_next(found, each_alone, box=filled.box.name),
    )


def _species(
    filled: FilledBox, samples: Sequence[Sample], table: Sequence[Sequence[int]]
) -> tuple[SpeciesTrend, ...]:
    totals = [sample.seeds for sample in samples]
    out = [sample.out for sample in samples]
    columns = list(zip(*table, strict=True))
    trends = [linear_trend(column, totals, at=out) for column in columns]
    odds = holm([trend.p for trend in trends])
    return tuple(
        SpeciesTrend(
            name=portion.name,
            shares=tuple(k / n for k, n in zip(columns[i], totals, strict=True)),
            change=_change(trends[i]),
            p=odds[i],
        )
        for i, portion in enumerate(filled.portions)
    )


def _change(trend: Trend) -> Estimate:
    reach = normal_quantile(0.975) * trend.u
    return Estimate(trend.slope, trend.slope - reach, trend.slope + reach, trend.u)


def _headline(found: bool, species: Sequence[SpeciesTrend], *, box: str) -> Phrase:
    if not found:
        return say("What {box} drops does not change as it empties, as far as we can see.", box=box)
    moved = sorted((each for each in species if each.sure), key=lambda each: each.p)
    if not moved:
        return say("What {box} drops changes as it empties, but not in any one direction.", box=box)
    return join([say("What {box} drops changes as it empties.", box=box), *map(_moved, moved)])


def _moved(each: SpeciesTrend) -> Phrase:
    return say(
        "{name} {way} from {first} to {last} of the seeds.",
        name=each.name,
        way=say("rises") if each.change.value > 0 else say("falls"),
        first=SHARE(each.shares[0], 2),
        last=SHARE(each.shares[-1], 2),
    )


def _next(found: bool, samples: Sequence[Sorting], *, box: str) -> Phrase:
    if found:
        text = (
            "Stop the drill. Fill {box} only partway and stir it at every stop, "
            "or mix in a carrier. Then try again."
        )
        return say(text, box=box)
    if any(each.found for each in samples):
        text = (
            "{box} drops the same mix all the way, but not your target mix: check"
            " the seed counts and the weights you loaded."
        )
        return say(text, box=box)
    return say("Keep going: {box} is staying mixed.", box=box)
