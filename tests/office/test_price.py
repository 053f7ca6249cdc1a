"""What limits cost: by hand, and by solving again a little further out."""

import re
from dataclasses import replace

import pytest

import labels
from evenstand.engine.mix.member import Seed
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
    WeightShareWithin,
)
from evenstand.office.offer import LeastCost, Nearest, Offer
from evenstand.office.solver import solve

METRIC = Style(system="metric")
OATS = Seed(name="oats", pls=0.9, seeds_per_kg=30_000.0, price=0.5, group="grass")
VETCH = Seed(name="vetch", pls=0.8, seeds_per_kg=36_000.0, price=4.0, group="legume")
PAIR = (Offer(seed=OATS), Offer(seed=VETCH))
TOTAL, LEGUMES = SeedsWithin(low=200.0), SeedShareWithin(of=Grouped("legume"), low=0.25)


def per_unit(solution):
    return {type(price.limit): price.per_unit for price in solution.prices}


def test_by_hand():
    # A seed more costs ¾ × 1.85185e-5 + ¼ × 1.38889e-4 = 4.86111e-5; the whole share would cost
    # 200 × (1.38889e-4 − 1.85185e-5) = 0.0240741, a hundredth of it $2.41/ha.
    found = solve(PAIR, [TOTAL, LEGUMES], LeastCost())
    assert per_unit(found) == pytest.approx(
        {SeedsWithin: 4.86111e-5, SeedShareWithin: 0.0240741}, rel=1e-5
    )
    assert [METRIC.write(price.say) for price in found.prices] == [
        labels.GIVING_WAY(
            limit=labels.LIVE_BOUND_SCOPE(
                bound=labels.AT_LEAST(value="200 seeds/m²"), scope=labels.IN_ALL
            ),
            step="20 seeds/m²",
            gain=labels.SAVES_UP(money="$9.72/ha"),
        ),
        labels.GIVING_WAY(
            limit=labels.OF_THE_SEEDS(
                bound=labels.AT_LEAST(value="25%"), scope=labels.OF_GROUP(group=labels.LEGUMES)
            ),
            step="1%",
            gain=labels.SAVES_ABOUT(money="$2.41/ha"),
        ),
    ]
    assert [price.side for price in found.prices] == ["low", "low"]


def test_a_limit_with_room_has_no_price():
    slack = SeedsWithin(of=Species("oats"), high=180.0)
    found = solve(PAIR, [TOTAL, LEGUMES, slack], LeastCost())
    assert len(found.prices) == 2


def other(name, price):
    """30,000 live seeds per kg of bulk: at $3 they are 1e-4 $ each."""
    return Offer(seed=Seed(name=name, pls=0.5, seeds_per_kg=60_000.0, price=price))


def test_a_number_of_species_by_hand():
    """One seed/m² of each that only fills the number; the dearest would go first."""
    offers = (*PAIR, other("radish", 3.0), other("turnip", 6.0))
    found = solve(offers, [TOTAL, LEGUMES, SpeciesWithin(low=4)], LeastCost())
    # Turnip at 2e-4 $ stands where oats at 1.85185e-5 would.
    assert per_unit(found)[SpeciesWithin] == pytest.approx(2e-4 - 1.85185e-5, rel=1e-4)
    said = [METRIC.write(price.say) for price in found.prices]
    assert (
        labels.SPECIES(bound=labels.AT_LEAST(value=4), scope=labels.IN_ALL)
        + ": "
        + labels.ONE_SPECIES_FEWER
        + " "
        + labels.SAVES_ABOUT(money="$1.81/ha")
        in said
    )


def test_one_species_more():
    """Oats alone cannot be a quarter legumes; two species can, and three would be no cheaper."""
    offers = (*PAIR, other("radish", 0.05))
    limits = [TOTAL, LEGUMES, SeedsWithin(of=Species("oats"), low=20.0), SpeciesWithin(high=2)]
    found = solve(offers, limits, LeastCost())
    # A third species, radish at 1.66667e-6 $ a seed, would take over 130 of 150 seeds of oats.
    assert per_unit(found)[SpeciesWithin] == pytest.approx(
        130 * (1.85185e-5 - 1.66667e-6), rel=1e-4
    )
    assert any(
        re.search(
            " ".join([labels.ONE_SPECIES_MORE.like(), labels.SAVES_ABOUT.like()]), str(price.say)
        )
        for price in found.prices
    )


