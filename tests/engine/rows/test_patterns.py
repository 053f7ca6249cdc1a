"""Patterns: an eight-row drill known by its harvest, hand arithmetic, and other programs."""

import random
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

import labels
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.rows.contrasts import planned
from evenstand.engine.rows.patterns import patterns

WIEBE = Path(__file__).parents[2] / "reference/agridat/wiebe.wheat.uniformity.txt"


@pytest.fixture(scope="module")
def wiebe():
    """How far the mean of each of 125 rows is from all, rows from 1."""
    lengths = {}
    for line in WIEBE.read_text(encoding="utf-8").splitlines()[1:]:
        row, _, grain = line.split()
        lengths.setdefault(int(row), []).append(float(grain))
    means = {row: sum(grains) / len(grains) for row, grains in lengths.items()}
    mean = sum(means.values()) / len(means)
    return {row: value / mean - 1 for row, value in sorted(means.items())}


def look(offs, columns=None, **how):
    """Every pattern that was tested, by its name."""
    rows = max(offs)
    tested = patterns(offs, planned(rows, columns or {}), **how)
    return {str(pattern.name): pattern for pattern in tested}


def told(offs, columns=None, **how):
    """What is told of the rows, echoes left out."""
    return [each for each in look(offs, columns, **how).values() if each.told]


def by_row(values):
    return dict(enumerate(values, 1))


def noisy(rows, seed=2, sd=0.002):
    draw = random.Random(seed)
    return [draw.gauss(0, sd) for _ in range(rows)]


def test_the_eight_row_drill_shows_in_the_harvest(wiebe):
    """Wiebe (1935), J. Agric. Research 50, 331–357: rows sown by an eight-row drill.

    Units against passes of the drill in the 15 whole passes: F = 37.8.
    """
    tested = look(wiebe)
    eight = tested["every 8 rows"]
    assert eight.statistic == pytest.approx(37.8, abs=0.05)
    assert eight.dof == (7, 98)  # (8 − 1) units, (8 − 1)(15 − 1) left
    assert eight.p < 1e-10
    assert eight.told
    assert [each.period for each in tested.values() if each.told and each.period] == [8]


