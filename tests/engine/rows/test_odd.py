"""Odd rows: published outliers are found, and chance is mistaken for one in twenty drills."""

import random
from math import sqrt
from statistics import NormalDist, mean, stdev

import pytest
from hypothesis import given
from hypothesis import strategies as st

from evenstand.engine.rows.catch import row_catch
from evenstand.engine.rows.odd import (
    Spread,
    beyond_known,
    beyond_sample,
    odd_rows,
    sample_spread,
    smallest_found,
    usual_spread,
)
from evenstand.engine.rows.scatter import RowScatter, scatter

NATURAL, NOISE, ROWS, RUNS = 0.04, 0.02, 24, 1000
SD = sqrt(NATURAL * NATURAL + NOISE * NOISE)
GRUBBS = (199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57)


def quiet(noise=1e-6):
    """A catch with next to no noise, so that the rows' own scatter decides."""
    return RowScatter(
        cv=0.1,
        repeat_cv=noise,
        dof=float("inf"),
        row_cv=0.1,
        catches=1,
        test="chi-square",
        statistic=1.0,
        p=0.0,
    )


def by_row(values):
    return dict(enumerate(values, 1))


def test_published_outlier_of_grubbs():
    """NIST/SEMATECH e-Handbook, 1.3.5.17.1: G = 2.4687 against 2.032 one-sided, row 8."""
    assert beyond_sample(by_row(GRUBBS), quiet()).keys() == {8}


@pytest.mark.parametrize(("critical", "odd"), [(2.1266 * 1.001, True), (2.1266 * 0.999, False)])
def test_published_limit_of_grubbs(critical, odd):
    """Two-sided 5% point of 8 values, 2.1266: e-Handbook 1.3.5.17.1, t by its formula.

    The eighth value is moved until G, reckoned here by itself, has the wanted size.
    """
    low, high = 0.0, 100.0
    for _ in range(60):
        middle = (low + high) / 2
        values = (*GRUBBS[:7], 202.18 + middle)
        low, high = (
            (middle, high)
            if (values[7] - mean(values)) / stdev(values) < critical
            else (low, middle)
        )
    assert (8 in beyond_sample(by_row(values), quiet())) is odd


def test_published_outliers_of_rosner(nist):
    """Rosner (1983): 3 of 54, though the first two by themselves pass; e-Handbook 1.3.5.17.3."""
    values = [value for (value,) in nist("Rosner.dat", 22, 75)]
    assert len(values) == 54
    found = beyond_sample(by_row(values), quiet())
    assert sorted(values[row - 1] for row in found) == [5.34, 5.42, 6.01]


def test_no_row_of_eight_can_be_three_deviations_off():
    """(n − 1) ÷ √n: one value however wild among 8 is at 2.475 of their deviation, yet is found."""
    values = (*GRUBBS[:7], 1e6)
    assert (values[7] - mean(values)) / stdev(values) == pytest.approx(7 / sqrt(8), rel=1e-6)
    assert 8 in beyond_sample(by_row(values), quiet())


def test_the_noise_of_the_catch_excuses_a_row():
    values = (-0.001, 0.001, 0.0, 0.002, -0.002, 0.001, -0.001, 0.05)
    assert 8 in beyond_sample(by_row(values), quiet(0.01))
    assert beyond_sample(by_row(values), quiet(0.02)) == {}


def test_rows_all_alike_have_none_odd():
    assert beyond_sample(by_row([0.0] * 8), quiet()) == {}


def test_known_spread_by_hand():
    # Six rows, the last 30 % low: mean −5 %, so 25 % from it; sd 6 %: 25 ÷ (6 √(5/6)) = 4.564.
    # 6 × 2 Φ(−4.564) = 3.0e-5; without it the others lie on their mean.
    p = beyond_known(by_row([0, 0, 0, 0, 0, -0.3]), Spread(sd=0.06))
    assert p == pytest.approx({6: 12 * NormalDist().cdf(-0.25 / (0.06 * sqrt(5 / 6)))})


def test_a_known_spread_with_few_degrees_of_freedom_finds_less():
    offs = by_row([0, 0, 0, 0, 0, -0.2])
    assert beyond_known(offs, Spread(sd=0.05)).keys() == {6}
    assert beyond_known(offs, Spread(sd=0.05, dof=3.0)) == {}


def test_usual_spread_by_hand():
    # 3-4-5: rows 4 %, noise 3 %. Only the noise was measured, 6 degrees of freedom:
    # they grow by (25 ÷ 9)².
    seen = scatter([[0.92, 1.0, 1.08], [0.88, 1.0, 1.12]], repeat_cv=0.5, reading=0.03 * sqrt(2))
    spread = usual_spread(0.04, seen)
    assert spread.sd == pytest.approx(0.05)
    assert spread.dof == pytest.approx(2 * (25 / 9) ** 2)


def drills(shift, seed):
    """Catches of 24 rows of which row 9 is off, the others alike but for their nature and noise."""
    draw = random.Random(seed)
    for _ in range(RUNS):
        rows = [1 + draw.gauss(0, NATURAL) + draw.gauss(0, NOISE) for _ in range(ROWS)]
        rows[8] += shift
        yield row_catch([rows])