def test_prices_of_a_wish():
    # 20 ÷ 150 off; each seed more allowed is 1 ÷ 150 of the oats' wish nearer.
    found = solve(PAIR, [SeedsWithin(high=180.0)], Nearest({"oats": 150.0, "vetch": 50.0}))
    assert per_unit(found) == pytest.approx({SeedsWithin: 1 / 150})
    assert re.search(
        labels.GIVING_WAY.like(step="18 seeds/m²", gain=labels.BRINGS_MIX_UP(part="12%")) + "$",
        METRIC.write(found.prices[0].say),
    )
    shared = solve(
        PAIR,
        [SeedShareWithin(of=Grouped("legume"), high=0.2)],
        Nearest({"oats": 150.0, "vetch": 50.0}),
    )
    assert re.search(labels.BRINGS_MIX_ABOUT.like(), str(shared.prices[0].say))


def test_the_price_of_a_budget_and_of_the_shed():
    wish = Nearest({"oats": 150.0, "vetch": 50.0})
    found = solve(PAIR, [CostWithin(high=0.009)], wish)
    # 7.2222e-4 $ short: vetch loses most money for least miss: 1 ÷ 50 ÷ 1.38889e-4 = 144 per $.
    # Oats would be 1 ÷ 150 ÷ 1.85185e-5 = 360 per $.
    assert per_unit(found)[CostWithin] == pytest.approx(144, rel=1e-5)
    only = (PAIR[0], Offer(seed=VETCH, on_hand=100.0, buy=False))
    shed = solve(only, [SeedsWithin(high=500.0)], wish, area=10 * HECTARE)
    # 100 kg are 28.8 of 50 seeds/m²; a kg more is 0.288 of them.
    assert per_unit(shed)[Offer] == pytest.approx(0.288 / 50)
    assert "none for sale: loosening it by 10 kg" in METRIC.write(shed.prices[0].say)


def test_bags_are_priced_as_loose_seed():
    bags = tuple(replace(offer, bag=25.0) for offer in PAIR)
    loose = solve(PAIR, [TOTAL, LEGUMES], LeastCost())
    whole = solve(bags, [TOTAL, LEGUMES], LeastCost(), area=10 * HECTARE)
    assert per_unit(whole) == pytest.approx(per_unit(loose), rel=1e-6)


def test_a_limit_of_nothing_gives_way_by_one_of_its_units():
    none = SeedsWithin(of=Species("oats"), high=0.0)
    found = solve(PAIR, [TOTAL, none], LeastCost())
    (said,) = [str(price.say) for price in found.prices if price.limit is none]
    assert "loosening it by 1 seeds/ft² saves up to" in said
    free = CostWithin(high=0.0)
    shed = (Offer(seed=OATS, on_hand=100.0),)
    found = solve(shed, [free], Nearest({"oats": 150.0}), area=10 * HECTARE)
    assert any("loosening it by $1.00/ac brings" in str(price.say) for price in found.prices)


STEP = 1e-4


@pytest.mark.parametrize("number", range(30))
def test_every_price_by_solving_again(number, problem):
    """Give way by a ten-thousandth: what is saved is the price, to a hundredth of it."""
    asked = problem(number)
    found = solve(asked.offers, asked.limits, asked.goal)
    if isinstance(found, Clash):
        return
    for price in found.prices:
        if isinstance(price.limit, SpeciesWithin):
            continue
        value = getattr(price.limit, price.side)
        out = value * (1 - STEP if price.side == "low" else 1 + STEP)
        share = isinstance(price.limit, SeedShareWithin | WeightShareWithin)
        moved = replace(price.limit, **{price.side: min(1.0, out) if share else out})
        limits = [moved if limit is price.limit else limit for limit in asked.limits]
        saved = found.objective - solve(asked.offers, limits, asked.goal).objective
        assert saved == pytest.approx(price.per_unit * value * STEP, rel=0.01), price.say
