"""A home test beside the tag: how they join, and when they disagree."""

import re
from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

import labels
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.seed.germination import BETWEEN_TESTS, germination_u
from evenstand.engine.seed.replicates import Dish
from evenstand.engine.seed.retest import HomeTest, combine


def home(sprouted, seeds, **more):
    return HomeTest(dishes=(Dish(sprouted, seeds),), **more)


def both(share, sprouted, seeds):
    return combine(share, seeds=400, home=home(sprouted, seeds))


def test_joined_by_hand():
    """Tag 0.90 of 400, home 90 of 100: effective 400/(1 + 399ρ) + 100/(1 + 99ρ), same share."""
    joined = both(0.90, 90, 100)
    n = 400 / (1 + 399 * BETWEEN_TESTS) + 100 / (1 + 99 * BETWEEN_TESTS)
    assert joined.germination.value == pytest.approx(0.90)
    assert joined.germination.u == pytest.approx(sqrt(0.90 * 0.10 / n), rel=0.02)


def test_range_agrees_with_scipy():
    beta = pytest.importorskip("scipy.stats").beta
    joined = both(0.92, 88, 100)
    tag, kitchen = 400 / (1 + 399 * BETWEEN_TESTS), 100 / (1 + 99 * BETWEEN_TESTS)
    a, b = 0.5 + 0.92 * tag + 0.88 * kitchen, 0.5 + 0.08 * tag + 0.12 * kitchen
    assert joined.germination.low == pytest.approx(beta.ppf(0.025, a, b))
    assert joined.germination.high == pytest.approx(beta.ppf(0.975, a, b))


def test_range_holds_the_truth_as_often_as_it_says():
    """Lots of known germination, tagged by a laboratory and tested at home: 95% covered."""
    np = pytest.importorskip("numpy")
    rng, whole, n = np.random.default_rng(9), 1 / BETWEEN_TESTS - 1, 1500
    truth = rng.uniform(0.6, 0.98, n)
    tag, kitchen = (rng.beta(truth * whole, (1 - truth) * whole) for _ in range(2))
    tags = rng.binomial(400, tag) / 400
    sprouts = rng.binomial(100, kitchen)
    held = 0
    for real, share, sprouted in zip(truth, tags, sprouts, strict=True):
        found = both(float(share), int(sprouted), 100).germination
        held += found.low <= real <= found.high
    assert held / n == pytest.approx(0.95, abs=0.02)


@pytest.mark.parametrize(
    ("k", "n", "range_"),
    [(86, 100, (0.7763, 0.9213)), (172, 200, (0.8041, 0.9049)), (344, 400, (0.8221, 0.8925))],
)
def test_home_test_alone_has_the_exact_range(k, n, range_):
    """Clopper–Pearson 95%, as statsmodels prints it to four decimals."""
    alone = both(0.90, k, n).alone
    assert (alone.low, alone.high) == pytest.approx(range_, abs=5e-5)
    assert alone.u == pytest.approx(sqrt(k / n * (1 - k / n) / n), rel=0.03)


@pytest.mark.parametrize(
    ("percent", "of", "points"),
    [
        (90, 100, 6.6),
        (90, 50, 8.8),
        (80, 100, 8.8),
        (80, 50, 11.8),
        (70, 100, 10.0),
        (70, 50, 13.5),
    ],
)
def test_indicative_limits_below_200_seeds(percent, of, points):
    """1.96 √(p q (1/400 + 1/n)) by hand, rounded to 0.1; 100 × 13.47 is given as 13.5."""
    joined = both(percent / 100, round(percent * of / 100), of)
    assert not joined.published
    assert 100 * joined.allowed == pytest.approx(points, abs=0.06)
    assert "a rough guide" in str(joined.said[0])


def test_published_tolerance_from_200_seeds_on():
    """201.63 at the mean: 92 and 84 → 88, 7 points of 400 seeds, 9 of 200."""
    assert both(0.92, 336, 400).allowed == pytest.approx(0.07)
    assert not both(0.92, 336, 400).agrees
    assert both(0.92, 168, 200).allowed == pytest.approx(0.09)
    assert both(0.92, 168, 200).agrees


def test_just_within_is_within():
    """92 and 85: 7 points at 88.5 are allowed."""
    assert both(0.92, 340, 400).agrees


def test_disagreement_stretches_the_range():
    """Half of the 22 points between them is its standard uncertainty, or a little more."""
    joined = both(0.92, 70, 100)
    assert not joined.agrees
    assert 0.11 < joined.germination.u < 0.125
    assert joined.germination.low < 0.70 < 0.92 < joined.germination.high
    assert re.search(labels.TAG_HOME_TEST.like(difference=22), str(joined.said[0]))
    assert re.search(labels.TAG_HOME_TEST.like(), str(joined.said[0]))


def test_utter_disagreement_is_still_a_range():
    joined = both(1.0, 0, 400)
    assert 0 <= joined.germination.low < joined.germination.high <= 1


def test_hard_seed_joins_the_total():
    joined = combine(0.95, seeds=400, home=home(80, 100, hard=12), hard_too=True)
    assert joined.difference == pytest.approx(-0.03)


def test_dishes_that_disagree_are_said():
    uneven = HomeTest(dishes=(Dish(48, 50), Dish(36, 50)))
    said = [str(text) for text in combine(0.85, seeds=400, home=uneven).said]
    assert len(said) == 2
    assert re.search(labels.DISHES_TEST_DO.like(), said[1])


@given(st.integers(1, 400), st.floats(0.3, 1), st.data())
def test_joined_lies_between_the_two(of, share, data):
    sprouted = data.draw(st.integers(0, of))
    joined = both(share, sprouted, of)
    low, high = sorted((share, sprouted / of))
    assert low - 1e-12 <= joined.germination.value <= high + 1e-12
    if joined.agrees:
        # more seeds stand behind it than behind a tag of the same share
        assert joined.germination.u < germination_u(joined.germination.value)


@pytest.mark.parametrize(
    ("call", "field"),
    [
        (lambda: HomeTest(dishes=()), "home_test"),
        (lambda: home(90, 100, hard=11), "home_hard"),
        (lambda: home(90, 100, hard=-1), "home_hard"),
        (lambda: combine(0.9, seeds=400, home=home(9, 10), hard_too=True), "home_hard"),
        (lambda: both(1.2, 9, 10), "germination"),
    ],
)
def test_refuses_and_names_the_field(call, field):
    with pytest.raises(MeasurementError) as refusal:
        call()
    assert refusal.value.field == field
