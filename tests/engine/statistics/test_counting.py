"""Counts against exact fractions, printed ranges, SciPy and statsmodels."""

import math
from fractions import Fraction
from functools import partial
from statistics import NormalDist

import pytest
from hypothesis import given
from hypothesis import strategies as st

from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.statistics import counting

agree = partial(pytest.approx, rel=1e-11, abs=1e-300)
trials = st.integers(1, 400)
chances = st.floats(0.001, 0.999)
shapes = st.floats(0.25, 500)


def beta_binomial_exactly(k, *, n, a, b):
    """C(n, k) B(k + a, n − k + b) / B(a, b) for whole a and b, in fractions."""

    def beta(x, y):
        return Fraction(math.factorial(x - 1) * math.factorial(y - 1), math.factorial(x + y - 1))

    return math.comb(n, k) * beta(k + a, n - k + b) / beta(a, b)


@pytest.mark.parametrize("n", [1, 8, 100])
@pytest.mark.parametrize("p", [0.0, 0.03125, 0.5, 0.875, 1.0])
def test_binomial_in_exact_fractions(n, p):
    chance, total = Fraction(p), Fraction(0)
    for k in range(n + 1):
        exact = math.comb(n, k) * chance**k * (1 - chance) ** (n - k)
        total += exact
        assert counting.binomial_pmf(k, n=n, p=p) == agree(float(exact))
        assert counting.binomial_cdf(k, n=n, p=p) == agree(float(total))


@pytest.mark.parametrize(("n", "a", "b"), [(1, 1, 1), (50, 3, 2), (100, 17, 3), (400, 90, 10)])
def test_beta_binomial_in_exact_fractions(n, a, b):
    total = Fraction(0)
    for k in range(n + 1):
        exact = beta_binomial_exactly(k, n=n, a=a, b=b)
        total += exact
        assert counting.beta_binomial_pmf(k, n=n, a=a, b=b) == agree(float(exact))
        assert counting.beta_binomial_cdf(k, n=n, a=a, b=b) == agree(float(total))


@pytest.mark.parametrize("mean", [0.0, 0.25, 3.0, 20.5])
@pytest.mark.parametrize("k", [0, 1, 7, 30])
def test_poisson_is_a_sum_of_terms(mean, k):
    terms = [Fraction(mean) ** j / math.factorial(j) for j in range(k + 1)]
    assert counting.poisson_cdf(k, mean=mean) == agree(math.exp(-mean) * float(sum(terms)))


