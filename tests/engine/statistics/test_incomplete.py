"""The incomplete functions against sums of whole numbers and their own definitions."""

import math
from decimal import Decimal, localcontext
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from evenstand.engine.statistics.incomplete import beta_tails, deviance, gamma_tails

shapes = st.floats(0.25, 1e4)


@pytest.mark.parametrize("n", [1, 2, 5, 40, 150])
@pytest.mark.parametrize("x", [0.25, 1.0, 4.0, 30.0, 160.0])
def test_incomplete_gamma_of_a_whole_number_is_a_sum_of_poisson_terms(n, x):
    """Q(n, x) = e⁻ˣ Σ xᵏ/k!, k < n (DLMF 8.4.10), the sum in exact fractions."""
    terms = [Fraction(x) ** k / math.factorial(k) for k in range(n + 500)]
    tails = gamma_tails(x, shape=n)
    assert tails.upper == pytest.approx(math.exp(-x) * float(sum(terms[:n])), rel=1e-12)
    rest = sum(terms[n:])  # what is left of eˣ beyond 500 more terms is nothing
    assert tails.lower == pytest.approx(math.exp(-x) * float(rest), rel=1e-12)


@pytest.mark.parametrize(("a", "b"), [(1, 1), (2, 7), (30, 12), (3, 150)])
@pytest.mark.parametrize("x", [0.015625, 0.25, 0.5, 0.875])
def test_incomplete_beta_of_whole_numbers_is_a_sum_of_binomial_terms(a, b, x):
    """Iₓ(a, b) = Σ C(n, j) xʲ (1 − x)ⁿ⁻ʲ, j ≥ a, n = a + b − 1 (DLMF 8.17.5), exactly."""
    n, p = a + b - 1, Fraction(x)
    terms = [math.comb(n, j) * p**j * (1 - p) ** (n - j) for j in range(n + 1)]
    tails = beta_tails(x, rest=1 - x, a=a, b=b)
    assert tails.lower == pytest.approx(float(sum(terms[a:])), rel=1e-12)
    assert tails.upper == pytest.approx(float(sum(terms[:a])), rel=1e-12)


@given(shapes, st.floats(0.1, 3))
def test_weight_of_gamma_is_what_the_logarithm_of_the_point_gains(shape, factor):
    x = shape * factor
    weight = gamma_tails(x, shape=shape).weight
    expected = shape * math.log(x) - x - math.lgamma(shape)
    assert weight == pytest.approx(math.exp(expected), rel=1e-9, abs=1e-290)


@given(shapes, shapes, st.floats(0.01, 0.99))
def test_weight_of_beta_is_what_the_logarithm_of_the_odds_gains(a, b, x):
    weight = beta_tails(x, rest=1 - x, a=a, b=b).weight
    log_beta = math.lgamma(a) + math.lgamma(b) - math.lgamma(a + b)
    expected = math.exp(a * math.log(x) + b * math.log1p(-x) - log_beta)
    assert weight == pytest.approx(expected, rel=1e-9, abs=1e-290)


@given(shapes, shapes, st.floats(0, 1))
def test_tails_make_a_whole(a, b, x):
    for tails in (gamma_tails(x * a, shape=a), beta_tails(x, rest=1 - x, a=a, b=b)):
        assert tails.lower + tails.upper == pytest.approx(1, abs=1e-15)
        assert min(tails[:2]) >= 0


def test_all_lies_on_one_side_of_the_ends():
    """Nothing below the lowest point and nothing above the highest; nothing gained there."""
    below, above = (0.0, 1.0, 0.0), (1.0, 0.0, 0.0)
    for x, tails in ((-1.0, below), (0.0, below), (math.inf, above)):
        assert gamma_tails(x, shape=3) == tails
    for x, tails in ((-0.5, below), (0.0, below), (1.0, above), (1.5, above)):
        assert beta_tails(x, rest=1 - x, a=3, b=2) == tails


def test_a_point_next_to_1_keeps_its_digits_through_the_rest():
    """1 − Iₓ(a, b) tends to restᵇ / (b B(a, b)); for b = 2, B = 1/(a(a + 1))."""
    rest = 1e-12
    upper = beta_tails(1 - rest, rest=rest, a=3, b=2).upper
    assert upper == pytest.approx(rest * rest / 2 * 12, rel=1e-11)


def test_the_smallest_float_lies_at_the_end():
    assert deviance(0.25, mean=0.0) == math.inf
    assert beta_tails(5e-324, rest=1.0, a=0.25, b=0.25).lower < 1e-80
    assert gamma_tails(5e-324, shape=0.25).lower < 1e-80


@pytest.mark.parametrize(("x", "mean"), [(3, 40), (40, 3), (7, 7.5), (1e6, 1.0001e6), (5, 5)])
def test_deviance_in_long_arithmetic(x, mean):
    """x(ln x − ln mean) + mean − x with 50 digits of the logarithms."""
    with localcontext() as context:
        context.prec = 50
        long_x, long_mean = Decimal(x), Decimal(mean)
        expected = long_x * (long_x.ln() - long_mean.ln()) + long_mean - long_x
    assert deviance(x, mean=mean) == pytest.approx(float(expected), rel=1e-13)
