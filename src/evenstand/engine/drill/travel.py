"""Ground behind a catch: wheel turns, crank turns, a measured run, an area.

Slip enters once. A rolled distance has it inside, because the wheel was
rolled over that ground; a taped circumference has not, and each turn then
covers circumference ÷ (1 − slip).
"""

from dataclasses import dataclass
from math import sqrt

from ..quantities.errors import require_positive, require_share
from ..quantities.phrases import Phrase, say
from ..quantities.units import FIELD as FIELD_AREA
from ..quantities.units import LENGTH, NUMBER, SHARE, SPACING, TURNS
from ..quantities.working import Line
from ..statistics.budget import Quantity, give_or_take, nominal, standard_uncertainty, uncertain
from .drill import Drill

# Judgements where nothing was measured, as limits (±) that the error keeps to.
ROLLED_LIMITS = 0.01  # share of a rolled distance
TAPED_LIMITS = 0.005  # share of a taped circumference
FLATTENING_LIMITS = 0.01  # rolled against taped, tyre under load
TURN_LIMITS = 0.05  # turns, at the start mark and at the end mark each


@dataclass(frozen=True, slots=True, kw_only=True)
class Wheel:
    """The drive wheel: ground or tyre for one turn, and slip if not inside it.

    Make one with `rolled` or `taped`.
    """

    per_turn: Quantity
    slip: Quantity = 0.0
    taped: bool = False
    assumed: tuple[Phrase, ...] = ()

    @property
    def ground(self) -> Quantity:
        """Ground covered by one turn in the field. [m/turn]"""
        return self.per_turn / (1 - self.slip)


def rolled(distance: Quantity) -> Wheel:
    """Take a wheel whose rolled distance was measured, slip inside it.

    Parameters
    ----------
    distance : Quantity
        Ground covered per turn, loaded, on that seedbed. Without an
        uncertainty it is taken to be known to ± 1%. [m/turn]

    Raises
    ------
    MeasurementError
        For a distance that is not above zero.
    """
    require_positive("rolled", nominal(distance), "m/turn")
    if standard_uncertainty(distance):
        return Wheel(per_turn=distance)
    value = nominal(distance)
    return Wheel(
        per_turn=give_or_take(value, ROLLED_LIMITS * value, "rolled distance"),
        assumed=(say("rolled distance good to ± {limits}", limits=SHARE(ROLLED_LIMITS)),),
    )


def taped(circumference: Quantity, *, slip: Quantity) -> Wheel:
    """Take a wheel whose circumference was taped, slip apart.

    Parameters
    ----------
    circumference : Quantity
        Once round the tyre. Without an uncertainty it is taken to be known
        to ± 0.5%. The loaded tyre is taken to roll within ± 1% of it. [m/turn]
    slip : Quantity
        Share of the turns that the wheel skids away. [-]

    Raises
    ------
    MeasurementError
        For a circumference that is not above zero or a slip outside 0 to 1.

    Notes
    -----
    Slip = (turns without slip − turns counted) ÷ turns without slip.
    """
    require_positive("taped", nominal(circumference), "m/turn")
    require_share("slip", nominal(slip))
    assumed = [say("tire rolls within ± {limits} of the tape", limits=SHARE(FLATTENING_LIMITS))]
    per_turn, value = circumference, nominal(circumference)
    if not standard_uncertainty(circumference):
        per_turn = give_or_take(value, TAPED_LIMITS * value, "taped circumference")
        assumed.append(say("tape good to ± {limits}", limits=SHARE(TAPED_LIMITS)))
    flattening = give_or_take(1.0, FLATTENING_LIMITS, "tire under load")
    return Wheel(per_turn=per_turn * flattening, slip=slip, taped=True, assumed=tuple(assumed))


def slip_from_turns(*, counted: float, without_slip: float) -> float:
    """Slip from a course that needs fewer turns in work than without slip.

    slip = (turns without slip − turns counted) ÷ turns without slip

    Parameters
    ----------
    counted, without_slip : float
        Turns over the same course. [turn]

    Raises
    ------
    MeasurementError
        For turns that are not above zero.
    """
    require_positive("counted", counted, "turns")
    require_positive("without_slip", without_slip, "turns")
    return (without_slip - counted) / without_slip


