"""The mix that costs least, or is nearest to a wish, within limits.

The problem is a mixed-integer linear program and HiGHS solves it. What comes
back says the mix, what each limit that binds costs, and, where nothing fits,
the smallest set of limits that clash.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil

from evenstand.engine.mix.member import BulkRate, Member
from evenstand.engine.mix.mix import design
from evenstand.engine.mix.totals import Mix
from evenstand.engine.order.purchase import Purchase
from evenstand.engine.quantities.errors import MeasurementError, Path, require_positive
from evenstand.engine.quantities.phrases import Phrase, join, say
from evenstand.engine.quantities.units import COST, HECTARE, RATE, SHARE
from evenstand.engine.statistics.budget import nominal, standard_uncertainty

from .build import lay_out
from .clash import Clash, clash
from .highs import INFINITY, Found, Program
from .layout import MOST, Layout
from .limits import CostWithin, Limit, SeedShareWithin, SeedsWithin, Species, SpeciesWithin
from .offer import Goal, LeastCost, Nearest, Offer
from .price import LimitPrice, prices

CLOSE = 1e-7  # as a share: what counts as the same
TRACE = 1e-6  # kg/ha: what rounding alone may leave of a species that is not sown
SECONDS = 10.0
LEAST_SEEDS = 1.0  # 1/m², a judgement: fewer is not worth calling sown


@dataclass(frozen=True, slots=True, kw_only=True)
class Solution:
    """The best mix within all limits.

    ``objective`` is what was made least: $/m² for seed to be bought, or the
    miss. ``gap`` is 0 where that is proven to be the least, else how far from
    it this mix may be, as a share. ``bags_cost`` is what whole bags cost above
    loose seed, $/m², None where none are bought or cost is not the goal.
    ``purchases`` stand for the area, so there are none without one. ``best``
    says in which way it is the best.
    """

    mix: Mix
    objective: float
    gap: float
    bags_cost: float | None
    purchases: tuple[Purchase, ...]
    prices: tuple[LimitPrice, ...]
    best: tuple[Phrase, ...]
    warnings: tuple[Phrase, ...]

    @property
    def say(self) -> Phrase:
        """The mix in words, then in which way it is the best."""
        return join([self.mix.say, *self.best])


def solve(
    offers: Sequence[Offer],
    limits: Sequence[Limit],
    goal: Goal,
    *,
    area: float | None = None,
    least_seeds: float = LEAST_SEEDS,
    seconds: float = SECONDS,
) -> Solution | Clash:
    """Find the mix that meets a goal best within limits.

    Parameters
    ----------
    offers : sequence of Offer, length n ≥ 1
        Two lots of one species are two offers of the same name.
    area : float, optional
        Ground to be sown, overlap in it; needed for bags and seed on hand. [m²]
    least_seeds : float
        Live seeds from which a species counts as sown, where species are
        counted. [1/m²]
    seconds : float
        How long to look for something better. [s]

    Returns
    -------
    Solution or Clash
        Clash where no mix keeps to all limits.

    Raises
    ------
    MeasurementError
        For a problem that cannot be put (see ``check.check``), one that no
        seed at all solves best, or no mix found in time.

    Notes
    -----
    Tags count at their value: a limit that binds is met with even odds. No
    species is sown at more than 1,000 kg/ha.

    Examples
    --------
    >>> from evenstand.engine.mix.member import Seed
    >>> from evenstand.office.limits import Grouped
    >>> oats = Seed(name="oats", pls=0.9, seeds_per_kg=30_000.0, price=0.5)
    >>> vetch = Seed(name="vetch", pls=0.8, seeds_per_kg=36_000.0, price=4.0, group="legume")
    >>> limits = [SeedsWithin(low=200.0), SeedShareWithin(of=Grouped("legume"), low=0.25)]
    >>> found = solve([Offer(seed=oats), Offer(seed=vetch)], limits, LeastCost())
    >>> [f"{each.name} {each.seeds:.0f}" for each in found.mix.sown]
    ['oats 150', 'vetch 50']
    """
    check(offers, limits, goal, area=area)
    _check_least(least_seeds, seconds)
    layout = lay_out(offers, limits, goal, area=area, least_seeds=least_seeds, tight=True)
    program = Program(layout.columns, layout.rows, seconds=seconds)
    found = program.solve()
    if found.ending == "none":
        return clash(lay_out(offers, limits, goal, area=area, least_seeds=least_seeds, tight=False))
    if not found.values:
        need = say("no mix found in that time: allow more time, or use fewer bag sizes and limits")
        raise MeasurementError("seconds", seconds, need)
    return _solution(layout, program, found, area=area)


def _check_least(least_seeds: float, seconds: float) -> None:
    if not 0 < least_seeds < float("inf"):
        raise MeasurementError(
            "least_seeds", least_seeds, say("enter a number of live seeds above 0")
        )
    require_positive("seconds", seconds, "s")


def _solution(layout: Layout, program: Program, found: Found, *, area: float | None) -> Solution:
    priced, loose = prices(layout, program, found)
    rates = _settle(layout, program, found)
    members = [
        Member(offer.seed, BulkRate(rate / HECTARE))
        for offer, rate in zip(layout.offers, rates, strict=True)
        if rate > TRACE
    ]
    if not members:
        need = say("planting nothing meets these limits best: ask for at least some seed")
        raise MeasurementError("limits", 0, need)
    mix = design(members)
    cheapest = isinstance(layout.goal, LeastCost)
    bagged = cheapest and any(layout.columns[i].whole for i in layout.bought.values())
    bags_cost = max(0.0, found.objective - loose.objective) / HECTARE if bagged else None
    return Solution(
        mix=mix,
        objective=found.objective / HECTARE if cheapest else found.objective,
        gap=found.gap,
        bags_cost=bags_cost,
        purchases=_purchases(layout, rates) if area else (),
        prices=priced,
        best=tuple(_best(layout, found, bags_cost)),
        warnings=(*mix.warnings, *_warnings(mix, rates, priced)),
    )


def _settle(layout: Layout, program: Program, found: Found) -> tuple[float, ...]:
    """Among mixes equally good take the one whose seed is worth least, so that it is one mix."""
    reach = found.objective + CLOSE * max(1.0, abs(found.objective))
    program.fix(found.values)
    program.bound(layout.objective, -INFINITY, reach)
    worth = {i: nominal(offer.seed.price or 0.0) + CLOSE for i, offer in enumerate(layout.offers)}
    program.aim(worth)
    settled = program.solve()
    values = settled.values if settled.ending == "best" else found.values
    return tuple(max(0.0, value) for value in values[: len(layout.offers)])


def _purchases(layout: Layout, rates: Sequence[float]) -> tuple[Purchase, ...]:
    return tuple(
        _purchase(offer, rate * layout.area)
        for offer, rate in zip(layout.offers, rates, strict=True)
        if rate > TRACE
    )


def _purchase(offer: Offer, sown: float) -> Purchase:
    from_shed = min(sown, offer.on_hand)
    short = sown - from_shed
    bags, bought = None, short
    if offer.bag is not None:
        bags = ceil(short / offer.bag - CLOSE)
        bought = bags * offer.bag
    price = offer.seed.price
    return Purchase(
        name=offer.seed.name,
        lot=offer.seed.lot,
        sown=sown,
        on_hand=from_shed,
        bought=bought,
        bags=bags,
        left=max(0.0, offer.on_hand + bought - sown),
        cost=None if price is None else nominal(price) * bought,
    )


def _best(layout: Layout, found: Found, bags_cost: float | None) -> tuple[Phrase, ...]:
    """Say in which way this is the best mix, and how surely."""
    said = []
    if isinstance(layout.goal, LeastCost):
        money = COST(found.objective / HECTARE)
        said.append(
            say("No mix within these limits costs less: {money} of seed to buy.", money=money)
        )
    else:
        part = SHARE(found.objective, 2)
        said.append(
            say("No mix within these limits is closer: {part} off what you asked for.", part=part)
        )
    if found.gap:
        gap = SHARE(found.gap, 2)
        said[0] = say("The search ran out of time: a mix up to {gap} better may exist.", gap=gap)
    if bags_cost:
        more = COST(bags_cost)
        said.append(say("Whole bags cost {more} more than loose seed.", more=more))
    return tuple(said)


def _warnings(mix: Mix, rates: Sequence[float], priced: Sequence[LimitPrice]) -> tuple[Phrase, ...]:
    said = []
    on_seeds = any(isinstance(p.limit, SeedsWithin | SeedShareWithin) for p in priced)
    if on_seeds and standard_uncertainty(mix.seeds):
        said.append(
            say(
                "Seed limits use the numbers on the tags: if the mix just meets a"
                " limit, the odds are 50-50 that the field meets it"
            )
        )
    if max(rates) > (1 - CLOSE) * MOST:
        most = RATE(MOST / HECTARE)
        said.append(say("One species reached {most}, the most this search tries", most=most))
    return tuple(said)


def check(
    offers: Sequence[Offer], limits: Sequence[Limit], goal: Goal, *, area: float | None
) -> None:
    """Refuse a problem that cannot be laid out, naming the field.

    Raises
    ------
    MeasurementError
        For no offer, an area, price or species that is missing, or a limit on
        nothing that is offered.
    """
    if not offers:
        raise MeasurementError("offers", (), say("offer at least one species"))
    _check_area(offers, area)
    _check_prices(offers, limits, goal)
    names = {offer.seed.name for offer in offers}
    if isinstance(goal, Nearest):
        for name in (*goal.wish, *(goal.weights or {})):
            if name not in names:
                raise MeasurementError("wish", name, say("offer {name} or remove it", name=name))
    for number, limit in enumerate(limits, start=1):
        _check_scope(offers, limit, Path("limits", number))


def _check_area(offers: Sequence[Offer], area: float | None) -> None:
    if area is not None and not 0 < area < float("inf"):
        raise MeasurementError("area", area, say("enter an area above 0"))
    weighed = [o.seed.name for o in offers if o.on_hand or o.bag or not o.buy]
    if area is None and weighed:
        need = say("enter the area to seed: {name} comes in bags or from the shed", name=weighed[0])
        raise MeasurementError("area", None, need)


def _check_prices(offers: Sequence[Offer], limits: Sequence[Limit], goal: Goal) -> None:
    priced = isinstance(goal, LeastCost) or any(isinstance(limit, CostWithin) for limit in limits)
    for offer in offers:
        if priced and offer.buy and offer.seed.price is None:
            need = say(
                "enter the price of {name}, or offer only what you have on hand",
                name=offer.seed.name,
            )
            raise MeasurementError("price", None, need)


def _check_scope(offers: Sequence[Offer], limit: Limit, path: Path) -> None:
    if isinstance(limit, CostWithin):
        return
    inside = {offer.seed.name for offer in offers if offer.is_in(limit.of)}
    if not inside and (limit.low or isinstance(limit.of, Species)):
        need = say("offer seed this limit applies to, or remove the limit")
        raise MeasurementError(path.part("of"), limit.of, need)
    if isinstance(limit, SpeciesWithin) and (limit.low or 0) > len(inside):
        need = say("only {n} are offered: offer more species, or ask for fewer", n=len(inside))
        raise MeasurementError(path.part("low"), limit.low, need)
