"""The simulator drops what its truth says, and the play ends well more often than not."""

from random import Random
from statistics import fmean

import pytest

from evenstand.demo.play import play
from evenstand.demo.pool import HERON
from evenstand.demo.simulator import drop, weigh
from evenstand.engine.drill.drill import Gear
from evenstand.engine.quantities.units import OUNCE
from evenstand.tasks.job.file import read_job

JOB = read_job(HERON.job)
FULL, HALF = Gear(name="full"), Gear(name="half", ratio=0.5)


def mean_drop(gear, *, setting=35.5):
    luck = Random(1)
    runs = [
        drop(HERON.truth, JOB, setting=setting, gear=gear, turns=20, luck=luck) for _ in range(400)
    ]
    return fmean(sum(run) for run in runs)


def test_rows_add_up_to_the_true_rate():
    # 30 notches above closed at 1.86 are 55.8 lb/ac; 20 turns of 95 in under 20 rows at
    # 7.5 in are 0.045437 ac: 40.57 oz. The rows of the truth have mean 1.000.
    assert fmean(HERON.truth.rows) == pytest.approx(1, abs=0.001)
    assert mean_drop(FULL) / OUNCE == pytest.approx(40.57, rel=0.002)


def test_half_gear_drops_half():
    assert mean_drop(HALF) / mean_drop(FULL) == pytest.approx(0.5)


def test_a_closed_meter_drops_nothing():
    assert mean_drop(FULL, setting=5) == 0


def test_the_scale_shows_whole_grams():
    assert weigh([0.0564, 0.0566]) == ["56 g", "57 g"]


def test_a_simulated_drill_needs_its_wheel():
    without = read_job({**HERON.job, "drill": {"rows": 20, "spacing": "7.5 in", **GEARS}})
    with pytest.raises(ValueError, match="wheel"):
        drop(HERON.truth, without, setting=30, gear=FULL, turns=20, luck=Random(1))


GEARS = {key: HERON.job["drill"][key] for key in ("scale", "gears")}


def test_what_is_accepted_is_truly_within_tolerance():
    """Forty seasons: nine in ten and more, as the odds claim."""
    right = 0
    for seed in range(40):
        last = list(play(HERON, seed=seed))[-1].setting
        true = (last.choice.best.setting - HERON.truth.closed) * 1.86 * 0.97
        right += abs(true / 54 - 1) <= 0.05
    assert right >= 36
