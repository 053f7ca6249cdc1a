"""The solver where it can run: it is imported only when it is asked, and never on a phone."""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from evenstand.engine.seed.tag import Month
from evenstand.tasks.mix.said import MixSaid

if TYPE_CHECKING:
    from evenstand.tasks.mix.solving import Solved

NEEDED = ("highspy", "numpy")  # beyond what a phone has


def solved(mix: MixSaid, tables: Mapping[str, Any], *, today: Month) -> "Solved | None":
    """Find the best mix for the goal in a job file's tables; None where no solver is.

    Raises
    ------
    MeasurementError
        For a goal that cannot be, or tables that cannot be read.
    """
    try:
        from evenstand.tasks.mix.solving import solve_mix
    except ModuleNotFoundError as missing:
        if missing.name not in NEEDED:
            raise
        return None
    return solve_mix(mix, tables, today=today)
