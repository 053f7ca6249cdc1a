"""From the rate that each member of a mix was given by to all its other rates."""

from collections.abc import Sequence
from dataclasses import dataclass

from ..quantities.errors import MeasurementError, Path
from ..quantities.phrases import Phrase, say
from ..quantities.units import DENSITY, RATE, SHARE, Kind
from ..statistics.budget import Quantity, nominal, total
from .member import (
    ALL_OF_IT,
    BulkRate,
    Carrier,
    LiveSeeds,
    Member,
    OfFull,
    PlsRate,
    Rate,
    Rest,
    Seed,
    Whole,
    size,
    times,
)

NOTHING = 1e-12  # of the whole: what rounding alone may leave for the rest


@dataclass(frozen=True, slots=True, kw_only=True)
class Rates:
    """One member's rate on every basis: [1/m²], [kg/m²], [kg/m²]."""

    seeds: Quantity
    pls: Quantity
    bulk: Quantity

    def times(self, factor: float) -> "Rates":
        """Return ``factor`` times as much of everything."""
        return Rates(seeds=self.seeds * factor, pls=self.pls * factor, bulk=self.bulk * factor)


def rates(seed: Seed, given: Rate) -> Rates:
    """Turn a rate on one basis into the rates on all.

    PLS rate = live seeds ÷ seeds per kg = bulk rate × PLS

    Parameters
    ----------
    given : LiveSeeds, PlsRate or BulkRate

    Returns
    -------
    Rates
        The given one is passed on as it is, with the uncertainty it came
        with: only the others gain that of the tag.

    References
    ----------
    University of Kentucky, wheat seed rate page; Texas Department of
    Transportation, Pure live seed.

    Examples
    --------
    Ten live seeds per square foot of 100,000 seeds/lb at 80% PLS:

    >>> from evenstand.engine.quantities.units import POUND, POUND_PER_ACRE, SQUARE_FOOT
    >>> seed = Seed(name="clover", pls=0.8, seeds_per_kg=100_000 / POUND)
    >>> bulk = rates(seed, LiveSeeds(10 / SQUARE_FOOT)).bulk
    >>> print(f"{bulk / POUND_PER_ACRE:.3f} lb/ac")
    5.445 lb/ac
    """
    match given:
        case LiveSeeds(seeds):
            pls = seeds / seed.seeds_per_kg
            return Rates(seeds=seeds, pls=pls, bulk=pls / seed.pls)
        case PlsRate(pls):
            return Rates(seeds=pls * seed.seeds_per_kg, pls=pls, bulk=pls / seed.pls)
        case BulkRate(bulk):
            pls = bulk * seed.pls
            return Rates(seeds=pls * seed.seeds_per_kg, pls=pls, bulk=bulk)


def of_full(seed: Seed, sown: Rates) -> Quantity | None:
    """Share of its full rate that a species is sown at, None without a full rate. [-]"""
    return None if seed.full is None else _against(seed.full, sown)


def _against(full: Rate, sown: Rates) -> Quantity:
    match full:
        case LiveSeeds(seeds):
            return sown.seeds / seeds
        case PlsRate(pls):
            return sown.pls / pls
        case BulkRate(bulk):
            return sown.bulk / bulk


def every_rate(members: Sequence[Member], *, whole: Whole = ALL_OF_IT) -> tuple[Rates, ...]:
    """Find every member's rate on every basis.

    rest = whole − what all other members take of it

    Parameters
    ----------
    members : sequence of Member, length n ≥ 1
        At most one of them is the rest.
    whole : OfFull, LiveSeeds, PlsRate or BulkRate
        What the rest fills up: the shares of full rates, all live seeds, all
        pure live seed, or all that goes through the drill, carriers too.

    Returns
    -------
    tuple of Rates, one per member
        A carrier has 0 live seeds and no PLS.

    Raises
    ------
    MeasurementError
        For no member or no live seed, a rate not above zero, a share without
        a full rate, two rests, a rest of nothing, or a whole without a rest.
    """
    if not any(isinstance(member.of, Seed) for member in members):
        raise MeasurementError("mix", [m.name for m in members], say("enter at least one species"))
    rest = _rest(members, whole)
    known = {
        i: _known(member, given, _path(i))
        for i, member in enumerate(members)
        if not isinstance(given := member.given, Rest)
    }
    if rest is not None:
        others = [(members[i], sown) for i, sown in known.items()]
        known[rest] = _filled(members[rest], others, whole=whole, path=_path(rest))
    return tuple(known[i] for i in range(len(members)))


