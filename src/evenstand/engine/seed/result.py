"""What a tag comes to: live seed both ways, rates, seeds per ground, doubts, and the working."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Annotated, Literal

from ..quantities.errors import require_positive
from ..quantities.phrases import Phrase, say
from ..quantities.units import DENSITY, PRICE, RATE, SHARE
from ..quantities.working import Line
from ..statistics.budget import Cause, Estimate, Quantity, Share, budget, nominal, ranged
from .age import INTERSTATE, AgeLimit
from .count import Counted
from .doubts import Doubt, doubts
from .lot import counts_hard, pls_fraction
from .pls import bulk_rate, pls_rate, price_per_pls, seeds_per_area
from .species import Species
from .tag import Month, Tag
from .working import bulk_line, live_line, pls_lines, price_line, seeds_line


@dataclass(frozen=True, slots=True, kw_only=True)
class WantedRate:
    """A rate, [kg/m²], and whether it is one of pure live seed or of bulk."""

    rate: float
    basis: Literal["pls", "bulk"]

    def __post_init__(self) -> None:
        require_positive("rate", self.rate, "kg/m²")


@dataclass(frozen=True, slots=True, kw_only=True)
class TagResult:
    """What a tag says about the seed in the bag, all in SI.

    ``pls`` counts hard and dormant seed as ``count_hard`` says, and
    ``pls_other_way`` as it does not; None where the tag gives one way only.
    Rates and seeds per ground are None where no rate, or no count of seeds,
    was given. ``seeds_per_area`` is what lies on the ground when the value of
    ``bulk_rate`` is sown, as uncertain as tag and count are. ``shares`` is the
    budget of the last of ``pls``, ``bulk_rate`` and ``seeds_per_area`` there is.
    """

    pls: Annotated[Estimate, SHARE]
    pls_other_way: Annotated[Estimate, SHARE] | None
    count_hard: bool
    choice: Phrase
    pls_rate: Annotated[Estimate, RATE] | None
    bulk_rate: Annotated[Estimate, RATE] | None
    seeds_per_area: Annotated[Estimate, DENSITY] | None
    price_per_pls: Annotated[Estimate, PRICE] | None
    shares: tuple[Share, ...]
    warnings: tuple[Doubt, ...]
    cautions: tuple[Phrase, ...]
    working: tuple[Line, ...]


@dataclass(frozen=True, slots=True)
class _Sown:
    """Live seed, bulk and live seeds per ground of one rate, each where known."""

    pls: Quantity | None = None
    bulk: Quantity | None = None
    seeds: Quantity | None = None


def tag_result(
    tag: Tag,
    *,
    count_hard: bool | None = None,
    count: Counted | None = None,
    rate: WantedRate | None = None,
    price: float | None = None,
    species: Species | None = None,
    today: Month | None = None,
    limit: AgeLimit = INTERSTATE,
) -> TagResult:
    """Work out everything that one tag comes to.

    Parameters
    ----------
    count_hard : bool, optional
        Whether hard and dormant seed count as live. Without it the species
        decides, see `counts_hard`, and without one they count, as in 7 CFR
        201.64.
    count : Counted, optional
        Seeds in a weight of pure seed.
    price : float, optional
        Of bulk seed. [$/kg]
    today : Month, optional
        Without it the age of the test is not looked at.

    Raises
    ------
    MeasurementError
        For a test in the future, a price below zero, or hard seed left out of a
        tag that gives only the total.

    Examples
    --------
    >>> from evenstand.engine.quantities.units import POUND_PER_ACRE
    >>> wanted = WantedRate(rate=20 * POUND_PER_ACRE, basis="pls")
    >>> found = tag_result(Tag(purity=0.95, germination=0.85), rate=wanted)
    >>> print(f"{found.pls.value:.2%}, {found.bulk_rate.value / POUND_PER_ACRE:.2f} lb/ac")
    80.75%, 24.77 lb/ac
    """
    hard, choice = _hard_choice(tag, count_hard, species)
    pls = pls_fraction(tag, count_hard=hard)
    sown = _sow(rate, pls, count)
    cost = None if price is None else price_per_pls(price, pls=pls)
    causes = count.causes if count else {}
    per_kg = nominal(count.seeds_per_kg) if count else None
    return TagResult(
        pls=_of_one(pls),
        pls_other_way=_other_way(tag, hard),
        count_hard=hard,
        choice=choice,
        pls_rate=_ranged(sown.pls, causes),
        bulk_rate=_ranged(sown.bulk, causes),
        seeds_per_area=_ranged(sown.seeds, causes),
        price_per_pls=_ranged(cost, causes),
        shares=_last_budget((sown.seeds, sown.bulk, pls), causes),
        warnings=doubts(
            tag,
            today=today,
            limit=limit,
            species=species,
            seeds_per_kg=per_kg,
            count_hard=hard,
        ),
        cautions=species.beware if species else (),
        working=(
            *pls_lines(tag, pls=nominal(pls), count_hard=hard),
            *(count.working if count else ()),
            *_rate_lines(rate, nominal(pls), per_kg),
            *(() if price is None else (price_line(price, pls=nominal(pls)),)),
        ),
    )


def _hard_choice(tag: Tag, count_hard: bool | None, species: Species | None) -> tuple[bool, Phrase]:
    """Return whether hard seed counts, and who said so."""
    if tag.total_viable and count_hard is not False:
        return True, say("The tag has only the total with hard and dormant seed.")
    if count_hard is not None:
        if count_hard:
            return True, say("Hard and dormant seed counts as live, as you chose.")
        return False, say("Hard and dormant seed is not counted, as you chose.")
    if species is None:
        return True, say("Hard and dormant seed counts as live, as in 7 CFR 201.64.")
    if counts_hard(species.life_cycle):
        text = (
            "Hard and dormant seed counts as live: {name} lives more than one season,"
            " and that seed comes up later."
        )
        return True, say(text, name=species.name)
    text = (
        "Hard and dormant seed is not counted: {name} lives one season, and that "
        "seed would come up too late."
    )
    return False, say(text, name=species.name)


def _sow(rate: WantedRate | None, pls: Quantity, count: Counted | None) -> _Sown:
    if rate is None:
        return _Sown()
    if rate.basis == "pls":
        live: Quantity = rate.rate
        bulk = bulk_rate(rate.rate, pls=pls)
    else:
        live = pls_rate(rate.rate, pls=pls)
        bulk = rate.rate
    if count is None:
        return _Sown(live, bulk)
    on_ground = pls_rate(nominal(bulk), pls=pls)
    return _Sown(live, bulk, seeds_per_area(on_ground, seeds_per_kg=count.seeds_per_kg))


def _other_way(tag: Tag, count_hard: bool) -> Estimate | None:
    return None if tag.total_viable else _of_one(pls_fraction(tag, count_hard=not count_hard))


def _of_one(share: Quantity) -> Estimate:
    """Put a range around a share, which ends at 100%."""
    found = ranged(share)
    return replace(found, high=min(found.high, 1.0))


def _ranged(result: Quantity | None, causes: Mapping[str, Cause]) -> Estimate | None:
    return None if result is None else ranged(result, causes)


def _last_budget(
    results: tuple[Quantity | None, ...], causes: Mapping[str, Cause]
) -> tuple[Share, ...]:
    budgets = (budget(result, causes) for result in results if result is not None)
    return next((shares for shares in budgets if shares), ())


def _rate_lines(rate: WantedRate | None, pls: float, per_kg: float | None) -> tuple[Line, ...]:
    if rate is None:
        return ()
    live = rate.rate if rate.basis == "pls" else rate.rate * pls
    turn = bulk_line if rate.basis == "pls" else live_line
    seeds = () if per_kg is None else (seeds_line(live, seeds_per_kg=per_kg),)
    return (turn(rate.rate, pls=pls), *seeds)
