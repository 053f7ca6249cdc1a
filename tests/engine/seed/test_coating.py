"""Coated seed: two ways that give the same live seeds, and cannot be mixed."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

import labels
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.units import POUND
from evenstand.engine.seed.coating import coating_share, looks_coated, pure_count
from evenstand.engine.seed.lot import Lot, live_seeds_per_kg
from evenstand.engine.seed.tag import Tag
from evenstand.engine.statistics.budget import nominal, standard_uncertainty

TEFF = Tag(purity=0.50, germination=0.90, coating=0.50)
RAW, COATED = 1_300_000 / POUND, 650_000 / POUND  # a seed seller's page


def live(tag, **count):
    return live_seeds_per_kg(Lot(species="Teff", tag=tag, seeds_per_kg=pure_count(tag, **count)))


def test_teff_by_both_ways():
    """1.3 M raw × 50% × 90% = 650,000 coated × 90% = 585,000 live seeds in a pound."""
    by_raw, by_units = live(TEFF, seeds_per_kg=RAW), live(TEFF, coated_units=COATED)
    assert nominal(by_raw) * POUND == pytest.approx(585_000)
    assert nominal(by_units) * POUND == pytest.approx(585_000)


def test_purity_drops_out_of_the_second_way():
    """Coated units germinate as they come, 201.58 (c): only germination is uncertain."""
    by_units = live(TEFF, coated_units=COATED)
    u = standard_uncertainty(TEFF.sprouting) / 0.90
    assert standard_uncertainty(by_units) / nominal(by_units) == pytest.approx(u)


@given(st.floats(0.2, 0.95), st.floats(0.3, 1), st.floats(1e3, 1e7))
def test_both_ways_are_one(purity, germination, raw):
    """Raw seeds × purity are the units, where only the coating is inert."""
    tag = Tag(purity=purity, germination=germination, coating=1 - purity)
    first, second = live(tag, seeds_per_kg=raw), live(tag, coated_units=raw * purity)
    assert nominal(first) == pytest.approx(nominal(second))


def test_heavy_and_light_coat_of_alfalfa():
    """Progressive Forage: pure 90 or 66, germination 90: live seeds as 81.0 to 59.4."""
    light, heavy = (
        nominal(live(Tag(purity=p, germination=0.9, coating=0.05), seeds_per_kg=RAW))
        for p in (0.90, 0.66)
    )
    assert light / heavy == pytest.approx(81.0 / 59.4)


def test_coating_by_weighing():
    """7 CFR 201.46 (d): 100 coated units of 0.300 g, 0.198 g bare: 34%."""
    assert coating_share(0.300e-3, bare=0.198e-3) == pytest.approx(0.34)
    assert coating_share(1, bare=1) == 0


def test_a_coated_count_given_as_raw_is_asked_about():
    """650,000 where bare teff has 1.3 M a pound."""
    said = looks_coated(TEFF, seeds_per_kg=COATED, known=(RAW, RAW))
    assert re.search(labels.LOOKS_LIKE_COATED.like(), str(said))


@pytest.mark.parametrize("count", [RAW, 0.6 * RAW, 0.4 * RAW])
def test_other_counts_are_not(count):
    assert looks_coated(TEFF, seeds_per_kg=count, known=(RAW, RAW)) is None


def test_seed_without_a_coating_is_never_taken_for_coated():
    bare = Tag(purity=0.5, germination=0.9)
    assert looks_coated(bare, seeds_per_kg=COATED, known=(RAW, RAW)) is None


@pytest.mark.parametrize(
    ("call", "field", "says"),
    [
        (
            lambda: pure_count(TEFF, seeds_per_kg=RAW, coated_units=COATED),
            "coated_units",
            labels.GIVE_ONE_OF_TWO,
        ),
        (lambda: pure_count(TEFF), "seeds_per_kg", labels.GIVE_SEEDS_WEIGHT),
        (lambda: pure_count(TEFF, seeds_per_kg=0), "seeds_per_kg", "above 0"),
        (lambda: pure_count(TEFF, coated_units=-1), "coated_units", "above 0"),
        (
            lambda: pure_count(Tag(purity=0.9, germination=0.9), coated_units=COATED),
            "coated_units",
            labels.GIVE_COATING_TAG,
        ),
        (lambda: coating_share(0.1, bare=0.2), "bare", labels.GIVE_COATED_WEIGHT),
        (lambda: coating_share(0, bare=0.2), "coated", "above 0"),
        (lambda: coating_share(0.1, bare=0), "bare", "above 0"),
    ],
)
def test_refuses_names_the_field_and_says_what_to_do(call, field, says):
    with pytest.raises(MeasurementError) as refusal:
        call()
    assert refusal.value.field == field
    assert says in str(refusal.value.need)
