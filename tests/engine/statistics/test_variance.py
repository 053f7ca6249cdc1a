"""Variances against NIST's certified values, hand arithmetic, SciPy and simulation."""

import math
import random
from functools import partial
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.statistics.variance import cv_range, f_survival, mean_and_sd, one_way

NINE_DIGITS, THREE_DIGITS = 1e-9, 1e-3
values = st.lists(st.floats(-1e3, 1e3), min_size=2, max_size=6)


def grouped(lines):
    groups = {}
    for group, value in lines:
        groups.setdefault(group, []).append(value)
    return list(groups.values())


def test_certified_resistivity(nist):
    """SiRstv: F 1.18046237440255 and residual standard deviation 0.104076068334656."""
    table = one_way(grouped(nist("SiRstv.dat", 61, 85)))
    assert table.f == pytest.approx(1.18046237440255, rel=NINE_DIGITS)
    assert table.residual_sd == pytest.approx(0.104076068334656, rel=NINE_DIGITS)
    assert table.between == pytest.approx(1.27865654e-2, rel=NINE_DIGITS)
    assert (table.dof_between, table.dof_within, table.per_group) == (4, 20, 5)


@pytest.mark.parametrize(
    ("name", "tolerance"),
    [
        *((f"SmLs0{i}", NINE_DIGITS) for i in range(1, 7)),
        *((f"SmLs0{i}", THREE_DIGITS) for i in range(7, 10)),  # 13 leading digits all alike
        ("AtmWtAg", NINE_DIGITS),
    ],
)
def test_certified_sets_with_many_leading_digits(name, tolerance):
    """NIST StRD one-way sets by Simon and Lesage, as SciPy carries them for its own tests."""
    folder = Path(pytest.importorskip("scipy.stats").__file__).parent
    path = folder / "tests" / "data" / "nist_anova" / f"{name}.dat"
    if not path.exists():
        pytest.skip("this SciPy came without its test data")
    lines = path.read_text(encoding="utf-8").splitlines()
    between = next(line.split() for line in lines if line.startswith("Between"))
    table = one_way(grouped([float(text) for text in line.split()] for line in lines[60:]))
    assert table.f == pytest.approx(float(between[-1]), rel=tolerance)
    assert table.dof_between == int(between[2])


def test_small_table_by_hand():
    """Means 25, 27.2, 24 about 25.4: MSB = 2(0.16 + 3.24 + 1.96)/2 = 5.36, MSW = 0.18/3 = 0.06.

    P(F > f) for 2 and 3 degrees of freedom is (1 + 2f/3)^(−3/2).
    """
    table = one_way([[25.1, 24.9], [27.0, 27.4], [24.2, 23.8]])
    assert (table.between, table.within) == (pytest.approx(5.36), pytest.approx(0.06))
    f = 5.36 / 0.06
    assert table.p == pytest.approx((1 + 2 * f / 3) ** -1.5)
    assert table.group_sd == pytest.approx(math.sqrt((5.36 - 0.06) / 2))


def test_groups_of_different_size_by_hand():
    """(10 − (9 + 16 + 9)/10)/2 = 3.3 stands for the number in each group (Searle 1971)."""
    groups = [[1.0, 2.0, 3.0], [4.0, 4.5, 5.0, 5.5], [2.0, 2.5, 3.0]]
    assert one_way(groups).per_group == pytest.approx(3.3)
    reference = pytest.importorskip("scipy.stats").f_oneway(*groups)
    assert one_way(groups).f == pytest.approx(reference.statistic, rel=1e-12)
    assert one_way(groups).p == pytest.approx(reference.pvalue, rel=1e-10)


def test_group_spread_is_recovered_from_a_simulation():
    """2000 groups of 3, true spread 4 between and 2 within: five standard errors allowed."""
    draw = random.Random(20)
    centres = [draw.gauss(100, 4) for _ in range(2000)]
    table = one_way([[draw.gauss(centre, 2) for _ in range(3)] for centre in centres])
    assert table.group_sd == pytest.approx(4, abs=5 * 4 * 1.1 / math.sqrt(2 * 2000))
    assert table.residual_sd == pytest.approx(2, abs=5 * 2 / math.sqrt(2 * 4000))


def test_noise_that_explains_the_groups_leaves_them_no_spread():
    assert one_way([[1.0, 9.0], [2.0, 8.0]]).group_sd == 0.0


def test_repeats_without_any_noise():
    table = one_way([[1.0, 1.0], [2.0, 2.0]])
    assert (table.f, table.p) == (math.inf, 0.0)


@given(st.lists(values, min_size=2, max_size=5), st.floats(-1e4, 1e4), st.floats(0.1, 10))
def test_f_does_not_depend_on_unit_or_zero(groups, shift, scale):
    moved = [[scale * (x + shift) for x in group] for group in groups]
    try:
        table = one_way(groups)
    except MeasurementError:
        return
    if table.within > 1e-3:
        assert one_way(moved).f == pytest.approx(table.f, rel=1e-5, abs=1e-9)


