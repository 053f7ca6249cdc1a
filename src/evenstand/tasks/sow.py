"""Sow from a job file: each box along the acres, and the field when it is done."""

from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from functools import partial
from math import inf
from typing import Any

from evenstand.engine.budget import Quantity, nominal, standard_uncertainty, uncertain
from evenstand.engine.chart import Curve
from evenstand.engine.closing import Closed, close_field
from evenstand.engine.drill import Gear
from evenstand.engine.errors import MeasurementError
from evenstand.engine.field_area import AreaMeter, by_map, checked_meter, unchecked_meter
from evenstand.engine.lever import lever_factor
from evenstand.engine.loads import Passes
from evenstand.engine.sow import LeverAt, Rest, Sowing, sowing
from evenstand.engine.sow_steps import Known
from evenstand.engine.target import Target
from evenstand.engine.units import FIELD, LENGTH, LOAD, RATE
from evenstand.engine.words import Phrase, say

from . import reading
from .file_tables import KEYS, many, one
from .given import Given
from .job_file import read_drill, read_job
from .setting import Setting, where_next
from .sown_events import BoxKnown, read_box, read_events
from .tag import zero_or_more


@dataclass(frozen=True, kw_only=True)
class SownBox:
    """One box: what it sows, and the whole field once it is done."""

    name: str
    target: Target
    found: Sowing
    closed: Closed | None

    @property
    def advice(self) -> tuple[Phrase, ...]:
        """Sentences, the one next thing first."""
        if self.closed is not None:
            cure = () if self.closed.cure is None else (self.closed.cure,)
            return (self.closed.say, *cure)
        found = self.found
        left = found.run_out
        more = () if left is None or left.say == found.next else (left.say,)
        cure = () if found.cure is None else (found.cure,)
        return (found.next, found.say, *more, *cure)


@dataclass(frozen=True, kw_only=True)
class SownField:
    """All boxes of a field."""

    boxes: tuple[SownBox, ...]


def read_sow(file: Mapping[str, Any]) -> SownField:
    """Follow every box of a job file over the field.

    Raises
    ------
    MeasurementError
        Naming the field as ``[sow] key`` or ``[[loads]] 2 key``.
    """
    tables = [table.given for table in many(file, "sow")]
    if not tables:
        raise MeasurementError("[sow]", None, say("it is missing: give the table [sow]"))
    names = [given.text("box") if "box" in given else "" for given in tables]
    if len(set(names)) < len(names):
        raise tables[-1].refuse("box", say("give each box a name of its own"))
    return SownField(
        boxes=tuple(
            _box(file, given, name=name, alone=len(tables) == 1)
            for given, name in zip(tables, names, strict=True)
        )
    )


def _box(file: Mapping[str, Any], given: Given, *, name: str, alone: bool) -> SownBox:
    target = _target(file, given)
    box = read_box(given, name=name or "box")
    meter = _meter(file, given) if "setting" in given else None
    loads = _loads(file, name=name, alone=alone)
    events, setting = read_events(
        loads,
        box,
        setting=meter.setting if meter else None,
        factor=partial(_factor, meter) if meter else None,
    )
    known = _known(given, target, box, meter=meter)
    rest = _rest(file, given)
    lever = None
    if meter is not None and setting is not None:
        lever = LeverAt(curve=meter.curve, setting=setting, gear=meter.gear)
    with _named(given, loads):
        found = sowing(
            events,
            known,
            box=box.box if box.holds else None,
            holds=box.holds or inf,
            rest=rest,
            lever=lever,
        )
        closed = _closed(file, given, found) if "done" in given and given.yes("done") else None
    return SownBox(name=name, target=target, found=found, closed=closed)


def _target(file: Mapping[str, Any], given: Given) -> Target:
    wanted = given if "rate" in given else one(file, "target").given
    return reading.target(wanted, "rate", test_weight=None)


def _loads(file: Mapping[str, Any], *, name: str, alone: bool) -> list[Given]:
    """Tables of one box; with one box alone they need not name it."""
    tables = [table.given for table in many(file, "loads")]
    if not tables:
        need = say("it is missing: give each load and each level a [[loads]] of its own")
        raise MeasurementError("[[loads]]", None, need)
    if alone and not name:
        return tables
    names = [g.text("box") for g in (table.given for table in many(file, "sow")) if "box" in g]
    for given in tables:
        if given.text("box") not in names:
            raise given.refuse("box", say("give one of {names}", names=", ".join(names)))
    return [given for given in tables if given.text("box") == name]


