"""What a germination test is worth, against the published tolerance and by simulation."""

from math import nan, sqrt

import pytest

from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.seed.germination import (
    BETWEEN_TESTS,
    beta_u,
    effective_seeds,
    evidence,
    germination_u,
)
from evenstand.engine.seed.tolerances import ONE_IN_TWENTY


def one_in_twenty(p, between):
    """What two 400-seed tests differ by once in twenty, one-sided, between laboratories."""
    return ONE_IN_TWENTY * sqrt(2 * p * (1 - p) * (1 / 400 + 399 / 400 * between))


def gaps(published, between):
    for row in published("tolerance_germination_louisiana.csv"):
        for percent in range(int(row["a_low"]), int(row["a_high"]) + 1):
            yield 100 * one_in_twenty(percent / 100, between) - row["tolerance"]


def test_spread_between_tests_follows_the_aosa_table(published):
    """LAC 7:XIII.139: within a point all along, which no smaller spread manages."""
    assert max(abs(gap) for gap in gaps(published, BETWEEN_TESTS)) <= 1
    assert max(abs(gap) for gap in gaps(published, BETWEEN_TESTS - 1e-4)) > 1


def test_the_draw_alone_does_not(published):
    assert min(gaps(published, 0.0)) < -4


def test_u_is_that_of_the_table(published):
    """The tolerance at 90% is 6 points: 6 ÷ (1.645 √2) = 2.58."""
    assert germination_u(0.90) == pytest.approx(0.0258, abs=0.001)


def test_agrees_with_simulation():
    """Results of 400 seeds whose laboratory has its own share, beta of variance p(1 − p)ρ."""
    np = pytest.importorskip("numpy")
    rng, p, whole = np.random.default_rng(4), 0.85, 1 / BETWEEN_TESTS - 1
    results = rng.binomial(400, rng.beta(p * whole, (1 - p) * whole, 400_000)) / 400
    assert germination_u(p) == pytest.approx(results.std(), rel=0.01)


def test_one_seed_is_one_seed():
    assert effective_seeds(1) == pytest.approx(1)
    assert effective_seeds(400, between=0) == pytest.approx(400)


def test_evidence_is_split_by_the_share():
    living, dead = evidence(0.75, seeds=100)
    assert living == pytest.approx(3 * dead)
    assert living + dead == pytest.approx(effective_seeds(100))


def test_beta_by_hand():
    """Beta(1½, 2½): √(1.5 × 2.5 ÷ (16 × 5)) = 0.21651."""
    assert beta_u(1, 2) == pytest.approx(0.21651, rel=1e-4)
    assert germination_u(0.2) == pytest.approx(germination_u(0.8))


@pytest.mark.parametrize(
    ("call", "field"),
    [
        (lambda: effective_seeds(0), "seeds_tested"),
        (lambda: effective_seeds(nan), "seeds_tested"),
        (lambda: evidence(1.1, seeds=400), "germination"),
        (lambda: germination_u(nan), "germination"),
        (lambda: germination_u(0.9, seeds=-1), "seeds_tested"),
    ],
)
def test_refuses_and_names_the_field(call, field):
    with pytest.raises(MeasurementError) as refusal:
        call()
    assert refusal.value.field == field
