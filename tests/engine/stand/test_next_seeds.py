"""Seeds for a stand: barley at five rates, published rates, round trips."""

import csv
from math import exp, log
from pathlib import Path
from statistics import fmean, stdev

import pytest
from hypothesis import given
from hypothesis import strategies as st

import labels
from evenstand.engine.mix.member import LiveSeeds, Member, Seed
from evenstand.engine.mix.mix import design
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.units import ACRE, POUND, POUND_PER_ACRE, SQUARE_FOOT
from evenstand.engine.stand.learned import Season
from evenstand.engine.stand.next_seeds import (
    CROWDING,
    CROWDING_U,
    emergence_at,
    in_words,
    season_at,
    seeds_for,
)
from evenstand.engine.statistics.budget import Estimate, nominal

MCLEOD = Path(__file__).parents[2] / "reference/agridat/mcleod.barley.txt"
SURE = Estimate(0.8, 0.8, 0.8, 0.0)


@pytest.fixture(scope="module")
def trials():
    """McLeod (1982): ln(rate) and ln(plants ÷ rate) about their means in each of eight trials."""
    with MCLEOD.open(encoding="utf-8") as lines:
        rows = list(csv.DictReader(lines, delimiter="\t"))
    found = {}
    for row in rows:
        rate, plants = float(row["rate"]), float(row["plants"])
        found.setdefault((row["year"], row["site"]), []).append((log(rate), log(plants / rate)))
    assert len(found) == 8
    return [_about_their_means(points) for points in found.values()]


def _about_their_means(points):
    mean_x, mean_y = (fmean(axis) for axis in zip(*points, strict=True))
    return [(x - mean_x, y - mean_y) for x, y in points]


def slope(points):
    """Least squares."""
    return sum(x * y for x, y in points) / sum(x * x for x, _ in points)


def test_emergence_falls_as_the_rate_rises(trials):
    assert slope([point for points in trials for point in points]) == pytest.approx(
        -CROWDING, abs=0.005
    )


def test_how_far_it_falls_differs_from_trial_to_trial(trials):
    assert stdev(map(slope, trials)) == pytest.approx(CROWDING_U, abs=0.0005)


def test_a_season_at_twice_the_seed_is_less_sure():
    """0.8 × 2^−0.14 = 0.726; √((0.05 ÷ 0.8)² + (ln 2 × 0.078)²) of it are 0.0600."""
    season = Season(field="bench", emergence=0.8, u=0.05)
    found = season_at(season, seeds=600.0, counted_at=300.0)
    assert found.emergence == pytest.approx(0.726, abs=5e-4)
    assert found.u == pytest.approx(0.0600, abs=5e-5)
    assert season_at(season, seeds=1.0, counted_at=300.0) == season


def test_wheat_falls_too():
    """NDSU (Burke Co., 2013): 95% at 0.5 million live seeds an acre, 85% at 1.5: 81.5% here."""
    half = 5e5 / ACRE
    assert emergence_at(0.95, seeds=3 * half, counted_at=half) == pytest.approx(0.85, abs=0.04)


def test_no_more_comes_up_than_was_sown():
    assert emergence_at(0.95, seeds=10.0, counted_at=300.0) == 1.0


def test_the_same_stand_asks_for_the_same_seed():
    assert seeds_for(240.0, SURE, counted_at=300.0).value == pytest.approx(300.0)


def test_how_sure_the_seed_is():
    """Of 300 a sixteenth, 0.05 ÷ 0.8, ÷ 0.86: 21.8."""
    found = seeds_for(240.0, Estimate(0.8, 0.7, 0.9, 0.05), counted_at=300.0)
    assert found.u == pytest.approx(21.80, abs=0.005)


def test_twice_the_stand_asks_for_more_than_twice_the_seed():
    """2 ^ (1 ÷ 0.86) = 2.239."""
    assert seeds_for(480.0, SURE, counted_at=300.0).value == pytest.approx(300 * 2.239, rel=5e-4)


def test_far_from_what_was_counted_it_is_less_sure():
    """Twice the stand: 1.96 × ln 2 × 0.078 ÷ 0.86² is 0.1433 either way."""
    found = seeds_for(480.0, SURE, counted_at=300.0)
    for end, reach in ((found.low, -0.1433), (found.high, 0.1433)):
        assert end / found.value == pytest.approx(exp(reach), rel=1e-4)
    near = seeds_for(240.0, SURE, counted_at=300.0)
    assert (near.low, near.high) == (near.value, near.value)


@given(st.floats(50, 400), st.floats(0.1, 0.7), st.floats(50, 900))
def test_what_is_sown_gives_the_stand(wish, emergence, counted_at):
    seeds = seeds_for(
        wish, Estimate(emergence, emergence, emergence, 0.0), counted_at=counted_at
    ).value
    at = emergence_at(emergence, seeds=seeds, counted_at=counted_at)
    assert at * seeds == pytest.approx(wish, rel=1e-9)


def test_never_fewer_seeds_than_plants():
    high = Estimate(0.95, 0.9, 1.0, 0.03)
    found = seeds_for(10.0, high, counted_at=300.0)
    assert (found.value, found.low) == (10.0, 10.0)


def test_seed_for_a_stand_as_ndsu_reckons():
    """1.1 million plants, 15% loss, 95%, 12,500 seeds/lb: printed 110 lb/ac, exactly 108.98.

    A farm-press article multiplies by 1 − loss where it divides: 78.7 lb/ac.
    """
    seed = Seed(name="wheat", pls=0.95 * 0.85, seeds_per_kg=12_500 / POUND)
    rate = nominal(design([Member(seed, LiveSeeds(1.1e6 / ACRE))]).bulk_rate) / POUND_PER_ACRE
    assert rate == pytest.approx(108.98, abs=0.005)
    assert rate == pytest.approx(110, abs=1.1)
    assert rate * 0.85 * 0.85 == pytest.approx(78.7, abs=0.05)


def test_sentence():
    """31.25 × (0.8 ÷ 0.72) ^ (1 ÷ 0.86) = 35.3, × (0.8 ÷ 0.9) ^ (1 ÷ 0.86) = 27.3."""
    found = seeds_for(
        25 / SQUARE_FOOT, Estimate(0.8, 0.72, 0.9, 0.05), counted_at=31.25 / SQUARE_FOOT
    )
    said = str(in_words(25 / SQUARE_FOOT, found))
    assert said == (
        labels.SOW_LIVE_NEXT(
            wish="25 plants/ft²", seeds="31 seeds/ft²", low="27 seeds/ft²", high="35 seeds/ft²"
        )
    )


@pytest.mark.parametrize(
    ("call", "field"),
    [
        (lambda: emergence_at(0.0, seeds=1.0, counted_at=1.0), "emergence"),
        (lambda: emergence_at(0.5, seeds=0.0, counted_at=1.0), "seeds"),
        (lambda: emergence_at(0.5, seeds=1.0, counted_at=0.0), "counted_at"),
        (lambda: seeds_for(0.0, SURE, counted_at=1.0), "wish"),
        (lambda: seeds_for(1.0, SURE, counted_at=float("nan")), "counted_at"),
        (lambda: seeds_for(1.0, Estimate(0.5, 0.0, 1.0, 0.1), counted_at=1.0), "emergence"),
    ],
)
def test_what_cannot_be_is_refused_under_its_field(call, field):
    with pytest.raises(MeasurementError) as refused:
        call()
    assert refused.value.field == field
