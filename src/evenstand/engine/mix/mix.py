"""A mix: members given by whatever rate each is known by, answered on every basis.

What is sown of a species can be said as a share of its full rate, as live
seeds, as pure live seed or as bulk. Each is turned into all others, and the
share by weight stands beside the share by seed: they differ wildly.
"""

from collections.abc import Sequence
from typing import get_args

from ..quantities.errors import MeasurementError
from ..quantities.phrases import say
from ..quantities.units import (
    COST,
    DENSITY,
    NUMBER,
    PRICE,
    RATE,
    SEED_COUNT,
    SHARE,
    Amount,
    Kind,
    Terms,
)
from ..quantities.working import Line
from ..statistics.budget import Quantity, estimate, nominal, total
from .advice import together, warnings
from .bases import KINDS, Rates, every_rate, in_words, of_full, taken
from .member import (
    ALL_OF_IT,
    Carrier,
    Group,
    LiveSeeds,
    Member,
    OfFull,
    PlsRate,
    Rate,
    Rest,
    Season,
    Seed,
    Whole,
    size,
)
from .totals import Mix, MixPart, Sown, why
from .words import advice, notes

MOST_UPLIFT = 3.0  # beyond it somebody typed the rate, not the uplift
FORM = "SCS Colorado, form CO-ECS-6"


def design(members: Sequence[Member], *, whole: Whole = ALL_OF_IT, uplift: float = 0.0) -> Mix:
    """Turn the members of a mix into rates, shares, cost and what to sow.

    PLS rate = share × full rate = live seeds ÷ seeds per kg = bulk rate × PLS

    Parameters
    ----------
    members : sequence of Member, length n ≥ 1
        Two lots of one species are two members. At most one is the rest.
    whole : OfFull, LiveSeeds, PlsRate or BulkRate
        What the rest fills up, as drilled: the shares of full rates, all live
        seeds, all pure live seed, or all that goes through the drill.
    uplift : float
        More of every seed, for broadcasting; carriers stay as given. [-]

    Raises
    ------
    MeasurementError
        For no live seed, a rate not above zero, a share without a full rate,
        two rests, a rest of nothing, or an uplift below 0 or above 300%.

    References
    ----------
    SCS Colorado, form CO-ECS-6, for shares of full rates; University of
    Kentucky, wheat seed rate page, for live seeds to weight.

    Examples
    --------
    Oats are most of the weight and a quarter of the seeds:

    >>> from evenstand.engine.mix.member import LiveSeeds
    >>> from evenstand.engine.quantities.units import POUND, SQUARE_FOOT
    >>> oats = Seed(name="oats", pls=1.0, seeds_per_kg=12_800 / POUND)
    >>> flowers = Seed(name="flowers", pls=1.0, seeds_per_kg=325_000 / POUND)
    >>> mix = design(
    ...     [
    ...         Member(oats, LiveSeeds(11.1 / SQUARE_FOOT)),
    ...         Member(flowers, LiveSeeds(33.2 / SQUARE_FOOT)),
    ...     ]
    ... )
    >>> [f"{each.weight_share:.0%} {each.seed_share:.0%}" for each in mix.sown]
    ['89% 25%', '11% 75%']
    """
    if not 0 <= uplift <= MOST_UPLIFT:
        need = say("enter how much extra seed, 0% to 300%: 100% doubles the rate")
        raise MeasurementError("uplift", uplift, need)
    drilled = every_rate(members, whole=whole)
    workings = _workings(members, drilled, whole=whole, uplift=uplift)
    rates = [
        each.times(1 + uplift) if isinstance(member.of, Seed) and uplift else each
        for member, each in zip(members, drilled, strict=True)
    ]
    sown = _sown(members, rates, workings)
    return _all_together(sown, uplift=uplift)


def _workings(
    members: Sequence[Member], drilled: Sequence[Rates], *, whole: Whole, uplift: float
) -> list[tuple[Line, ...]]:
    pairs = list(zip(members, drilled, strict=True))
    return [
        lines(member, each, others=pairs[:i] + pairs[i + 1 :], whole=whole, uplift=uplift)
        for i, (member, each) in enumerate(pairs)
    ]


def _sown(
    members: Sequence[Member], rates: Sequence[Rates], workings: Sequence[tuple[Line, ...]]
) -> tuple[Sown, ...]:
    whole = together(rates)
    return tuple(
        Sown(
            member=member,
            rates=each,
            of_full=of_full(member.of, each) if isinstance(member.of, Seed) else None,
            seed_share=each.seeds / whole.seeds,
            weight_share=each.bulk / whole.bulk,
            cost=None if member.of.price is None else each.bulk * member.of.price,
            working=working,
        )
        for member, each, working in zip(members, rates, workings, strict=True)
    )


def _all_together(sown: tuple[Sown, ...], *, uplift: float) -> Mix:
    rates = together([each.rates for each in sown])
    cost = _cost(sown)
    reasons = why(rates.seeds, sown)
    seasons = _parts(sown, "season")
    return Mix(
        sown=sown,
        rates=rates,
        cost=cost,
        uplift=uplift,
        groups=_parts(sown, "group"),
        seasons=seasons,
        advice=advice(
            sown,
            bulk=rates.bulk,
            seeds=rates.seeds,
            cost=cost,
            live=estimate(rates.seeds, reasons),
            reasons=reasons,
        ),
        warnings=warnings(sown, uplift=uplift),
        notes=notes(sown, seasons, uplift=uplift),
    )


