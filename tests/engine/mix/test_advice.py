"""What publications say: in a mix, alone, together, and never a changed rate."""

import re

import pytest

import labels
from evenstand.engine.mix.advice import DENSITIES, UPLIFTS, compare_density
from evenstand.engine.mix.member import (
    BulkRate,
    Carrier,
    LiveSeeds,
    Member,
    OfFull,
    PlsRate,
    Published,
    Seed,
)
from evenstand.engine.mix.mix import design
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.units import POUND, POUND_PER_ACRE, SQUARE_FOOT

WVU = "West Virginia University Extension, Rayburn (1994)"


def forage(row, **more):
    """A species with the two ranges that West Virginia prints for it."""
    ranges = [
        ("alone", row["alone_low"], row["alone_high"]),
        ("in mix", row["mix_low"], row["mix_high"]),
    ]
    printed = tuple(
        Published(low=low * POUND_PER_ACRE, high=high * POUND_PER_ACRE, place=place, source=WVU)
        for place, low, high in ranges
    )
    return Seed(
        name=row["species"], pls=0.9, seeds_per_kg=200_000 / POUND, published=printed, **more
    )


def said(*members, uplift=0.0):
    return [str(warning) for warning in design(members, uplift=uplift).warnings]


OTHER = Member(Seed(name="other", pls=0.9, seeds_per_kg=1e5), LiveSeeds(10.0))


def test_every_published_range_is_kept_to(published):
    for row in published("in_mix_rates.csv"):
        seed = forage(row)
        for rate in (row["mix_low"], row["mix_high"]):
            assert said(Member(seed, PlsRate(rate * POUND_PER_ACRE)), OTHER) == []
        for rate in (row["alone_low"], row["alone_high"]):
            assert said(Member(seed, PlsRate(rate * POUND_PER_ACRE))) == []
        above, below = 1.01 * row["alone_high"], 0.99 * row["mix_low"]
        (text,) = said(Member(seed, PlsRate(above * POUND_PER_ACRE)))
        assert f"is above {row['alone_low']:g} lb/ac to" in text
        assert f"the published range for seeding it alone ({WVU})" in text
        (text,) = said(Member(seed, PlsRate(below * POUND_PER_ACRE)), OTHER)
        assert f"is below {row['mix_low']:g} lb/ac to" in text
        assert labels.IN_A_MIX in text


def test_a_mix_above_the_rate_alone_is_told_both(published):
    orchardgrass = forage(published("in_mix_rates.csv")[6])
    texts = said(Member(orchardgrass, PlsRate(13 * POUND_PER_ACRE)), OTHER)
    assert ["alone" in text for text in texts] == [True, False]
    assert all(
        re.search(
            labels.AT_OF_IS.like(
                name="orchardgrass",
                rate="13 lb/ac",
                basis=labels.PURE_LIVE_SEED,
                place=labels.ABOVE,
            ),
            text,
        )
        for text in texts
    )


def test_lots_of_a_species_are_compared_together(published):
    orchardgrass = forage(published("in_mix_rates.csv")[6])
    half = Member(orchardgrass, PlsRate(3.5 * POUND_PER_ACRE))
    assert len(said(half, half, OTHER)) == 1
    assert re.match(
        labels.AT_OF_IS.like(name="orchardgrass", rate="3.5 lb/ac"), said(half, OTHER)[0]
    )


def test_broadcast_seed_is_compared_at_its_drilled_rate(published):
    orchardgrass = forage(published("in_mix_rates.csv")[6])
    assert said(Member(orchardgrass, PlsRate(6 * POUND_PER_ACRE)), OTHER, uplift=1.0) == []


def test_a_bulk_range_is_compared_with_bulk():
    printed = (Published(low=1e-3, high=2e-3, basis="bulk"),)
    seed = Seed(name="oats", pls=0.5, seeds_per_kg=1e4, published=printed)
    assert said(Member(seed, BulkRate(1.5e-3))) == []
    assert re.search(
        labels.AT_OF_IS.like(basis=labels.BULK, place=labels.ABOVE),
        said(Member(seed, BulkRate(2.5e-3)))[0],
    )
    assert labels.NO_SOURCE_GIVEN in said(Member(seed, BulkRate(2.5e-3)))[0]


