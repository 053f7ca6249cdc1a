"""The metering curve: a computed case, another route, identities, refusals."""

from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from evenstand.engine.calibration.meter import (
    Belief,
    expected_rate,
    features,
    predict,
    surprise,
    update,
    widen,
)
from evenstand.engine.catch.target import Target
from evenstand.engine.quantities.errors import MeasurementError

SCATTER = 0.02


def straight_line():
    """Mean (0, 1); covariance 0.2²·m·mᵀ + diag(3², 0), kept as V = P ÷ s²."""
    covariance = ((9.0, 0.0), (0.0, 0.04))
    v = tuple(tuple(c / SCATTER**2 for c in row) for row in covariance)
    return Belief((0.0, 1.0), v, SCATTER, 12.0)


def learn(belief, catches):
    for setting, rate in catches:
        x = (1.0, setting)
        expected, _ = predict(belief, x)
        belief = update(belief, x, rate=rate, weight=expected * expected)
    return belief


def test_two_catches_change_the_line_as_computed_elsewhere(published):
    belief = straight_line()
    for row in published("metering_update.csv"):
        belief = learn(belief, [(row["setting"], row["rate"])])
        assert belief.mean == pytest.approx((row["m0"], row["m1"]), abs=6e-7)
        assert belief.scatter == pytest.approx(row["scatter"], abs=6e-7)
        assert belief.dof == row["dof"]
    covariance = [v * belief.scatter**2 for line in belief.spread for v in line]
    assert covariance == pytest.approx([6.51058232, -0.14812233, -0.14812233, 0.00352759], abs=6e-9)


@pytest.mark.parametrize(
    ("setting", "printed"),
    [(45, (39.004, 0.568, 0.6365)), (46, (39.904, 0.590, 0.9363)), (47, (40.805, None, 0.7312))],
)
def test_odds_of_three_notches_after_those_catches(setting, printed):
    rate, u, odds = printed
    belief = learn(straight_line(), [(40, 34.0), (47, 41.2)])
    expected = expected_rate(belief, (1.0, setting))
    assert expected.value == pytest.approx(rate, abs=6e-4)
    if u:
        assert expected.u == pytest.approx(u, abs=6e-4)
    target = Target(rate=40.0, tolerance=0.03)
    assert expected.within(target.low, target.high) == pytest.approx(odds, abs=6e-5)


def test_one_by_one_is_the_same_as_all_at_once():
    """Bayes' theorem in one piece: (V⁻¹ + XᵀW⁻¹X)⁻¹, by numpy."""
    np = pytest.importorskip("numpy")
    belief = straight_line()
    catches = [(40.0, 34.0, 1500.0), (47.0, 41.2, 1700.0), (44.0, 38.0, 1600.0)]
    x = np.array([(1.0, s) for s, _, _ in catches])
    y = np.array([r for _, r, _ in catches])
    w = np.diag([1 / v for _, _, v in catches])
    v0 = np.linalg.inv(np.array(belief.spread))
    v = np.linalg.inv(v0 + x.T @ w @ x)
    m = v @ (v0 @ np.array(belief.mean) + x.T @ w @ y)
    for setting, rate, weight in catches:
        belief = update(belief, (1.0, setting), rate=rate, weight=weight)
    assert belief.mean == pytest.approx(m.tolist(), rel=1e-9)
    assert [c for row in belief.spread for c in row] == pytest.approx(v.ravel().tolist(), rel=1e-9)
    # ν s² grows by yᵀW⁻¹y + m₀ᵀV₀⁻¹m₀ − mᵀV⁻¹m.
    m0 = np.array([0.0, 1.0])
    square = 12 * SCATTER**2 + y @ w @ y + m0 @ v0 @ m0 - m @ np.linalg.inv(v) @ m
    assert belief.scatter == pytest.approx(sqrt(square / 15), rel=1e-6)


@given(st.permutations([(40.0, 34.0), (47.0, 41.2), (44.0, 38.5), (50.0, 44.0)]))
def test_the_order_of_catches_does_not_matter(order):
    def learned(catches):
        belief = straight_line()
        for setting, rate in catches:
            belief = update(belief, (1.0, setting), rate=rate, weight=1600.0)
        return belief

    assert learned(order).mean == pytest.approx(learned(sorted(order)).mean, rel=1e-6)


@given(st.floats(0, 1), st.floats(0.1, 4))
def test_gears_multiply_the_whole_curve(opening, ratio):
    once = features(opening, ratio=1.0)
    assert features(opening, ratio=ratio) == pytest.approx([ratio * x for x in once])


def test_the_bend_is_nothing_at_the_ends_and_full_in_the_middle():
    assert [features(o, ratio=1.0)[2] for o in (0.0, 0.5, 1.0)] == [0, 1, 0]


def test_common_errors_widen_what_is_said_and_not_what_is_learned():
    belief, x = straight_line(), (1.0, 40.0)
    narrow, wide = expected_rate(belief, x), expected_rate(belief, x, common=0.1)
    # Squares add: 10 % of 40 is 4.
    assert wide.u**2 == pytest.approx(narrow.u**2 + 16)
    assert wide.dof > narrow.dof
    assert expected_rate(belief, x, factor=0.9).value == pytest.approx(36)


def test_surprise_and_widening():
    belief, x = straight_line(), (1.0, 40.0)
    # Variance of a catch: 9 + 0.04·1600 + 0.0004·1600 = 73.64; 40 + 2·√73.64.
    rate = 40 + 2 * sqrt(73.64)
    assert surprise(belief, x, rate=rate, weight=1600.0) == pytest.approx(2)
    assert predict(widen(belief, 4.0), x)[1] == pytest.approx(2 * predict(belief, x)[1])


@pytest.mark.parametrize(
    ("change", "field"), [({"rate": 0.0}, "rate"), ({"weight": 0.0}, "weight")]
)
def test_refuses_and_names_the_field(change, field):
    with pytest.raises(MeasurementError) as refusal:
        update(straight_line(), (1.0, 40.0), **({"rate": 40.0, "weight": 1600.0} | change))
    assert refusal.value.field == field
