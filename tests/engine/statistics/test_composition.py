"""Agreement of counts with shares: Mendel's peas, hand arithmetic, SciPy."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.statistics.composition import fit


def test_mendels_peas(published):
    """χ² 0.4700 and p 0.9254 to the digits printed, half a digit allowed."""
    rows = published("mendel_peas.csv")
    peas = fit([int(row["count"]) for row in rows], shares=[row["ratio"] for row in rows])
    assert peas.statistic == pytest.approx(0.4700, abs=5e-5)
    assert (peas.dof, peas.p) == (3, pytest.approx(0.9254, abs=5e-5))
    assert peas.classes == ((0,), (1,), (2,), (3,))


def test_small_expectations_are_pooled_with_each_other_then_with_the_next():
    """Of 50, expected 25, 15, 6, 3, 1: 3 + 1 = 4 takes the 6 as well.

    The classes are 25, 15 and 10, the counts 20, 15, 15: χ² = 25/25 + 0 + 25/10 = 3.5
    """
    pooled = fit([20, 15, 9, 4, 2], shares=[0.50, 0.30, 0.12, 0.06, 0.02])
    assert pooled.classes == ((0,), (1,), (2, 3, 4))
    assert (pooled.statistic, pooled.dof) == (pytest.approx(3.5), 2)
    assert pooled.p == pytest.approx(math.exp(-1.75))  # dof 2 is exponential


def test_a_pool_that_reaches_the_least_stands_alone():
    """Of 50, expected 30, 14, 3, 3: the pool of 6 is enough."""
    assert fit([30, 14, 3, 3], shares=[30, 14, 3, 3]).classes == ((0,), (1,), (2, 3))


def test_a_pool_of_exactly_the_least_stands_alone():
    """Of 60, expected 40, 15, 2.5 and 2.5."""
    assert fit([40, 15, 3, 2], shares=[16, 6, 1, 1]).classes == ((0,), (1,), (2, 3))


def test_a_kind_that_was_not_expected_is_pooled():
    assert fit([20, 28, 2], shares=[1, 1, 0]).classes == ((1,), (0, 2))


@pytest.mark.parametrize("counts", [[20, 30, 50], [9, 9, 13], [100, 0, 7]])
def test_without_small_classes_scipy_agrees(counts):
    reference = pytest.importorskip("scipy.stats").chisquare
    shares = [0.3, 0.3, 0.4]
    expected = [share * sum(counts) for share in shares]
    statistic, p = reference(counts, expected)
    assert fit(counts, shares=shares).statistic == pytest.approx(statistic, rel=1e-12)
    assert fit(counts, shares=shares).p == pytest.approx(p, rel=1e-10)


@given(st.lists(st.integers(5, 300), min_size=2, max_size=9), st.integers(2, 9))
def test_only_proportions_of_the_shares_matter_and_their_own_counts_fit(counts, factor):
    assert fit(counts, shares=counts).statistic == pytest.approx(0, abs=1e-20)
    shares = list(reversed(counts))
    scaled = fit(counts, shares=[factor * share for share in shares], least=0)
    assert scaled.statistic == pytest.approx(fit(counts, shares=shares, least=0).statistic)


@pytest.mark.parametrize(
    ("counts", "shares", "field"),
    [
        ([5, 5], [1, 1, 1], "shares"),
        ([5, 5], [1, -1], "shares"),
        ([5, 5], [1, math.nan], "shares"),
        ([5, 5], [0, 0], "shares"),
        ([4, 2], [1, 1], "counts"),
        ([0, 0], [1, 1], "counts"),
    ],
)
def test_what_cannot_be_compared_is_refused_by_name(counts, shares, field):
    with pytest.raises(MeasurementError) as refused:
        fit(counts, shares=shares)
    assert refused.value.field == field
