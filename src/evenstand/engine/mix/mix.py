"""A mix: members given by whatever rate each is known by, answered on every basis.

What is sown of a species can be said as a share of its full rate, as live
seeds, as pure live seed or as bulk. Each is turned into all others, and the
share by weight stands beside the share by seed: they differ wildly.
"""

from collections.abc import Sequence
from typing import get_args

from ..quantities.errors import MeasurementError
from ..quantities.phrases import say
from ..quantities.working import Line
from ..statistics.budget import Quantity, estimate
from .advice import together, warnings
from .bases import Rates, every_rate, of_full, total
from .member import ALL_OF_IT, Group, Member, Season, Seed, Whole
from .totals import Mix, Part, Sown, why
from .words import headline, notes
from .working import lines

MOST_UPLIFT = 3.0  # beyond it somebody typed the rate, not the uplift


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
        two rests, a rest of nothing, or an uplift below 0 or above 300 %.

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
        need = say("give how much more seed, from 0 % to 300 %: 100 % doubles it")
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
        say=headline(
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


def _parts(sown: Sequence[Sown], what: str) -> tuple[Part, ...]:
    """Return the sums by group or by season, in the order of the words."""
    names = get_args(Group) if what == "group" else get_args(Season)
    parts = []
    for name in names:
        inside = [each for each in sown if each.seed and getattr(each.seed, what) == name]
        if inside:
            parts.append(_part(name, inside))
    return tuple(parts)


def _part(name: str, inside: Sequence[Sown]) -> Part:
    return Part(
        name=name,
        species=len({each.name for each in inside}),
        rates=together([each.rates for each in inside]),
        seed_share=total(each.seed_share for each in inside),
        weight_share=total(each.weight_share for each in inside),
    )
