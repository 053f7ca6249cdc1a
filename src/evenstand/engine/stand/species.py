"""Whether the species of a mix came up in the parts that were sown, and which is short."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum, inf, sqrt
from typing import Annotated, Literal

from ..quantities.errors import MeasurementError, Of, Path, require_positive
from ..quantities.phrases import Phrase, join, say
from ..quantities.units import SHARE
from ..quantities.written import put
from ..statistics.budget import (
    Cause,
    Estimate,
    Quantity,
    budget,
    effective_dof,
    nominal,
    standard_uncertainty,
    total,
    uncertain,
)
from ..statistics.composition import fit
from ..statistics.distributions import chi_square_survival, t_cdf, t_quantile
from ..statistics.outliers import holm
from .place import Place
from .scatter import squares
from .stand import BETWEEN, CLUMPING, OWN_SCATTER_FROM
from .usual import UNKNOWN, Usual

FALSE_ALARM = 0.05  # of any species, over all of them together
FEWEST_PLANTS = 30  # of all species together, below which nothing is said of parts

Verdict = Literal["short", "more", "as sown"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SownSpecies:
    """Live seeds of one species of the mix, and what usually comes up of it.

    ``seeds`` are those on the ground. [1/m²]
    """

    name: str
    seeds: Quantity
    usual: Usual = UNKNOWN

    def __post_init__(self) -> None:
        require_positive(Path("seeds", Of(self.name)), nominal(self.seeds), "seeds/m²")


@dataclass(frozen=True, slots=True, kw_only=True)
class SpeciesPart:
    """One species: its part of all plants against the part looked for. [-]

    ``p`` is the probability of so large a difference by chance, adjusted for
    the number of species.
    """

    KEYS = ("name", "seen", "expected", "p", "verdict")

    name: str
    seen: Annotated[Estimate, SHARE]
    expected: Annotated[Estimate, SHARE]
    p: float
    verdict: Verdict


@dataclass(frozen=True, slots=True, kw_only=True)
class Composition:
    """All species of a mix.

    ``as_usual`` is the probability of a worse agreement if each species had
    come up exactly as usual, None where too few plants were counted.
    """

    KEYS = ("plants", put("p_as_usual", "as_usual"), "parts")

    parts: tuple[SpeciesPart, ...]
    plants: int
    as_usual: float | None

    @property
    def enough(self) -> bool:
        """Whether enough plants were counted to speak of parts."""
        return self.plants >= FEWEST_PLANTS


def composition(
    places: Sequence[Place], sown: Sequence[SownSpecies], *, clumping: float = CLUMPING
) -> Composition:
    """Compare the parts of the species in the stand with those that were sown.

    expected part = live seeds × usual emergence ÷ Σ; difference ÷ its
    uncertainty against Student's t, Holm's adjustment over the species

    Parameters
    ----------
    places : sequence of Place, length n ≥ 1
        Each with a count of every species sown.
    sown : sequence of SownSpecies, length ≥ 2
    clumping : float
        k of the negative binomial that stands in while places are few. [-]

    Raises
    ------
    MeasurementError
        For fewer than two species, a species not counted, or no plant at all.

    Notes
    -----
    Plants of one species stand together, so that parts differ from place to
    place by more than the multinomial: the larger of both is taken. How sure
    the usual emergence is counts too; a species is not called short for a
    difference that its kind often shows.

    References
    ----------
    S. Holm (1979), Scandinavian Journal of Statistics 6, 65–70; J. N. K. Rao and A. J. Scott
    (1981), Journal of the American Statistical Association 76, 221–230, for ``as_usual``
    (not read).
    """
    if len(sown) < 2:
        raise MeasurementError("sown", len(sown), say("enter the mix's species, 2 or more"))
    columns = [_column(places, each.name) for each in sown]
    totals = [fsum(place) for place in zip(*columns, strict=True)]
    plants = fsum(totals)
    if not plants:
        raise MeasurementError("plants", 0, say("count spots where something came up"))
    expected = _expected(sown)
    seen = [
        _seen(column, totals, share=nominal(share), clumping=clumping)
        for column, share in zip(columns, expected, strict=True)
    ]
    pairs = list(zip(seen, expected, strict=True))
    adjusted = holm([_p(share, dof, wish) for (share, dof), wish in pairs])
    return Composition(
        parts=tuple(
            _part(each.name, share, dof=dof, expected=wish, p=p)
            for each, ((share, dof), wish), p in zip(sown, pairs, adjusted, strict=True)
        ),
        plants=int(plants),
        as_usual=_as_usual(columns, seen, expected),
    )


def _column(places: Sequence[Place], name: str) -> list[int]:
    missing = [place for place in places if name not in place.counts]
    if missing or not places:
        need = say("count it in every spot; enter 0 if you find none")
        raise MeasurementError(Path("plants", Of(name)), None, need)
    return [place.counts[name] for place in places]


def _expected(sown: Sequence[SownSpecies]) -> list[Quantity]:
    plants = [each.seeds * each.usual.quantity(each.name) for each in sown]
    whole = total(plants)
    return [each / whole for each in plants]


def _seen(
    column: Sequence[int], totals: Sequence[float], *, share: float, clumping: float
) -> tuple[Quantity, float]:
    """Part that was seen, with its scatter and the degrees of freedom of that."""
    plants, n = fsum(totals), len(totals)
    chance = plants * share * (1 - share)
    if n < OWN_SCATTER_FROM:
        chance = chance * (1 + plants * share / n / clumping)
    own = squares(column, totals) if n > 1 else 0.0
    variance, dof = (own, n - 1.0) if own > chance else (chance, inf)
    return uncertain(fsum(column) / plants, sqrt(variance) / plants, BETWEEN), dof


def _p(seen: Quantity, dof: float, expected: Quantity) -> float:
    off = seen - expected
    u = standard_uncertainty(off)
    if not u:
        return 1.0
    known = effective_dof(budget(off, {BETWEEN: Cause(dof=dof)}))
    return min(1.0, 2 * t_cdf(-abs(nominal(off)) / u, dof=known))


def _part(name: str, seen: Quantity, *, dof: float, expected: Quantity, p: float) -> SpeciesPart:
    verdict: Verdict = "as sown"
    if p < FALSE_ALARM:
        verdict = "short" if nominal(seen) < nominal(expected) else "more"
    return SpeciesPart(
        name=name,
        seen=_bounded(seen, dof),
        expected=_bounded(expected, inf),
        p=p,
        verdict=verdict,
    )


def _bounded(share: Quantity, dof: float) -> Estimate:
    value, u = nominal(share), standard_uncertainty(share)
    reach = t_quantile(0.975, dof=dof) * u
    return Estimate(value, max(0.0, value - reach), min(1.0, value + reach), u, dof)


def _as_usual(
    columns: Sequence[Sequence[int]],
    seen: Sequence[tuple[Quantity, float]],
    expected: Sequence[Quantity],
) -> float | None:
    """Pearson's chi-square ÷ the mean of how much more than multinomial the parts scatter."""
    counts = [sum(count for count in column) for column in columns]
    shares = [nominal(share) for share in expected]
    plants = fsum(counts)
    try:
        found = fit(counts, shares=shares)
    except MeasurementError:  # too few plants for two classes
        return None
    effects = [
        standard_uncertainty(share) * standard_uncertainty(share) * plants / (p * (1 - p))
        for (share, _), p in zip(seen, shares, strict=True)
    ]
    mean = max(1.0, fsum(effects) / len(effects))
    return chi_square_survival(found.statistic / mean, dof=found.dof)


def in_words(found: Composition) -> Phrase:
    """Say which species is short, which more than sown, or that none is."""
    if not found.enough:
        text = "Only {n} plants counted: not enough to say which species is short."
        return say(text, n=found.plants)
    # Where one is short the others make up more of the plants: that is no news of theirs.
    off = [part for part in found.parts if part.verdict == "short"]
    off = off or [part for part in found.parts if part.verdict == "more"]
    said = [_sentence(part) for part in off]
    if not said:
        return say("No species is short: plants match the seed proportions, as far as you counted.")
    return join(said)


def _sentence(part: SpeciesPart) -> Phrase:
    values = {
        "seen": SHARE(part.seen.value, 2),
        "low": SHARE(part.expected.low, 2),
        "high": SHARE(part.expected.high, 2),
    }
    text = "Short on {name}: {seen} of the plants; {low} to {high} expected."
    if part.verdict == "more":
        text = "Plenty of {name}: {seen} of the plants; {low} to {high} expected."
    return say(text, name=part.name, **values)