@pytest.mark.parametrize("dof1", [1, 2, 7, 30, 1000])
@pytest.mark.parametrize("dof2", [1, 3, 12.5, 400])
def test_f_agrees_with_scipy(dof1, dof2):
    reference = pytest.importorskip("scipy.stats").f(dof1, dof2)
    for x in (0, 1e-6, 0.1, 0.9, 1, 1.3, 4, 50):
        expected = pytest.approx(reference.sf(x), rel=1e-10, abs=1e-290)
        assert f_survival(x, dof1=dof1, dof2=dof2) == expected


def test_f_at_the_ends():
    assert f_survival(-1.0, dof1=1, dof2=1) == 1.0
    assert f_survival(math.inf, dof1=1, dof2=1) == 0.0


def test_mean_and_standard_deviation_by_hand():
    """(2, 4, 4, 6): mean 4, squares 4 + 0 + 0 + 4 = 8, over 3."""
    assert mean_and_sd([2, 4, 4, 6]) == (4, pytest.approx(math.sqrt(8 / 3)))


def test_two_values_have_a_standard_deviation():
    assert mean_and_sd([1, 3]) == (2, pytest.approx(math.sqrt(2)))


def exact_cv_range(cv, n, level):
    """Exact range: √n/K is a noncentral t of noncentrality √n/κ."""
    nct = pytest.importorskip("scipy.stats").nct
    optimize = pytest.importorskip("scipy.optimize")
    t = math.sqrt(n) / cv

    def end(p):
        def miss(kappa):
            return nct.cdf(t, n - 1, math.sqrt(n) / kappa) - p

        return optimize.brentq(miss, cv / 5, cv * 8, xtol=1e-12)

    return end((1 - level) / 2), end((1 + level) / 2)


@pytest.mark.parametrize(
    ("cv", "n"), [(0.08, 6), (0.08, 12), (0.05, 4), (3.65 / 24.5, 40), (0.02, 24)]
)
@pytest.mark.parametrize("level", [0.8, 0.95])
def test_range_of_cv_is_close_to_the_exact_one(cv, n, level):
    """Vangel's is an approximation: to 0.02 percentage points in cases like these."""
    assert cv_range(cv, n=n, level=level) == pytest.approx(exact_cv_range(cv, n, level), abs=2e-4)


def test_range_of_cv_tends_to_that_of_a_standard_deviation():
    """For a tiny cv only u/(n − 1) is left: χ² 0.975 and 0.025 of 10 dof are 20.483 and 3.247.

    NIST/SEMATECH e-Handbook, 1.3.6.7.4, critical values of chi-square, 3 decimals.
    """
    low, high = cv_range(1e-6, n=11)
    assert low == pytest.approx(1e-6 * math.sqrt(10 / 20.483), rel=5e-5)
    assert high == pytest.approx(1e-6 * math.sqrt(10 / 3.247), rel=2e-4)


@given(st.floats(1e-4, 0.3), st.integers(2, 60), st.floats(0.1, 0.99))
def test_range_of_cv_encloses_it_and_widens_with_the_level(cv, n, level):
    low, high = cv_range(cv, n=n, level=level)
    lower, higher = cv_range(cv, n=n, level=(1 + level) / 2)
    assert lower < low < cv * 1.001 * math.sqrt((n - 1) / (n - 1.7))
    assert low < high <= higher


def test_a_large_cv_of_few_values_has_no_upper_limit():
    assert cv_range(1.5, n=3)[1] == math.inf
    assert cv_range(0.0, n=3) == (0.0, 0.0)


@pytest.mark.parametrize(
    ("call", "field"),
    [
        (partial(one_way, [[1.0, 2.0]]), "groups"),
        (partial(one_way, [[1.0, 2.0], []]), "groups"),
        (partial(one_way, [[1.0], [2.0]]), "groups"),
        (partial(one_way, [[1.0, 1.0], [1.0, 1.0]]), "groups"),
        (partial(one_way, [[1.0, math.nan], [1.0, 2.0]]), "groups"),
        (partial(f_survival, math.nan, dof1=1, dof2=1), "x"),
        (partial(f_survival, 1.0, dof1=0, dof2=1), "dof1"),
        (partial(f_survival, 1.0, dof1=1, dof2=0), "dof2"),
        (partial(mean_and_sd, [1.0]), "values"),
        (partial(mean_and_sd, [1.0, math.inf]), "values"),
        (partial(cv_range, -0.1, n=5), "cv"),
        (partial(cv_range, math.nan, n=5), "cv"),
        (partial(cv_range, 0.1, n=1), "n"),
        (partial(cv_range, 0.1, n=5, level=95), "level"),
    ],
)
def test_what_cannot_be_is_refused_by_name(call, field):
    with pytest.raises(MeasurementError) as refused:
        call()
    assert refused.value.field == field
