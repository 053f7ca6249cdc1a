"""When nothing fits: the set that clashes, no smaller one, and how far to give way."""

import re
from dataclasses import replace
from itertools import combinations

import pytest

import labels
from evenstand.engine.mix.member import Seed
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import HECTARE
from evenstand.office.clash import Clash
from evenstand.office.limits import (
    CostWithin,
    Grouped,
    SeedShareWithin,
    SeedsWithin,
    Species,
    SpeciesWithin,
    WeightWithin,
)
from evenstand.office.offer import LeastCost, Offer
from evenstand.office.solver import Solution, solve

METRIC = Style(system="metric")
OATS = Seed(name="oats", pls=0.9, seeds_per_kg=30_000.0, price=0.5, group="grass")
VETCH = Seed(name="vetch", pls=0.8, seeds_per_kg=36_000.0, price=4.0, group="legume")
PAIR = (Offer(seed=OATS), Offer(seed=VETCH))
TOTAL, LEGUMES = SeedsWithin(low=200.0), SeedShareWithin(of=Grouped("legume"), low=0.25)


def test_by_hand():
    """The mix that keeps to both costs $97.22/ha; $80 clash with them, the rest does not."""
    idle = (WeightWithin(high=0.05), SpeciesWithin(high=2))
    found = solve(PAIR, [idle[0], TOTAL, LEGUMES, CostWithin(high=0.008), idle[1]], LeastCost())
    assert isinstance(found, Clash)
    assert {type(side.limit) for side in found.sides} == {
        SeedsWithin,
        SeedShareWithin,
        CostWithin,
    }
    assert all(side.enough for side in found.sides)
    best = {type(side.limit): side.best for side in found.sides}
    # $0.008 at 4.86111e-5 $ a seed are 164.57 seeds.
    assert best[SeedsWithin] == pytest.approx(164.571, abs=1e-3)
    assert best[CostWithin] == pytest.approx(0.00972222, rel=1e-6)
    assert best[SeedShareWithin] is None
    seeds = labels.LIVE_BOUND_SCOPE(
        bound=labels.AT_LEAST(value="200 seeds/m²"), scope=labels.IN_ALL
    )
    share = labels.OF_THE_SEEDS(
        bound=labels.AT_LEAST(value="25%"), scope=labels.OF_GROUP(group=labels.LEGUMES)
    )
    cost = labels.A_COST_OF(bound=labels.AT_MOST(value="$80.00/ha"))
    limits = [
        labels.BEST_CAN_BE_HAD(limit=seeds, best="165 seeds/m²"),
        share,
        labels.BEST_IT_TAKES(limit=cost, best="$97.22/ha"),
    ]
    assert METRIC.write(found.say) == labels.NO_MIX_KEEPS(n=3, limits="; ".join(limits))


def test_one_limit_by_itself():
    """1,000 kg/ha of oats, the most there is, are 2,700 seeds/m²."""
    found = solve(PAIR[:1], [SeedsWithin(low=5000.0)], LeastCost())
    assert [side.best for side in found.sides] == [pytest.approx(2700)]
    assert re.search(labels.NO_MIX_KEEPS_LIMIT.like(), str(found.say))


def test_two_clashes_at_once():
    limits = [
        SeedsWithin(of=Species("oats"), low=100.0),
        SeedsWithin(of=Species("oats"), high=50.0),
        SeedsWithin(of=Species("vetch"), low=100.0),
        SeedsWithin(of=Species("vetch"), high=50.0),
    ]
    found = solve(PAIR, limits, LeastCost())
    names = {side.limit.of.name for side in found.sides}
    assert len(found.sides) == 2
    assert len(names) == 1
    assert not any(side.enough for side in found.sides)
    assert str(found.say).endswith(labels.WILL_NOT_ALL)


def test_a_number_of_species_against_the_shed():
    offers = (PAIR[0], Offer(seed=VETCH, buy=False))
    found = solve(offers, [TOTAL, SpeciesWithin(low=2)], LeastCost(), area=HECTARE)
    assert len(found.sides) == 2
    assert {type(side.limit) for side in found.sides} == {SpeciesWithin, Offer}
    assert {type(side.limit): side.best for side in found.sides}[SpeciesWithin] == pytest.approx(1)


