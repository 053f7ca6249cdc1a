"""Distributions against printed tables, closed forms, SciPy and their own inverses."""

import math
from functools import partial

import pytest
from hypothesis import given
from hypothesis import strategies as st

from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.statistics import distributions as stats

SHARES = [1e-12, 1e-6, 0.001, 0.025, 0.1, 0.2499, 0.25, 0.4, 0.49, 0.5]
SHARES += [1 - share for share in SHARES]
DISTANCES = [0, 1e-3, 0.1, 0.7, 1, 1.5, 1.8, 2.5, 4, 8, 30]
DOFS = [0.5, 1, 2, 3, 4.5, 7, 12, 30, 100, 1e3, 1e5]
SHAPES = [0.25, 0.5, 1, 3.3, 10, 100, 1e4]
PAIRS = [(a, b) for a in (0.25, 0.5, 1, 2.5, 30, 1e4) for b in (0.25, 0.5, 1, 7, 400, 1e4)]
NEAR_MEAN = [1e-3, 0.1, 0.5, 0.9, 0.99, 1, 1.01, 1.1, 2, 5]

probabilities = st.floats(1e-9, 1 - 1e-9)
dofs = st.floats(0.5, 1e5)
shapes = st.floats(0.25, 1e4)

agree = partial(pytest.approx, rel=1e-10, abs=1e-300)


def test_coverage_factors_of_the_table_of_the_gum(published):
    """Within half a printed digit, except for one entry that is a whole digit off."""
    normal = {p: math.erf(k / math.sqrt(2)) for k, p in enumerate(("68.27", "95.45", "99.73"), 1)}
    for row in published("coverage_factors.csv"):
        half_digit = 0.005 if row["dof"] < 100 else 0.0005
        for column, printed in list(row.items())[1:]:
            p = normal.get(column[1:]) or float(column[1:]) / 100
            slack = 0.0105 if (row["dof"], column) == (35, "p90") else half_digit * 1.001
            assert stats.t_quantile((1 + p) / 2, dof=row["dof"]) == pytest.approx(
                printed, abs=slack
            )


@pytest.mark.parametrize("x", [1e-6, 0.2, 0.6, 2.0, 1e3, 1e6])
def test_t_has_a_closed_form_for_one_and_two_degrees_of_freedom(x):
    """½ − atan(x)/π = atan(1/x)/π and ½ − x/2r = 1/(r(r + x)), r = √(2 + x²)."""
    r = math.sqrt(2 + x * x)
    assert stats.t_cdf(-x, dof=1) == agree(math.atan(1 / x) / math.pi)
    assert stats.t_cdf(-x, dof=2) == agree(1 / (r * (r + x)))
    assert stats.t_cdf(x, dof=2) == agree(1 - 1 / (r * (r + x)))


@pytest.mark.parametrize("p", [0.001, 0.2, 0.4, 0.4999999, 0.5, 0.7, 0.99])
def test_t_quantile_has_a_closed_form_for_one_and_two_degrees_of_freedom(p):
    assert stats.t_quantile(p, dof=1) == agree(math.tan(math.pi * (p - 0.5)))
    assert stats.t_quantile(p, dof=2) == agree((2 * p - 1) / math.sqrt(2 * p * (1 - p)))


@pytest.mark.parametrize("x", [1e-9, 0.3, 1.0, 4.0, 50.0])
def test_chi_square_with_two_degrees_of_freedom_is_exponential(x):
    assert stats.chi_square_cdf(x, dof=2) == agree(-math.expm1(-x / 2))
    assert stats.chi_square_survival(x, dof=2) == agree(math.exp(-x / 2))
    assert stats.gamma_cdf(x, shape=1) == agree(-math.expm1(-x))


@pytest.mark.parametrize("p", [1e-6, 0.3, 0.5, 0.7, 0.999])
def test_quantile_of_an_exponential_variable(p):
    assert stats.gamma_quantile(p, shape=1) == agree(-math.log1p(-p))


@pytest.mark.parametrize("x", [1e-9, 0.3, 0.5, 0.9, 0.999])
def test_beta_with_one_shape_of_1_is_a_power(x):
    assert stats.beta_cdf(x, a=3.7, b=1) == agree(x**3.7)
    assert stats.beta_cdf(x, a=1, b=3.7) == agree(-math.expm1(3.7 * math.log1p(-x)))


