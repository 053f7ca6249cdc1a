"""Evenness as a whole: published ranges, hand arithmetic, what changes nothing, refusals."""

from math import inf, nan, sqrt
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

import labels
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import GRAM
from evenstand.engine.rows.evenness import evenness, sampling

WIEBE = Path(__file__).parents[2] / "reference/agridat/wiebe.wheat.uniformity.txt"
GRAMS = (101.0, 98.0, 103.0, 99.0, 100.0, 102.0, 80.0, 97.0)


def judge(grams=GRAMS, **how):
    return evenness([[g * GRAM for g in grams]], **how)


def test_mean_by_hand():
    # 780 g ÷ 8 rows = 97.5 g. Noise 2 % and a 1 g step, 1 ÷ √6 = 0.408 g, in quadrature:
    # √(1.95² + 0.408²) = 1.992 g, over √8 rows 0.704 g; ± 1.96 of it.
    even = judge(resolution=GRAM)
    assert even.mean.value / GRAM == pytest.approx(97.5)
    assert even.mean.u / GRAM == pytest.approx(0.7044, abs=1e-4)
    assert even.mean.high / GRAM == pytest.approx(97.5 + 1.96 * 0.7044, abs=1e-3)


@pytest.mark.parametrize(
    ("rows", "sd", "expected"),
    [(6, 8, (4.98, 19.82)), (12, 8, (5.66, 13.65)), (4, 5, (2.83, 18.79))],
)
def test_range_of_the_cv(rows, sd, expected):
    """Vangel's interval, mean 100; within 0.02 of the exact noncentral t, by another program."""
    step = sd * sqrt((rows - 1) / rows)  # half the rows above, half below: that gives this sd
    even = judge([100 + step, 100 - step] * (rows // 2))
    assert even.cv.value == pytest.approx(sd / 100)
    assert (100 * even.cv.low, 100 * even.cv.high) == pytest.approx(expected, abs=0.005)


def test_uncertainty_of_the_cv_by_hand():
    # 8 % of 12 rows: 8 √(1 ÷ 22 + 0.08² ÷ 12) = 1.7156 %.
    step = 8 * sqrt(11 / 12)
    even = judge([100 + step, 100 - step] * 6)
    assert (even.cv.u, even.cv.dof) == (pytest.approx(0.017156, abs=1e-6), 11)


def test_the_step_of_the_scale_by_hand():
    # Rows of 10 and 9 g in turn, 4 catches alike on a 1 g scale: all that is left is the step,
    # 1 ÷ √6 g over √4. Ranks: 8 × 0.5² g² ÷ (1/6 ÷ 4 g²) = 48.
    even = evenness([[10 * GRAM, 9 * GRAM] * 4] * 4, resolution=GRAM)
    (ranks,) = [each for each in even.tested if each.period == 2]
    assert ranks.statistic == pytest.approx(48)


def test_a_row_by_hand():
    # Row 7: 80 ÷ 97.5 = 0.8205, −17.9 %; noise of one catch 2 %, ± 3.92 %.
    even = judge()
    row = even.rows[6]
    assert (row.row, row.weight / GRAM) == (7, pytest.approx(80))
    assert row.off == pytest.approx(-0.17949, abs=1e-5)
    assert (row.low, row.high) == pytest.approx((row.off - 0.0392, row.off + 0.0392), abs=1e-5)
    # Deviations 3.5, 0.5, 5.5, 1.5, 2.5, 4.5, −17.5, −0.5 g: squares add to 378; variance 54 g²,
    # 0.0056805 of the mean's square; noise 0.0004. Kept: 1 − 0.0004 ÷ 0.0056805.
    assert row.shrunk / row.off == pytest.approx(0.92958, abs=1e-5)
    assert [odd.row for odd in even.odd_rows] == [7]


def test_the_drill_of_eight_rows_by_its_passes():
    """Wiebe (1935): the 15 whole passes as catches of the eight rows; F = 37.8 unscaled.

    Each pass ÷ its own mean, as here, makes F 38.0; the units differ by 5.9%.
    """
    grain = {}
    for line in WIEBE.read_text(encoding="utf-8").splitlines()[1:]:
        row, _, grams = line.split()
        grain.setdefault(int(row), []).append(float(grams) * GRAM)
    means = [sum(grain[row]) / 12 for row in range(1, 121)]
    even = evenness([means[i : i + 8] for i in range(0, 120, 8)])
    assert even.scatter.statistic == pytest.approx(37.8, abs=0.3)
    assert even.scatter.dof == 98
    assert even.cv.value == pytest.approx(0.059, abs=5e-4)
    spread = max(row.off for row in even.rows) - min(row.off for row in even.rows)
    assert spread == pytest.approx(0.16, abs=0.005)


def test_published_outlier_through_the_whole():
    """NIST/SEMATECH e-Handbook, 1.3.5.17.1: the eighth value is the outlier."""
    even = judge((199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57))
    assert [odd.row for odd in even.odd_rows] == [8]
    assert even.odd_rows[0].p < 0.05


def test_a_plugged_row_leaves_the_others_as_they_are():
    alone = judge(GRAMS[:3] + GRAMS[4:])
    even = judge((*GRAMS[:3], 0.0, *GRAMS[4:]))
    assert (even.mean, even.cv) == (alone.mean, alone.cv)
    assert {odd.row: odd.plugged for odd in even.odd_rows} == {4: True, 7: False}
    assert even.rows[3].shrunk == even.rows[3].off == -1


def test_the_limit_stands_apart_from_the_test():
    even = judge(limit=0.05)
    assert [row.row for row in even.outside_limit] == [3, 7]
    assert [odd.row for odd in even.odd_rows] == [7]
    assert even.crossing.by_chance == pytest.approx(0.2, abs=0.06)
    assert judge().outside_limit == ()


def test_the_tolerance_is_held_against_rows_without_noise():
    # Row 3 is 5.64 % high as weighed, 5.24 % with 7 % of it taken for noise.
    assert [row.row for row in judge(tolerance=0.054).off_tolerance] == [7]
    assert [row.row for row in judge(tolerance=0.050).off_tolerance] == [3, 7]
    assert judge().off_tolerance == ()


def test_one_catch_says_what_it_assumes():
    assert [str(line) for line in judge().assumed] == [labels.ROW_CATCH_ALONE(noise="2%")]
    assert evenness([[0.1, 0.11, 0.1], [0.11, 0.11, 0.1]]).assumed == ()


def test_the_working_can_be_done_again():
    metric = Style(system="metric")
    lines = [(str(w.say), w.sum(metric), metric.amount(w.value)) for w in judge().working]
    assert lines[0][1:] == ("780 g ÷ 8 rows", "97.5 g")
    assert lines[1][1:] == ("7.348 g ÷ 97.5 g × 100", "7.54%")  # √54 g
    assert lines[2] == (labels.ROW_PARTS_MEAN(row=7), "80 g ÷ 97.5 g × 100", "82.1%")
    # Others: 98, 99 … about their mean of 100 g, which is 2.56 % above 97.5 g: sd 2.22 %.
    assert lines[3][1:] == ("17.9% ÷ 2.22%", "8.1")
    plugged = judge((0.0, *GRAMS)).working[0]
    assert plugged.sum(metric) == "780 g ÷ 8 rows"
    twice = evenness([[0.1, 0.11, 0.12], [0.2, 0.22, 0.24]]).working[0]
    assert twice.sum(metric) == "990 g ÷ 3 rows ÷ 2 catches"
    assert all(line.source for line in judge().working)


@given(st.floats(1e-3, 1e3))
def test_the_unit_of_weight_changes_nothing(size):
    even, same = judge(resolution=GRAM), judge([g * size for g in GRAMS], resolution=GRAM * size)
    assert same.cv.value == pytest.approx(even.cv.value)
    assert same.scatter.p == pytest.approx(even.scatter.p)
    assert [odd.row for odd in same.odd_rows] == [7]
    assert same.odd_rows[0].p == pytest.approx(even.odd_rows[0].p)
    assert [p.p for p in same.tested] == pytest.approx([p.p for p in even.tested])


@given(st.permutations(GRAMS))
def test_where_the_rows_stand_does_not_change_how_uneven_they_are(grams):
    even = judge(grams)
    assert even.cv.value == pytest.approx(judge().cv.value)
    assert [grams[odd.row - 1] for odd in even.odd_rows] == [80.0]


def test_rows_all_alike():
    even = judge([100.0] * 8)
    assert (even.cv.value, even.cv.low, even.cv.high) == (0, 0, 0)
    assert even.findings == ()


@pytest.mark.parametrize(
    ("changed", "field"),
    [
        ({"resolution": -1.0}, "resolution"),
        ({"resolution": nan}, "resolution"),
        ({"resolution": inf}, "resolution"),
        ({"repeat_cv": 0.0}, "repeat_cv"),
        ({"repeat_cv": nan}, "repeat_cv"),
        ({"row_cv": -0.1}, "row_cv"),
        ({"row_cv": nan}, "row_cv"),
        ({"limit": 0.0}, "limit"),
        ({"limit": 1.0}, "limit"),
        ({"limit": nan}, "limit"),
        ({"tolerance": 0.0}, "tolerance"),
        ({"tolerance": 1.5}, "tolerance"),
        ({"columns": {"rank": ["front"]}}, "columns"),
    ],
)
def test_refuses_and_names_the_field(changed, field):
    with pytest.raises(MeasurementError) as refusal:
        judge(**changed)
    assert refusal.value.field == field
    assert str(refusal.value).startswith(f"{field} is ")


def test_refuses_weights_that_cannot_be_compared():
    with pytest.raises(MeasurementError) as refusal:
        judge([100.0, 99.0])
    assert refusal.value.field == "weights"


# Sampling some of the rows.


@pytest.mark.parametrize(
    ("caught", "percent"), [(1, 3.9), (2, 2.7), (4, 1.8), (6, 1.4), (12, 0.8), (24, 0.0)]
)
def test_some_of_24_rows_by_hand(caught, percent):
    """4% √((1 − r/24) ÷ r); 12 rows: 4 √(0.5/12) = 0.816."""
    assert 100 * sampling(24, caught, cv=0.04) == pytest.approx(percent, abs=0.05)


def test_a_single_row_stands_for_itself():
    assert sampling(1, 1, cv=0.04) == 0


def test_sampling_is_what_choosing_rows_makes():
    """Every choice of 2 of 4 rows, its mean against the mean of all: exact, not simulated."""
    rows = (0.9, 1.0, 1.05, 1.05)
    mean = sum(rows) / 4
    cv = sqrt(sum((r - mean) ** 2 for r in rows) / 3) / mean
    pairs = [(a + b) / 2 for i, a in enumerate(rows) for b in rows[i + 1 :]]
    spread = sqrt(sum((pair / mean - 1) ** 2 for pair in pairs) / 6)
    assert sampling(4, 2, cv=cv) == pytest.approx(spread)


@pytest.mark.parametrize(
    ("changed", "field"),
    [
        ({"rows": 0}, "rows"),
        ({"rows_caught": 0}, "rows_caught"),
        ({"rows_caught": 25}, "rows_caught"),
        ({"cv": -0.01}, "cv"),
        ({"cv": nan}, "cv"),
    ],
)
def test_sampling_refuses_and_names_the_field(changed, field):
    with pytest.raises(MeasurementError) as refusal:
        sampling(**{"rows": 24, "rows_caught": 1, "cv": 0.04} | changed)
    assert refusal.value.field == field


@pytest.mark.parametrize("numbers", [(1, 3, 6, 8, 11, 14, 17, 20), (2, 3, 4), (7, 19, 24, 5)])
def test_some_rows_of_a_drill_are_judged_under_their_numbers(numbers):
    even = evenness([[100.0] * (len(numbers) - 1) + [90.0]], numbers=numbers, of=24)
    assert [row.row for row in even.rows] == list(numbers)
    assert {row for found in even.tested for row in found.rows} <= set(range(1, 25))