def power(shift, *, known):
    """Parts of the drills in which row 9, and in which any row, is found."""
    hit = told = 0
    for catch in drills(shift, seed=4):
        seen = scatter(catch.relative, repeat_cv=NOISE, reading=0.0)
        usual = usual_spread(NATURAL, seen) if known else None
        found = {odd.row for odd in odd_rows(catch, seen, usual)}
        hit, told = hit + (9 in found), told + bool(found)
    return hit / RUNS, told / RUNS


@pytest.mark.simulated
@pytest.mark.parametrize("shift", [-0.10, -0.15])
def test_power_with_a_known_spread(shift):
    """z = shift √(1 − 1/24) ÷ 4.47% against the Bonferroni point 3.078: .19 and .58."""
    normal = NormalDist()
    z = -shift * sqrt(1 - 1 / ROWS) / SD
    expected = normal.cdf(z - normal.inv_cdf(1 - 0.025 / ROWS))
    assert power(shift, known=True)[0] == pytest.approx(expected, abs=0.05)


@pytest.mark.simulated
@pytest.mark.parametrize(("shift", "expected"), [(-0.10, 0.13), (-0.15, 0.45), (-0.25, 0.99)])
def test_power_against_the_other_rows(shift, expected):
    """Expected: generalized ESD by another program, simulated as here; no publication."""
    assert power(shift, known=False)[0] == pytest.approx(expected, abs=0.05)


@pytest.mark.simulated
@pytest.mark.parametrize("known", [True, False])
def test_false_alarms_of_a_sound_drill(known):
    """Held at 5%; 4 standard errors of 1,000 drills, and the 1% that ESD lets slip."""
    assert power(0.0, known=known)[1] == pytest.approx(0.05, abs=0.037)


def test_a_row_a_quarter_low_is_always_found():
    assert power(-0.25, known=True)[0] > 0.99


def test_what_would_be_found_by_hand():
    # Normal points of 0.05 ÷ 48 and 0.1: 3.078 and 1.282; 4.360 × 5 % ÷ √(23/24) = 22.27 %.
    assert smallest_found(Spread(sd=0.05), 24) == pytest.approx(0.2227, abs=5e-5)


@pytest.mark.simulated
def test_what_is_said_to_be_found_9_times_in_10_is():
    shift = smallest_found(Spread(sd=SD), ROWS)
    assert power(-shift, known=True)[0] == pytest.approx(0.9, abs=0.04)


def test_sample_spread_leaves_out_what_was_found():
    # −2, 0, +2 %: sd 2 % on 2 degrees of freedom.
    spread = sample_spread({1: -0.02, 2: 0.0, 3: 0.02, 4: -0.5}, [4], quiet())
    assert (spread.sd, spread.dof) == (pytest.approx(0.02), 2.0)
    assert sample_spread({1: 0.0, 2: 0.0, 3: 0.0}, [], quiet(0.02)).sd == 0.02


def test_a_plugged_row_by_hand():
    # Others −2, 0, +2 % about their mean: sd 2 %. Row 4 has nothing: 100 ÷ 2 = 50 deviations.
    catch = row_catch([[0.098, 0.1, 0.102, 0.0]])
    (odd,) = odd_rows(catch, quiet(), None)
    assert (odd.row, odd.off, odd.plugged) == (4, -1, True)
    assert odd.z == pytest.approx(50)
    # t = 50 ÷ √(1 + 1/3) = 43.3 on 2: tails 2 × (1 − t/√(2 + t²)) ÷ 2, times 4 rows.
    t = 50 / sqrt(4 / 3)
    assert odd.p == pytest.approx(4 * (1 - t / sqrt(2 + t * t)), rel=1e-6)


def test_a_plugged_row_is_held_against_rows_in_which_nothing_was_found():
    """Nine rows of −2 to +2%, one of them 20% high, and one with nothing: eight tell the sd."""
    steady = [0.098, 0.102] * 4
    catch = row_catch([[*steady, 0.12, 0.0]])
    high, plugged = odd_rows(catch, quiet(), None)
    assert (high.row, plugged.row) == (9, 10)
    # 0.002 ÷ mean of 0.92 ÷ 9 = 0.10222 is 1.9565 %, × √(8/7): sd 2.0916 %.
    assert plugged.z == pytest.approx(100 / 2.0916, rel=1e-4)
    t = 100 / 2.0916 / sqrt(1 + 1 / 8)
    scipy = pytest.importorskip("scipy.stats")
    assert plugged.p == pytest.approx(20 * scipy.t.sf(t, 7), rel=1e-3)


@given(st.permutations(range(8)))
def test_an_odd_row_is_found_wherever_it_stands(order):
    moved = [GRUBBS[i] for i in order]
    (odd,) = odd_rows(row_catch([moved]), quiet(), None)
    (still,) = odd_rows(row_catch([GRUBBS]), quiet(), None)
    assert order[odd.row - 1] == 7
    assert odd.p == pytest.approx(still.p, rel=1e-6)