@pytest.mark.parametrize("z", DISTANCES)
def test_normal_agrees_with_scipy(z):
    reference = pytest.importorskip("scipy.stats").norm
    assert stats.normal_cdf(z) == agree(reference.cdf(z))
    assert stats.normal_cdf(-z) == agree(reference.cdf(-z))


@pytest.mark.parametrize("p", SHARES)
def test_normal_quantile_agrees_with_scipy(p):
    reference = pytest.importorskip("scipy.stats").norm
    assert stats.normal_quantile(p) == agree(reference.ppf(p))


@pytest.mark.parametrize("dof", DOFS)
def test_t_agrees_with_scipy(dof):
    reference = pytest.importorskip("scipy.stats").t(dof)
    for x in DISTANCES:
        assert stats.t_cdf(x, dof=dof) == agree(reference.cdf(x))
        assert stats.t_cdf(-x, dof=dof) == agree(reference.cdf(-x))
    for p in SHARES:
        assert stats.t_quantile(p, dof=dof) == agree(reference.ppf(p))


@pytest.mark.parametrize("shape", SHAPES)
def test_gamma_and_chi_square_agree_with_scipy(shape):
    special = pytest.importorskip("scipy.special")
    for x in (shape * factor for factor in NEAR_MEAN):
        assert stats.gamma_cdf(3 * x, shape=shape, scale=3) == agree(special.gammainc(shape, x))
        assert stats.chi_square_cdf(2 * x, dof=2 * shape) == agree(special.gammainc(shape, x))
        upper = stats.chi_square_survival(2 * x, dof=2 * shape)
        assert upper == agree(special.gammaincc(shape, x))
    for p in SHARES:
        below = special.gammaincinv(shape, p) if p <= 0.5 else special.gammainccinv(shape, 1 - p)
        assert stats.gamma_quantile(p, shape=shape, scale=0.25) == agree(0.25 * below)
        assert stats.chi_square_quantile(p, dof=2 * shape) == agree(2 * below)


@pytest.mark.parametrize(("a", "b"), PAIRS)
def test_beta_agrees_with_scipy(a, b):
    special = pytest.importorskip("scipy.special")
    for x in (1e-6, 0.01, 0.2, 0.5, 0.9, 0.99, a / (a + b)):
        assert stats.beta_cdf(x, a=a, b=b) == agree(special.betainc(a, b, x))
    for p in SHARES:
        assert stats.beta_quantile(p, a=a, b=b) == agree(special.betaincinv(a, b, p))


def test_t_becomes_normal_as_the_degrees_of_freedom_grow():
    """The first correction is (z + z³) / 4ν (Abramowitz and Stegun 26.7.5)."""
    z = stats.normal_quantile(0.975)
    first = z + (z + z * z * z) / (4 * 1e8)
    assert stats.t_quantile(0.975, dof=1e8) == pytest.approx(first, rel=1e-13)
    assert stats.t_quantile(0.975, dof=math.inf) == z
    assert stats.t_cdf(z, dof=math.inf) == stats.normal_cdf(z)


@given(probabilities)
def test_normal_quantile_undoes_cdf(p):
    assert stats.normal_cdf(stats.normal_quantile(p)) == pytest.approx(p, rel=1e-12)


@given(probabilities, dofs)
def test_t_quantile_undoes_cdf(p, dof):
    assert stats.t_cdf(stats.t_quantile(p, dof=dof), dof=dof) == pytest.approx(p, rel=1e-11)


@given(probabilities, shapes, st.floats(1e-6, 1e6))
def test_gamma_quantile_undoes_cdf(p, shape, scale):
    x = stats.gamma_quantile(p, shape=shape, scale=scale)
    assert stats.gamma_cdf(x, shape=shape, scale=scale) == pytest.approx(p, rel=1e-10)


@given(st.floats(1e-6, 0.999), shapes, shapes)
def test_beta_quantile_undoes_cdf(p, a, b):
    """Next to 1 a float cannot hold a quantile to 1e-10, so it is looked for from both sides."""
    x = stats.beta_quantile(p, a=a, b=b)
    below, above = (stats.beta_cdf(x + d * 2e-16, a=a, b=b) for d in (-1, 1))
    assert below * (1 - 1e-10) <= p <= above * (1 + 1e-10)


@given(st.floats(-40, 40), dofs)
def test_t_is_symmetric(x, dof):
    assert stats.t_cdf(-x, dof=dof) + stats.t_cdf(x, dof=dof) == pytest.approx(1, abs=1e-15)
    assert stats.normal_cdf(-x) + stats.normal_cdf(x) == pytest.approx(1, abs=1e-15)


