"""Contingency and trend against SciPy and statsmodels, on tables of chance."""

from math import sqrt

import numpy as np
import pytest
import scipy.stats
from hypothesis import given
from hypothesis import strategies as st
from statsmodels.stats.contingency_tables import Table

from evenstand.engine.statistics.count_tables import (
    contingency,
    linear_trend,
    shares_spread,
    uncertain_fit,
)

tables = st.integers(2, 5).flatmap(
    lambda kinds: st.lists(
        st.lists(st.integers(1, 300), min_size=kinds, max_size=kinds), min_size=2, max_size=4
    )
)


@given(tables)
def test_contingency_is_scipys(table):
    found = contingency(table, least=0.0)
    peer = scipy.stats.chi2_contingency(table, correction=False)
    assert found.statistic == pytest.approx(peer.statistic, rel=1e-9, abs=1e-9)
    assert found.dof == peer.dof
    assert found.p == pytest.approx(peer.pvalue, rel=1e-9, abs=1e-12)


@given(st.lists(st.tuples(st.integers(1, 200), st.integers(1, 200)), min_size=2, max_size=5))
def test_trend_is_that_of_statsmodels(pairs):
    """statsmodels keeps both margins: its z is √((n − 1)/n) of the binomial one."""
    scores = [0.25 * i for i in range(len(pairs))]
    ours = linear_trend([k for k, _ in pairs], [k + r for k, r in pairs], at=scores)
    peer = Table(np.array([[r, k] for k, r in pairs]), shift_zeros=False)
    theirs = peer.test_ordinal_association(row_scores=np.array(scores), col_scores=np.array([0, 1]))
    n = sum(k + r for k, r in pairs)
    assert ours.z * sqrt((n - 1) / n) == pytest.approx(theirs.zscore, rel=1e-7, abs=1e-9)


def test_an_uncertain_expectation_keeps_its_false_alarms_at_5_percent():
    """Simulated: true seed counts off by their own uncertainty, then 900 seeds caught."""
    rng = np.random.default_rng(7)
    parts, relative = np.array([0.5, 0.3, 0.15, 0.05]), [0.03, 0.10, 0.05, 0.08]
    spread = shares_spread(list(parts), relative)
    alarms = {"with": 0, "without": 0}
    runs = 4000
    for _ in range(runs):
        true = parts * np.exp(rng.normal(0, relative))
        counts = [int(k) for k in rng.multinomial(900, true / true.sum())]
        for name, cov in (("with", spread), ("without", [[0.0] * 4] * 4)):
            found = uncertain_fit(
                counts, shares=list(parts), spread=cov, classes=[(0,), (1,), (2,), (3,)]
            )
            alarms[name] += found.p < 0.05
    # Standard error of a rate of 5 % over 4,000 runs is 0.34 %.
    assert alarms["with"] / runs == pytest.approx(0.05, abs=0.015)
    assert alarms["without"] / runs > 0.2  # what taking the seed counts as exact would do
