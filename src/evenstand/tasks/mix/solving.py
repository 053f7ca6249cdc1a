"""The Mix step with a goal: the mix that costs least, or is nearest to the one written.

It needs the solver, which never runs on a phone: nothing else imports this module.
"""

from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, replace
from typing import Any

from evenstand.engine.mix.mix import design
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.quantities.units import DENSITY, LOAD, SECONDS
from evenstand.engine.seed.tag import Month
from evenstand.engine.statistics.budget import nominal
from evenstand.office.clash import Clash
from evenstand.office.offer import Goal, LeastCost, Nearest, Offer
from evenstand.office.price import LimitPrice
from evenstand.office.solver import LEAST_SEEDS, Solution, solve
from evenstand.office.solver import SECONDS as PATIENCE

from ..job.tables import InTables, one
from ..parsing.given import Given
from ..parsing.warned import Warned
from .best import BestMix, Binding
from .limits import LimitRead, published_limits, read_limits
from .members import Sowing
from .mix import Mixed, in_mix, mixed, read_members, read_whole, shelf_of
from .said import MixSaid

GOALS = ("least cost", "nearest")


@dataclass(frozen=True, kw_only=True)
class Solved:
    """The best mix within all limits, as a mix and as the solver found it."""

    mixed: Mixed
    solution: Solution

    @property
    def advice(self) -> tuple[Phrase, ...]:
        """What to sow, and in which way that is the best."""
        return (*self.mixed.advice, *self.solution.best)

    @property
    def best(self) -> BestMix:
        """The mix as programs are given it."""
        return BestMix(
            mixed=self.mixed,
            advice=self.advice,
            gap=self.solution.gap,
            limits=tuple(_binding(each) for each in self.solution.prices),
            purchases=self.solution.purchases,
        )


def _binding(price: LimitPrice) -> Binding:
    on_hand = isinstance(price.limit, Offer)
    return Binding(on="seed on hand" if on_hand else "limit", side=price.side, say=price.say)


def solve_mix(said: MixSaid, file: Mapping[str, Any], *, today: Month) -> Solved:
    """Find the mix of the offered lots that meets the goal best.

    Parameters
    ----------
    file : mapping of str
        Of a job file as parsed, ``[mix_goal]``; ``[order]`` where it has an overlap.

    Raises
    ------
    MeasurementError
        For a goal that cannot be put; where no mix keeps to all limits, for
        one that clashes, the need saying which.
    """
    given = one(file, "mix_goal").given
    shelf = shelf_of(said, today=today)
    members = read_members(said, shelf)
    on_offer = tuple(each for each in members if each.seed is not None)
    area = _area(said, file)
    offers = [_offer(each, area) for each in on_offer]
    goal = _goal(said, given, on_offer)
    limits = [*read_limits(file, on_offer), *_published(given, offers)]
    least_seeds = given.exact("least_seeds", DENSITY) if "least_seeds" in given else LEAST_SEEDS
    seconds = given.exact("seconds", SECONDS) if "seconds" in given else PATIENCE
    with _named(said, given, limits=limits, members=on_offer):
        found = solve(
            offers,
            [each.limit for each in limits],
            goal,
            area=area,
            least_seeds=least_seeds,
            seconds=seconds,
        )
    if isinstance(found, Clash):
        raise _clashing(found, limits, offers=offers, members=on_offer)
    bought = [each.member.of for each in found.mix.sown]
    sown = tuple(
        member
        for member, offer in zip(on_offer, offers, strict=True)
        if any(offer.seed is of for of in bought)
    )
    result = mixed(found.mix, sown, shelf=shelf, said=said)
    more = [
        Warned(InTables("mix_goal"), each) for each in found.warnings[len(found.mix.warnings) :]
    ]
    taken = (each for e in sown if e.lot for each in e.lot.assumed)
    return Solved(
        mixed=replace(
            result,
            assumed=(*_taken(members, offers, goal=goal, area=area), *taken),
            warnings=(*result.warnings, *more),
        ),
        solution=found,
    )


def _area(said: MixSaid, file: Mapping[str, Any]) -> float | None:
    """Ground to be sown, overlap twice, None where the field's area is not given. [m²]"""
    if said.ground.area is None:
        return None
    ordered = one(file, "order").given
    overlap = nominal(ordered.share("overlap", tag="overlap")) if "overlap" in ordered else 0.0
    return said.ground.area.value * (1 + overlap)


