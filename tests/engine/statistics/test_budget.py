"""Budgets and ranges against the worked examples that everybody can look up."""

from itertools import pairwise
from math import inf, sqrt

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from uncertainties import ufloat, umath

from evenstand.engine.statistics.budget import (
    Cause,
    Estimate,
    Share,
    budget,
    effective_dof,
    estimate,
    give_or_take,
    nominal,
    standard_uncertainty,
    uncertain,
)

positive = st.floats(1e-6, 1e6)
dofs = st.one_of(st.just(inf), st.integers(1, 200).map(float))


@pytest.fixture
def end_gauge(published):
    """GUM H.1: l = ls + d − ls·(δα·θ + αs·δθ), its budget and the table's rows."""
    rows = {row["input"]: row for row in published("gum_h1.csv")}
    ls, d, alpha, theta, d_alpha, d_theta = (
        ufloat(row["value"], row["u"], name) for name, row in rows.items()
    )
    length = ls + d - ls * (d_alpha * theta + alpha * d_theta)
    causes = {name: Cause(row["dof"]) for name, row in rows.items()}
    return length, budget(length, causes), rows


def test_gum_h1_contributions(end_gauge):
    """Printed to 25, 9.7, 2.9 and 16.6 nm; two inputs do nothing to first order."""
    length, shares, rows = end_gauge
    for share in shares:
        # 50 000 623 nm × 11.5e-6 × 0.029 is 16.7; the table has 16.6, from 0.05 / √3.
        assert share.u == pytest.approx(rows[share.name]["contribution"], abs=0.1)
    assert {row for row in rows if rows[row]["contribution"]} == {share.name for share in shares}
    assert standard_uncertainty(length) == pytest.approx(32, abs=0.5)
    assert nominal(length) == pytest.approx(50_000_838, abs=0.5)


def test_gum_h1_effective_dof(end_gauge):
    _, shares, rows = end_gauge
    assert effective_dof(shares) == pytest.approx(16.7, abs=0.1)
    printed = [Share(name, row["contribution"], dof=row["dof"]) for name, row in rows.items()]
    assert effective_dof(printed) == pytest.approx(16.7, abs=0.1)
    # The text prints (32 nm)⁴ above the sum; from the rounded 32 it would come to 17.5.
    spread = sum(share.u**4 / share.dof for share in printed)
    assert 32**4 / spread == pytest.approx(17.5, abs=0.05)


def test_gum_h1_expanded(end_gauge):
    """U = 2.92 × 32 = 93 nm, with 16.7 degrees of freedom cut to 16."""
    length, shares, _ = end_gauge
    found = estimate(length, shares, level=0.99)
    assert found.dof == 16
    assert found.high - found.value == pytest.approx(93, abs=1)
    assert (found.high - found.value) / found.u == pytest.approx(2.92, abs=0.005)
    assert found.value - found.low == pytest.approx(found.high - found.value)


def correlated(means, covariance):
    """Three quantities with a covariance, built from three independent ones (Cholesky)."""
    root = [[0.0] * 3 for _ in range(3)]
    for i in range(3):
        for j in range(i + 1):
            rest = covariance[i][j] - sum(root[i][k] * root[j][k] for k in range(j))
            root[i][j] = sqrt(rest) if i == j else rest / root[j][j]
    independent = [ufloat(0, 1, name) for name in ("first", "second", "third")]
    return [
        mean + sum(part * z for part, z in zip(row, independent, strict=True))
        for mean, row in zip(means, root, strict=True)
    ]


def test_gum_h2_correlated_inputs(published):
    """The correlations of the raw readings are kept; printed to 0.001 ohm."""
    readings = [tuple(row.values()) for row in published("gum_h2.csv")]
    n, means = (
        len(readings),
        [sum(column) / len(readings) for column in zip(*readings, strict=True)],
    )
    spread = [[x - m for x, m in zip(row, means, strict=True)] for row in readings]
    covariance = [
        [sum(row[i] * row[j] for row in spread) / (n * (n - 1)) for j in range(3)] for i in range(3)
    ]
    voltage, current, phase = correlated(means, covariance)
    resistance = voltage * umath.cos(phase) / (current / 1000)
    reactance = voltage * umath.sin(phase) / (current / 1000)
    impedance = voltage / (current / 1000)
    for result, value, u in (
        (resistance, 127.732, 0.071),
        (reactance, 219.847, 0.295),
        (impedance, 254.260, 0.236),
    ):
        assert nominal(result) == pytest.approx(value, abs=6e-4)
        assert standard_uncertainty(result) == pytest.approx(u, abs=1e-3)

    def correlation(a, b):
        ua, ub = standard_uncertainty(a), standard_uncertainty(b)
        return (standard_uncertainty(a + b) ** 2 - ua**2 - ub**2) / (2 * ua * ub)

    assert correlation(resistance, reactance) == pytest.approx(-0.588, abs=1e-3)
    assert correlation(resistance, impedance) == pytest.approx(-0.485, abs=1e-3)
    assert correlation(reactance, impedance) == pytest.approx(0.993, abs=1e-3)


def test_rounding_of_a_scale():
    """GUM F.2.2.1: a step d leaves d/√12 = 0.29 d; gross and tare both rounded, d/√6 = 0.41 d."""
    gross, tare = give_or_take(126.0, 0.5, "rounding"), give_or_take(100.0, 0.5, "rounding")
    assert standard_uncertainty(gross) == pytest.approx(0.29, abs=0.005)
    assert standard_uncertainty(gross - tare) == pytest.approx(0.41, abs=0.005)
    (share,) = budget(gross - tare, {})
    assert share == Share("rounding", pytest.approx(sqrt(1 / 6)), 1.0)


