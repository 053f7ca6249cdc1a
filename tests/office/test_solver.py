"""The best mix: by hand, by exhaustion, against SciPy, and always within its limits."""

import itertools
import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import linprog
from uncertainties import ufloat

import labels
from evenstand.engine.mix.member import Published, Seed
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import HECTARE
from evenstand.engine.statistics.budget import nominal
from evenstand.office.clash import Clash
from evenstand.office.limits import (
    CostWithin,
    Grouped,
    RateWithin,
    SeedShareWithin,
    SeedsWithin,
    Species,
    SpeciesWithin,
    WeightShareWithin,
    WeightWithin,
)
from evenstand.office.offer import LeastCost, Nearest, Offer, published
from evenstand.office.solver import solve

METRIC = Style(system="metric")
LEGUME = Grouped("legume")


def oats(**changed):
    """27,000 live seeds per kg of bulk at $0.50: 1.85185e-5 $ a seed."""
    known = {"pls": 0.9, "seeds_per_kg": 30_000.0, "price": 0.5, "group": "grass"}
    return Seed(name="oats", **(known | changed))


def vetch(**changed):
    """28,800 live seeds per kg of bulk at $4: 1.38889e-4 $ a seed."""
    known = {"pls": 0.8, "seeds_per_kg": 36_000.0, "price": 4.0, "group": "legume"}
    return Seed(name="vetch", **(known | changed))


PAIR = (Offer(seed=oats()), Offer(seed=vetch()))
BASIC = (SeedsWithin(low=200.0), SeedShareWithin(of=LEGUME, low=0.25))


def seeds(solution):
    return {each.name: each.seeds for each in solution.mix.sown}


def test_least_cost_by_hand():
    # Vetch is dear, so exactly a quarter of 200: 150 × 1.85185e-5 + 50 × 1.38889e-4 = 0.00972222.
    found = solve(PAIR, BASIC, LeastCost())
    assert seeds(found) == pytest.approx({"oats": 150, "vetch": 50})
    assert found.objective == pytest.approx(0.00972222, rel=1e-6)
    assert found.mix.cost == pytest.approx(found.objective)
    assert found.gap == 0
    assert found.bags_cost is None
    assert found.purchases == ()
    assert labels.NO_MIX_WITHIN(money="$97.22/ha") in METRIC.write(found.say)


def test_nearest_by_hand():
    # 20 seeds too many: off the oats they are 20 ÷ 150 = 13 % of a wish, off the vetch 40 %.
    found = solve(PAIR, [SeedsWithin(high=180.0)], Nearest({"oats": 150.0, "vetch": 50.0}))
    assert seeds(found) == pytest.approx({"oats": 130, "vetch": 50})
    assert found.objective == pytest.approx(20 / 150)
    assert labels.NO_MIX_WITHIN_THESE(part="13%") in str(found.say)


def test_weights_say_what_a_miss_counts():
    wish = {"oats": 150.0, "vetch": 50.0}
    found = solve(
        PAIR, [SeedsWithin(high=180.0)], Nearest(wish, weights={"oats": 1.0, "vetch": 0.5})
    )
    assert seeds(found) == pytest.approx({"oats": 150, "vetch": 30})
    assert found.objective == pytest.approx(0.5 * 20)


def test_what_nobody_wished_for_counts_against_the_mean_wish():
    goal = Nearest({"oats": 150.0, "vetch": 50.0})
    assert goal.weight("radish") == pytest.approx(1 / 100)
    assert Nearest({"oats": 150.0, "vetch": 0.0}).weight("vetch") == pytest.approx(1 / 150)
    found = solve(PAIR, [SeedsWithin(of=LEGUME, low=30.0)], Nearest({"oats": 100.0}))
    assert seeds(found) == pytest.approx({"oats": 100, "vetch": 30})
    assert found.objective == pytest.approx(0.3)


