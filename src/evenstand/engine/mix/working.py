"""The arithmetic of a mix, member by member, as one would do it with a pencil."""

from collections.abc import Sequence

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
from ..statistics.budget import Quantity, nominal
from .bases import KINDS, Rates, in_words, taken
from .member import Carrier, LiveSeeds, Member, OfFull, PlsRate, Rate, Rest, Seed, Whole, size

FORM = "SCS Colorado, form CO-ECS-6"


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
        return (*written, *_cost(member, drilled))
    if isinstance(basis, OfFull) and member.of.full is not None:
        share = taken(basis, member, drilled)
        written.append(_share(member.of, member.of.full, share=share, sown=drilled))
        basis = member.of.full
    if uplift:
        written.append(_broadcast(basis, drilled, factor=1 + uplift))
    sown = drilled.times(1 + uplift)
    return (*written, *_conversions(member.of, basis, sown), *_cost(member, sown))


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
    text = say("{name}: its share of the full rate", name=seed.name)
    return Line(text, _on(full, sown), terms, FORM)


def _broadcast(basis: Whole, drilled: Rates, *, factor: float) -> Line:
    terms = _on(basis, drilled) * NUMBER(factor)
    return Line(say("More seed, as it is broadcast"), _on(basis, drilled.times(factor)), terms)


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


def _cost(member: Member, sown: Rates) -> tuple[Line, ...]:
    price = member.of.price
    if price is None:
        return ()
    terms = _amount(sown.bulk, RATE) * _amount(price, PRICE)
    text = say("{name}: its cost", name=member.name)
    return (Line(text, _amount(sown.bulk * price, COST), terms),)
