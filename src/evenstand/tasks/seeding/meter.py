"""The lever on the way: where it stands, and what Set learned of the meter behind it."""

from dataclasses import dataclass

from evenstand.engine.calibration.chart import Curve
from evenstand.engine.drill.drill import Gear
from evenstand.engine.seeding.lever import lever_factor
from evenstand.engine.statistics.budget import Quantity, uncertain

from ..calibration.setting import Setting, field_rate, where_next
from ..job.calibration import Job
from .said import BoxSaid, Happened


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

    def moved(self, to: Happened, old: LeverPlace) -> tuple[LeverPlace, Quantity]:
        """Return where the lever was moved to, and new rate ÷ old.

        Raises
        ------
        MeasurementError
            For a setting off the scale, or a gear that the drill has not.
        """
        setting = old.setting if to.setting is None else to.setting
        with to.given.pointing():
            gear = self.set.job.drill.gear(to.gear) if to.gear else old.gear
            factor = lever_factor(self.curve, old.setting, setting, gear=old.gear, then=gear)
        return LeverPlace(setting, gear), factor


def read_meter(said: BoxSaid, job: Job, known: Setting | None) -> Meter | None:
    """Return where the lever stands at the start, None where that was not said.

    Parameters
    ----------
    job : Job
        That Set goes by.
    known : Setting, optional
        What Set found; worked out without it.
    """
    if said.setting is None:
        return None
    with said.given.pointing():
        gear = job.drill.gear(said.gear or None)
        found = known or where_next(job)
        found.choice.curve.scale.check(said.setting)
    return Meter(LeverPlace(said.setting, gear), found)
