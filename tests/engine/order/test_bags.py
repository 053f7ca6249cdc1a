"""Whole bags at least cost: brute force, hand arithmetic, monotone, refusals."""

from itertools import product
from math import ceil, nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

import labels
from evenstand.engine.order.bags import BagSize, buy
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.units import POUND

cents = st.integers(100, 6000).map(lambda n: n / 100)
needs = st.integers(0, 1_500_000).map(lambda tenths: tenths / 10_000)
weights = st.sampled_from([5 * POUND, 10 * POUND, 25 * POUND, 50 * POUND, 20.0, 25.0, 7.5, 40.0])
priced = st.lists(
    st.builds(lambda weight, price: BagSize(weight=weight, price=price), weights, cents),
    min_size=1,
    max_size=3,
    unique_by=lambda size: size.weight,
)
unpriced = st.lists(
    weights.map(lambda weight: BagSize(weight=weight)),
    min_size=1,
    max_size=3,
    unique_by=lambda size: size.weight,
)


def counts(bags):
    return {round(size.weight, 3): n for size, n in bags.counts if n}


def every_way(need, sizes):
    """All numbers of bags that hold the need and could be wanted: one more of each than enough."""
    most = [ceil(need / size.weight) for size in sizes]
    for numbers in product(*(range(n + 1) for n in most)):
        weight = sum(n * size.weight for n, size in zip(numbers, sizes, strict=True))
        if weight >= need - 1e-8:
            yield numbers, weight


@given(needs, priced)
def test_costs_as_little_as_any_way_by_brute_force_in_the_fewest_bags(need, sizes):
    best = min(
        (round(100 * sum(n * size.price for n, size in zip(way, sizes, strict=True))), sum(way))
        for way, _ in every_way(need, sizes)
    )
    bought = buy(need, sizes)
    assert bought.weight >= need - 1e-8
    assert (round(100 * bought.cost), sum(n for _, n in bought.counts)) == best


@given(st.integers(1, 1000), st.permutations([5.0, 10.0, 12.5, 20.0]))
def test_at_one_price_by_weight_the_fewest_bags_of_the_least_weight(tenths, order):
    need = tenths / 10
    sizes = [BagSize(weight=weight, price=2 * weight) for weight in order[:3]]
    best = min((weight, sum(way)) for way, weight in every_way(need, sizes))
    bought = buy(need, sizes)
    assert (bought.weight, sum(n for _, n in bought.counts)) == best


def test_the_largest_bag_first_is_not_always_the_fewest():
    """30 kg at one price by weight: 25 + 5 × 1 are six bags, 3 × 10 are three."""
    sizes = [BagSize(weight=weight, price=2 * weight) for weight in (25.0, 10.0, 1.0)]
    assert counts(buy(30.0, sizes)) == {10.0: 3}


@given(needs, unpriced)
def test_without_prices_as_little_is_left_over_as_in_any_way(need, sizes):
    least = min(weight for _, weight in every_way(need, sizes))
    bought = buy(need, sizes)
    assert bought.cost is None
    assert least - 1e-8 <= bought.weight <= least + 0.05


@given(needs, needs, priced)
def test_more_seed_never_costs_less(one, other, sizes):
    costs = [buy(need, sizes).cost for need in sorted((one, other))]
    assert costs[0] <= costs[1] + 1e-9


@given(needs, priced, st.tuples(weights, cents))
def test_one_more_size_to_choose_from_never_costs_more(need, sizes, another):
    weight, price = another
    others = [size for size in sizes if size.weight != weight]
    if others:
        more = [*others, BagSize(weight=weight, price=price)]
        assert buy(need, more).cost <= buy(need, others).cost + 1e-9


@given(needs, priced)
def test_what_is_left_is_what_was_bought_beyond_the_need(need, sizes):
    bought = buy(need, sizes)
    assert bought.left == pytest.approx(bought.weight - need, abs=1e-9)
    assert sum(n * size.weight for size, n in bought.counts) == pytest.approx(bought.weight)


def test_a_cheap_large_bag_can_beat_enough_small_ones():
    """43 kg: 25 + 2 × 10 cost 84, two of 25 cost 80, five of 10 cost 110."""
    sizes = [BagSize(weight=25.0, price=40.0), BagSize(weight=10.0, price=22.0)]
    bought = buy(43.0, sizes)
    assert (counts(bought), bought.cost, bought.left) == ({25.0: 2}, 80.0, 7.0)


def test_pounds_and_kilograms_lie_side_by_side():
    """100 lb are 45.359 kg: two 50-lb bags, not 25 kg and another."""
    sizes = [BagSize(weight=50 * POUND, price=30.0), BagSize(weight=25.0, price=33.0)]
    bought = buy(100 * POUND, sizes)
    assert bought.cost == 60.0
    assert bought.left == pytest.approx(0, abs=1e-9)
    assert str(bought.say) == labels.OF(n="2 bags", weight="50 lb")


def test_among_equal_costs_the_fewest_bags():
    sizes = [BagSize(weight=w * POUND, price=0.6 * w) for w in (5, 10, 25, 50, 2000)]
    expected = {907.185: 1, 22.68: 1, 11.34: 1, 4.536: 1}
    assert counts(buy(2085 * POUND, sizes)) == expected


def test_nothing_to_buy_is_no_bag():
    bought = buy(0.0, [BagSize(weight=25.0, price=40.0)])
    assert (bought.cost, bought.weight, str(bought.say)) == (0.0, 0.0, labels.NO_BAG)


def test_a_need_met_to_the_last_seed_buys_no_further_bag():
    """0.1 × 3 is a hair above 0.3: less than a hundredth of a milligram is no need."""
    assert counts(buy(0.1 * 3, [BagSize(weight=0.3)])) == {0.3: 1}


@pytest.mark.parametrize(
    ("size", "field"),
    [
        ({"weight": 0.0}, "bag size"),
        ({"weight": nan}, "bag size"),
        ({"weight": 1e-9}, "bag size"),
        ({"weight": 25.0, "price": -1.0}, "bag price"),
        ({"weight": 25.0, "price": nan}, "bag price"),
    ],
)
def test_refuses_what_is_no_bag(size, field):
    with pytest.raises(MeasurementError) as refusal:
        BagSize(**size)
    assert refusal.value.field == field


def bag(weight, price=None):
    return BagSize(weight=weight, price=price)


@pytest.mark.parametrize(
    ("need", "sizes", "field"),
    [
        (10.0, [], "bags"),
        (10.0, [bag(float(w)) for w in range(1, 7)], "bags"),
        (10.0, [bag(25.0), bag(25.0)], "bags"),
        (10.0, [bag(25.0, 40.0), bag(10.0)], "bag price"),
        (-1.0, [bag(25.0)], "need"),
        (nan, [bag(25.0)], "need"),
        (1e6, [bag(0.025)], "bag size"),
    ],
)
def test_refuses_what_cannot_be_bought(need, sizes, field):
    with pytest.raises(MeasurementError) as refusal:
        buy(need, sizes)
    assert refusal.value.field == field
