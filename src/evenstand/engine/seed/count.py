"""How many seeds are in a weight: from a tag, a weighing or a count of the lot."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import fsum, inf, sqrt

from ..quantities.errors import MeasurementError, require_positive
from ..quantities.phrases import Phrase, say
from ..quantities.units import NUMBER, SCALE_STEP, SEED_COUNT, SEED_WEIGHT, SEEDS, SHARE
from ..quantities.working import PRACTICE, Line
from ..statistics.budget import (
    Cause,
    Quantity,
    give_or_take,
    nominal,
    standard_uncertainty,
    uncertain,
)
from ..statistics.distributions import t_quantile
from .species import Species

TAG = "seed count"

REPLICATES = 8
PER_REPLICATE = 100
# ISTA Rules chapter 10 and AOSA, not read: the scatter that eight replicates may have.
CV_LIMIT, CV_LIMIT_CHAFFY = 0.04, 0.06
REACH = 2.0  # standard deviations beyond which one of sixteen replicates is dropped
# A count that somebody else made is taken to have passed that rule with nothing to spare.
PRINTED_U = CV_LIMIT / sqrt(REPLICATES)
# Scatter of one counted sample: that of the published weights of Dimorphotheca, eight of 100.
EXPECTED_CV, EXPECTED_DOF = 0.0201, 7
MOST_SAMPLES = 99  # beyond it the lot itself is too uneven to be known so well
TABLE_LIMITS = 0.15
COUNT_YOUR_LOT = say("Count your lot: its seed count can differ a lot from the table.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Counted:
    """Seeds in a weight of pure seed, [1/kg], and how they were found.

    ``cv`` is the scatter of the counts behind it, ``dropped`` the places of
    replicates left out, counted from 0; ``said`` is what to know or do next.
    """

    seeds_per_kg: Quantity
    dof: float = inf
    cv: float | None = None
    dropped: tuple[int, ...] = ()
    said: tuple[Phrase, ...] = ()
    working: tuple[Line, ...] = ()

    @property
    def causes(self) -> Mapping[str, Cause]:
        """What is known of the error of the count."""
        return {TAG: Cause(self.dof)}


@dataclass(frozen=True, slots=True)
class WeighedSample:
    """A weighed sample, [kg], and the seeds counted in it."""

    seeds: int
    weight: float

    def __post_init__(self) -> None:
        require_positive("seeds", self.seeds, "seeds")
        require_positive("weight", self.weight, "kg")


def printed(seeds_per_kg: Quantity) -> Counted:
    """Take a count from the tag or the seller.

    Without an uncertainty u = 4% ÷ √8, the worst that eight replicates of
    100 seeds may come to.

    Parameters
    ----------
    seeds_per_kg : Quantity
        Of pure seed. [1/kg]

    Raises
    ------
    MeasurementError
        For a count that is not above zero.

    References
    ----------
    Limit of the scatter: ISTA Rules, chapter 10 (not read).
    """
    value = nominal(seeds_per_kg)
    require_positive("seeds_per_kg", value, "seeds/kg")
    if standard_uncertainty(seeds_per_kg):
        return Counted(seeds_per_kg=seeds_per_kg)
    said = say(
        "The published count is assumed to be as good as the counting rule requires, u {u}",
        u=SHARE(PRINTED_U),
    )
    return Counted(seeds_per_kg=uncertain(value, PRINTED_U * value, TAG), said=(said,))


def weighed(thousand_seed_weight: Quantity) -> Counted:
    """Turn the weight of a thousand seeds into seeds per weight.

    seeds per kg = 1000 ÷ weight of 1,000 seeds

    Parameters
    ----------
    thousand_seed_weight : Quantity
        Without an uncertainty taken as in `printed`. [kg]

    Raises
    ------
    MeasurementError
        For a weight that is not above zero.

    Examples
    --------
    >>> print(f"{weighed(0.025).seeds_per_kg.nominal_value:.0f}")
    40000
    """
    weight = nominal(thousand_seed_weight)
    require_positive("thousand_seed_weight", weight, "kg")
    found = printed(1000 / thousand_seed_weight)
    each = SEED_WEIGHT(weight / 1000)
    line = Line(
        say("Seeds per weight: one ÷ the weight of a seed"),
        SEED_COUNT(1000 / weight),
        NUMBER(1) / each,
    )
    return Counted(seeds_per_kg=found.seeds_per_kg, said=found.said, working=(line,))


def from_replicates(weights: Sequence[float], *, chaffy: bool = False) -> Counted:
    """Count a lot by weighing replicates of 100 pure seeds.

    seeds per kg = 100 ÷ mean weight; CV = sd ÷ mean, sd² = Σ(x − x̄)² ÷ (n − 1).
    Where the CV of eight is above 4% (6% for chaffy kinds) eight more are
    weighed; of sixteen, those beyond 2 sd of the mean are dropped.

    Parameters
    ----------
    weights : sequence of float, length n ≥ 8
        Of 100 seeds each. [kg]
    chaffy : bool
        Whether it is a chaffy grass.

    Raises
    ------
    MeasurementError
        For fewer than eight weights, or one that is not above zero.

    References
    ----------
    Association of Official Seed Analysts, appendix 4 tutorial (2001), for the arithmetic.
    Limits, eight more and two sd: ISTA Rules, chapter 10, not read.

    Examples
    --------
    >>> grams = (0.2224, 0.2134, 0.2130, 0.2116, 0.2145, 0.2071, 0.2116, 0.2125)
    >>> found = from_replicates([g / 1000 for g in grams])
    >>> print(f"{found.seeds_per_kg.nominal_value:.0f} seeds/kg, CV {found.cv:.2%}")
    468906 seeds/kg, CV 2.01%
    """
    if len(weights) < REPLICATES:
        need = say("weigh 100 seeds {n} times, or count weighed samples", n=REPLICATES)
        raise MeasurementError("replicates", len(weights), need)
    for weight in weights:
        require_positive("replicates", weight, "kg")
    limit = CV_LIMIT_CHAFFY if chaffy else CV_LIMIT
    mean, sd = _spread(weights)
    if sd <= limit * mean:
        return _from_weights(weights, ())
    if len(weights) < 2 * REPLICATES:
        return _from_weights(weights, (), _eight_more(sd / mean, limit, len(weights)))
    return _after_dropping(weights, mean, sd)


def from_samples(samples: Sequence[WeighedSample], *, resolution: float = 0.0) -> Counted:
    """Count the seeds in weighed samples of the lot, as three of 20 g.

    seeds per kg = all seeds ÷ all weight; the scatter of the samples is pooled
    with an expected one, s² = (ν₀ s₀² + Σ(xᵢ/x̄ − 1)²) ÷ (ν₀ + k − 1).

    Parameters
    ----------
    samples : sequence of WeighedSample, length k ≥ 1
    resolution : float
        Smallest step of the scale. [kg]

    Raises
    ------
    MeasurementError
        For no sample, or a resolution below zero.

    References
    ----------
    Three samples of 20 g: University of Kentucky, wheat seeding rates. Expected scatter: that
    of the AOSA tutorial's weights, 2.01% with 7 degrees of freedom.

    Examples
    --------
    >>> from evenstand.engine.quantities.units import POUND
    >>> found = from_samples([WeighedSample(100, 0.0457 * POUND)])
    >>> print(f"{found.seeds_per_kg.nominal_value * POUND:.0f} seeds/lb")
    2188 seeds/lb
    """
    if not samples:
        raise MeasurementError("samples", (), say("enter at least one count and its weight"))
    if not resolution >= 0:
        raise MeasurementError("resolution", resolution, say("enter 0 or more"))
    k, weight = len(samples), fsum(sample.weight for sample in samples)
    seeds = sum(sample.seeds for sample in samples)
    value = seeds / weight
    gaps = [sample.seeds / sample.weight / value - 1 for sample in samples]
    squares = fsum(gap * gap for gap in gaps)
    dof = EXPECTED_DOF + k - 1
    scatter = sqrt((EXPECTED_DOF * EXPECTED_CV * EXPECTED_CV + squares) / dof)
    reading = resolution * sqrt(k / 12) / weight
    per_kg = uncertain(value, scatter / sqrt(k) * value, TAG)
    per_kg = per_kg * uncertain(1.0, reading, "scale reading")
    line = Line(
        say("Seeds per weight: all seeds ÷ total weight"),
        SEED_COUNT(value),
        SEEDS(seeds, 6) / SCALE_STEP(weight),
        PRACTICE,
    )
    return Counted(
        seeds_per_kg=per_kg, dof=dof, cv=sqrt(squares / (k - 1)) if k > 1 else None, working=(line,)
    )


def _spread(values: Sequence[float]) -> tuple[float, float]:
    mean = fsum(values) / len(values)
    squares = fsum((x - mean) * (x - mean) for x in values)
    return mean, sqrt(squares / (len(values) - 1))


def _after_dropping(weights: Sequence[float], mean: float, sd: float) -> Counted:
    """Leave out what lies beyond two standard deviations of sixteen or more."""
    dropped = tuple(i for i, w in enumerate(weights) if abs(w - mean) > REACH * sd)
    if not dropped:
        said = say("The weights vary a lot and no single one is far off: the lot is uneven")
        return _from_weights(weights, (), said)
    said = say(
        "Weights {places} are more than 2 standard deviations from the average and are left out",
        places=", ".join(f"{i + 1}" for i in dropped),
    )
    return _from_weights([w for i, w in enumerate(weights) if i not in dropped], dropped, said)


def _eight_more(cv: float, limit: float, done: int) -> Phrase:
    return say(
        "The weights vary by {cv} of their average, more than the {limit} "
        "allowed: weigh another {more}",
        cv=SHARE(cv),
        limit=SHARE(limit),
        more=2 * REPLICATES - done,
    )


def _from_weights(
    weights: Sequence[float], dropped: tuple[int, ...], said: Phrase | None = None
) -> Counted:
    mean, sd = _spread(weights)
    value, cv = PER_REPLICATE / mean, sd / mean
    line = Line(
        say("Seeds per weight: 100 seeds ÷ their average weight"),
        SEED_COUNT(value),
        SEEDS(PER_REPLICATE) / SCALE_STEP(mean),
        "AOSA appendix 4 tutorial (2001)",
    )
    return Counted(
        seeds_per_kg=uncertain(value, cv / sqrt(len(weights)) * value, TAG),
        dof=len(weights) - 1,
        cv=cv,
        dropped=dropped,
        said=(said,) if said else (),
        working=(line,),
    )


def samples_for(within: float, *, cv: float, dof: float, samples: int) -> int | None:
    """Samples in all after which the mean of a count lies within a wanted range.

    Smallest n ≥ samples with t(97.5%, ν + n − samples) × cv ÷ √n ≤ within

    Parameters
    ----------
    within : float
        Half width of the range wanted, as a share of the count. [-]
    cv : float
        Standard deviation of one sample, as a share of the count. [-]
    dof : float
        Degrees of freedom ν behind the cv now. [-]
    samples : int
        Counted so far.

    Returns
    -------
    int or None
        None where not even 99 are enough.

    Raises
    ------
    MeasurementError
        For a range, a cv or samples that are not above zero.

    Examples
    --------
    One sample of a lot whose samples scatter by 2%, to be known within 3%:

    >>> samples_for(0.03, cv=0.0201, dof=7, samples=1)
    3
    """
    if not 0 < within < 1:
        need = say("enter a share above 0% and below 100%")
        raise MeasurementError("within", within, need)
    require_positive("cv", cv, "of the count")
    require_positive("samples", samples, "samples")
    for n in range(samples, MOST_SAMPLES + 1):
        if t_quantile(0.975, dof=dof + n - samples) * cv / sqrt(n) <= within:
            return n
    return None


def from_species(species: Species) -> Counted:
    """Take the count from the table, with a wide range: the lot was not counted.

    The middle of the sources, within their half width and at least ± 15%.

    Raises
    ------
    MeasurementError
        For a species whose count nobody printed.
    """
    if species.count_range is None:
        need = say(
            "count the lot or enter its seed count: none is published for {name}",
            name=species.name,
        )
        raise MeasurementError("seeds_per_kg", species.name, need)
    low, high = species.count_range
    middle = (low + high) / 2
    limits = max((high - low) / 2, TABLE_LIMITS * middle)
    return Counted(
        seeds_per_kg=give_or_take(middle, limits, TAG),
        said=(_table_says(species, low, high), COUNT_YOUR_LOT),
    )


def _table_says(species: Species, low: float, high: float) -> Phrase:
    used = [count for count in species.counts if not count.doubt]
    sources = "; ".join(dict.fromkeys(count.source for count in used))
    template = "{name} has {low} to {high} ({sources})"
    if low == high:
        template = "{name} has {low} ({sources})"
    return say(
        template, name=species.name, low=SEED_COUNT(low), high=SEED_COUNT(high), sources=sources
    )