def _offer(member: Sowing, area: float | None) -> Offer:
    """Offer a lot: in whole bags of its smallest size and their price, where the area is known."""
    seed, lot = member.seed, member.lot
    if seed is None or lot is None:  # a carrier is not on offer
        raise AssertionError(member.of.name)
    bag = None if area is None else min(lot.bags, key=lambda bag: bag.weight, default=None)
    if bag is not None and bag.price is not None:
        seed = replace(seed, price=bag.price / bag.weight)
    return Offer(
        seed=seed,
        on_hand=lot.on_hand,
        bag=bag.weight if bag else None,
        buy=lot.said.lot.buy,
    )


def _goal(said: MixSaid, given: Given, members: Sequence[Sowing]) -> Goal:
    if given.one_of("goal", GOALS) == GOALS[0]:
        return LeastCost()
    wished = [each for each in members if each.rate is not None]
    if not wished:
        need = say("enter the mix you want: one rate in each [[mix]]")
        raise members[0].given.refuse("share", need)
    with in_mix(said, wished):
        mix = design([each.member for each in wished], whole=read_whole(said))
    wish: dict[str, float] = {}
    for each in mix.sown:
        wish[each.name] = wish.get(each.name, 0.0) + nominal(each.seeds)
    return Nearest(wish)


def _published(given: Given, offers: Sequence[Offer]) -> tuple[LimitRead, ...]:
    return published_limits(given, offers) if given.yes("published") else ()


def _taken(
    members: Sequence[Sowing], offers: Sequence[Offer], *, goal: Goal, area: float | None
) -> tuple[Phrase, ...]:
    """Say what the search leaves out, and in which bags it buys."""
    said = []
    carriers = [each.of.name for each in members if each.seed is None]
    if carriers:
        text = "{names} left out of the search: a carrier has no live seed"
        said.append(say(text, names=", ".join(carriers)))
    if isinstance(goal, LeastCost) and any(each.rate is not None for each in members):
        said.append(say("rates in [[mix]] not used: the aim is the lowest cost"))
    if area is None and any(each.lot and each.lot.bags for each in members):
        said.append(say("seed priced by weight: enter the field's area to price whole bags"))
    for offer in offers:
        if offer.bag is not None:
            bag = LOAD(offer.bag, 4)
            said.append(say("{name} bought in bags of {bag}", name=offer.seed.name, bag=bag))
    return tuple(said)


@contextmanager
def _named(
    said: MixSaid, goal: Given, *, limits: Sequence[LimitRead], members: Sequence[Sowing]
) -> Iterator[None]:
    """Let what the solver refuses be named as it stands in the file."""
    try:
        yield
    except MeasurementError as refused:
        raise _placed(said, goal, refused, limits=limits, members=members) from None


def _placed(
    said: MixSaid,
    goal: Given,
    refused: MeasurementError,
    *,
    limits: Sequence[LimitRead],
    members: Sequence[Sowing],
) -> MeasurementError:
    match refused.path:
        case ("limits", int(number), str(key)):
            return limits[number - 1].refuse(key, refused.need)
        case ("area",):
            return said.of_ground.refuse("area", refused.need)
        case ("price",):
            lots = [each.lot for each in members if each.lot and each.lot.price is None]
            return lots[0].given.refuse("price", refused.need) if lots else refused
        case (("seconds" | "least_seeds") as key,):
            return goal.refuse(key, refused.need)
        case _:
            return goal.refuse("goal", refused.need)


def _clashing(
    clash: Clash,
    limits: Sequence[LimitRead],
    *,
    offers: Sequence[Offer],
    members: Sequence[Sowing],
) -> MeasurementError:
    """Refuse the first limit that clashes, saying with which others."""
    for side in clash.sides:
        for limit in limits:
            if limit.limit is side.limit:
                return limit.refuse(side.side, clash.say)
    for offer, member in zip(offers, members, strict=True):
        if member.lot and any(side.limit is offer for side in clash.sides):
            return member.lot.given.refuse("on_hand", clash.say)
    return MeasurementError(InTables("mix_goal"), None, clash.say)
