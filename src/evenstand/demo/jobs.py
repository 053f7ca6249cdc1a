"""Two invented jobs from mix to lever: a cover crop on Alder Bench, native grass with Teal."""

import tomllib
from dataclasses import replace
from importlib.resources import files
from typing import Any

from evenstand.engine.seed.tag import Month

from .pool import HERON, PoolDrill

TODAY = Month(2026, 11)  # when all of it is played
GRAIN, NATIVE_BOX = "grain", "fluffy"


def alder_bench() -> PoolDrill:
    """Return Heron with the whole of its job; what its grain box is set to follows from it."""
    job: dict[str, Any] = {**HERON.job, **_tables("alder_bench")}
    job["chart"] = [{"box": GRAIN, **HERON.job["chart"]}]
    job["seed"] = {"test_weight": HERON.job["seed"]["test_weight"]}
    job["target"] = {key: value for key, value in HERON.job["target"].items() if key != "rate"}
    return replace(HERON, job=job, box=GRAIN)


def native_grass() -> dict[str, Any]:
    """Return the job file of the drill Teal."""
    return _tables("teal")


def _tables(name: str) -> dict[str, Any]:
    return tomllib.loads((files(__package__) / f"{name}.toml").read_text(encoding="utf-8"))
