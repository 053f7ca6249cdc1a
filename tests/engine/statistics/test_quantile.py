"""The search for a quantile, by distributions whose quantile is known."""

import math

import pytest

from evenstand.engine.statistics.incomplete import Tails, gamma_tails
from evenstand.engine.statistics.quantile import log_gamma_quantile, log_odds_quantile, solve_tail


def logistic(u):
    """The beta distribution with both shapes 1: its share below odds eᵘ is eᵘ/(1 + eᵘ)."""
    lower, upper = 1 / (1 + math.exp(-u)), 1 / (1 + math.exp(u))
    return Tails(lower, upper, lower * upper)


@pytest.mark.parametrize("start", [-30.0, 0.0, 5.0, 30.0])
@pytest.mark.parametrize("share", [1e-10, 0.01, 0.5, 0.9])
def test_search_finds_the_point_from_either_side(start, share):
    odds = math.log(share) - math.log1p(-share)
    assert solve_tail(logistic, share, start=start) == pytest.approx(odds, abs=1e-12)
    assert solve_tail(logistic, share, start=start, upper=True) == pytest.approx(-odds, abs=1e-12)


@pytest.mark.parametrize("upper", [False, True])
def test_search_comes_back_from_where_the_share_has_run_out(upper):
    """A million is so narrow that the first steps pass the range of a float."""
    log_point = log_gamma_quantile(1e-300, shape=1e6, upper=upper)
    tails = gamma_tails(math.exp(log_point), shape=1e6)
    assert (tails.upper if upper else tails.lower) == pytest.approx(1e-300, rel=1e-8)


def test_search_ends_beyond_the_range_of_a_float():
    """Half of a gamma variable of shape 1e-4 lies below 10 to the power of about −3000."""
    assert math.exp(log_gamma_quantile(0.5, shape=1e-4)) < 1e-300


def test_exponential_quantile_by_its_logarithm():
    assert math.exp(log_gamma_quantile(0.25, shape=1)) == pytest.approx(-math.log(0.75), rel=1e-14)
    upper = log_gamma_quantile(1e-200, shape=1, upper=True)
    assert math.exp(upper) == pytest.approx(200 * math.log(10), rel=1e-13)


def test_odds_far_beyond_a_float_next_to_1():
    """Beta(1, ½) leaves √(1 − x) above x, so that odds of 1/q² − 1 leave q."""
    log_odds = log_odds_quantile(1e-20, a=1, b=0.5, upper=True)
    assert log_odds == pytest.approx(40 * math.log(10), rel=1e-14)