def test_among_equally_near_mixes_the_cheaper_one():
    """Two lots of one species are as near: the cheap one is taken."""
    lots = (Offer(seed=oats(lot="dear", price=2.0)), Offer(seed=oats(lot="cheap")))
    found = solve(lots, [SeedsWithin(high=500.0)], Nearest({"oats": 100.0}))
    assert [(each.lot, round(each.seeds)) for each in found.mix.sown] == [("cheap", 100)]


def test_whole_bags_and_the_shed():
    # 10 ha. Oats 150 seeds/m² = 555.6 kg, 200 of them on hand: 355.6 to buy, 15 bags of 25.
    # Vetch 50 seeds/m² = 173.6 kg: 7 bags of 25.
    offers = (
        Offer(seed=oats(), on_hand=200.0, bag=25.0),
        Offer(seed=vetch(), bag=25.0),
    )
    found = solve(offers, BASIC, LeastCost(), area=10 * HECTARE)
    (first, second) = found.purchases
    assert (first.bags, first.bought, first.on_hand) == (15, 375.0, pytest.approx(200))
    assert first.sown == pytest.approx(150 * 10 * HECTARE / 27_000)
    assert first.left == pytest.approx(200 + 375 - 555.5556, abs=1e-3)
    assert first.cost == pytest.approx(187.5)
    assert (second.bags, second.cost) == (7, pytest.approx(700))
    assert found.objective == pytest.approx(887.5 / (10 * HECTARE))
    # Loose: 355.556 kg × $0.5 + 173.611 kg × $4 = $872.22.
    assert found.bags_cost == pytest.approx((887.5 - 872.2222) / (10 * HECTARE), rel=1e-4)
    assert labels.WHOLE_BAGS_COST(more="$1.53/ha") in METRIC.write(found.say)


def test_seed_on_hand_that_cannot_be_bought():
    # 100 kg of vetch on 10 ha are 28.8 seeds/m², free; a quarter of 115.2.
    offers = (PAIR[0], Offer(seed=vetch(price=None), on_hand=100.0, buy=False))
    found = solve(
        offers,
        [SeedsWithin(low=115.2), SeedShareWithin(of=LEGUME, low=0.25)],
        LeastCost(),
        area=10 * HECTARE,
    )
    assert seeds(found) == pytest.approx({"oats": 86.4, "vetch": 28.8})
    assert found.objective == pytest.approx(86.4 * 0.5 / 27_000)
    assert found.purchases[1].cost is None
    assert found.purchases[1].bought == 0
    too_many = solve(
        offers,
        [SeedsWithin(low=120.0), SeedShareWithin(of=LEGUME, low=0.25)],
        LeastCost(),
        area=10 * HECTARE,
    )
    assert labels.ONLY_NONE_BUY(on_hand="100 kg", name="vetch") in METRIC.write(too_many.say)


def test_loose_seed_beside_the_shed():
    # 200 of 555.556 kg of oats on hand: 355.556 kg at $0.5 and 173.611 kg of vetch at $4.
    offers = (Offer(seed=oats(), on_hand=200.0), PAIR[1])
    found = solve(offers, BASIC, LeastCost(), area=10 * HECTARE)
    assert found.objective == pytest.approx((177.7778 + 694.4444) / (10 * HECTARE), rel=1e-6)
    (first, second) = found.purchases
    assert (first.bags, first.bought) == (None, pytest.approx(355.5556, rel=1e-6))
    assert first.left == pytest.approx(0, abs=1e-6)
    assert second.cost == pytest.approx(694.4444, rel=1e-6)
    assert found.bags_cost is None


def test_half_a_seed_is_a_rate_where_nobody_counts_species():
    limits = [
        SeedsWithin(low=100.0),
        SeedsWithin(of=LEGUME, low=0.5, high=0.5),
        RateWithin(of=Species("vetch"), low=1e-6),
    ]
    assert seeds(solve(PAIR, limits, LeastCost())) == pytest.approx({"oats": 99.5, "vetch": 0.5})