def count_turns(turns: Quantity) -> Quantity:
    """Give a turn count the error of its two marks, where it has none.

    u = √(2/3) × 0.05 turn: start and end are each read to ± 1/20 turn.
    """
    require_positive("turns", nominal(turns), "turns")
    if standard_uncertainty(turns):
        return turns
    return uncertain(nominal(turns), sqrt(2 / 3) * TURN_LIMITS, "turn count")


def wheel_turns(crank_turns: Quantity, *, crank_per_wheel: float) -> Quantity:
    """Turn a crank count into turns of the drive wheel.

    wheel turns = crank turns ÷ crank turns per wheel turn

    Raises
    ------
    MeasurementError
        For counts that are not above zero.
    """
    require_positive("crank_turns", nominal(crank_turns), "turns")
    require_positive("crank_per_wheel", crank_per_wheel, "crank turns per wheel turn")
    return crank_turns / crank_per_wheel


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """Ground a catch stands for, before slip, and the slip still to count.

    Make one with `turned`, `driven` or `sown`. ``in_field`` is set where the
    seed was dropped or caught in work, so that nothing stands between this
    rate and the field's. ``turns`` were counted, of the crank where it was
    turned by one.
    """

    distance: Quantity
    slip: Quantity = 0.0
    in_field: bool = False
    turns: float | None = None
    by_crank: bool = False
    working: tuple[Line, ...] = ()
    assumed: tuple[Phrase, ...] = ()


def turned(wheel: Wheel, turns: Quantity, *, crank_per_wheel: float | None = None) -> Run:
    """Wheel turned at the stand, by hand or by a crank: distance = turns × per turn. [m]

    Parameters
    ----------
    turns : Quantity
        As counted: of the crank where there is one.
    crank_per_wheel : float, optional
        Turns of the crank for one of the wheel. [-]
    """
    counted, lines = count_turns(turns), []
    if crank_per_wheel is not None:
        counted = wheel_turns(counted, crank_per_wheel=crank_per_wheel)
    if crank_per_wheel not in (None, 1.0):
        lines.append(_cranked(nominal(turns), crank_per_wheel))
    distance = counted * wheel.per_turn
    each = SPACING(nominal(wheel.per_turn), 5)
    line = Line(
        say("Distance: turns × taped distance, slip not yet included")
        if wheel.taped
        else say("Distance: turns × rolled distance"),
        LENGTH(nominal(distance), 5),
        TURNS(nominal(counted), 5) * each,
    )
    return Run(
        distance=distance,
        slip=wheel.slip,
        turns=nominal(turns),
        by_crank=crank_per_wheel is not None,
        working=(*lines, line),
        assumed=wheel.assumed,
    )


def _cranked(turns: float, per_wheel: float) -> Line:
    return Line(
        say("Wheel turns: crank turns ÷ crank turns per wheel turn"),
        TURNS(turns / per_wheel, 5),
        TURNS(turns, 5) / NUMBER(per_wheel, 5),
    )


def driven(distance: Quantity) -> Run:
    """Seed caught while the drill was pulled over a measured course. [m]

    Without an uncertainty the course is taken to be known to ± 0.5%.
    """
    require_positive("distance", nominal(distance), "m")
    assumed: tuple[Phrase, ...] = ()
    if not standard_uncertainty(distance):
        value = nominal(distance)
        distance = give_or_take(value, TAPED_LIMITS * value, "measured distance")
        assumed = (say("measured distance good to ± {limits}", limits=SHARE(TAPED_LIMITS)),)
    line = Line(say("Distance pulled: slip already included"), LENGTH(nominal(distance), 5))
    return Run(distance=distance, in_field=True, working=(line,), assumed=assumed)


def sown(area: Quantity, drill: Drill) -> Run:
    """Seed weighed back after a known area: distance = area ÷ width. [m]

    Raises
    ------
    MeasurementError
        For an area that is not above zero.
    """
    require_positive("area", nominal(area), "m²")
    distance = area / drill.width
    line = Line(
        say("Distance to cover the area"),
        LENGTH(nominal(distance), 5),
        FIELD_AREA(nominal(area), 5) / LENGTH(nominal(drill.width), 5),
    )
    return Run(distance=distance, in_field=True, working=(line,))
