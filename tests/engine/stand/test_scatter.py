"""Scatter of counts: drilled wheat, forest seedlings, hand arithmetic, invariances."""

import csv
from math import inf
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

import labels
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.stand.scatter import in_words, scatter, squares

KALAMKAR = Path(__file__).parents[2] / "reference/agridat/kalamkar.wheat.uniformity.txt"


def half_metres():
    """Ears by (row, piece) of 80 rows × 16 half metres, Kalamkar (1932)."""
    with KALAMKAR.open(encoding="utf-8") as lines:
        return {
            (int(line["row"]), int(line["col"])): int(line["ears"])
            for line in csv.DictReader(lines, delimiter="\t")
        }


def test_half_metres_of_drilled_wheat_stand_in_clumps():
    """Mean 20.195, variance ÷ mean 3.33 (another program): k = 20.195 ÷ 2.33 = 8.67 by moments."""
    field = list(half_metres().values())
    found = scatter(field)
    assert sum(field) / len(field) == pytest.approx(20.195, abs=0.001)
    assert (found.ratio, found.k) == (pytest.approx(3.33, abs=5e-3), pytest.approx(8.67, abs=0.02))
    assert found.clumped
    assert labels.COUNTS_DIFFER_MORE(ratio="3.3") in str(in_words(found)[0])


def test_four_rows_side_by_side_scatter_less():
    """Kalamkar advised four parallel half metres: CV 22% where single ones have 40%."""
    field = half_metres()
    units = [
        sum(field[row + i, col] for i in range(4))
        for row in range(1, 81, 4)
        for col in range(1, 17)
    ]
    assert scatter(list(field.values())).cv == pytest.approx(0.40, abs=0.015)
    assert scatter(units).cv == pytest.approx(0.22, abs=0.015)


def test_by_hand():
    """0 4 1 3: mean 2, χ² = (4 + 4 + 1 + 1) ÷ 2 = 5 on 3 dof, p 0.1718 (table)."""
    found = scatter([0, 4, 1, 3])
    assert found.ratio == pytest.approx(5 / 3)
    assert found.p == pytest.approx(0.1718, abs=5e-5)
    # pairs 12 + 6 = 18 of 8 × 7 = 56, times 4 places
    assert found.morisita == pytest.approx(72 / 56)
    assert found.k == pytest.approx(4 / (10 / 3 - 2))
    assert found.cv == pytest.approx((10 / 3) ** 0.5 / 2)
    assert in_words(found) == ()


def test_even_stands_have_no_clumping():
    """Variance 0.75 × the mean, as of twelve counts of 3 ft: sd 4.712, mean 29.75."""
    found = scatter([31, 27, 35, 22, 29, 33, 26, 30, 38, 24, 28, 34])
    assert found.ratio == pytest.approx(0.75, abs=0.005)
    assert found.k == inf
    assert found.morisita < 1


def test_squares_by_hand():
    """2 on 1, 8 on 3: D = 2.5, gaps −0.5 and 0.5, times 2 ÷ 1."""
    assert squares([2, 8], [1.0, 3.0]) == pytest.approx(1.0)


@given(
    st.lists(st.tuples(st.integers(0, 40), st.floats(0.1, 5)), min_size=2, max_size=10).filter(
        lambda pairs: sum(count for count, _ in pairs) > 1
    ),
    st.floats(0.01, 100),
)
def test_the_unit_of_ground_does_not_matter(pairs, factor):
    counts, areas = [count for count, _ in pairs], [area for _, area in pairs]
    once, again = scatter(counts, areas=areas), scatter(counts, areas=[a * factor for a in areas])
    assert again.ratio == pytest.approx(once.ratio, abs=1e-9)
    assert again.morisita == pytest.approx(once.morisita)
    assert again.cv == pytest.approx(once.cv, abs=1e-9)


@pytest.mark.parametrize("counts", [[5], [0, 1], []])
def test_too_few_to_tell(counts):
    with pytest.raises(MeasurementError) as refused:
        scatter(counts)
    assert refused.value.field == "counts"