def test_free_seed_is_not_sown_beyond_need():
    offers = (Offer(seed=oats(), on_hand=5000.0), PAIR[1])
    found = solve(offers, [SeedsWithin(low=100.0)], LeastCost(), area=10 * HECTARE)
    assert seeds(found) == pytest.approx({"oats": 100})
    assert found.objective == pytest.approx(0, abs=1e-9)


def test_a_published_range_is_kept_or_the_species_left_out():
    printed = (Published(low=1e-3, high=2e-3, place="in mix", source="a guide"),)
    dear = Offer(seed=vetch(published=printed))
    ranges = published([PAIR[0], dear])
    assert ranges == (RateWithin(of=Species("vetch"), low=1e-3, high=2e-3, source="a guide"),)
    alone = solve([PAIR[0], dear], [SeedsWithin(low=200.0), *ranges], LeastCost())
    assert seeds(alone) == pytest.approx({"oats": 200})
    # 5 seeds/m² of vetch are 1.4e-4 kg/m²: the range lifts them to 1e-3, 36 seeds/m².
    limits = [SeedsWithin(low=200.0), SeedsWithin(of=LEGUME, low=5.0), *ranges]
    both = solve([PAIR[0], dear], limits, LeastCost())
    assert both.mix.sown[1].pls_rate == pytest.approx(1e-3)


def test_ranges_of_several_sources_are_put_together():
    printed = (
        Published(low=1e-3, high=2e-3, place="in mix", source="one"),
        Published(low=1e-3, high=4e-3, basis="bulk", place="in mix", source="two"),
        Published(low=9.0, high=9.0, place="alone"),
    )
    seed = vetch(published=printed)
    (limit,) = published([Offer(seed=seed), Offer(seed=seed), PAIR[0]])
    assert (limit.low, limit.high, limit.source) == (
        pytest.approx(8e-4),
        pytest.approx(3.2e-3),
        "one; two",
    )
    assert published(PAIR) == ()


def test_species_are_counted_by_name_not_by_lot():
    offers = (Offer(seed=oats(lot="A")), Offer(seed=oats(lot="B", price=0.6)), PAIR[1])
    found = solve(offers, [SeedsWithin(low=100.0), SpeciesWithin(low=2)], LeastCost())
    assert {each.name for each in found.mix.sown} == {"oats", "vetch"}
    assert seeds(found)["vetch"] == pytest.approx(1.0)
    more = solve(
        offers, [SeedsWithin(low=100.0), SpeciesWithin(low=2)], LeastCost(), least_seeds=7.0
    )
    assert seeds(more)["vetch"] == pytest.approx(7.0)


def test_uncertain_tags_warn_that_a_limit_is_met_with_even_odds():
    unsure = Offer(seed=oats(pls=ufloat(0.9, 0.03, "germination")))
    found = solve([unsure, PAIR[1]], BASIC, LeastCost())
    assert nominal(found.mix.seeds) == pytest.approx(200)
    assert "50-50" in str(found.warnings[-1])
    assert solve(PAIR, BASIC, LeastCost()).warnings == ()


def test_the_end_of_what_is_looked_at_is_said():
    heavy = Offer(seed=oats(seeds_per_kg=1000.0, price=0.01))
    found = solve([heavy, PAIR[1]], [SeedsWithin(low=100.0)], LeastCost())
    assert any("1,000 kg/ha" in METRIC.write(text) for text in found.warnings)


@pytest.mark.parametrize("whole", [False, True], ids=["loose", "bags"])
@pytest.mark.parametrize("number", range(40))
def test_same_optimum_as_scipy(*, number, whole, problem, by_scipy, missed):
    """Another formulation, another unit, another release of the solver beneath."""
    asked = problem(number, whole=whole)
    found = solve(asked.offers, asked.limits, asked.goal, area=asked.area)
    least = by_scipy(asked)
    if isinstance(found, Clash):
        assert least is None
        return
    assert found.objective == pytest.approx(least, rel=1e-6, abs=1e-9)
    for limit in asked.limits:
        assert missed(limit, found, asked) < 1e-6, limit


