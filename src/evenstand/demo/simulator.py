"""A drill that is turned, caught and weighed, in numbers alone."""

from collections.abc import Sequence
from math import sqrt
from random import Random

from evenstand.engine.drill.drill import Gear
from evenstand.engine.quantities.units import GRAM
from evenstand.engine.statistics.budget import nominal
from evenstand.tasks.job.calibration import Job

from .pool import Truth


def drop(
    truth: Truth, job: Job, *, setting: float, gear: Gear, turns: float, luck: Random
) -> list[float]:
    """Seed that each row drops over some turns at the stand. [kg]

    seed = gear ratio × (setting − closed) × per notch × row × turns × per turn × spacing
    """
    wheel = job.wheel
    if wheel is None:
        raise ValueError("a simulated drill needs its wheel")
    ground = turns * nominal(wheel.per_turn) * nominal(job.drill.spacing)
    rate = max(0.0, gear.ratio * (setting - truth.closed) * truth.per_notch)
    return [rate * ground * row * luck.gauss(1.0, truth.flow_cv) for row in truth.rows]


def weigh(seed: Sequence[float], *, step: float = GRAM) -> list[str]:
    """Read bags off a kitchen scale, as a person writes them down."""
    return [f"{round(kg / step) * step / GRAM:g} g" for kg in seed]


def come_up(stand: float, *, ground: float, cv: float, places: int, luck: Random) -> list[int]:
    """Count the plants of places that differ by chance and by their soil.

    Parameters
    ----------
    stand : float
        [1/m²]
    ground : float
        Of each place. [m²]
    cv : float
        How much the stand itself differs from place to place. [-]
    """
    mean = stand * ground
    spread = sqrt(mean + cv * cv * mean * mean)
    return [max(0, round(luck.gauss(mean, spread))) for _ in range(places)]