def test_a_budget_by_hand():
    """3, 4 and 12 from three causes, two of them under one tag: 5, 12, together 13."""
    total = ufloat(0, 3, "a") + ufloat(0, 4, "a") + ufloat(100, 12, "b")
    shares = budget(total, {"a": Cause(9, common=False)})
    assert [(s.name, s.u, s.dof, s.common) for s in shares] == [
        ("b", 12, inf, True),
        ("a", 5, 9, False),
    ]
    assert [s.part for s in shares] == pytest.approx([144 / 169, 25 / 169])
    assert standard_uncertainty(total) == 13


def test_what_is_shared_cancels():
    bias = ufloat(0, 1, "bias")
    assert budget((10 + bias) - (3 + bias), {}) == ()


@given(st.lists(positive, min_size=1, max_size=6))
def test_parts_fill_the_whole_and_stand_in_order(us):
    shares = budget(sum(ufloat(1, u, str(i)) for i, u in enumerate(us)), {})
    assert sum(share.part for share in shares) == pytest.approx(1)
    assert all(a.u >= b.u for a, b in pairwise(shares))


def test_exact_numbers_have_no_budget():
    assert uncertain(2.0, 0.0, "x") == 2.0
    assert type(give_or_take(2.0, 0.0, "x")) is float
    assert standard_uncertainty(2.0) == 0
    assert nominal(2) == 2.0
    assert budget(2.0, {}) == ()
    assert effective_dof(()) == inf
    assert estimate(2.0, ()) == Estimate(2.0, 2.0, 2.0, 0.0)


@given(st.floats(1e-100, 1e100))
def test_dof_do_not_depend_on_the_unit(unit):
    shares = (Share("a", 3, dof=5), Share("b", 4, dof=12), Share("c", 1))
    scaled = [Share(s.name, s.u * unit, dof=s.dof) for s in shares]
    assert effective_dof(scaled) == pytest.approx(effective_dof(shares))


def test_dof_by_hand():
    # (9 + 16)² / (9²/5 + 16²/12) = 625 / 37.533 = 16.65; judgements alone know it for sure.
    assert effective_dof((Share("a", 3, dof=5), Share("b", 4, dof=12))) == pytest.approx(
        16.652, abs=5e-4
    )
    assert effective_dof((Share("a", 3), Share("b", 4))) == inf


def test_range_on_the_scale_it_is_made_on():
    """z(97.5%) = 1.96: 10 ± 1.96 at u = 10%, but 10 ×/÷ exp(0.392) = 1.480 at 20%."""
    even = estimate(ufloat(10, 1.0, "x"), (Share("x", 1.0),))
    assert not even.log_scale
    assert (even.low, even.high) == pytest.approx((8.04, 11.96), abs=5e-4)
    skew = estimate(ufloat(10, 2.0, "x"), (Share("x", 2.0),))
    assert skew.log_scale
    assert (skew.low, skew.high) == pytest.approx((10 / 1.480, 14.80), abs=5e-3)
    below_zero = estimate(ufloat(-10, 2.0, "x"), (Share("x", 2.0),))
    assert (below_zero.low, below_zero.high) == pytest.approx((-13.92, -6.08), abs=5e-3)


def test_few_repeats_make_a_wide_range():
    # NIST TN 1297, table B.1: t(95 %) is 2.78 at 4 degrees of freedom, 12.71 at 1.
    shares = (Share("repeats", 0.1, dof=4.9),)
    found = estimate(ufloat(10, 0.1, "repeats"), shares)
    assert found.dof == 4
    assert found.high == pytest.approx(10 + 0.278, abs=5e-4)
    one = estimate(ufloat(10, 0.1, "repeats"), (Share("repeats", 0.1, dof=0.4),))
    assert one.high == pytest.approx(10 + 1.271, abs=5e-4)


@given(value=st.floats(-10, 1000), u=st.floats(1e-3, 100), dof=dofs, level=st.floats(0.5, 0.99))
def test_the_odds_of_a_range_are_its_level(*, value, u, dof, level):
    assume(not 0 < value < u / 3)  # a range over hundreds of powers of ten has no odds left
    found = estimate(ufloat(value, u, "x"), (Share("x", u, dof=dof),), level=level)
    assert found.within(found.low, found.high) == pytest.approx(level, abs=1e-9)
    assert found.below(found.value) == pytest.approx(0.5)
    assert found.below(found.low) == pytest.approx((1 - level) / 2, abs=1e-9)


def test_odds_by_simulation():
    np = pytest.importorskip("numpy")
    rng, n = np.random.default_rng(7), 1_000_000
    found = Estimate(60, 0, 0, 9, dof=inf)
    draws = 60 * np.exp(rng.normal(0, 9 / 60, n))
    for limit in (40, 57, 63, 90):
        assert found.below(limit) == pytest.approx((draws < limit).mean(), abs=0.002)
    few = Estimate(60, 0, 0, 2, dof=5)
    draws = 60 + 2 * rng.standard_t(5, n)
    assert few.within(57, 63) == pytest.approx(((draws > 57) & (draws < 63)).mean(), abs=0.002)


def test_odds_at_the_edges():
    skew = Estimate(10, 5, 20, 5)
    assert (skew.below(0), skew.below(-1)) == (0, 0)
    exact = Estimate(10, 10, 10, 0)
    assert (exact.below(9), exact.below(10), exact.below(11)) == (0, 0, 1)
    assert (exact.within(9, 10), exact.within(10.5, 11)) == (1, 0)
