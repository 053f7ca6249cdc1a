"""Where the first order holds and where it does not: JCGM 101:2008, by simulation too."""

from math import sqrt

import pytest
from uncertainties import ufloat

from evenstand.engine.statistics.budget import (
    budget,
    estimate,
    give_or_take,
    standard_uncertainty,
    uncertain,
)

# JCGM 101:2008, 9.2, quoted, not read and confirmed by simulation: four inputs of a sum, their
# standard deviations; u and the half width of the range, by the GUM and of the real distribution.
SUMS = {
    "four normal": ("normal", (1, 1, 1, 1), {"u": 2.00, "gum": 3.92, "real": 3.92}),
    "four rectangular": ("rectangular", (1, 1, 1, 1), {"u": 2.00, "gum": 3.92, "real": 3.88}),
    "one ten times wider": ("rectangular", (1, 1, 1, 10), {"u": 10.1, "gum": 19.9, "real": 17.0}),
}


@pytest.mark.parametrize(("shape", "widths", "printed"), SUMS.values(), ids=SUMS)
def test_jcgm_101_sums(shape, widths, printed):
    total = sum(
        uncertain(0.0, width, str(i))
        if shape == "normal"
        else give_or_take(0.0, width * sqrt(3), str(i))
        for i, width in enumerate(widths)
    )
    found = estimate(total, budget(total, {}))
    assert found.u == pytest.approx(printed["u"], rel=0.005)
    assert (found.low, found.high) == pytest.approx((-printed["gum"], printed["gum"]), rel=0.002)


@pytest.mark.parametrize(("shape", "widths", "printed"), SUMS.values(), ids=SUMS)
def test_jcgm_101_sums_by_simulation(shape, widths, printed):
    """Where one rectangle rules, the real range is shorter than the GUM's."""
    np = pytest.importorskip("numpy")
    rng, n = np.random.default_rng(101), 1_000_000
    draws = sum(
        width * (rng.normal(size=n) if shape == "normal" else rng.uniform(-sqrt(3), sqrt(3), n))
        for width in widths
    )
    assert draws.std() == pytest.approx(printed["u"], rel=0.006)
    assert np.quantile(draws, [0.025, 0.975]) == pytest.approx(
        [-printed["real"], printed["real"]], rel=0.005
    )


def mass_difference(reference, *, added, air, weight):
    """JCGM 101:2008, 9.3: (m + δm)·(1 + (ρa − 1.2)·(1/ρW − 1/ρR)) − 100 000 mg."""
    return (reference + added) * (1 + (air - 1.2) * (1 / weight[0] - 1 / weight[1])) - 100_000


def test_jcgm_101_mass_calibration_to_first_order():
    """Quoted, not read: 0.0539 mg and [1.1285, 1.3395] mg; confirmed below."""
    delta = mass_difference(
        uncertain(100_000.0, 0.050, "reference"),
        added=uncertain(1.234, 0.020, "added"),
        air=give_or_take(1.2, 0.1, "air"),
        weight=(give_or_take(8000.0, 1000.0, "weight"), give_or_take(8000.0, 50.0, "standard")),
    )
    found = estimate(delta, budget(delta, {}))
    assert found.u == pytest.approx(0.0539, abs=5e-5)
    assert (found.low, found.high) == pytest.approx((1.1285, 1.3395), abs=5e-4)


def test_jcgm_101_mass_calibration_by_simulation():
    """At 1.2 kg/m³ the first order misses the densities: the whole is 0.0755 mg, not 0.0539."""
    np = pytest.importorskip("numpy")
    rng, n = np.random.default_rng(93), 1_000_000
    draws = mass_difference(
        rng.normal(100_000, 0.050, n),
        added=rng.normal(1.234, 0.020, n),
        air=rng.uniform(1.1, 1.3, n),
        weight=(rng.uniform(7000, 9000, n), rng.uniform(7950, 8050, n)),
    )
    assert draws.mean() == pytest.approx(1.2341, abs=3e-4)
    assert draws.std() == pytest.approx(0.0755, abs=3e-4)
    assert np.hypot(0.050, 0.020) == pytest.approx(0.0539, abs=5e-5)


@pytest.mark.parametrize(("x1", "first_order", "exact"), [(0.0, 0.0, 50), (0.050, 500, 502)])
def test_jcgm_101_squares(x1, first_order, exact):
    """9.4.2, x1² + x2² with u = 0.005, in 1e-6: at zero the first order sees nothing."""
    np = pytest.importorskip("numpy")
    a, b = ufloat(x1, 0.005, "x1"), ufloat(0.0, 0.005, "x2")
    assert standard_uncertainty(a * a + b * b) * 1e6 == pytest.approx(first_order, abs=1e-6)
    rng = np.random.default_rng(942)
    draws = rng.normal(x1, 0.005, 1_000_000) ** 2 + rng.normal(0, 0.005, 1_000_000) ** 2
    assert draws.std() * 1e6 == pytest.approx(exact, rel=0.005)