@dataclass(frozen=True)
class _Meter:
    """The lever's place at the start, and what Set learned of the meter."""

    setting: float
    gear: Gear
    set: Setting

    @property
    def curve(self) -> Curve:
        """The curve after all catches."""
        return self.set.choice.curve

    @property
    def promised(self) -> Quantity | None:
        """Field rate that Set gives that notch; None where it did not look at it. [kg/m²]"""
        if self.set.job.target.on != "field":
            return None
        for notch in self.set.choice.candidates:
            if (notch.setting, notch.gear) == (self.setting, self.gear):
                return uncertain(notch.rate.value, notch.rate.u, "calibration")
        return None


def _meter(file: Mapping[str, Any], given: Given) -> _Meter:
    job = read_job(file)
    with given.pointing():
        gear = job.drill.gear(given.text("gear") if "gear" in given else None)
        setting = given.number("setting")
        found = where_next(job)
        found.choice.curve.scale.check(setting)
    return _Meter(setting, gear, found)


def _factor(meter: _Meter, old: float, new: float) -> Quantity:
    return lever_factor(meter.curve, old, new, gear=meter.gear)


def _known(given: Given, target: Target, box: BoxKnown, *, meter: _Meter | None) -> Known:
    promised: Quantity | None = meter.promised if meter else None
    if "promised" in given:
        promised = given.quantity("promised", RATE, tag="calibration")
        if not standard_uncertainty(promised):
            text = "write how sure it is too, as {example}"
            raise given.refuse("promised", say(text, example="60 ± 2 lb/ac"))
    return Known(
        target=target,
        expected=promised,
        meter=_area_meter(given),
        test_weight_error=box.error,
    )


def _area_meter(given: Given) -> AreaMeter:
    if "known" not in given and "shown" not in given:
        return unchecked_meter()
    known = given.quantity("known", FIELD, tag="area")
    with given.pointing():
        return checked_meter(known, shown=given.exact("shown", FIELD))


def _rest(file: Mapping[str, Any], given: Given) -> Rest | None:
    field = one(file, "field").given
    if "area" not in field:
        return None
    return Rest(
        ground=field.exact("area", FIELD) * (1 + nominal(_overlap(file))),
        at_edge=zero_or_more(given, "at_edge", LOAD) if "at_edge" in given else 0.0,
        heel=zero_or_more(given, "heel", LOAD) if "heel" in given else 0.0,
        passes=_passes(file, field),
    )


def _overlap(file: Mapping[str, Any]) -> Quantity:
    given = one(file, "order").given
    return given.share("overlap", tag="overlap") if "overlap" in given else 0.0


def _passes(file: Mapping[str, Any], field: Given) -> Passes | None:
    if "pass_length" not in field or "rows" not in one(file, "drill").given:
        return None
    width = nominal(read_drill(file).width)
    return Passes(width=width, length=field.exact("pass_length", LENGTH))


def _closed(file: Mapping[str, Any], given: Given, found: Sowing) -> Closed:
    area = one(file, "field").given.quantity("area", FIELD, tag="map")
    static = given.quantity("static", RATE, tag="static rate") if "static" in given else None
    return close_field(found.balance, by_map(area, overlap=_overlap(file)), static=static)


@contextmanager
def _named(given: Given, loads: Sequence[Given]) -> Iterator[None]:
    """Let what the engine refuses be named as it stands in the file."""
    try:
        yield
    except MeasurementError as refused:
        if refused.field.startswith("["):
            raise
        if refused.field in KEYS["sow"]:
            raise given.refuse(refused.field, refused.need) from None
        raise _placed(refused, loads) from None


def _placed(refused: MeasurementError, loads: Sequence[Given]) -> MeasurementError:
    """Name the load whose area or weight was refused, else all loads."""
    kinds = {"at": FIELD, "left": LOAD}
    for given in loads:
        for key, kind in kinds.items():
            if key in given and given.reading(key, kind).value == refused.given:
                return given.refuse(key, refused.need)
    return MeasurementError("[[loads]]", None, refused.need)
