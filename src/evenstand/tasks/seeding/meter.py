"""The lever on the way: where it stands, and what Set learned of the meter behind it."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from evenstand.engine.calibration.chart import Curve
from evenstand.engine.drill.drill import Gear
from evenstand.engine.seeding.lever import lever_factor
from evenstand.engine.statistics.budget import Quantity, uncertain

from ..calibration.setting import Setting, field_rate, where_next
from ..job.file import read_job
from ..parsing.given import Given


@dataclass(frozen=True)
class LeverPlace:
    """Where a lever stands: its setting and the gear."""

    setting: float
    gear: Gear


@dataclass(frozen=True)
class Meter:
    """The lever's place at the start, and what Set learned of the meter."""

    place: LeverPlace
    set: Setting

    @property
    def curve(self) -> Curve:
        """The curve after all catches."""
        return self.set.choice.curve

    @property
    def promised(self) -> Quantity | None:
        """Field rate that Set looks for there; None where the target is one at the stand."""
        if self.set.job.target.on != "field":
            return None
        rate = field_rate(self.set, self.place.setting, self.place.gear)
        return uncertain(rate.value, rate.u, "calibration") if rate.value > 0 else None

    def moved(self, given: Given, old: LeverPlace) -> tuple[LeverPlace, Quantity]:
        """Read where the lever was moved to, and new rate ÷ old.

        Raises
        ------
        MeasurementError
            For a setting off the scale, or a gear that the drill has not.
        """
        setting = given.number("setting") if "setting" in given else old.setting
        with given.pointing():
            gear = self.set.job.drill.gear(given.text("gear")) if "gear" in given else old.gear
            factor = lever_factor(self.curve, old.setting, setting, gear=old.gear, then=gear)
        return LeverPlace(setting, gear), factor


def read_meter(file: Mapping[str, Any], given: Given, known: Setting | None) -> Meter:
    """Read where the lever stands at the start.

    Parameters
    ----------
    given : Given
        A table [sow] with ``setting``.
    known : Setting, optional
        What Set found; worked out from the file without it.
    """
    job = known.job if known else read_job(file)
    with given.pointing():
        gear = job.drill.gear(given.text("gear") if "gear" in given else None)
        setting = given.number("setting")
        found = known or where_next(job)
        found.choice.curve.scale.check(setting)
    return Meter(LeverPlace(setting, gear), found)
