"""Ground of a field that is sown, from a job file: its meter, its passes, its map."""

from collections.abc import Mapping
from math import inf
from typing import Any

from evenstand.engine.order.loads import Passes
from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import FIELD, LENGTH, LOAD, NUMBER, SPACING
from evenstand.engine.seeding.field_area import (
    AreaMeter,
    SownGround,
    by_passes,
    checked_meter,
    unchecked_meter,
)
from evenstand.engine.seeding.seeding import Rest
from evenstand.engine.statistics.budget import Quantity, nominal

from ..job.file import read_drill
from ..job.tables import one
from ..parsing.given import Given


def area_meter(file: Mapping[str, Any], given: Given) -> AreaMeter:
    """Read what the drill's area meter is known for: ``shown`` against ``known`` or ``passes``."""
    if all(key not in given for key in ("known", "shown", "passes")):
        return unchecked_meter()
    key = "passes" if "passes" in given else "known"
    known = _passed(file, given).area if key == "passes" else given.quantity(key, FIELD, tag="area")
    with given.pointing(known=key):
        return checked_meter(known, shown=given.exact("shown", FIELD))


def _passed(file: Mapping[str, Any], given: Given) -> SownGround:
    if "known" in given:
        raise given.refuse("passes", say("enter the area or the passes, only one of them"))
    with given.pointing(length="pass_length"):
        return by_passes(
            given.exact("passes", NUMBER),
            length=given.quantity("pass_length", LENGTH, tag="area"),
            width=read_drill(file).width,
            lap=given.exact("lap", SPACING, zero=True) if "lap" in given else 0.0,
        )


def rest_of_field(file: Mapping[str, Any], given: Given) -> Rest | None:
    """Read what is still to sow, without end where the area of the field is not known."""
    field = one(file, "field").given
    if "area" not in field:
        heel = given.exact("heel", LOAD, zero=True) if "heel" in given else 0.0
        return Rest(ground=inf, heel=heel) if heel else None
    return Rest(
        ground=field.exact("area", FIELD) * (1 + nominal(overlap(file))),
        at_edge=given.exact("at_edge", LOAD, zero=True) if "at_edge" in given else None,
        heel=given.exact("heel", LOAD, zero=True) if "heel" in given else 0.0,
        passes=_passes(file, field),
    )


def overlap(file: Mapping[str, Any]) -> Quantity:
    """Read how much of the field is sown twice. [-]"""
    given = one(file, "order").given
    return given.share("overlap", tag="overlap") if "overlap" in given else 0.0


def _passes(file: Mapping[str, Any], field: Given) -> Passes | None:
    if "pass_length" not in field or "rows" not in one(file, "drill").given:
        return None
    width = nominal(read_drill(file).width)
    return Passes(width=width, length=field.exact("pass_length", LENGTH))
