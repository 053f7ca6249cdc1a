"""The drill: its rows, its setting scale and its gears."""

from dataclasses import dataclass, field
from math import floor
from typing import Literal

from ..quantities.errors import MeasurementError, Path, require_positive
from ..quantities.phrases import Figure, Phrase, say
from ..quantities.units import INCH, SPACING
from ..statistics.budget import Quantity, give_or_take, nominal, standard_uncertainty

Slack = Literal["below", "above", "none"]
MOST_ROWS = 1000  # far more than any drill has: each row gets a line of its own on some pages
MOST_SETTINGS = 2000
SPACING_LIMITS = INCH / 16  # judgement where a spacing comes without its limits


@dataclass(frozen=True, slots=True, kw_only=True)
class Gear:
    """A drive ratio: meter turns for one wheel turn, against the chart's gear.

    A half-speed drive has ratio 0.5: the same wheel turns meter half the seed
    at the same setting. A pair of sprockets is the gear driver ÷ driven.
    """

    name: str = "only"
    ratio: float = 1.0

    def __post_init__(self) -> None:
        require_positive(Path("gear", "ratio"), self.ratio)


@dataclass(frozen=True, slots=True, kw_only=True)
class Scale:
    """The numbers the lever can be set to.

    Parameters
    ----------
    low, high : float
        Ends of the scale, low < high.
    step : float
        Distance of neighbouring notches.
    stops : tuple of float
        The settings one by one, where they are not evenly spaced.
    reversed : bool
        Whether the low number drops the most seed.
    closed : float, optional
        The number at which seed stops flowing, where a part of the scale is
        dead.
    slack : "below", "above" or "none"
        The side from which the lever is brought to a notch, so that play in
        the linkage is always taken up the same way.
    levers : int
        Levers or shafts that must all be set alike.

    Raises
    ------
    MeasurementError
        For an empty scale, a step that is not above zero, or stops off it.
    """

    low: float
    high: float
    step: float = 1.0
    stops: tuple[float, ...] = ()
    reversed: bool = False
    closed: float | None = None
    slack: Slack = "below"
    levers: int = 1

    def __post_init__(self) -> None:
        if not self.low < self.high:
            raise MeasurementError(
                Path("scale", "high"),
                self.high,
                say("enter a number above the low end of the scale"),
            )
        require_positive(Path("scale", "step"), self.step)
        if (self.high - self.low) / self.step > MOST_SETTINGS:
            raise MeasurementError(
                Path("scale", "step"), self.step, say("enter a notch on the lever")
            )
        for stop in self.stops:
            self.check(stop, field=Path("scale", "stops"))
        if self.closed is not None:
            self.check(self.closed, field=Path("scale", "closed"))

    def check(self, setting: float, *, field: str | Path = "setting") -> None:
        """Raise MeasurementError unless ``setting`` lies on the scale."""
        if not self.low <= setting <= self.high:
            low, high = number(self.low), number(self.high)
            need = say("enter a number from {low} to {high}", low=low, high=high)
            raise MeasurementError(field, setting, need)

    def opening(self, setting: float) -> float:
        """How far the meter is open, 0 at the low-seed end, 1 at the other."""
        part = (setting - self.low) / (self.high - self.low)
        return 1 - part if self.reversed else part

    def settings(self) -> tuple[float, ...]:
        """Every setting that lets seed flow, in the order of the scale."""
        notches = floor((self.high - self.low) / self.step + 1e-9)
        every = self.stops or tuple(round(self.low + i * self.step, 9) for i in range(notches + 1))
        if self.closed is None:
            return every
        return tuple(s for s in every if self.opening(s) > self.opening(self.closed))


