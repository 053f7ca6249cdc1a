"""One depth for a mix: shared ranges, compromises, and who pays for them."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

import labels
from evenstand.engine.mix.depth import RULE, compromise
from evenstand.engine.mix.member import Depth, Seed
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import INCH, POUND


def seed(name, seeds_per_lb, *inches):
    """Depths in inches as NRCS, Five keys (2003), and the Georgia cover-crop table print them."""
    depth = Depth(low=inches[0] * INCH, high=inches[1] * INCH) if inches else None
    return Seed(name=name, pls=0.9, seeds_per_kg=seeds_per_lb / POUND, depth=depth)


RYE = seed("cereal rye", 18_000, 0.75, 1.5)
OATS = seed("oats", 16_000, 0.75, 1.5)
CLOVER = seed("clover", 150_000, 0.25, 0.5)
WHEATGRASS = seed("western wheatgrass", 113_000, 0.5, 1)
BLUESTEM = seed("little bluestem", 238_000, 0.25, 0.5)


def test_a_shared_range_is_sown_at_its_shallow_end():
    found = compromise([WHEATGRASS, BLUESTEM])
    assert found.depth / INCH == pytest.approx(0.5)
    assert found.suits_all
    assert found.missed == ()
    assert found.warnings == ()
    assert str(found.say) == labels.SOW_EVERY_SPECIES(depth="0.5 in")
    assert compromise([RYE, OATS]).depth / INCH == pytest.approx(0.75)


def test_without_one_the_smallest_important_seed_decides():
    found = compromise([RYE, CLOVER])
    assert found.smallest == "clover"
    assert (found.low / INCH, found.high / INCH) == pytest.approx((0.25, 0.5))
    assert found.depth / INCH == pytest.approx(0.5)
    assert not found.suits_all
    assert found.missed == (("cereal rye", pytest.approx(-0.25 * INCH)),)
    assert labels.LIES_TOO_SHALLOW(name="cereal rye", by="0.25 in") in str(found.warnings[0])
    assert re.search(
        labels.SOW_SMALLEST_IMPORTANT.like(low="0.25 in", high="0.5 in"), str(found.say)
    )
    assert "common practice" in found.rule == RULE
    assert re.search(
        labels.LIES_TOO_SHALLOW.like(by="0.635 cm"), Style(system="metric").write(found.warnings[0])
    )


def test_two_lots_of_one_species_are_said_once():
    found = compromise([RYE, seed("cereal rye", 16_000, 0.75, 1.5), CLOVER])
    assert str(found.warnings[0]).count("cereal rye") == 1


def test_what_may_fail_does_not_decide():
    found = compromise([RYE, CLOVER], unimportant={"clover"})
    assert found.smallest == "cereal rye"
    assert found.depth / INCH == pytest.approx(0.75)
    assert found.missed == (("clover", pytest.approx(0.25 * INCH)),)
    assert labels.LIES_TOO_DEEP(name="clover", by="0.25 in") in str(found.warnings[0])


def test_a_species_without_a_depth_is_said_to_be_left_out():
    found = compromise([RYE, seed("mystery", 1_000_000)])
    assert found.smallest == "cereal rye"
    assert labels.NO_DEPTH_KNOWN(names="mystery") in str(found.warnings[-1])


inches = st.tuples(st.floats(0, 3), st.floats(0, 3)).map(sorted)


@given(st.lists(st.tuples(st.integers(1000, 10**6), inches), min_size=1, max_size=6))
def test_the_smallest_seed_is_always_in_its_range_and_a_shared_range_is_always_found(species):
    seeds = [seed(f"species {i}", count, *ends) for i, (count, ends) in enumerate(species)]
    found = compromise(seeds)
    assert found.low <= found.depth <= found.high
    shared = max(s.depth.low for s in seeds) <= min(s.depth.high for s in seeds)
    assert found.suits_all == shared


def test_no_depth_at_all_is_refused():
    with pytest.raises(MeasurementError, match=labels.GIVE_DEPTH_ONE.like()) as refusal:
        compromise([seed("mystery", 1000), CLOVER], unimportant={"clover"})
    assert refusal.value.field == "depth"


@pytest.mark.parametrize("ends", [(1.0, 0.5), (-0.5, 0.5)])
def test_a_range_the_wrong_way_round_is_refused(ends):
    with pytest.raises(MeasurementError, match=labels.GIVE_SHALLOWER_DEPTH.like()) as refusal:
        Depth(low=ends[0], high=ends[1])
    assert refusal.value.field == "depth"
