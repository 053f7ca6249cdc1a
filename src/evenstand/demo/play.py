"""A Set step played from chart to accepted notch, through the same tasks as a real one."""

from collections.abc import Iterator
from copy import deepcopy
from dataclasses import dataclass
from random import Random
from typing import Any

from evenstand.tasks.boxes.job import set_box
from evenstand.tasks.calibration.setting import Setting, where_next
from evenstand.tasks.job.file import read_job
from evenstand.tasks.parsing.given import Given

from .jobs import TODAY
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
    seed : int
        Of the luck in it: the same seed plays the same.
    """
    luck, file = Random(seed), deepcopy(dict(pool_drill.job))
    for _ in range(MOST):
        setting = _where_next(pool_drill, file)
        yield Stage(deepcopy(file), setting)
        if setting.stop:
            return
        file.setdefault("catch", []).append(_catch(pool_drill, setting, luck))
    yield Stage(file, _where_next(pool_drill, file))


def _where_next(pool_drill: PoolDrill, file: dict[str, Any]) -> Setting:
    if pool_drill.box:
        return set_box(file, Given({"box": pool_drill.box}), today=TODAY)
    return where_next(read_job(file))


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
    of_box = {"box": pool_drill.box} if pool_drill.box else {}
    made = {**of_box, "setting": best.setting, "gear": best.gear.name, "turns": TURNS}
    if not setting.caught:
        bag = [sum(seed[row - 1] for row in SOME_ROWS)]
        return made | {"rows_caught": len(SOME_ROWS), "net": weigh(bag)[0]}
    return made | {"rows_caught": len(seed), "weights": weigh(seed)}