@dataclass(frozen=True, slots=True, kw_only=True)
class Drill:
    """Rows, spacing, scale and gears of a drill.

    Parameters
    ----------
    rows : int
        Rows the frame carries.
    spacing : Quantity
        Distance between neighbouring rows. Without an uncertainty it is taken
        to be known to ± 1/16 in, and ``assumed`` says so. [m]
    blocked : int
        Rows shut off between sown rows: their ground is still covered, so the
        open rows must carry their seed.
    blocked_end : int
        Rows shut off at an end: the drill covers less width.

    Raises
    ------
    MeasurementError
        For no rows, no spacing, or every row shut off.
    """

    rows: int
    spacing: Quantity
    blocked: int = 0
    blocked_end: int = 0
    scale: Scale | None = None
    gears: tuple[Gear, ...] = (Gear(),)
    assumed: tuple[Phrase, ...] = field(init=False, default=())

    def __post_init__(self) -> None:
        require_positive("rows", self.rows, "rows")
        if self.rows > MOST_ROWS:
            raise MeasurementError("rows", self.rows, say("enter no more than {n}", n=MOST_ROWS))
        require_positive("spacing", nominal(self.spacing), "m")
        if not standard_uncertainty(self.spacing):
            known = give_or_take(nominal(self.spacing), SPACING_LIMITS, "row spacing")
            text = say("row spacing good to ± {limits}", limits=SPACING(SPACING_LIMITS, 2))
            object.__setattr__(self, "spacing", known)
            object.__setattr__(self, "assumed", (text,))
        for name, count in (("blocked", self.blocked), ("blocked_end", self.blocked_end)):
            if not 0 <= count < self.rows:
                raise MeasurementError(
                    name, count, say("enter 0 up to one less than the number of rows")
                )
        if not self.open_rows > 0:
            raise MeasurementError("blocked", self.blocked, say("leave at least one row open"))

    @property
    def open_rows(self) -> int:
        """Rows that drop seed."""
        return self.rows - self.blocked - self.blocked_end

    @property
    def covered_rows(self) -> int:
        """Rows whose ground a pass covers, sown or not."""
        return self.rows - self.blocked_end

    @property
    def sown_share(self) -> float:
        """Open rows ÷ rows of ground: what a rate loses where rows between are shut off. [-]"""
        return self.open_rows / self.covered_rows

    @property
    def between_open(self) -> Quantity:
        """Ground that each open row has across: spacing ÷ sown share. [m]"""
        return self.spacing / self.sown_share

    @property
    def width(self) -> Quantity:
        """Ground covered across, half a spacing beyond each outer row. [m]

        width = covered rows × spacing
        """
        return self.covered_rows * self.spacing

    def gear(self, name: str | None) -> Gear:
        """Find a gear by name; the only gear needs none."""
        for gear in self.gears:
            if name == gear.name or (not name and len(self.gears) == 1):
                return gear
        names = ", ".join(gear.name for gear in self.gears)
        raise MeasurementError("gear", name, say("choose one of {names}", names=names))

    def check(self, setting: float) -> None:
        """Refuse a setting that is not on the scale of its lever; without a scale all are good."""
        if self.scale is not None:
            self.scale.check(setting)


def number(setting: float) -> Figure:
    """Write a setting as it stands on the scale."""
    return Figure(f"{setting:.6g}")


def move(scale: Scale, came_from: float | None, to: float) -> Phrase:
    """Say how to bring the lever to a setting, slack taken up.

    References
    ----------
    Common practice, no source.
    """
    levers, at = _levers(scale), number(to)
    if came_from is None:
        start = say("Set {levers} to {to}", levers=levers, to=at)
    elif came_from == to:
        return say("Leave {levers} at {to}", levers=levers, to=at)
    else:
        left = number(came_from)
        start = say("Move {levers} from {from_} to {to}", levers=levers, from_=left, to=at)
    last = taking_up(scale, came_from, to)
    return start if last is None else say("{start}, {last}", start=start, last=last)


def heading(scale: Scale, came_from: float | None, to: float) -> Phrase:
    """Say what to do with the lever, the setting left out: *Move the lever from 30 to*."""
    levers = _levers(scale)
    if came_from is None:
        return say("Set {levers} to", levers=levers)
    if came_from == to:
        return say("Leave {levers} at", levers=levers)
    return say("Move {levers} from {from_} to", levers=levers, from_=number(came_from))


def _levers(scale: Scale) -> Phrase:
    return say("all {n} levers", n=scale.levers) if scale.levers > 1 else say("the lever")


def taking_up(scale: Scale, came_from: float | None, to: float) -> Phrase | None:
    """Say from which side the lever comes to a setting; None where it stays, or has no play."""
    if scale.slack == "none" or came_from == to:
        return None
    beyond = came_from is not None and (came_from > to) == (scale.slack == "below")
    if scale.slack == "below":
        return (
            say("go past it, then come up to it") if beyond else say("coming up to it from below")
        )
    if beyond:
        return say("go past it, then come down to it")
    return say("coming down to it from above")
