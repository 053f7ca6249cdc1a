"""The ranges of a sample hold what they promise: boxes that do not sort, simulated."""

import numpy as np
import pytest
from uncertainties import ufloat

from evenstand.engine.boxes.box import BOX_KINDS, Box
from evenstand.engine.boxes.filled import fill_box
from evenstand.engine.boxes.portion import Portion
from evenstand.engine.boxes.sample import counted
from evenstand.engine.boxes.sorting import sorting

RUNS = 600
WEIGHTS = {"rye": 0.8, "vetch": 0.1, "clover": 0.1}
PER_KG = {"rye": 40_000.0, "vetch": 40_000.0, "clover": 440_000.0}
UNSURE = {"rye": 0.03, "vetch": 0.05, "clover": 0.05}


def samples_of_a_mixed_box(rng):
    """Seed counts are off by chance, then 600 seeds are caught of what was weighed in."""
    for _ in range(RUNS):
        true = {n: PER_KG[n] * np.exp(rng.normal(0, UNSURE[n])) for n in PER_KG}
        parts = np.array([WEIGHTS[n] * true[n] for n in PER_KG])
        counts = rng.multinomial(600, parts / parts.sum())
        yield true, counted({n: int(k) for n, k in zip(PER_KG, counts, strict=True)})


def test_ranges_hold_the_truth_95_times_in_100():
    """Of the ratio, which is 1, and of live seeds, which are weight × true count × 0.8."""
    box = fill_box(
        Box(name="grain", volume=1.0, seed=BOX_KINDS["grain"]),
        [_portion(name) for name in PER_KG],
    )
    held = {"ratio": 0, "live": 0, "false alarm": 0}
    for true, sample in samples_of_a_mixed_box(np.random.default_rng(11)):
        found = sorting(box, sample)
        clover = next(each for each in found.species if each.name == "clover")
        held["ratio"] += clover.ratio.low <= 1 <= clover.ratio.high
        live = WEIGHTS["clover"] * true["clover"] * 0.8 * 0.005
        held["live"] += clover.live.low <= live <= clover.live.high
        held["false alarm"] += found.found
    # Standard error of 95 % over 600 runs is 0.9 %; Clopper–Pearson leans to the wide side.
    assert held["ratio"] / RUNS == pytest.approx(0.96, abs=0.03)
    assert held["live"] / RUNS == pytest.approx(0.95, abs=0.025)
    assert held["false alarm"] / RUNS == pytest.approx(0.05, abs=0.025)


def _portion(name):
    per_kg = ufloat(PER_KG[name], UNSURE[name] * PER_KG[name], f"seed count of {name}")
    rate = 0.005 * WEIGHTS[name]
    return Portion(name=name, rate=rate, seeds_per_kg=per_kg, live_per_kg=0.8 * per_kg)
