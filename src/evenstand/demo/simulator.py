"""A drill that is turned, caught and weighed, in numbers alone."""

from collections.abc import Sequence
from random import Random

from evenstand.engine.budget import nominal
from evenstand.engine.drill import Gear
from evenstand.engine.units import GRAM
from evenstand.tasks.job import Job

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
