"""A Set step played from chart to accepted notch, through the same tasks as a real one."""

from collections.abc import Iterator
from copy import deepcopy
from dataclasses import dataclass
from random import Random
from typing import Any

from evenstand.tasks.job_file import read_job
from evenstand.tasks.setting import Setting, where_next

from .pool import PoolDrill
from .simulator import drop, weigh

TURNS = 20
SOME_ROWS = (4, 8, 13, 17)  # the first catches are from every so many-th row, in one bag
MOST = 8  # catches


@dataclass(frozen=True)
class Stage:
    """The job file as it stands, and what is said of it."""

    file: dict[str, Any]
    setting: Setting


def play(pool_drill: PoolDrill, *, seed: int) -> Iterator[Stage]:
    """Play until a notch is accepted, a stage for each catch.

    The first catch is of four rows in one bag, the later ones of every row apart.

    Parameters
    ----------
    pool_drill : PoolDrill
    seed : int
        Of the luck in it: the same seed plays the same.
    """
    luck, file = Random(seed), deepcopy(dict(pool_drill.job))
    for _ in range(MOST):
        setting = where_next(read_job(file))
        yield Stage(deepcopy(file), setting)
        if setting.stop:
            return
        file.setdefault("catch", []).append(_catch(pool_drill, setting, luck))
    yield Stage(file, where_next(read_job(file)))


def _catch(pool_drill: PoolDrill, setting: Setting, luck: Random) -> dict[str, Any]:
    best = setting.choice.best
    seed = drop(
        pool_drill.truth,
        setting.job,
        setting=best.setting,
        gear=best.gear,
        turns=TURNS,
        luck=luck,
    )
    made = {"setting": best.setting, "gear": best.gear.name, "turns": TURNS}
    if not setting.caught:
        bag = [sum(seed[row - 1] for row in SOME_ROWS)]
        return made | {"rows_caught": len(SOME_ROWS), "net": weigh(bag)[0]}
    return made | {"rows_caught": len(seed), "weights": weigh(seed)}