@pytest.mark.parametrize("n", [7, 400, 100_000])
@pytest.mark.parametrize("p", [1e-4, 0.3, 0.86, 0.999])
def test_binomial_agrees_with_scipy(n, p):
    reference = pytest.importorskip("scipy.stats").binom(n, p)
    for k in (0, n // 100, int(n * p), math.ceil(n * p) + n // 50, n - 1):
        assert counting.binomial_pmf(k, n=n, p=p) == agree(reference.pmf(k), rel=1e-10)
        assert counting.binomial_cdf(k, n=n, p=p) == agree(reference.cdf(k), rel=1e-10)


@pytest.mark.parametrize(("a", "b"), [(0.5, 0.5), (8.6, 1.4), (170, 30), (2, 900)])
def test_beta_binomial_agrees_with_scipy(a, b):
    reference = pytest.importorskip("scipy.stats").betabinom(300, a, b)
    for k in (0, 1, 40, 150, 259, 299, 300):
        given = {"n": 300, "a": a, "b": b}
        assert counting.beta_binomial_pmf(k, **given) == agree(reference.pmf(k), rel=1e-9)
        assert counting.beta_binomial_cdf(k, **given) == pytest.approx(reference.cdf(k), rel=1e-9)


def test_published_ranges_of_a_share(published):
    """Within half a printed digit."""
    for row in published("proportion_ranges.csv"):
        k, n = int(row["k"]), int(row["n"])
        low, high = row["wilson_low"], row["wilson_high"]
        assert counting.wilson(k, n=n) == pytest.approx((low, high), abs=5.1e-5)
        low, high = row["exact_low"], row["exact_high"]
        assert counting.clopper_pearson(k, n=n) == pytest.approx((low, high), abs=5.1e-5)


@pytest.mark.parametrize(("k", "n"), [(4, 20), (0, 10), (86, 100), (172, 200), (344, 400), (9, 9)])
@pytest.mark.parametrize("level", [0.9, 0.95, 0.99])
def test_ranges_of_a_share_agree_with_statsmodels(k, n, level):
    peer = pytest.importorskip("statsmodels.stats.proportion").proportion_confint
    exact, score = (peer(k, n, 1 - level, method=m) for m in ("beta", "wilson"))
    assert counting.clopper_pearson(k, n=n, level=level) == agree(exact, abs=1e-12)
    assert counting.wilson(k, n=n, level=level) == agree(score, abs=1e-12)


@given(st.data(), trials, st.floats(0.5, 0.999))
def test_ends_of_the_exact_range_leave_half_of_the_rest_on_either_side(data, n, level):
    k = data.draw(st.integers(0, n))
    low, high = counting.clopper_pearson(k, n=n, level=level)
    half = (1 - level) / 2
    if k > 0:
        assert 1 - counting.binomial_cdf(k - 1, n=n, p=low) == pytest.approx(half, rel=1e-8)
    if k < n:
        assert counting.binomial_cdf(k, n=n, p=high) == pytest.approx(half, rel=1e-8)


@given(st.data(), trials, st.floats(0.5, 0.999))
def test_ends_of_the_score_range_lie_z_standard_deviations_from_the_share(data, n, level):
    """Wilson's range solves |k/n − p| = z √(p (1 − p)/n), with z from Python's own library."""
    k = data.draw(st.integers(0, n))
    z = NormalDist().inv_cdf((1 + level) / 2)
    for p in counting.wilson(k, n=n, level=level):
        gap = abs(k / n - p)
        assert gap == pytest.approx(z * math.sqrt(p * (1 - p) / n), abs=1e-9)


@given(st.data(), trials, chances)
def test_binomial_cdf_steps_by_its_pmf(data, n, p):
    k = data.draw(st.integers(0, n))
    step = counting.binomial_cdf(k, n=n, p=p) - counting.binomial_cdf(k - 1, n=n, p=p)
    assert step == pytest.approx(counting.binomial_pmf(k, n=n, p=p), abs=1e-12)


@given(st.data(), trials, st.tuples(shapes, shapes))
def test_beta_binomial_cdf_steps_by_its_pmf(data, n, ab):
    k, (a, b) = data.draw(st.integers(0, n)), ab
    below, here = (counting.beta_binomial_cdf(j, n=n, a=a, b=b) for j in (k - 1, k))
    assert here - below == pytest.approx(counting.beta_binomial_pmf(k, n=n, a=a, b=b), abs=1e-12)


@given(st.data(), trials, st.floats(0.05, 0.95))
def test_a_certain_chance_makes_the_beta_binomial_binomial(data, n, p):
    k, sure = data.draw(st.integers(0, n)), 1e12
    spread = counting.beta_binomial_cdf(k, n=n, a=p * sure, b=(1 - p) * sure)
    assert spread == pytest.approx(counting.binomial_cdf(k, n=n, p=p), abs=1e-9)


def test_counts_that_cannot_happen_have_no_probability():
    for k, cdf in ((-1, 0.0), (5, 1.0), (4, 1.0)):
        assert counting.binomial_cdf(k, n=4, p=0.3) == cdf
        assert counting.beta_binomial_cdf(k, n=4, a=1, b=2) == cdf
    for k in (-1, 5):
        assert counting.binomial_pmf(k, n=4, p=0.3) == 0.0
        assert counting.beta_binomial_pmf(k, n=4, a=1, b=2) == 0.0
    assert counting.poisson_cdf(-1, mean=2) == 0.0


@pytest.mark.parametrize(
    ("call", "field"),
    [
        (partial(counting.binomial_pmf, 1, n=2, p=1.5), "p"),
        (partial(counting.binomial_pmf, 0, n=0, p=0.5), "n"),
        (partial(counting.binomial_cdf, 1, n=2, p=math.nan), "p"),
        (partial(counting.binomial_cdf, 0, n=0, p=0.5), "n"),
        (partial(counting.poisson_cdf, 0, mean=-1.0), "mean"),
        (partial(counting.poisson_cdf, 0, mean=math.nan), "mean"),
        (partial(counting.beta_binomial_pmf, 0, n=0, a=1, b=1), "n"),
        (partial(counting.beta_binomial_pmf, 0, n=1, a=0, b=1), "a"),
        (partial(counting.beta_binomial_cdf, 0, n=2, a=1, b=0), "b"),
        (partial(counting.clopper_pearson, 0, n=0), "n"),
        (partial(counting.clopper_pearson, 5, n=4), "k"),
        (partial(counting.wilson, -1, n=4), "k"),
        (partial(counting.wilson, 1, n=4, level=95), "level"),
    ],
)
def test_what_cannot_be_is_refused_by_name(call, field):
    with pytest.raises(MeasurementError) as refused:
        call()
    assert refused.value.field == field