def _cost(sown: Sequence[Sown]) -> Quantity | None:
    costs = [each.cost for each in sown if each.cost is not None]
    return total(costs) if len(costs) == len(sown) else None


def _parts(sown: Sequence[Sown], what: str) -> tuple[MixPart, ...]:
    """Return the sums by group or by season, in the order of the words."""
    names = get_args(Group) if what == "group" else get_args(Season)
    parts = []
    for name in names:
        inside = [each for each in sown if each.seed and getattr(each.seed, what) == name]
        if inside:
            parts.append(_part(name, inside))
    return tuple(parts)


def _part(name: str, inside: Sequence[Sown]) -> MixPart:
    return MixPart(
        name=name,
        species=len({each.name for each in inside}),
        rates=together([each.rates for each in inside]),
        seed_share=total(each.seed_share for each in inside),
        weight_share=total(each.weight_share for each in inside),
    )


def lines(
    member: Member,
    drilled: Rates,
    *,
    others: Sequence[tuple[Member, Rates]],
    whole: Whole,
    uplift: float,
) -> tuple[Line, ...]:
    """Write how one member's rates come from the one it was given by.

    Parameters
    ----------
    drilled : Rates
        Without the uplift.
    others : sequence of (Member, Rates)
        All other members, without the uplift, for a rest.
    whole : OfFull, LiveSeeds, PlsRate or BulkRate
        What a rest fills up.
    uplift : float
        More seed for broadcasting, as a share. [-]
    """
    basis: Whole = whole if isinstance(member.given, Rest) else member.given
    written = []
    if isinstance(member.given, Rest):
        written.append(_rest(member, drilled, others=others, whole=whole))
    if isinstance(member.of, Carrier):
        return (*written, *_cost_line(member, drilled))
    if isinstance(basis, OfFull) and member.of.full is not None:
        share = taken(basis, member, drilled)
        written.append(_share(member.of, member.of.full, share=share, sown=drilled))
        basis = member.of.full
    if uplift:
        written.append(_broadcast(basis, drilled, factor=1 + uplift))
    sown = drilled.times(1 + uplift)
    return (*written, *_conversions(member.of, basis, sown), *_cost_line(member, sown))


def _amount(value: Quantity, kind: Kind) -> Amount:
    return kind(nominal(value))


def _on(basis: Whole, sown: Rates) -> Amount:
    """Return a member's rate on one basis."""
    match basis:
        case LiveSeeds():
            return _amount(sown.seeds, DENSITY)
        case PlsRate():
            return _amount(sown.pls, RATE)
        case _:
            return _amount(sown.bulk, RATE)


def _rest(
    member: Member, drilled: Rates, *, others: Sequence[tuple[Member, Rates]], whole: Whole
) -> Line:
    kind = KINDS[type(whole)]
    terms = Terms(_amount(size(whole), kind))
    for other, sown in others:
        if part := nominal(taken(whole, other, sown)):
            terms -= _amount(part, kind)
    text = say("{name}: what the others leave of {whole}", name=member.name, whole=in_words(whole))
    return Line(text, _amount(taken(whole, member, drilled), kind), terms)


def _share(seed: Seed, full: Rate, *, share: Quantity, sown: Rates) -> Line:
    terms = _amount(size(full), KINDS[type(full)]) * _amount(share, SHARE)
    text = say("{name}: share of full rate", name=seed.name)
    return Line(text, _on(full, sown), terms, FORM)


def _broadcast(basis: Whole, drilled: Rates, *, factor: float) -> Line:
    terms = _on(basis, drilled) * NUMBER(factor)
    return Line(say("Extra seed for broadcasting"), _on(basis, drilled.times(factor)), terms)


def _conversions(seed: Seed, basis: Whole, sown: Rates) -> tuple[Line, ...]:
    count, pls = _amount(seed.seeds_per_kg, SEED_COUNT), _amount(seed.pls, SHARE)
    seeds, live = _amount(sown.seeds, DENSITY), _amount(sown.pls, RATE)
    bulk = _amount(sown.bulk, RATE)
    to_bulk = Line(say("{name}: bulk seed", name=seed.name), bulk, live / pls)
    to_seeds = Line(say("{name}: live seeds", name=seed.name), seeds, live * count)
    pure = say("{name}: pure live seed", name=seed.name)
    match basis:
        case LiveSeeds():
            return (Line(pure, live, seeds / count), to_bulk)
        case PlsRate():
            return (to_seeds, to_bulk)
        case _:
            return (Line(pure, live, bulk * pls), to_seeds)


def _cost_line(member: Member, sown: Rates) -> tuple[Line, ...]:
    price = member.of.price
    if price is None:
        return ()
    terms = _amount(sown.bulk, RATE) * _amount(price, PRICE)
    text = say("{name}: cost", name=member.name)
    return (Line(text, _amount(sown.bulk * price, COST), terms),)
