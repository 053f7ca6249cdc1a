"""Loads of a box: how many, how much goes in, and where in the field each runs out."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, floor
from typing import Annotated

from ..boxes.filled import FilledBox
from ..quantities.errors import MeasurementError, Of, Path, require_positive
from ..quantities.phrases import Phrase, say
from ..quantities.units import FIELD, LENGTH, LOAD, RATE
from ..quantities.working import Line
from ..quantities.written import put
from ..statistics.budget import Estimate, Quantity, nominal, ranged, uncertain
from .need import OrderJob

MOST_LOADS = 1000
ROUNDING = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class PassPlace:
    """A place in the field: the pass, from 1, and how far along it. [m]"""

    number: int
    along: Annotated[float, LENGTH]


@dataclass(frozen=True, slots=True, kw_only=True)
class Passes:
    """How the field is driven: one pass beside the other.

    Parameters
    ----------
    width : float
        Ground covered across in one pass. [m]
    length : float
        Length of a pass. [m]

    Raises
    ------
    MeasurementError
        For a width or a length that is not above zero.
    """

    width: float
    length: float

    def __post_init__(self) -> None:
        require_positive("width", self.width, "m")
        require_positive("length", self.length, "m")

    def place(self, ground: float) -> PassPlace:
        """Find where the drill stands after sowing some ground.

        Examples
        --------
        >>> Passes(width=5.0, length=400.0).place(9000.0)
        PassPlace(number=5, along=200.0)
        """
        distance = ground / self.width
        whole = floor(distance / self.length + ROUNDING)
        return PassPlace(number=whole + 1, along=max(0.0, distance - whole * self.length))


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedLoad:
    """One load of a box.

    ``weight`` is what is tipped in [kg]; ``end`` is the ground sown, overlap
    counted twice, when it runs out, and ``field`` the part of the field done
    by then [m²]; ``place`` is where that is. The last load ends with the field.
    """

    KEYS = (
        *("number", "weight", put("ends", "end"), put("field_done", "field")),
        *(put("pass", "place", "number"), put("along", "place", "along"), "say"),
    )

    number: int
    weight: Annotated[float, LOAD]
    end: Annotated[Estimate, FIELD]
    field: Annotated[Estimate, FIELD]
    place: PassPlace | None
    say: Phrase


@dataclass(frozen=True, slots=True, kw_only=True)
class Loads:
    """All loads of one box; ``per_load`` is the ground that a whole one sows. [m²]"""

    KEYS = ("box", "per_load", "weight", "loads", "say")

    box: str
    loads: tuple[PlannedLoad, ...]
    per_load: Annotated[Estimate, FIELD]
    say: Phrase
    working: tuple[Line, ...]

    @property
    def weight(self) -> Annotated[float, LOAD]:
        """All that is tipped in. [kg]"""
        whole = 0.0
        for load in self.loads:
            whole = whole + load.weight
        return whole


def box_loads(
    filled: FilledBox, job: OrderJob, *, passes: Passes | None = None, full: float = 1.0
) -> Loads:
    """Work out the loads of a box.

    ground per load = (full × volume × test weight − what stays in) ÷ rate

    Parameters
    ----------
    passes : Passes, optional
        To say where each load runs out.
    full : float
        How full the box is filled; less for seed that sorts. [-]

    Raises
    ------
    MeasurementError
        For an empty box, an unknown test weight, a box filled no higher than
        what must stay in it, or loads without number.

    Notes
    -----
    The first load also brings what stays in the box at the end; the last is
    only what the rest of the field takes. Seed of catches is not in them.
    """
    usable, heel = _usable(filled, job, full=full), nominal(job.heel(filled))
    ground = nominal(job.ground)
    count = ceil(ground * filled.rate / nominal(usable) - ROUNDING)
    if count > MOST_LOADS:
        need = say("check the volume and the rate: that comes to {n} loads", n=count)
        raise MeasurementError(
            Path("volume", Of(filled.box.name)), nominal(filled.box.volume), need
        )
    really = uncertain(1.0, job.rate_spread, f"rate of {filled.box.name}")
    per_load = usable / (filled.rate * really)
    loads = []
    for number in range(1, count + 1):
        whole = number * per_load if number < count else job.ground
        sown = nominal(whole) - (number - 1) * nominal(per_load)
        weight = sown * filled.rate + (heel if number == 1 else 0.0)
        loads.append(_load(number, weight, ranged(whole), job=job, passes=passes))
    per_fill = ranged(per_load)
    return Loads(
        box=filled.box.name,
        loads=tuple(loads),
        per_load=per_fill,
        say=_headline(filled.box.name, loads, first=_in_field(per_fill, job)),
        working=_working(filled, heel=heel, usable=nominal(usable)),
    )


def _usable(filled: FilledBox, job: OrderJob, *, full: float) -> Quantity:
    name = filled.box.name
    if not filled.portions:
        raise MeasurementError("box", name, say("choose a box with seed in it"))
    if filled.packed is None:
        need = filled.missing or say("weigh a full measure of the mix")
        raise MeasurementError(Path("test_weight", Of(name)), None, need)
    if not 0 < full <= 1:
        raise MeasurementError("full", full, say("enter a share above 0%, up to 100%"))
    usable = filled.packed.test_weight * filled.box.volume * full - job.heel(filled)
    if not nominal(usable) > 0:
        need = say("fill {box} above the level that has to stay in it", box=name)
        raise MeasurementError("full", full, need)
    return usable


def _load(
    number: int, weight: float, end: Estimate, *, job: OrderJob, passes: Passes | None
) -> PlannedLoad:
    place = None if passes is None else passes.place(end.value)
    field = _in_field(end, job)
    return PlannedLoad(
        number=number,
        weight=weight,
        end=end,
        field=field,
        place=place,
        say=_load_words(number, weight, field.value, place=place),
    )


def _in_field(sown: Estimate, job: OrderJob) -> Estimate:
    """Part of the field that is done where so much ground was sown, overlap counted twice."""
    return sown.over(1 + nominal(job.overlap))


def _load_words(number: int, weight: float, field: float, *, place: PassPlace | None) -> Phrase:
    tipped, done = LOAD(weight), FIELD(field)
    if place is None:
        return say("load {n}: {weight}, runs out at {done}", n=number, weight=tipped, done=done)
    return say(
        "load {n}: {weight}, runs out at {done}: pass {number}, {along} in",
        n=number,
        weight=tipped,
        done=done,
        number=place.number,
        along=LENGTH(place.along),
    )


def _headline(box: str, loads: Sequence[PlannedLoad], *, first: Estimate) -> Phrase:
    if len(loads) == 1:
        return say("{box}: one load, {weight}.", box=box, weight=LOAD(loads[0].weight))
    text = "{box}: {n} loads, the last one {last}; start checking the box at {low}."
    return say(text, box=box, n=len(loads), last=LOAD(loads[-1].weight), low=FIELD(first.low))


def _working(filled: FilledBox, *, heel: float, usable: float) -> tuple[Line, ...]:
    holds = usable + heel
    return (
        Line(
            say(
                "What a load seeds: amount filled into {box} − what stays in it",
                box=filled.box.name,
            ),
            LOAD(usable),
            LOAD(holds) - LOAD(heel),
        ),
        Line(
            say("Area for that: ÷ rate"),
            FIELD(usable / filled.rate),
            LOAD(usable) / RATE(filled.rate),
        ),
    )
