"""The filter: NIST's moving average, all readings at once by numpy, and causes that add up."""

from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat

from evenstand.engine.statistics.budget import nominal, standard_uncertainty
from evenstand.engine.statistics.kalman import Move, Reading, State, move, observe

STAY = ((1.0,),)


def test_with_steady_gain_it_is_the_moving_average_of_the_e_handbook(published):
    """A level that wanders, q = λ²/(1 − λ) of the reading's variance: gain λ for ever."""
    weight = 0.3
    q = weight * weight / (1 - weight)
    steady = weight / (1 - weight) - q  # P + q = λ/(1 − λ), so that the gain is λ from the start
    state = State((50.0,), ((steady,),))
    for row in published("ewma.csv"):
        state = move(state, Move(matrix=STAY, add=(0.0,), variances=(q,)))
        state = observe(state, Reading(of=(1.0,), value=row["reading"], variance=1.0)).state
        # Printed to 2 decimals.
        assert state.mean[0] == pytest.approx(row["ewma"], abs=0.0051)


def test_one_by_one_is_the_same_as_all_at_once():
    """Least squares with a prior, by numpy: (P⁻¹ + HᵀV⁻¹H)⁻¹."""
    np = pytest.importorskip("numpy")
    start = State((3.0, 1.0), ((4.0, 0.5), (0.5, 0.25)))
    rows = [((1.0, 2.0), 5.5, 0.3), ((1.0, 5.0), 8.1, 0.2), ((0.0, 1.0), 1.2, 0.5)]
    h, v = np.array([r[0] for r in rows]), np.diag([1 / r[2] for r in rows])
    p0 = np.linalg.inv(np.array(start.spread))
    p = np.linalg.inv(p0 + h.T @ v @ h)
    m = p @ (p0 @ np.array([3.0, 1.0]) + h.T @ v @ np.array([r[1] for r in rows]))
    state, density = start, 0.0
    for of, value, variance in rows:
        seen = observe(state, Reading(of=of, value=value, variance=variance))
        state, density = seen.state, density + seen.log_likelihood
    assert state.mean == pytest.approx(m.tolist(), rel=1e-12)
    assert [c for row in state.spread for c in row] == pytest.approx(p.ravel().tolist(), rel=1e-9)
    stats = pytest.importorskip("scipy.stats")
    whole = h @ np.array(start.spread) @ h.T + np.linalg.inv(v)
    joint = stats.multivariate_normal(h @ np.array([3.0, 1.0]), whole)
    assert density == pytest.approx(joint.logpdf([r[1] for r in rows]), rel=1e-9)


@given(st.lists(st.floats(0.1, 3), min_size=1, max_size=5))
def test_causes_carried_along_add_up_to_the_spread(us):
    """The budget of the mean and the filter's own variance, by two routes."""
    state = State((ufloat(1.0, 2.0), ufloat(0.5, 0.3)), ((4.0, 0.0), (0.0, 0.09)))
    for u in us:
        ahead = Move(matrix=((1.0, 2.0), (0.0, 0.9)), add=(0.0, ufloat(0, u)), variances=(0, u * u))
        state = move(state, ahead)
        state = observe(state, Reading(of=(1.0, 0.3), value=ufloat(4.0, 0.7), variance=0.49)).state
    for index in (0, 1):
        assert standard_uncertainty(state.mean[index]) == pytest.approx(state.u(index), rel=1e-9)


def test_a_reading_by_hand():
    """N(0, 3²), a reading of 10 ± 4: mean 10·9/25 = 3.6, variance 9·16/25, z = 10/5."""
    seen = observe(State((0.0,), ((9.0,),)), Reading(of=(1.0,), value=10.0, variance=16.0))
    assert nominal(seen.state.mean[0]) == pytest.approx(3.6)
    assert seen.state.u(0) == pytest.approx(sqrt(5.76))
    assert seen.z == pytest.approx(2)
