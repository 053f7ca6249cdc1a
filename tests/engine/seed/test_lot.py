"""Live seeds of a lot, with hard seed and without, and what a lot cannot be."""

from math import nan, sqrt

import pytest
from uncertainties import ufloat

import labels
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.units import POUND
from evenstand.engine.seed.lot import Lot, counts_hard, live_seeds_per_kg, pls_fraction
from evenstand.engine.seed.tag import Tag
from evenstand.engine.statistics.budget import budget, nominal, standard_uncertainty

SEEDS = 227_000 / POUND


def lot(**changed):
    tag = Tag(purity=0.98, germination=0.80, hard=0.10)
    return Lot(**({"species": "Alfalfa", "tag": tag, "seeds_per_kg": SEEDS} | changed))


def test_by_hand():
    """227,000 × 0.98 × 0.90 = 200,214; without hard seed × 0.80 = 177,968."""
    assert nominal(live_seeds_per_kg(lot())) * POUND == pytest.approx(200_214)
    alone = live_seeds_per_kg(lot(count_hard=False))
    assert nominal(alone) * POUND == pytest.approx(177_968)


def test_louisiana_example_both_ways():
    """NRCS Louisiana TN 11: 98.75 × (88 + 5) = 91.84%; germination alone 86.9%."""
    tag = Tag(purity=0.9875, germination=0.88, dormant=0.05)
    assert nominal(pls_fraction(tag, count_hard=True)) == pytest.approx(0.918375)
    assert nominal(pls_fraction(tag, count_hard=False)) == pytest.approx(0.869)


def test_seed_of_ones_own_costs_nothing():
    assert lot(price=0.0).price == 0


def test_the_budget_adds_up_relative_variances():
    found = live_seeds_per_kg(lot(seeds_per_kg=ufloat(SEEDS, 0.03 * SEEDS, "seed count")))
    names = {share.name for share in budget(found, {})}
    assert names == {"purity", "germination", "seed count"}
    tag = lot().tag
    parts = (
        standard_uncertainty(tag.pure) / 0.98,
        standard_uncertainty(tag.viable) / 0.90,
        0.03,
    )
    whole = sqrt(sum(part**2 for part in parts))
    assert standard_uncertainty(found) / nominal(found) == pytest.approx(whole)


def test_two_results_of_one_lot_are_correlated():
    """Live seeds per kg ÷ PLS leaves the count alone."""
    one = lot()
    ratio = live_seeds_per_kg(one) / pls_fraction(one.tag, count_hard=True)
    assert standard_uncertainty(ratio) / nominal(ratio) < 1e-12


def test_a_total_is_taken_as_it_stands():
    """Milkweed by tetrazolium: 95 × 85 = 80.75%."""
    tag = Tag(purity=0.95, germination=0.85, total_viable=True)
    assert nominal(pls_fraction(tag, count_hard=True)) == pytest.approx(0.8075)


@pytest.mark.parametrize(
    ("life_cycle", "counts"),
    [
        ("perennial", True),
        ("biennial", True),
        ("biennial/perennial", True),
        ("annual", False),
        ("annual/biennial", False),
    ],
)
def test_what_lives_one_season_cannot_wait(life_cycle, counts):
    assert counts_hard(life_cycle) is counts


@pytest.mark.parametrize(
    ("changed", "field", "says"),
    [
        ({"seeds_per_kg": 0.0}, "seeds_per_kg", "above 0"),
        ({"seeds_per_kg": nan}, "seeds_per_kg", "above 0"),
        ({"price": -1.0}, "price", labels.GIVE_PRICE_MORE),
        ({"bags": (22.7, 0.0)}, "bags", labels.GIVE_A_VALUE_ABOVE_UNIT(unit="kg")),
        ({"test_weight": 0.0}, "test_weight", "above 0"),
        (
            {
                "tag": Tag(purity=0.95, germination=0.85, total_viable=True),
                "count_hard": False,
            },
            "count_hard",
            labels.TAG_GIVES_ONLY,
        ),
    ],
)
def test_refuses_names_the_field_and_says_what_to_do(changed, field, says):
    with pytest.raises(MeasurementError) as refusal:
        lot(**changed)
    assert refusal.value.field == field
    assert says in str(refusal.value.need)
