"""Outlier tests against the e-Handbook's examples, hand arithmetic and simulation."""

import math
import random
from functools import partial

import pytest
from hypothesis import given
from hypothesis import strategies as st

from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.statistics.outliers import generalized_esd, grubbs, grubbs_critical, holm

samples = st.lists(st.floats(-1e3, 1e3), min_size=3, max_size=20).filter(
    lambda values: max(values) - min(values) > 1e-3
)
p_values = st.lists(st.floats(0, 1), max_size=12)


def test_uranium_readings_of_the_e_handbook(published):
    readings = [row["reading"] for row in published("grubbs.csv")]
    worst = grubbs(readings)
    assert worst.index == 7
    assert math.floor(worst.statistic * 1e4) == 24687
    assert grubbs_critical(8, one_sided=True) == pytest.approx(2.032, abs=5e-4)


@pytest.mark.parametrize("n", [3, 8, 24, 54])
@pytest.mark.parametrize("alpha", [0.01, 0.05])
def test_grubbs_limit_by_the_t_quantile_of_scipy(n, alpha):
    ppf = pytest.importorskip("scipy.stats").t.ppf
    for one_sided, share in ((True, alpha / n), (False, alpha / (2 * n))):
        t = ppf(1 - share, n - 2)
        expected = (n - 1) / math.sqrt(n) * math.sqrt(t * t / (n - 2 + t * t))
        limit = grubbs_critical(n, alpha=alpha, one_sided=one_sided)
        assert limit == pytest.approx(expected, rel=1e-10)


def test_grubbs_limit_is_passed_by_chance_as_often_as_it_says():
    """4000 samples of 10 normal values: 0.05 ± five binomial standard errors of 0.0034."""
    draw, limit = random.Random(7), grubbs_critical(10)
    alarms = sum(
        grubbs([draw.gauss(0, 1) for _ in range(10)]).statistic > limit for _ in range(4000)
    )
    assert alarms / 4000 == pytest.approx(0.05, abs=5 * 0.0034)


@given(samples)
def test_no_value_is_farther_than_the_sample_size_allows(values):
    """(n − 1)/√n: with 8 rows none can exceed 2.475 standard deviations."""
    n = len(values)
    assert grubbs(values).statistic <= (n - 1) / math.sqrt(n) * (1 + 1e-12)


def test_one_value_away_from_all_others_reaches_that_ceiling():
    assert grubbs([5, 5, 5, 5, 5, 5, 5, 1]).statistic == pytest.approx(7 / math.sqrt(8))
    assert grubbs_critical(8, alpha=1e-12) == pytest.approx(7 / math.sqrt(8), rel=1e-3)


def test_a_limit_that_half_of_all_samples_pass_is_no_limit():
    assert grubbs_critical(3, alpha=1.0, one_sided=True) < 1
    assert grubbs_critical(3, alpha=0.0) == pytest.approx(2 / math.sqrt(3))


def test_rosners_values_of_the_e_handbook(nist, published):
    """Printed digits are cut after the third; 3 outliers although neither 1 nor 2 stand out."""
    values = [line[0] for line in nist("Rosner.dat", 22, 75)]
    result = generalized_esd(values, most=10)
    for step, row in zip(result.steps, published("rosner_esd.csv"), strict=True):
        assert 0 <= step.statistic - row["statistic"] < 1e-3
        assert 0 <= step.critical - row["critical"] < 1e-3
    assert [values[i] for i in result.indices] == [6.01, 5.42, 5.34]


def test_two_outliers_that_hide_each_other():
    values = [9, 10, 11, 10, 9, 11, 10, 30, 31, 10, 9, 11]
    assert grubbs(values).statistic < grubbs_critical(12)
    assert generalized_esd(values, most=3).indices == (8, 7)


def test_values_that_belong_together_have_no_outlier():
    result = generalized_esd([9, 10, 11, 10, 9, 11, 10, 12], most=2)
    assert (len(result.steps), result.indices) == (2, ())


def test_values_that_become_all_alike_end_the_search():
    result = generalized_esd([5.0, 5.0, 5.0, 5.0, 5.0, 9.0], most=3)
    assert (len(result.steps), result.indices) == (1, (5,))
    assert generalized_esd([5.0, 5.0, 5.0], most=1).steps == ()


def test_holm_on_the_heart_attack_trial(published):
    """Three of fifteen stand at 5%, as Bonferroni's: Benjamini and Hochberg (1995), 4.1."""
    rows = published("holm.csv")
    adjusted = holm([row["p"] for row in rows])
    assert adjusted == pytest.approx([row["adjusted"] for row in rows], abs=1e-12)
    assert sum(p <= 0.05 for p in adjusted) == 3


@pytest.fixture(scope="module")
def multipletests():
    peer = pytest.importorskip("statsmodels.stats.multitest")
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("gc.collect", int)  # it would sweep up after the whole suite at every call
        yield peer.multipletests


@given(p_values)
def test_holm_agrees_with_statsmodels(multipletests, given_p):
    expected = multipletests(given_p, method="holm")[1] if given_p else []
    assert holm(given_p) == pytest.approx(list(expected), rel=1e-12, abs=1e-300)


@given(p_values)
def test_holm_lies_between_no_correction_and_bonferroni(given_p):
    for p, adjusted in zip(given_p, holm(given_p), strict=True):
        assert p <= adjusted <= min(1.0, len(given_p) * p)


@given(p_values)
def test_holm_does_not_care_for_order(given_p):
    assert holm(given_p[::-1]) == holm(given_p)[::-1]


@pytest.mark.parametrize(
    ("call", "field"),
    [
        (partial(grubbs, [1.0, 2.0]), "values"),
        (partial(grubbs, [1.0, 1.0, 1.0]), "values"),
        (partial(grubbs, [1.0, 2.0, math.nan]), "values"),
        (partial(grubbs_critical, 2), "n"),
        (partial(grubbs_critical, 8, alpha=5), "alpha"),
        (partial(generalized_esd, [1.0, 2.0, 3.0], most=2), "values"),
        (partial(generalized_esd, [1.0, 2.0, 3.0], most=0), "most"),
        (partial(generalized_esd, [1.0, 2.0, 3.0], most=1, alpha=-1), "alpha"),
        (partial(holm, [0.5, 1.5]), "p_values"),
        (partial(holm, [math.nan]), "p_values"),
    ],
)
def test_what_cannot_be_is_refused_by_name(call, field):
    with pytest.raises(MeasurementError) as refused:
        call()
    assert refused.value.field == field
