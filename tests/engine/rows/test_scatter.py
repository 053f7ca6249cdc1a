"""Rows told apart from their catches: by hand, by published variance components, by chance."""

import random
from math import inf, sqrt

import pytest

from evenstand.engine.rows.scatter import scatter


def test_one_catch_by_hand():
    # Off by −10, +10, 0 and 0 %: squares add to 0.02. With 4 % and 3 % in quadrature e² = 0.0025,
    # χ² = 0.02 ÷ 0.0025 = 8 on 3; var = 0.02 ÷ 3, of which 0.0025 is noise.
    seen = scatter([[0.9, 1.1, 1.0, 1.0]], repeat_cv=0.04, reading=0.03)
    assert (seen.test, seen.dof) == ("chi-square", inf)
    assert seen.statistic == pytest.approx(8)
    assert seen.cv == pytest.approx(sqrt(0.02 / 3))
    assert seen.repeat_cv == pytest.approx(0.05)
    assert seen.row_cv == pytest.approx(sqrt(0.02 / 3 - 0.0025))
    assert seen.p == pytest.approx(0.046012, abs=1e-6)  # SciPy: chi2.sf(8, 3)


def test_two_catches_by_hand():
    # Row means 0.9, 1.0, 1.1; each catch is 0.02 above one and below another: residuals
    # ±0.02, 0, ∓0.02, squares 4 × 0.0004 on (3 − 1)(2 − 1) = 2, so e² = 0.0008.
    # F = 2 × 0.01 ÷ 0.0008 = 25; row variance 0.01 − 0.0004.
    seen = scatter([[0.92, 1.0, 1.08], [0.88, 1.0, 1.12]], repeat_cv=0.5, reading=0.0)
    assert (seen.test, seen.dof) == ("F", 2.0)
    assert seen.statistic == pytest.approx(25)
    assert seen.repeat_cv == pytest.approx(sqrt(0.0008))
    assert seen.row_cv == pytest.approx(sqrt(0.0096))
    assert seen.noise == pytest.approx(0.02)
    assert seen.kept == pytest.approx(0.96)  # 0.0096 ÷ (0.0096 + 0.0004)
    assert seen.p == pytest.approx(1 / 26)  # on 2 and 2: 1 ÷ (1 + F)


def test_variance_components_of_the_penicillin_plates(published):
    """Davies and Goldsmith (1972), 6.6; lme4's example prints 0.8467 and 0.5499 for them.

    Plates are the rows, samples the catches. Restricted maximum likelihood
    and the method of moments agree on a table without gaps.
    """
    plates = published("penicillin.csv")
    catches = [[plate[sample] for plate in plates] for sample in "ABCDEF"]
    middle = sum(map(sum, catches)) / 144
    own = [sum(catch) / 24 for catch in catches]
    table = [
        [1 + (value - mean) / middle for value in catch]
        for catch, mean in zip(catches, own, strict=True)
    ]
    seen = scatter(table, repeat_cv=0.02, reading=0.0)
    assert seen.row_cv * middle == pytest.approx(0.8467, abs=5e-5)
    assert seen.repeat_cv * middle == pytest.approx(0.5499, abs=5e-5)


def test_rows_alike_have_no_scatter_of_their_own():
    seen = scatter([[1.0] * 6, [1.0] * 6], repeat_cv=0.02, reading=0.0)
    assert (seen.cv, seen.row_cv, seen.kept) == (0, 0, 0)
    assert seen.p == 1


def test_the_step_of_the_scale_is_the_least_noise():
    """Catches that agree by rounding are not without noise."""
    seen = scatter([[0.9, 1.0, 1.1]] * 2, repeat_cv=0.02, reading=0.03)
    assert seen.repeat_cv == pytest.approx(0.03)


def test_catches_that_agree_to_the_last_digit_show_no_noise():
    """It is taken as for one catch; two of them halve its variance: χ² = 2 × 0.02 ÷ 0.0004."""
    seen = scatter([[0.9, 1.0, 1.1]] * 2, repeat_cv=0.02, reading=0.0)
    assert (seen.test, seen.dof, seen.repeat_cv) == ("chi-square", inf, 0.02)
    assert seen.statistic == pytest.approx(100)
    assert seen.row_cv == pytest.approx(sqrt(0.01 - 0.0002))


def test_rounding_is_no_scatter():
    third = 1 / 3 + 1 / 3 + 1 / 3 + 1e-15
    assert scatter([[third, 1.0, 1.0]], repeat_cv=0.02, reading=0.0).cv == 0


@pytest.mark.parametrize("catches", [1, 3])
def test_rows_all_alike_are_seldom_called_different(catches):
    draw = random.Random(6)
    told = 0
    for _ in range(1000):
        table = [[1 + draw.gauss(0, 0.02) for _ in range(16)] for _ in range(catches)]
        means = [sum(catch) / 16 for catch in table]
        even = [[w / mean for w in catch] for catch, mean in zip(table, means, strict=True)]
        told += scatter(even, repeat_cv=0.02, reading=0.0).p < 0.05
    assert told / 1000 == pytest.approx(0.05, abs=0.028)  # 4 standard errors