def _path(index: int) -> Path:
    return Path("mix", index + 1)


def _rest(members: Sequence[Member], whole: Whole) -> int | None:
    rests = [i for i, member in enumerate(members) if isinstance(member.given, Rest)]
    if len(rests) > 1:
        names = ", ".join(members[i].name for i in rests)
        need = say("only one line can be the rest: enter rates for all the others")
        raise MeasurementError(_path(rests[1]).part("rest"), names, need)
    if not rests and whole != ALL_OF_IT:
        raise MeasurementError("whole", whole, say("mark the one line that makes up the rest"))
    if not nominal(size(whole)) > 0:
        raise MeasurementError("whole", size(whole), say("enter a total above 0 to fill up to"))
    return rests[0] if rests else None


def _known(member: Member, given: OfFull | Rate, path: Path) -> Rates:
    if not nominal(size(given)) > 0:
        need = say("enter a rate above 0 for {name}, or leave it out", name=member.name)
        raise MeasurementError(path.part(_BASES[type(given)]), size(given), need)
    if isinstance(member.of, Carrier):
        if not isinstance(given, BulkRate):
            need = say("{name} has no live seed: enter its bulk rate", name=member.name)
            raise MeasurementError(path.part(_BASES[type(given)]), size(given), need)
        return Rates(seeds=0.0, pls=0.0, bulk=given.rate)
    if isinstance(given, OfFull):
        return rates(member.of, times(_full(member.of, path.part("share")), given.share))
    return rates(member.of, given)


_BASES = {OfFull: "share", LiveSeeds: "seeds", PlsRate: "pls", BulkRate: "bulk"}


def _full(seed: Seed, path: Path) -> Rate:
    if seed.full is None:
        need = say(
            "{name} has no full rate to figure a share of: enter its full rate, "
            "or its live seeds or weight per area",
            name=seed.name,
        )
        raise MeasurementError(path, None, need)
    return seed.full


def _filled(
    member: Member, others: Sequence[tuple[Member, Rates]], *, whole: Whole, path: Path
) -> Rates:
    left = size(whole) - total(taken(whole, other, sown) for other, sown in others)
    if not nominal(left) > NOTHING * nominal(size(whole)):
        need = say(
            "the other lines leave nothing of {whole} for {name}: lower them, or raise the total",
            whole=in_words(whole),
            name=member.name,
        )
        raise MeasurementError(path.part("rest"), nominal(left), need)
    if isinstance(member.of, Carrier):
        if not isinstance(whole, BulkRate):
            need = say(
                "{name} has no live seed: it can only make up the rest of a bulk rate",
                name=member.name,
            )
            raise MeasurementError(path.part("rest"), member.name, need)
        return Rates(seeds=0.0, pls=0.0, bulk=left)
    return _as_rates(member.of, whole, left, path=path)


def _as_rates(seed: Seed, whole: Whole, left: Quantity, *, path: Path) -> Rates:
    match whole:
        case OfFull():
            return rates(seed, times(_full(seed, path.part("rest")), left))
        case LiveSeeds():
            return rates(seed, LiveSeeds(left))
        case PlsRate():
            return rates(seed, PlsRate(left))
        case BulkRate():
            return rates(seed, BulkRate(left))


def taken(whole: Whole, member: Member, sown: Rates) -> Quantity:
    """What a member takes of the whole, in the whole's own measure."""
    match whole:
        case LiveSeeds():
            return sown.seeds
        case PlsRate():
            return sown.pls
        case BulkRate():
            return sown.bulk
        case OfFull():
            pass
    if isinstance(member.of, Carrier):
        return 0.0
    if isinstance(member.given, OfFull):
        return member.given.share
    return _against(_full(member.of, Path("full", "rate")), sown)


KINDS: dict[type[Whole], Kind] = {
    OfFull: SHARE,
    LiveSeeds: DENSITY,
    PlsRate: RATE,
    BulkRate: RATE,
}


def in_words(whole: Whole) -> Phrase:
    """Name a whole or a rate, as in ``60 lb/ac of bulk``."""
    amount = KINDS[type(whole)](nominal(size(whole)))
    match whole:
        case OfFull():
            return say("{amount} of full rate", amount=amount)
        case LiveSeeds():
            return say("{amount} live", amount=amount)
        case PlsRate():
            return say("{amount} PLS", amount=amount)
        case BulkRate():
            return say("{amount} bulk", amount=amount)