def test_thirty_species_against_scipy(problem, by_scipy):
    for number in (1000, 1004, 1005):
        asked = problem(number, n=30)
        found = solve(asked.offers, asked.limits, asked.goal)
        assert found.objective == pytest.approx(by_scipy(asked), rel=1e-6)


@given(
    prices=st.tuples(st.floats(0.2, 2), st.floats(1, 8)),
    bags=st.tuples(st.sampled_from([10.0, 20.0, 25.0]), st.sampled_from([5.0, 10.0, 25.0])),
    low=st.floats(50, 300),
)
@settings(max_examples=25)
def test_whole_bags_against_every_pair_of_bags(prices, bags, low):
    """Two species, at least ``low`` seeds, a quarter of them vetch, on 4 ha.

    With so much of each bought, the most seeds are all vetch and up to three
    times as much oats.
    """
    area = 4 * HECTARE
    per_bag = (bags[0] * 27_000 / area, bags[1] * 28_800 / area)
    most = [math.ceil(low / each) + 1 for each in per_bag]
    cheapest = min(
        a * bags[0] * prices[0] + b * bags[1] * prices[1]
        for a, b in itertools.product(range(most[0] + 1), range(most[1] + 1))
        if min(a * per_bag[0], 3 * b * per_bag[1]) + b * per_bag[1] >= low - 1e-9
    )
    offers = (
        Offer(seed=oats(price=prices[0]), bag=bags[0]),
        Offer(seed=vetch(price=prices[1]), bag=bags[1]),
    )
    limits = [SeedsWithin(low=low), SeedShareWithin(of=LEGUME, low=0.25)]
    found = solve(offers, limits, LeastCost(), area=area)
    assert sum(p.cost for p in found.purchases) == pytest.approx(cheapest, rel=1e-6)


@pytest.mark.parametrize("number", range(8))
def test_few_species_against_every_subset(number, problem):
    """At most three species of six: SciPy's linprog on each subset."""
    asked = problem(number, n=6)
    offers = asked.offers
    each = np.array([o.seed.pls * o.seed.seeds_per_kg for o in offers])
    price = np.array([o.seed.price for o in offers]) / each
    legume = np.array([o.seed.group == "legume" for o in offers], dtype=float)
    costs = []
    for chosen in itertools.combinations(range(6), 3):
        high = np.array([200.0 if i in chosen else 0.0 for i in range(6)])
        found = linprog(
            price,
            A_ub=[-np.ones(6), 0.2 - legume],
            b_ub=[-300.0, 0.0],
            bounds=np.column_stack([np.zeros(6), high]),
        )
        costs.append(found.fun if found.status == 0 else math.inf)
    limits = [
        SeedsWithin(low=300.0),
        SeedShareWithin(of=LEGUME, low=0.2),
        SpeciesWithin(high=3),
        *(SeedsWithin(of=Species(o.seed.name), high=200.0) for o in offers),
    ]
    found = solve(offers, limits, LeastCost())
    assert found.objective == pytest.approx(min(costs), rel=1e-6)


@given(number=st.integers(0, 400), which=st.integers(0, 99), by=st.floats(0.01, 0.5))
@settings(max_examples=40)
def test_giving_way_never_costs_more(problem, *, number, which, by):
    asked = problem(number)
    index = which % len(asked.limits)
    limit = asked.limits[index]
    looser = [*asked.limits[:index], loosened(limit, by), *asked.limits[index + 1 :]]
    before = solve(asked.offers, asked.limits, asked.goal)
    after = solve(asked.offers, looser, asked.goal)
    if not isinstance(before, Clash):
        assert after.objective <= before.objective * (1 + 1e-7) + 1e-9


def loosened(limit, by):
    """The same limit, every side it has a little further out."""
    sides = {}
    if limit.low is not None:
        sides["low"] = limit.low - 1 if isinstance(limit, SpeciesWithin) else limit.low * (1 - by)
    if limit.high is not None:
        more = limit.high + 1 if isinstance(limit, SpeciesWithin) else limit.high * (1 + by)
        shares = isinstance(limit, SeedShareWithin | WeightShareWithin)
        sides["high"] = min(1.0, more) if shares else more
    return replace(limit, **sides)