@given(st.floats(0, 1), shapes, shapes)
def test_beta_is_symmetric(x, a, b):
    mirrored = 1 - stats.beta_cdf(1 - x, a=b, b=a)
    assert stats.beta_cdf(1 - (1 - x), a=a, b=b) == pytest.approx(mirrored, abs=1e-11)


@given(st.floats(-30, 30), st.floats(1e-3, 5), dofs)
def test_cdfs_never_fall(x, step, dof):
    slack = 1 + 1e-13
    for cdf in (
        stats.normal_cdf,
        partial(stats.t_cdf, dof=dof),
        partial(stats.gamma_cdf, shape=dof),
        partial(stats.beta_cdf, a=dof, b=2),
    ):
        assert cdf(x) <= cdf(x + step) * slack


@given(probabilities, st.floats(1e-6, 1e-2), dofs)
def test_quantiles_rise(p, step, dof):
    higher = min(p + step, 1 - 1e-10)
    assert stats.t_quantile(p, dof=dof) <= stats.t_quantile(higher, dof=dof)
    assert stats.gamma_quantile(p, shape=dof) <= stats.gamma_quantile(higher, shape=dof)


def test_ends_of_the_range():
    assert stats.normal_cdf(-math.inf) == 0.0
    assert stats.normal_cdf(math.inf) == 1.0
    assert stats.t_cdf(-math.inf, dof=3) == 0.0
    assert stats.t_cdf(0.0, dof=3) == 0.5
    assert stats.gamma_cdf(-1.0, shape=2) == 0.0
    assert stats.gamma_cdf(math.inf, shape=2) == 1.0
    assert stats.chi_square_survival(-1.0, dof=2) == 1.0
    assert stats.beta_cdf(-0.1, a=2, b=3) == 0.0
    assert stats.beta_cdf(1.1, a=2, b=3) == 1.0
    assert stats.t_quantile(0.5, dof=3) == 0.0
    assert [stats.t_quantile(p, dof=3) for p in (0, 1)] == [-math.inf, math.inf]
    assert [stats.normal_quantile(p) for p in (0, 1)] == [-math.inf, math.inf]
    assert [stats.gamma_quantile(p, shape=2) for p in (0, 1)] == [0.0, math.inf]
    assert [stats.beta_quantile(p, a=2, b=3) for p in (0, 1)] == [0.0, 1.0]


@pytest.mark.parametrize(
    ("call", "field"),
    [
        (partial(stats.normal_cdf, math.nan), "z"),
        (partial(stats.normal_quantile, 1.1), "p"),
        (partial(stats.t_cdf, math.nan, dof=3), "x"),
        (partial(stats.t_cdf, 1.0, dof=0), "dof"),
        (partial(stats.t_cdf, 1.0, dof=math.nan), "dof"),
        (partial(stats.t_quantile, -0.1, dof=3), "p"),
        (partial(stats.t_quantile, 0.5, dof=-1), "dof"),
        (partial(stats.gamma_cdf, math.nan, shape=1), "x"),
        (partial(stats.gamma_cdf, 1.0, shape=0), "shape"),
        (partial(stats.gamma_cdf, 1.0, shape=1, scale=0), "scale"),
        (partial(stats.gamma_quantile, math.nan, shape=1), "p"),
        (partial(stats.gamma_quantile, 0.5, shape=0), "shape"),
        (partial(stats.gamma_quantile, 0.5, shape=1, scale=0), "scale"),
        (partial(stats.chi_square_cdf, 1.0, dof=0), "dof"),
        (partial(stats.chi_square_survival, 1.0, dof=0), "dof"),
        (partial(stats.chi_square_survival, math.nan, dof=1), "x"),
        (partial(stats.chi_square_quantile, 0.5, dof=0), "dof"),
        (partial(stats.beta_cdf, math.nan, a=1, b=1), "x"),
        (partial(stats.beta_cdf, 0.5, a=0, b=1), "a"),
        (partial(stats.beta_cdf, 0.5, a=1, b=0), "b"),
        (partial(stats.beta_quantile, 2, a=1, b=1), "p"),
        (partial(stats.beta_quantile, 0.5, a=0, b=1), "a"),
        (partial(stats.beta_quantile, 0.5, a=1, b=0), "b"),
    ],
)
def test_what_cannot_be_is_refused_by_name(call, field):
    with pytest.raises(MeasurementError) as refused:
        call()
    assert refused.value.field == field