def test_whole_bags_can_clash_where_loose_seed_would_not():
    # 200 seeds/m² on a hectare are 74.07 kg: three bags of 25, $37.50; loose $37.04.
    bags = (Offer(seed=OATS, bag=25.0),)
    limits = [TOTAL, CostWithin(high=37.2 / HECTARE)]
    assert isinstance(solve(PAIR[:1], limits, LeastCost()), Solution)
    found = solve(bags, limits, LeastCost(), area=HECTARE)
    assert isinstance(found, Clash)
    assert len(found.sides) == 2
    best = {type(side.limit): side.best for side in found.sides}
    assert best[CostWithin] == pytest.approx(37.5 / HECTARE)
    assert best[SeedsWithin] == pytest.approx(50 * 27_000 / HECTARE)


def test_the_fewest_limits_are_named_where_several_clashes_exist():
    """Three limits clash by hand; a cost that no oats can meet clashes with one alone."""
    both = [TOTAL, LEGUMES, CostWithin(high=0.008), WeightWithin(low=0.02), WeightWithin(high=0.01)]
    for limits in (both, both[::-1]):
        found = solve(PAIR, limits, LeastCost())
        assert {type(side.limit) for side in found.sides} == {WeightWithin}
        assert len(found.sides) == 2


def fits(asked, limits):
    try:
        return isinstance(solve(asked.offers, limits, asked.goal, area=asked.area), Solution)
    except MeasurementError as refusal:  # nothing at all is a mix here
        return refusal.field == "limits"


def without(limit, side):
    """The limits that are left when one side of one is let go."""
    other = "high" if side == "low" else "low"
    if getattr(limit, other) is None or isinstance(limit, CostWithin):
        return ()
    return (replace(limit, **{side: None}),)


def only(limit, side):
    return limit if isinstance(limit, CostWithin) else replace(limit, **{_other(side): None})


def _other(side):
    return "high" if side == "low" else "low"


@pytest.mark.parametrize("whole", [False, True], ids=["loose", "bags"])
def test_irreducible_on_random_problems(whole, problem):
    """The set clashes; without any one of its sides it does not. ``enough`` and ``best`` hold."""
    met = 0
    for number in range(25):
        asked = problem(number, whole=whole)
        found = solve(asked.offers, asked.limits, asked.goal, area=asked.area)
        if not isinstance(found, Clash):
            continue
        met += 1
        sides = [only(side.limit, side.side) for side in found.sides]
        # Species are counted from one seed on wherever a limit counts them; this one never binds.
        counted = any(isinstance(limit, SpeciesWithin) for limit in asked.limits)
        always = [SpeciesWithin(low=0)] if counted else []
        assert not fits(asked, [*sides, *always])
        for i in range(len(sides)):
            assert fits(asked, [*sides[:i], *sides[i + 1 :], *always])
        every = [
            only(limit, side)
            for limit in asked.limits
            for side in ("low", "high")
            if getattr(limit, side, None) is not None
            and not (isinstance(limit, CostWithin) and side == "low")
        ]
        if number < 8:  # no clash of fewer sides, by trying them all
            for fewer in combinations(every, len(sides) - 1):
                assert fits(asked, [*fewer, *always])
        for side in found.sides:
            rest = [
                kept
                for limit in asked.limits
                for kept in ([limit] if limit is not side.limit else without(limit, side.side))
            ]
            assert fits(asked, [*rest, *always]) == side.enough
            if side.best is not None and not isinstance(side.limit, SpeciesWithin):
                assert_best(asked, side, rest)
    assert met > 4


def assert_best(asked, side, rest):
    """A mix exists at the best value, and none a thousandth nearer to the limit."""
    for factor, fit in ((1 - 1e-6, True), (1 + 1e-3, False)):
        value = side.best * (factor if side.side == "low" else 2 - factor)
        limit = replace(only(side.limit, side.side), **{side.side: value})
        assert fits(asked, [*rest, limit]) == fit, side.say
