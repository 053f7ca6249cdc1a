"""Tables of counts: published examples, hand arithmetic, and what must not change."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

import labels
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.statistics.composition import fit
from evenstand.engine.statistics.count_tables import (
    contingency,
    linear_trend,
    shares_spread,
    solve,
    uncertain_fit,
)

some_counts = st.lists(st.integers(6, 400), min_size=2, max_size=6)


def no_spread(n):
    return [[0.0] * n for _ in range(n)]


def test_homogeneity_of_a_published_table(published):
    """Printed 19.39 from six rounded terms, whose own roundings reach 0.08; exact 19.318."""
    rows = published("homogeneity.csv")
    found = contingency([[int(row[kind]) for kind in "abc"] for row in rows])
    by_hand = 25 / 3 + 40 / 33 + 10 / 3 + (25 / 3 + 40 / 33 + 10 / 3) / 2
    assert found.statistic == pytest.approx(by_hand)
    assert found.statistic == pytest.approx(19.39, abs=0.08)
    assert found.dof == 2


def test_trend_of_a_published_table(published):
    """12.1 and 6.57 as Agresti is remembered to print them; M² = z² (n − 1) ÷ n."""
    rows = published("trend_in_shares.csv")
    present = [int(row["present"]) for row in rows]
    totals = [int(row["present"] + row["absent"]) for row in rows]
    trend = linear_trend(present, totals, at=[row["score"] for row in rows])
    n = sum(totals)
    assert trend.z * trend.z * (n - 1) / n == pytest.approx(6.57, abs=0.005)
    # The table has expected counts below 5, which are here kept apart to agree with the printed.
    table = [[int(row["absent"]), int(row["present"])] for row in rows]
    assert contingency(table, least=0.0).statistic == pytest.approx(12.1, abs=0.05)


def test_mendels_peas_with_exact_shares(published):
    rows = published("mendel_peas.csv")
    counts = [int(row["count"]) for row in rows]
    found = uncertain_fit(
        counts,
        shares=[row["ratio"] / 16 for row in rows],
        spread=no_spread(4),
        classes=[(0,), (1,), (2,), (3,)],
    )
    assert found.statistic == pytest.approx(0.4700, abs=5e-5)
    assert found.p == pytest.approx(0.9254, abs=5e-5)


@given(st.lists(st.integers(30, 400), min_size=2, max_size=6), st.data())
def test_without_spread_it_is_pearsons_chi_square(counts, data):
    shares = [data.draw(st.floats(0.2, 1)) for _ in counts]
    shares = [share / sum(shares) for share in shares]
    plain = fit(counts, shares=shares)
    found = uncertain_fit(
        counts, shares=shares, spread=no_spread(len(counts)), classes=plain.classes
    )
    assert found.statistic == pytest.approx(plain.statistic, rel=1e-9, abs=1e-12)


def test_two_kinds_by_hand():
    """60 of 100 where half was expected, known to 5% each.

    π = ½: cov = ½·½·(½² u² + ½² u²) = u²/8 = 0.0003125; V = 100/4 + 100² × 0.0003125 = 28.125;
    χ² = 10² ÷ 28.125 = 3.5556.
    """
    spread = shares_spread([0.5, 0.5], [0.05, 0.05])
    assert spread[0][0] == pytest.approx(0.0003125)
    assert spread[0][1] == pytest.approx(-0.0003125)
    found = uncertain_fit([60, 40], shares=[0.5, 0.5], spread=spread, classes=[(0,), (1,)])
    assert (found.statistic, found.dof) == (pytest.approx(3.5556, abs=5e-5), 1)


@given(some_counts, st.integers(0, 5))
def test_which_class_comes_last_does_not_matter(counts, turn):
    shares = [1 / len(counts)] * len(counts)
    spread = shares_spread(shares, [0.01 * (i + 1) for i in range(len(counts))])
    classes = [(i,) for i in range(len(counts))]
    turn %= len(counts)
    one, other = (
        uncertain_fit(counts, shares=shares, spread=spread, classes=order).statistic
        for order in (classes, classes[turn:] + classes[:turn])
    )
    assert one == pytest.approx(other, rel=1e-6, abs=1e-9)


@given(st.lists(st.floats(0.01, 1), min_size=2, max_size=6), st.data())
def test_shares_that_vary_still_add_up_to_one(parts, data):
    """So every row of their covariance adds up to nothing."""
    shares = [part / sum(parts) for part in parts]
    relative = [data.draw(st.floats(0, 0.3)) for _ in parts]
    for row in shares_spread(shares, relative):
        assert sum(row) == pytest.approx(0, abs=1e-12)


def test_solves_by_hand():
    """x = 1, y = −2, z = 3."""
    rows = [[4.0, 1.0, 0.0], [1.0, 3.0, 1.0], [0.0, 1.0, 2.0]]
    assert solve(rows, [2.0, -2.0, 4.0]) == pytest.approx([1.0, -2.0, 3.0])


def test_kinds_that_are_rare_in_the_smallest_sample_are_pooled():
    """Of 40 in 400, 3 and 6 of 100 are expected 1.2 and 2.4: together 3.6, so 10 joins them."""
    table = [[300, 36, 21, 3], [30, 4, 4, 2]]
    assert contingency(table).classes == ((0,), (1, 2, 3))
    assert contingency(table, least=1.0).dof == 2


def test_trend_by_hand():
    """20, 30 and 40 of 100 at 0, 1 and 2.

    p = 0.3, x̄ = 1: lean 20, spread 200; slope 0.1; z = 20 ÷ √(0.21 × 200) = 3.0861.
    """
    trend = linear_trend([20, 30, 40], [100, 100, 100], at=[0.0, 1.0, 2.0])
    assert trend.slope == pytest.approx(0.1)
    assert trend.z == pytest.approx(3.0861, abs=5e-5)
    assert trend.slope / trend.u == pytest.approx(trend.z)
    assert trend.p == pytest.approx(0.00203, abs=5e-6)  # 2 Φ(−3.0861)


@pytest.mark.parametrize(
    ("counts", "at"), [([0, 0], [0.0, 1.0]), ([9, 9], [0.0, 1.0]), ([2, 5], [1.0, 1.0])]
)
def test_no_trend_where_none_can_be(counts, at):
    assert linear_trend(counts, [9, 9], at=at).p == 1.0


def test_refuses_one_sample_an_empty_one_and_too_few_seeds():
    for table in ([[5, 5]], [[5, 5], [0, 0]]):
        with pytest.raises(MeasurementError, match=labels.GIVE_LEAST_TWO.like()) as refusal:
            contingency(table)
        assert refusal.value.field == "samples"
    with pytest.raises(MeasurementError, match=labels.COUNT_MORE_SEEDS.like()) as refusal:
        contingency([[5, 5], [1, 1]])
    assert refusal.value.field == "counts"
