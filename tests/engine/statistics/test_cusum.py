"""Sums of misfits: NIST's worked data, run lengths by a Markov chain, refusals."""

from itertools import pairwise

import pytest

from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.statistics.cusum import cusum, false_alarm, run_length


def test_the_worked_data_of_the_e_handbook(published):
    rows = published("cusum_means.csv")
    found = cusum([row["mean"] - 325 for row in rows], reference=0.3175, limit=4.1959)
    # Printed to 4 decimals.
    assert found.high == pytest.approx([row["high"] for row in rows], abs=6e-5)
    lows = [(s, row["low"]) for s, row in zip(found.low, rows, strict=True) if row["low"] != ""]
    assert [s for s, _ in lows] == pytest.approx([low for _, low in lows], abs=6e-5)
    assert (found.signal, found.side) == (13, "high")  # group 14, counted from 0


def test_the_other_side_mirrors_it(published):
    means = [325 - row["mean"] for row in published("cusum_means.csv")]
    found = cusum(means, reference=0.3175, limit=4.1959)
    assert (found.signal, found.side) == (13, "low")


def test_run_lengths_of_the_standard_tables(published):
    """Printed to 3 digits; Siegmund's approximation keeps within 4% of them."""
    for row in published("cusum_run_lengths.csv"):
        found = run_length(row["shift"], limit=row["h"])
        assert found == pytest.approx(row["length"], rel=0.04), row
    for limit, length in ((4.0, 168), (5.0, 465)):
        assert run_length(limit=limit) == pytest.approx(length, rel=0.012)


@pytest.mark.parametrize(("shift", "limit"), [(0.0, 3.0), (0.0, 4.0), (0.7, 4.0)])
def test_run_lengths_by_a_markov_chain(shift, limit):
    """Brook and Evans (1972): the sum cut into 400 states, both sides joined by their rates."""
    np = pytest.importorskip("numpy")
    norm = pytest.importorskip("scipy.stats").norm

    def one_side(delta, n=400):
        width = 2 * limit / (2 * n - 1)
        edges = (np.arange(n) + 0.5) * width
        at = np.arange(n) * width
        below = norm.cdf(edges[None, :] - at[:, None] + 0.5 - delta)
        chain = np.diff(below, axis=1, prepend=0)
        return np.linalg.solve(np.eye(n) - chain, np.ones(n))[0]

    exact = 1 / (1 / one_side(shift) + 1 / one_side(-shift))
    assert run_length(shift, limit=limit) == pytest.approx(exact, rel=0.02)


def test_a_longer_field_has_more_false_alarms():
    odds = [false_alarm(n) for n in (0, 5, 10, 100)]
    assert odds[0] == 0
    assert all(a < b for a, b in pairwise(odds))
    assert odds[2] == pytest.approx(0.06, abs=0.005)  # 10 refills, 168 to a false alarm: n ÷ ARL


def test_nothing_signals_without_readings():
    assert cusum([]).signal is None


@pytest.mark.parametrize(
    ("change", "field"), [({"reference": -1.0}, "reference"), ({"limit": 0.0}, "limit")]
)
def test_refuses_and_names_the_field(change, field):
    with pytest.raises(MeasurementError) as refusal:
        cusum([1.0], **change)
    assert refusal.value.field == field


def test_a_run_length_needs_a_limit():
    with pytest.raises(MeasurementError) as refusal:
        run_length(limit=0.0)
    assert refusal.value.field == "limit"
