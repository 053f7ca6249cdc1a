"""A job's Set step, as read: the drill, what is known of it, the target, the catches."""

from dataclasses import dataclass

from evenstand.engine.calibration.chart import Chart
from evenstand.engine.calibration.choose import Dearer
from evenstand.engine.catch.stopped import stopped
from evenstand.engine.catch.target import Target
from evenstand.engine.catch.weighing import Catch, Prior, WeighScale
from evenstand.engine.drill.drill import Drill, Gear
from evenstand.engine.drill.travel import Run, Wheel
from evenstand.engine.quantities.phrases import Phrase
from evenstand.engine.statistics.budget import Quantity

from ..parsing.warned import Warned


@dataclass(frozen=True, kw_only=True)
class CatchMade:
    """One catch: where the lever stood, what was turned, what the bags held.

    ``counted``: it counts though a row in it stopped, as somebody said.
    """

    setting: float
    gear: Gear
    bags: Catch
    run: Run
    counted: bool = False
    note: str = ""

    def counts(self, scale: WeighScale) -> bool:
        """Whether it is learned from: no row stopped in it, or somebody said that it counts."""
        return self.counted or not stopped(self.bags, resolution=scale.resolution)


@dataclass(frozen=True, kw_only=True)
class Job:
    """All that the next setting is worked out from.

    ``names`` are those of drill, seed and field, as far as they were given;
    ``sown_in`` is the gear it will be sown in, where that was said.
    ``test_weight`` is this seed's [kg/m³], ``field_ratio`` field ÷ static. [-]
    """

    names: tuple[str, ...]
    drill: Drill
    wheel: Wheel | None
    charts: tuple[Chart, ...]
    history: tuple[Chart, ...]
    test_weight: float | None
    target: Target
    sown_in: Gear | None
    dearer: Dearer
    scale: WeighScale
    prior: Prior
    field_ratio: Quantity
    catches: tuple[CatchMade, ...]
    assumed: tuple[Phrase, ...]
    warnings: tuple[Warned, ...]
