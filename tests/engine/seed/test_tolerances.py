"""Tolerances against every line of the published tables."""

from math import nan, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.seed.tolerances import (
    ONE_IN_TWENTY,
    count_tolerance,
    germination_tolerance,
    germination_tolerance_aosa,
    noxious_tolerance,
    purity_tolerance,
    purity_u,
)

exactly = {"abs": 1e-9}


def test_germination_table_whole(published):
    for row in published("tolerance_germination.csv"):
        lowest, inside = row["from"] / 100, (row["below"] - 0.01) / 100
        for mean in (lowest, min(inside, 1.0)):
            assert germination_tolerance(mean) == pytest.approx(row["tolerance"] / 100, **exactly)
            few = germination_tolerance(mean, seeds=200)
            assert few == pytest.approx((row["tolerance"] + 2) / 100, **exactly)


def test_germination_worked_by_the_rule():
    """201.59: tag 92, found 84: at their mean, 88, the tolerance is 7, and 8 is out."""
    assert germination_tolerance((0.92 + 0.84) / 2) == pytest.approx(0.07)


def test_aosa_table_whole(published):
    for row in published("tolerance_germination_louisiana.csv"):
        for average in (row["a_low"], row["a_high"], row["b_low"], row["b_high"]):
            found = germination_tolerance_aosa(average / 100)
            assert found == pytest.approx(row["tolerance"] / 100, **exactly), average
            few = germination_tolerance_aosa(average / 100, seeds=399)
            assert few == pytest.approx((row["tolerance"] + 2) / 100, **exactly)


def test_aosa_average_is_taken_to_the_nearest_whole():
    """94 has 4 points, 93 has 5."""
    assert germination_tolerance_aosa(0.9351) == pytest.approx(0.04)
    assert germination_tolerance_aosa(0.9349) == pytest.approx(0.05)


def test_purity_table_whole(published):
    for row in published("tolerance_purity.csv"):
        for end in ("a_low", "a_high", "b_low", "b_high"):
            for kind in ("nonchaffy", "chaffy"):
                found = purity_tolerance(row[end] / 100, chaffy=kind == "chaffy")
                assert found == pytest.approx(row[kind] / 100, **exactly), (row, end)


def test_purity_is_interpolated_between_classes():
    """99.945 lies halfway between 99.94 (0.20) and 99.95 (0.13): 0.165; 201.60 (b)."""
    assert purity_tolerance(0.99945, chaffy=False) == pytest.approx(0.00165)


@given(st.floats(0, 1), st.booleans())
def test_purity_tolerance_is_inside_its_table(mean, chaffy):
    assert 0.0013 <= purity_tolerance(mean, chaffy=chaffy) <= 0.0348 + 1e-12


def test_count_table_whole(published):
    for row in published("tolerance_counts.csv"):
        for name, points in row.items():
            if name.startswith("n"):
                for share in (row["percent"], row["complement"]):
                    found = count_tolerance(share / 100, seeds=int(name[1:]))
                    assert found == pytest.approx(points / 100, **exactly), (row, name)


def test_count_table_is_interpolated():
    """Halfway between 98 (3.3) and 96 (4.6) at 100 seeds: 3.95."""
    assert count_tolerance(0.97, seeds=100) == pytest.approx(0.0395)


@pytest.mark.parametrize("percent", [98, 90, 80, 70, 60, 50])
def test_count_table_is_passed_once_in_twenty(percent, published):
    """1.645 √(2pq/n) to within 0.2 point at 100 seeds: the odds the other tables borrow."""
    p = percent / 100
    chance = ONE_IN_TWENTY * sqrt(2 * p * (1 - p) / 100)
    assert count_tolerance(p, seeds=100) == pytest.approx(chance, abs=0.002)


def test_noxious_table_whole(published):
    rows = published("tolerance_noxious.csv")
    assert [row["labelled"] for row in rows] == list(range(101))
    for row in rows:
        assert noxious_tolerance(int(row["labelled"])) == row["allowed"]


def test_noxious_above_the_table():
    """101 + 1.65 × 10.0499 + 0.03 = 117.6; 106 + 16.988 + 0.03 = 123.018; 400 + 33 + 0.03."""
    assert noxious_tolerance(101) == 117
    assert noxious_tolerance(106) == 123
    assert noxious_tolerance(400) == 433


def test_noxious_table_is_the_stricter_one():
    """The formula gives 15 for 10, the table 14."""
    assert noxious_tolerance(10) == 14
    assert int(10 + 1.65 * sqrt(10) + 0.03) == 15


def test_purity_is_uncertain_by_its_tolerance():
    """0.82 ÷ (1.645 × 1.41421) = 0.35248 point."""
    assert purity_u(0.98) == pytest.approx(0.0035248, rel=1e-4)
    assert purity_u(0.98, chaffy=True) > purity_u(0.98)


@pytest.mark.parametrize(
    ("call", "field"),
    [
        (lambda: germination_tolerance(1.1), "mean"),
        (lambda: germination_tolerance(nan), "mean"),
        (lambda: germination_tolerance(0.9, seeds=199), "seeds"),
        (lambda: germination_tolerance_aosa(1.0), "mean"),
        (lambda: germination_tolerance_aosa(0.01), "mean"),
        (lambda: germination_tolerance_aosa(0.9, seeds=100), "seeds"),
        (lambda: purity_tolerance(-0.1, chaffy=False), "mean"),
        (lambda: count_tolerance(2, seeds=100), "share"),
        (lambda: count_tolerance(0.9, seeds=120), "seeds"),
        (lambda: noxious_tolerance(-1), "noxious"),
    ],
)
def test_refuses_and_names_the_field(call, field):
    with pytest.raises(MeasurementError) as refusal:
        call()
    assert refusal.value.field == field
