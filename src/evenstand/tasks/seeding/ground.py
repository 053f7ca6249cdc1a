"""Ground of a field that is sown: its meter, its passes, its map."""

from math import inf

from evenstand.book.kinds.sown import Ground
from evenstand.engine.order.loads import Passes
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import FIELD, LENGTH, NUMBER, SPACING
from evenstand.engine.seeding.field_area import (
    AreaMeter,
    SownGround,
    by_passes,
    checked_meter,
    unchecked_meter,
)
from evenstand.engine.seeding.seeding import Rest
from evenstand.engine.statistics.budget import Quantity, nominal

from ..drill.machines import quantity
from ..job.tables import InTables
from ..parsing.given import Given
from .said import BoxSaid, SowSaid


def area_meter(said: SowSaid, box: BoxSaid) -> AreaMeter:
    """Return what the drill's area meter is known for: by a known area, or by passes."""
    ground, given = box.ground, box.given
    if ground is None:
        return unchecked_meter()
    if ground.passes:
        known = _passed(said, ground, given).area
    elif ground.known:
        known = quantity(ground.known, "area")
    else:
        raise given.refuse("known", say("this is missing; enter it"))
    with given.pointing(known="passes" if ground.passes else "known"):
        return checked_meter(known, shown=given.plain("shown", ground.shown, FIELD))


def _passed(said: SowSaid, ground: Ground, given: Given) -> SownGround:
    passes, length = ground.passes, ground.length
    if ground.known:
        raise given.refuse("passes", say("enter the area or the passes, only one of them"))
    if said.drill is None:
        raise MeasurementError(InTables("drill", "rows"), None, say("this is missing; enter it"))
    if passes is None or length is None:
        raise given.refuse("pass_length", say("this is missing; enter it"))
    with given.pointing(length="pass_length"):
        return by_passes(
            given.plain("passes", passes, NUMBER),
            length=quantity(length, "area"),
            width=said.drill.width,
            lap=given.plain("lap", ground.lap, SPACING, zero=True) if ground.lap else 0.0,
        )


def rest_of_field(said: SowSaid, box: BoxSaid) -> Rest | None:
    """Return what is still to sow, without end where the area of the field is not known."""
    if said.area is None:
        return Rest(ground=inf, heel=box.heel) if box.heel else None
    return Rest(
        ground=said.of_field.plain("area", said.area, FIELD) * (1 + nominal(overlap(said))),
        at_edge=box.at_edge,
        heel=box.heel,
        passes=_passes(said),
    )


def overlap(said: SowSaid) -> Quantity:
    """Return how much of the field is sown twice. [-]"""
    if said.overlap is None:
        return 0.0
    if not said.overlap.value < 1:
        need = say("enter a share from 0% to less than 100%")
        raise MeasurementError(InTables("order", "overlap"), said.overlap.text, need)
    return quantity(said.overlap, "overlap")


def _passes(said: SowSaid) -> Passes | None:
    if said.pass_length is None or said.drill is None:
        return None
    length = said.of_field.plain("pass_length", said.pass_length, LENGTH)
    return Passes(width=nominal(said.drill.width), length=length)
