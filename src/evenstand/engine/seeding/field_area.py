"""Ground sown: by the drill's own meter, by passes, or by the map of the field."""

from dataclasses import dataclass
from math import sqrt
from typing import Annotated

from ..quantities.errors import MeasurementError, require_positive, require_share
from ..quantities.phrases import Phrase, say
from ..quantities.units import FIELD, LENGTH, NUMBER, SHARE
from ..quantities.working import Line
from ..statistics.budget import (
    Estimate,
    Quantity,
    give_or_take,
    nominal,
    ranged,
    standard_uncertainty,
    uncertain,
)

METER_LIMITS = 0.04  # judgement: an area meter that was never held against a known area
MAP_LIMITS = 0.005  # judgement: an outline drawn on a map or an air photo
OVERLAP_LIMITS = 0.01  # judgement: overlap that is the same all over the field
# Gaps between 15 passes of an 8-row drill, 12 in wanted: mean 12.35 in, standard deviation
# 1.23 in. Wiebe (1935), as collected in agridat.
GAP_SCATTER = 1.23 * 0.0254


@dataclass(frozen=True, slots=True, kw_only=True)
class AreaMeter:
    """The drill's acre meter: true ground ÷ what it shows. [-]

    ``factor`` carries its uncertainty; ``known`` says that it was held
    against a known area.
    """

    factor: Annotated[Quantity, NUMBER]
    known: bool
    say: Phrase
    assumed: tuple[Phrase, ...] = ()

    @property
    def u(self) -> float:
        """Relative standard uncertainty of the factor. [-]"""
        return standard_uncertainty(self.factor) / nominal(self.factor)


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """What the area meter shows now [m²], and true ground ÷ what it shows [-]."""

    now: float = 0.0
    factor: Quantity = 1.0

    def after(self, ground: Quantity) -> Quantity:
        """What it shows when so much more ground is sown. [m²]

        now + ground ÷ factor
        """
        return self.now + ground / self.factor


def unchecked_meter() -> AreaMeter:
    """Take a meter that nobody has checked: right to ± 4%."""
    limits = SHARE(METER_LIMITS)
    return AreaMeter(
        factor=give_or_take(1.0, METER_LIMITS, "area"),
        known=False,
        say=say("The acre meter has never been checked against a known area."),
        assumed=(say("the acre meter is good to ± {limits}", limits=limits),),
    )


def checked_meter(known: Quantity, *, shown: float) -> AreaMeter:
    """Learn a meter's correction from an area that is known.

    factor = known area ÷ area shown

    Parameters
    ----------
    known : Quantity
        Ground sown, overlap counted twice. [m²]
    shown : float
        What the meter showed for it. [m²]

    Raises
    ------
    MeasurementError
        For areas not above zero, or a factor that no meter has.

    Examples
    --------
    >>> print(checked_meter(40_000.0, shown=41_000.0).say)
    The acre meter reads 10.1 ac for 9.88 ac: multiply its readings by 0.976.
    """
    require_positive("known", nominal(known), "m²")
    require_positive("shown", shown, "m²")
    factor = known / shown
    value = nominal(factor)
    if not 1 / MOST_OFF <= value <= MOST_OFF:
        need = say("check both areas: they differ by more than an acre meter can be off")
        raise MeasurementError("shown", shown, need)
    u = standard_uncertainty(factor) or MAP_LIMITS / sqrt(3) * value
    text = "The acre meter reads {shown} for {known}: multiply its readings by {factor}."
    return AreaMeter(
        factor=uncertain(value, u, "area"),
        known=True,
        say=say(text, shown=FIELD(shown), known=FIELD(nominal(known)), factor=NUMBER(value)),
    )


MOST_OFF = 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class SownGround:
    """Ground that got seed, each part of it once [m²], and the overlap planned on it [-]."""

    area: Quantity
    overlap: Quantity = 0.0
    assumed: tuple[Phrase, ...] = ()
    working: tuple[Line, ...] = ()

    @property
    def range(self) -> Estimate:
        """With its 95% range. [m²]"""
        return ranged(self.area)

    def driven(self, *, shown: float) -> Quantity:
        """Return the ground that the drill went over, overlap twice. [m²]

        area × (1 + overlap), the overlap no more than shown ÷ area − 1

        Parameters
        ----------
        shown : float
            What the area meter showed for it, 0 where it was not read. [m²]

        Examples
        --------
        >>> ground = SownGround(area=100_000.0, overlap=0.04)
        >>> [f"{ground.driven(shown=shown):.0f}" for shown in (0, 100_000, 103_000, 110_000)]
        ['104000', '100000', '103000', '104000']
        """
        seen = max(0.0, shown / nominal(self.area) - 1) if shown else nominal(self.overlap)
        return self.area * (1 + min(self.overlap, seen, key=nominal))


def by_passes(passes: float, *, length: Quantity, width: Quantity, lap: float = 0.0) -> SownGround:
    """Ground of some passes side by side, each ground counted once.

    area = passes × length × (width − lap)

    Parameters
    ----------
    passes : float
        Passes driven; half a one may be. [-]
    length : Quantity
        Of one pass. [m]
    width : Quantity
        Of the drill. [m]
    lap : float
        How far a pass reaches over the one before it, below zero for a gap. [m]

    Raises
    ------
    MeasurementError
        For values not above zero, or a lap of the whole width.

    References
    ----------
    Scatter of the gap between passes, 1.23 in: Wiebe (1935), Journal of
    Agricultural Research 50, as collected in agridat. It averages out over
    the passes; ± 1% that does not is our judgement.

    Examples
    --------
    >>> print(f"{nominal(by_passes(20, length=400.0, width=4.5).area):.0f} m²")
    36000 m²
    """
    require_positive("passes", passes)
    require_positive("length", nominal(length), "m")
    require_positive("width", nominal(width), "m")
    if not -nominal(width) < lap < nominal(width):
        raise MeasurementError("lap", lap, say("enter less than the drill's width"))
    scatter = uncertain(0.0, GAP_SCATTER / sqrt(passes), "pass-to-pass guidance")
    across = (width - lap + scatter) * give_or_take(1.0, OVERLAP_LIMITS, "overlap")
    area = passes * length * across
    shown = nominal(across)
    line = Line(
        say("Area: passes × length × width between passes"),
        FIELD(nominal(area)),
        NUMBER(passes) * LENGTH(nominal(length)) * LENGTH(shown),
    )
    limits = SHARE(OVERLAP_LIMITS)
    text = "overlap is even across the field to ± {limits} of the width"
    return SownGround(area=area, assumed=(say(text, limits=limits),), working=(line,))


def by_map(area: Quantity, *, overlap: Quantity = 0.0) -> SownGround:
    """Take the ground of a whole field from its map.

    Parameters
    ----------
    area : Quantity
        Of the field; known to ± 0.5% where nothing is said. [m²]
    overlap : Quantity
        Planned to be sown twice, as a share of the field. [-]

    Raises
    ------
    MeasurementError
        For an area not above zero or an overlap outside 0 to 1.
    """
    require_positive("area", nominal(area), "m²")
    require_share("overlap", nominal(overlap))
    said: tuple[Phrase, ...] = ()
    if not standard_uncertainty(area):
        area = give_or_take(nominal(area), MAP_LIMITS * nominal(area), "map")
        said = (say("the map is good to ± {limits}", limits=SHARE(MAP_LIMITS)),)
    return SownGround(area=area, overlap=overlap, assumed=said)