def test_the_drill_units_by_another_route(wiebe):
    """Least squares on indicator columns, with some rows left out so that nothing is balanced."""
    np = pytest.importorskip("numpy")
    odd = {3, 4, 50, 77, 78, 79}
    kept = [row for row in wiebe if row <= 120 and row not in odd]
    y = np.array([wiebe[row] for row in kept])
    place, block = [
        np.array([f(row - 1) for row in kept]) for f in (lambda i: i % 8, lambda i: i // 8)
    ]
    passes = (block[:, None] == np.arange(15)).astype(float)
    units = np.hstack([passes, (place[:, None] == np.arange(1, 8)).astype(float)])
    left = [((y - x @ np.linalg.lstsq(x, y, rcond=None)[0]) ** 2).sum() for x in (passes, units)]
    expected = (left[0] - left[1]) / 7 / (left[1] / (len(kept) - 22))
    eight = look(wiebe, odd=odd)["every 8 rows"]
    assert eight.dof == (7, len(kept) - 22)
    assert eight.statistic == pytest.approx(expected, rel=1e-9)


def test_halves_and_ends_by_hand():
    # Left −3, −2, −1 %, right +1, +2, +3 %: means −2 and +2 %, squares 6 × 4 = 24 between and
    # 4 × 1 = 4 left on 4: F = 24 on (1, 4). Outermost −3 and +3 %: mean 0, the others' too.
    tested = look(by_row([-0.03, -0.02, -0.01, 0.01, 0.02, 0.03]))
    halves = tested["left and right half"]
    assert (halves.statistic, halves.dof) == (pytest.approx(24), (1, 4))
    assert halves.off == pytest.approx(-0.04)
    assert (str(halves.group), halves.rows) == (labels.LEFT_HALF, (1, 2, 3))
    assert tested[labels.OUTERMOST_ROWS].off == pytest.approx(0, abs=1e-15)


def test_trend_by_hand():
    # Rows 1 to 5 at 0, 1, 2, 3, 4 % but for ±0.5 %: slope 10 % ÷ 10 = 1 % a row, squares of it
    # 10; left over 4 × 0.25 = 1 on 3: F = 30.
    trend = look(by_row([0.005, 0.005, 0.02, 0.035, 0.035]))["slope across the drill"]
    # Products about the middle: −2·(−.015) − 1·(−.015) + 1·.015 + 2·.015 = .09; slope .009;
    # .009² × 10 = 8.1e-4 of 9e-4 in all leaves 0.9e-4 on 3: F = 27.
    assert (trend.statistic, trend.dof) == (pytest.approx(27), (1, 3))
    assert trend.off == pytest.approx(0.036)
    assert trend.rows == ()


def test_the_middle_row_of_an_odd_number_is_in_no_half():
    (halves,) = [each for each in planned(7, {}) if each.shape == "halves"]
    assert set(halves.labels) == {1, 2, 3, 5, 6, 7}


def test_three_rows_are_enough_for_a_test():
    # −3, +3, 0 %: outermost −1.5 on the mean, the middle +3: squares 2 × 1.5² + 3² = 13.5 between,
    # 2 × 1.5² = 4.5 left on 1.
    tested = look(by_row([-0.03, 0.03, 0.0]))
    ends = tested["outermost rows"]
    assert (ends.statistic, ends.dof) == (pytest.approx(13.5 / 4.5), (1, 1))
    assert ends.off == pytest.approx(-0.045)
    assert tested[labels.SLOPE_ACROSS_DRILL].dof == (1, 1)


def test_a_last_group_that_is_not_whole_is_left_out():
    (three,) = [each for each in planned(8, {}) if each.period == 3]
    assert dict(three.labels) == {1: "1, 4", 2: "2, 5", 3: "3, 6", 4: "1, 4", 5: "2, 5", 6: "3, 6"}
    assert [three.block(row) for row in three.labels] == [0, 0, 0, 1, 1, 1]


def test_what_is_planned_for_24_rows():
    periods = [each.period for each in planned(24, {}) if each.period]
    assert periods == list(range(2, 13))


@given(st.integers(4, 12), st.data(), st.sampled_from([-1, 1]))
def test_every_kth_row_is_found(k, data, way):
    """One place in k is 12% off: the period is named, its multiples and divisors are not."""
    place = data.draw(st.integers(1, k))
    values = noisy(24, seed=k)
    offs = {row: v + way * 0.12 * ((row - place) % k == 0) for row, v in by_row(values).items()}
    (pattern,) = [each for each in told(offs) if each.period]
    assert pattern.period == k
    assert pattern.rows == tuple(range(place, 24 - 24 % k + 1, k))
    assert pattern.off == pytest.approx(way * 0.12, abs=0.01)


@pytest.mark.parametrize(
    ("k", "name"), [(2, labels.TWO_RANKS_EVERY), (3, labels.THREE_RANKS_EVERY)]
)
def test_ranks(k, name):
    offs = {row: v - 0.05 * (row % k == 1) for row, v in by_row(noisy(12)).items()}
    (pattern,) = [each for each in told(offs) if each.period]
    assert str(pattern.name).startswith(name)
    assert pattern.off == pytest.approx(-0.05, abs=0.005)


def test_a_slope_is_no_period():
    """Among neighbours a slope looks like a period of any length; across the drill not."""
    offs = {row: v + 0.01 * row for row, v in by_row(noisy(24)).items()}
    assert [each.shape for each in told(offs)] == ["trend"]


def test_ranks_are_seen_on_a_slope():
    offs = {row: v + 0.01 * row - 0.05 * (row % 2) for row, v in by_row(noisy(24)).items()}
    assert sorted(each.period for each in told(offs)) == [0, 2]


def test_one_odd_row_makes_no_pattern():
    values = noisy(24)
    values[0] = -0.2
    assert look(by_row(values))[labels.OUTERMOST_ROWS].statistic > 10
    assert look(by_row(values), odd=[1])[labels.OUTERMOST_ROWS].statistic < 4


def test_rows_that_are_a_whole_group_are_kept():
    """Both outermost rows are odd: leaving them out would hide what they share."""
    values = noisy(8)
    values[0] = values[7] = -0.2
    assert look(by_row(values), odd=[1, 8])[labels.OUTERMOST_ROWS].found


def test_a_group_that_is_plugged_altogether_is_not_tested():
    offs = {row: v for row, v in by_row(noisy(8)).items() if row not in (1, 8)}
    tested = [each.shape for each in patterns(offs, planned(8, {}))]
    assert "ends" not in tested
    assert "halves" in tested


def test_a_column_by_scipy():
    stats = pytest.importorskip("scipy.stats")
    values = [0.01, 0.02, -0.01, 0.05, 0.04, 0.07, -0.02, 0.0, -0.03]
    boxes = ["a", "a", "a", "b", "b", "b", "c", "c", "c"]
    column = look(by_row(values), {"box": boxes})["box"]
    peer = stats.f_oneway(values[:3], values[3:6], values[6:])
    assert column.statistic == pytest.approx(peer.statistic)
    assert (str(column.group), column.rows, column.dof) == ("b", (4, 5, 6), (2, 6))


def test_a_column_takes_the_place_of_the_same_groups():
    ranks = ["front", "rear"] * 4
    names = [str(each.name) for each in planned(8, {"rank": ranks})]
    assert names[0] == "rank"
    assert "two ranks, every other row" not in names
    assert labels.LEFT_RIGHT_HALF in names


@pytest.mark.parametrize("labels", [["a"] * 8, list("abcdefgh")])
def test_a_column_that_tells_nothing_is_not_tested(labels):
    assert "box" not in look(by_row(noisy(8)), {"box": labels})


def test_labels_are_never_read_as_templates():
    offs = by_row([-0.02, -0.01, 0.01, 0.02])
    column = look(offs, {"{box}": ["{a}", "{a}", "b", "b"]})["{box}"]
    assert str(column.group) == "{a}"


def test_p_is_adjusted_by_holm():
    contrasts = [each for each in planned(8, {}) if not each.period]
    tested = patterns(by_row(noisy(8)), contrasts)
    stats = pytest.importorskip("scipy.stats")
    multiple = pytest.importorskip("statsmodels.stats.multitest")
    raw = [stats.f.sf(each.statistic, *each.dof) for each in tested]
    adjusted = multiple.multipletests(raw, method="holm")[1]
    assert [each.p for each in tested] == pytest.approx(list(adjusted))


def test_rows_alike_show_nothing():
    assert all(each.p == 1 for each in look(by_row([0.0] * 12)).values())


def test_one_step_of_the_scale_makes_no_pattern():
    """Readings 10, 10, 9, 9 g that repeat: all of it may be rounding."""
    values = [0.05, 0.05, -0.05, -0.05] * 2
    assert look(by_row(values))[labels.EVERY_ROWS(k=4)].found
    assert not look(by_row(values), floor=0.05 * 0.05)[labels.EVERY_ROWS(k=4)].found


@pytest.mark.simulated
def test_a_sound_drill_seldom_shows_a_pattern():
    """5% for all patterns together; 400 drills, 4 standard errors."""
    draw, alarms = random.Random(9), 0
    for _ in range(400):
        alarms += bool(told(by_row([draw.gauss(0, 0.04) for _ in range(20)])))
    assert alarms / 400 == pytest.approx(0.05, abs=0.044)


@given(st.lists(st.floats(-0.1, 0.1), min_size=8, max_size=8, unique=True))
def test_turning_the_drill_round_changes_no_p(values):
    """Counted from the other side, halves, ends and slope are as sure as before."""
    there, back = look(by_row(values)), look(by_row(values[::-1]))
    for name in ("left and right half", "outermost rows", "slope across the drill"):
        assert back[name].statistic == pytest.approx(there[name].statistic, rel=1e-6, abs=1e-9)


@pytest.mark.parametrize("marks", [["front"] * 7, [], ["front"] * 9])
def test_refuses_a_column_of_another_length(marks):
    with pytest.raises(MeasurementError, match=labels.GIVE_ONE_LABEL.like(rows=8)) as refusal:
        planned(8, {"rank": marks})
    assert refusal.value.field == "columns"


def test_a_period_that_only_parts_a_column_further_is_not_told_beside_it():
    rows = [-0.05, 0.05] * 6
    offs = by_row(value + part for value, part in zip(rows, noisy(12), strict=True))
    ranks = {"rank": ["front", "rear"] * 6}
    assert {each.shape for each in told(offs, ranks)} == {"column"}
    # Every fourth row 6 % off on top of it is news.
    for row in (4, 8, 12):
        offs[row] += 0.06
    assert {each.period for each in told(offs, ranks)} == {0, 4}
