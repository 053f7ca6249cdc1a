"""Sorting found: seed caught from a box against what the box was filled with."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import fsum, inf, sqrt
from typing import Annotated, Literal

from ..quantities.errors import MeasurementError
from ..quantities.phrases import Phrase, join, say
from ..quantities.units import DENSITY, NUMBER, SEEDS, SHARE
from ..quantities.working import Line
from ..quantities.written import inside, put
from ..statistics.budget import (
    Estimate,
    Quantity,
    nominal,
    ranged,
    standard_uncertainty,
    total,
    uncertain,
)
from ..statistics.composition import Fit, fit
from ..statistics.count_tables import Matrix, shares_spread, uncertain_fit
from ..statistics.counting import clopper_pearson
from ..statistics.distributions import normal_cdf, normal_quantile
from ..statistics.elementary import exp, log
from ..statistics.outliers import holm
from .filled import FilledBox
from .portion import Portion
from .sample import Sample

FALSE_ALARM = 0.05
SEEN = 0.90  # odds that a change worth naming would have been found

Runs = Literal["ahead", "behind", "as filled"]
SOURCE = "Pearson's chi-square on counts"
RUNS = {
    "ahead": say("ahead of the mix"),
    "behind": say("behind the mix"),
    "as filled": say("as loaded"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class SortedSpecies:
    """One species in the sample against the box.

    ``expected`` and ``found`` are shares of the seeds, ``ratio`` is found ÷
    expected. ``p`` is the odds of so large a difference by chance, held for
    all species together. ``would_show`` is the change of its share that a
    sample like this finds 9 times in 10. ``wanted_live`` and ``live`` are
    live seeds on the ground while the box drops as sampled. [1/m²]
    """

    KEYS = ("name", "seeds", "expected", "found", "ratio", "p", "runs", "would_show", "live")

    name: str
    seeds: int
    expected: Annotated[float, SHARE]
    found: Annotated[float, SHARE]
    ratio: Annotated[Estimate, NUMBER]
    p: float
    runs: Runs
    would_show: float
    wanted_live: float
    live: Annotated[Estimate, DENSITY]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sorting:
    """Whether a box sorts its seed, as far as one sample tells.

    ``test`` counts small classes together; ``chance`` is Pearson's plain
    chi-square on the same classes, as if the seed counts were exact.
    """

    KEYS = (
        *(put("sorts", "found"), put("chi_square", "test", "statistic")),
        *inside(("test",), "dof", "p"),
        *("pooled", "species", "live", "wanted_live", "say", "next"),
    )

    found: bool
    test: Fit
    chance: Fit
    pooled: tuple[str, ...]
    species: tuple[SortedSpecies, ...]
    wanted_live: Annotated[float, DENSITY]
    live: Annotated[Estimate, DENSITY]
    say: Phrase
    next: Phrase
    assumed: tuple[Phrase, ...]
    working: tuple[Line, ...]


def sorting(filled: FilledBox, sample: Sample, *, rate: Quantity | None = None) -> Sorting:
    """Compare a separated sample with what the box was filled with.

    expected share of seeds = rate × purity × seeds per weight ÷ the sum of it
    over all species

    Parameters
    ----------
    sample : Sample
        Of a catch, fairly split: halve it, and halve it again.
    rate : Quantity, optional
        Bulk rate that the box lays down; the wanted one where not given.
        [kg/m²]

    Raises
    ------
    MeasurementError
        For fewer than two species in the box, an empty sample, too few seeds
        for two classes, or a species missing or unknown.

    Notes
    -----
    Where seeds were counted, the uncertainty of the seeds per weight is part
    of the test: a wrong seed count looks like sorting. Where they were
    weighed it cancels.

    References
    ----------
    Chi-square on seed counts, never on grams; classes of fewer than 5 pooled:
    Cochran (1954). Several species held together: Holm (1979). Range of a
    share: Clopper and Pearson (1934).
    """
    portions = filled.portions
    counts = _require(filled, sample)
    relative = [0.0 if sample.weighed else _relative(each) for each in portions]
    expected = _shares([each.weighed * each.purity * each.count for each in portions])
    chance = fit(counts, shares=expected)
    spread = shares_spread(expected, relative)
    test = uncertain_fit(counts, shares=expected, spread=spread, classes=chance.classes)
    found = test.p < FALSE_ALARM
    by_weight = found_by_weight(portions, counts, weighed=sample.weighed)
    box_rate: Quantity = filled.rate if rate is None else rate
    seed_rate = box_rate * fsum(filled.shares[each.name] for each in portions)
    live = [
        seed_rate * part * each.live_per_kg for part, each in zip(by_weight, portions, strict=True)
    ]
    species = _species(portions, counts, expected=expected, spread=spread, live=live)
    pooled = tuple(portions[i].name for each in test.classes if len(each) > 1 for i in each)
    return Sorting(
        found=found,
        test=test,
        chance=chance,
        pooled=pooled,
        species=species,
        wanted_live=fsum(each.wanted_live for each in species),
        live=ranged(total(live)),
        say=headline(found, species, box=filled.box.name, seeds=sample.seeds),
        next=next_thing(found, filled, species),
        assumed=_assumed(sample, relative),
        working=working(portions, counts, expected=expected, statistic=chance.statistic),
    )


def found_by_weight(
    portions: Sequence[Portion], counts: Sequence[int], *, weighed: bool
) -> list[Quantity]:
    """Share by weight of each species in a sample, with the chance of the count.

    weight = seeds ÷ (purity × seeds per weight); a count k is known to √k,
    one of none to 1
    """
    weights: list[Quantity] = []
    for each, k in zip(portions, counts, strict=True):
        per_kg = each.count if weighed else each.seeds_per_kg
        seeds = uncertain(float(k), sqrt(max(k, 1)), "seeds in the sample")
        weight = seeds / (each.purity * per_kg)
        weights.append(weight)
    whole = total(weights)
    return [weight / whole for weight in weights]


def _require(filled: FilledBox, sample: Sample) -> list[int]:
    if len(filled.portions) < 2:
        text = "sample a box with two or more species: nothing can separate in {box}"
        raise MeasurementError("sample", filled.box.name, say(text, box=filled.box.name))
    counts = sample.of(filled.portions)
    if not sample.seeds > 0:
        raise MeasurementError(
            "sample", 0, say("count at least one seed, preferably a few hundred")
        )
    return counts


def _relative(portion: Portion) -> float:
    return standard_uncertainty(portion.seeds_per_kg) / portion.count


def _shares(parts: Sequence[float]) -> list[float]:
    whole = fsum(parts)
    return [part / whole for part in parts]


def _species(
    portions: Sequence[Portion],
    counts: Sequence[int],
    *,
    expected: Sequence[float],
    spread: Matrix,
    live: Sequence[Quantity],
) -> tuple[SortedSpecies, ...]:
    n = sum(seeds for seeds in counts)
    sds = [sqrt(share * (1 - share) / n + spread[i][i]) for i, share in enumerate(expected)]
    gaps = [seeds / n - share for seeds, share in zip(counts, expected, strict=True)]
    odds = holm([2 * normal_cdf(-abs(gap) / sd) for gap, sd in zip(gaps, sds, strict=True)])
    reach = normal_quantile(1 - FALSE_ALARM / 2) + normal_quantile(SEEN)
    return tuple(
        SortedSpecies(
            name=each.name,
            seeds=counts[i],
            expected=expected[i],
            found=counts[i] / n,
            ratio=_ratio(counts[i], n, share=expected[i], u=sqrt(spread[i][i])),
            p=odds[i],
            runs=_runs(gaps[i], odds[i]),
            would_show=reach * sds[i] / expected[i],
            wanted_live=each.weighed * nominal(each.live_per_kg),
            live=_ranged(live[i]),
        )
        for i, each in enumerate(portions)
    )


def _runs(gap: float, odds: float) -> Runs:
    if odds >= FALSE_ALARM:
        return "as filled"
    return "ahead" if gap > 0 else "behind"


def _ratio(seeds: int, n: int, *, share: float, u: float) -> Estimate:
    """Found ÷ expected share; its ends from both ranges, squared and added on the log scale."""
    low, high = (end / share for end in clopper_pearson(seeds, n=n))
    value = seeds / n / share
    other = normal_quantile(0.975) * u / share
    sd = sqrt(share * (1 - share) / n + u * u) / share
    return Estimate(value, _end(value, low, -other), _end(value, high, other), sd, inf)


def _end(value: float, end: float, other: float) -> float:
    if not value or not end:
        return end * exp(max(other, 0.0))
    reach = log(end / value)
    both = sqrt(reach * reach + other * other)
    return value * exp(both if end > value else -both)


def _ranged(quantity: Quantity) -> Estimate:
    found = ranged(quantity)
    return replace(found, low=max(0.0, found.low))


def _assumed(sample: Sample, relative: Sequence[float]) -> tuple[Phrase, ...]:
    said = [say("assumes the sample is a fair part of the catch, split in half again and again")]
    if not sample.weighed and not any(relative):
        said.append(say("assumes the seed counts are exact: a wrong one looks like separation"))
    return tuple(said)


def headline(found: bool, species: Sequence[SortedSpecies], *, box: str, seeds: int) -> Phrase:
    """Say whether the box sorts, who runs ahead, and by how much."""
    count = SEEDS(float(seeds))
    if not found:
        first = say(
            "No separation found in {box}: {seeds} are still mixed as loaded.", box=box, seeds=count
        )
        rarest = max(species, key=lambda each: (each.would_show, each.name))
        text = "If {name} were {change} off, it would have shown 9 times in 10."
        shown = SHARE(rarest.would_show, 2)
        return join([first, say(text, name=rarest.name, change=shown)])
    moved = sorted(
        (each for each in species if each.runs != "as filled"),
        key=lambda each: (-abs(each.ratio.value - 1), each.name),
    )
    start = say("{box} is separating.", box=box)
    if not moved:
        return join([start, say("No single species is off by itself, but together they are.")])
    return join([start, *(_moved(each) for each in moved)])


def _moved(each: SortedSpecies) -> Phrase:
    return say(
        "{name} is running {runs}: {times} times its share as loaded ({low} to {high}).",
        name=each.name,
        runs=RUNS[each.runs],
        times=NUMBER(each.ratio.value),
        low=NUMBER(each.ratio.low),
        high=NUMBER(each.ratio.high),
    )


def next_thing(found: bool, filled: FilledBox, species: Sequence[SortedSpecies]) -> Phrase:
    """Say the one thing to do now."""
    if not found:
        return say(
            "Keep going; sort another catch by species when {box} is half empty.",
            box=filled.box.name,
        )
    stir = say(
        "Stop the drill, empty the meters and stir {box}. Then catch and sort by species again.",
        box=filled.box.name,
    )
    if not any(each.runs == "ahead" for each in species):
        return stir
    return join([stir, say("Seed that comes out ahead now will be missing at the end.")])


def working(
    portions: Sequence[Portion],
    counts: Sequence[int],
    *,
    expected: Sequence[float],
    statistic: float,
) -> tuple[Line, ...]:
    """Show the seeds expected of each species, and the sum of squares."""
    n = float(sum(seeds for seeds in counts))
    lines = []
    for each, seeds, share in zip(portions, counts, expected, strict=True):
        text = "{name}: expected, of {n} in all; found {seeds}"
        words = say(text, name=each.name, n=SEEDS(n), seeds=SEEDS(float(seeds)))
        terms = NUMBER(n) * SHARE(share)
        lines.append(Line(words, NUMBER(n * share), terms))
    text = "Chi-square: (found − expected)² ÷ expected, added up"
    last = Line(say(text), NUMBER(statistic), source=SOURCE)
    return (*lines, last)