def full(name, share, **more):
    return Member(
        Seed(name=name, pls=0.9, seeds_per_kg=1e5, full=PlsRate(5e-3), **more), OfFull(share)
    )


def test_shares_of_full_rates_far_over_one():
    assert said(full("oats", 0.7), full("peas", 0.6)) == []
    (text,) = said(full("oats", 0.7), full("peas", 0.7))
    assert re.search(labels.SHARES_FULL_RATES.like(whole="140%"), text)
    assert re.search(labels.SHARES_FULL_RATES.like(), text)
    assert said(full("oats", 0.7), full("peas", 0.7), OTHER) == []


def test_brassicas():
    radish = {"group": "brassica"}
    assert said(full("oats", 0.5), full("radish", 0.25, **radish)) == []
    (text,) = said(full("oats", 0.5), full("radish", 0.2, **radish), full("turnip", 0.1, **radish))
    assert re.search(labels.BRASSICAS_FULL_RATE.like(share="30%"), text)
    assert re.search(labels.BRASSICAS_FULL_RATE.like(), text)
    hulls = Member(Carrier(name="rice hulls"), BulkRate(1e-3))
    assert labels.BRASSICAS_ALONE_NO in said(full("radish", 0.9, **radish), hulls)[0]


def test_a_turf_rate_is_asked_about():
    assert "turf" in said(Member(OTHER.of, LiveSeeds(1200 / SQUARE_FOOT)))[0]


@pytest.mark.parametrize(
    ("per_ft2", "stand", "places"),
    [
        (31, "small grain", ["within"]),
        (29, "small grain", ["below"]),
        (50, "native grass", ["above", "within", "above"]),
        (80, "alfalfa", ["above"]),
    ],
)
def test_densities_beside_the_printed_ones(per_ft2, stand, places):
    texts = [str(text) for text in compare_density(per_ft2 / SQUARE_FOOT, stand=stand)]
    assert len(texts) == len(places)
    for text, place in zip(texts, places, strict=True):
        assert f"{per_ft2} seeds/ft² live is {place} " in text
        assert text.endswith(")")


def test_a_stand_nobody_prints_is_refused():
    with pytest.raises(MeasurementError, match="alfalfa") as refusal:
        compare_density(100.0, stand="rice paddy")
    assert refusal.value.field == "stand"


def test_every_choice_as_published(published):
    rows = published("seed_densities.csv")
    densities = [(r["stand"], r["low"], r["high"]) for r in rows if r["kind"] == "density"]
    ours = [(d.stand, d.low * SQUARE_FOOT, d.high * SQUARE_FOOT) for d in DENSITIES]
    assert ours == [
        (stand, pytest.approx(low), pytest.approx(high)) for stand, low, high in densities
    ]
    uplifts = [(r["low"], r["high"]) for r in rows if r["kind"] == "uplift"]
    assert [(100 * u.low, 100 * u.high) for u in UPLIFTS] == uplifts
    unread = {r["stand"] for r in rows if r["read"] == "no"}
    assert {d.stand for d in DENSITIES if "common practice" in d.source} == unread


def test_the_ends_of_a_printed_range_are_within_it():
    for density in DENSITIES:
        for end in (density.low, density.high):
            texts = map(str, compare_density(end, stand=density.stand))
            assert any(
                re.search(labels.LIVE_IS_TO.like(place=labels.WITHIN), text) for text in texts
            )
        texts = map(str, compare_density(density.low * 0.9999, stand=density.stand))
        assert any(re.search(labels.LIVE_IS_TO.like(place=labels.BELOW), text) for text in texts)


def test_shares_are_compared_as_drilled():
    radish = {"group": "brassica"}
    assert said(full("oats", 0.7), full("peas", 0.6), uplift=1.0) == []
    assert said(full("oats", 0.5), full("radish", 0.25, **radish), uplift=1.0) == []
    assert len(said(full("oats", 0.7), full("peas", 0.7), uplift=1.0)) == 1
    assert len(said(full("oats", 0.5), full("radish", 0.3, **radish), uplift=1.0)) == 1


def test_one_printed_number_is_said_once():
    """Middle Park Conservation District prints an average of 40, no range."""
    told = [str(each) for each in compare_density(26.4 / SQUARE_FOOT, stand="native grass")]
    assert any("is below 40 seeds/ft² (Middle Park" in text for text in told)