def refused(offers, limits, goal, **more):
    with pytest.raises(MeasurementError) as refusal:
        solve(offers, limits, goal, **more)
    return refusal.value


@pytest.mark.parametrize(
    ("call", "field", "need"),
    [
        (((), BASIC, LeastCost()), "offers", labels.OFFER_LEAST_ONE),
        ((PAIR, [], LeastCost()), "limits", labels.NO_SEED_ALL),
        ((PAIR, [WeightWithin(high=1e-3)], LeastCost()), "limits", labels.NO_SEED_ALL),
        (
            ((Offer(seed=oats(price=None)),), BASIC[:1], LeastCost()),
            "price",
            labels.GIVE_PRICE_OFFER(name="oats"),
        ),
        (
            (
                (Offer(seed=oats(price=None)),),
                [CostWithin(high=1.0)],
                Nearest({"oats": 1.0}),
            ),
            "price",
            "only what you have on hand",
        ),
        (((Offer(seed=oats(), bag=25.0),), BASIC[:1], LeastCost()), "area", "in bags"),
        (((Offer(seed=oats(), on_hand=1.0),), BASIC[:1], LeastCost()), "area", "the shed"),
        ((PAIR, BASIC, Nearest({"rye": 10.0})), "wish", labels.OFFER_LEAVE_OUT(name="rye")),
        (
            (PAIR, [*BASIC, SeedsWithin(of=Species("rye"), high=1.0)], LeastCost()),
            "limits 3 of",
            labels.OFFER_SEED_LIMIT,
        ),
        (
            (PAIR, [SeedsWithin(of=Grouped("brassica"), low=1.0)], LeastCost()),
            "limits 1 of",
            labels.OFFER_SEED_LIMIT,
        ),
        (
            (PAIR, [*BASIC, SpeciesWithin(low=3)], LeastCost()),
            "limits 3 low",
            labels.ONLY_OFFERED_OFFER(n=2),
        ),
    ],
)
def test_refuses_and_names_the_field(call, field, need):
    refusal = refused(*call)
    assert refusal.field == field
    assert need in str(refusal)


@pytest.mark.parametrize(
    ("more", "field"),
    [
        ({"area": 0.0}, "area"),
        ({"area": math.nan}, "area"),
        ({"least_seeds": 0.0}, "least_seeds"),
        ({"seconds": 0.0}, "seconds"),
    ],
)
def test_refuses_numbers_that_cannot_be(more, field):
    assert refused(PAIR, BASIC, LeastCost(), **more).field == field


def test_too_little_time_is_said(problem):
    asked = problem(1000, n=30, whole=True)
    refusal = refused(asked.offers, asked.limits, asked.goal, area=asked.area, seconds=1e-6)
    assert refusal.field == "seconds"


def test_a_limit_on_a_group_nobody_offers_is_kept_by_itself():
    found = solve(PAIR, [*BASIC, SeedShareWithin(of=Grouped("brassica"), high=0.2)], LeastCost())
    assert seeds(found) == pytest.approx({"oats": 150, "vetch": 50})


@pytest.mark.parametrize(
    ("make", "field"),
    [
        (lambda: Offer(seed=oats(), on_hand=-1.0), "on_hand"),
        (lambda: Offer(seed=oats(), bag=0.0), "bag"),
        (lambda: Nearest({}), "wish"),
        (lambda: Nearest({"oats": -1.0}), "wish"),
        (lambda: Nearest({"oats": 1.0}, weights={"oats": -1.0}), "weights"),
    ],
)
def test_offers_and_wishes_that_cannot_be_are_refused(make, field):
    with pytest.raises(MeasurementError) as refusal:
        make()
    assert refusal.value.field == field


def test_the_solver_prints_nothing(capfd):
    solve(PAIR, BASIC, LeastCost())
    assert capfd.readouterr() == ("", "")
