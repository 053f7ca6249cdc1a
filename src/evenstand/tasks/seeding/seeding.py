"""Sow from a job file: each box along the acres, and the field when it is done."""

from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, replace
from math import inf
from typing import Annotated, Any

from evenstand.engine.catch.target import Target
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.quantities.units import FIELD, LOAD, RATE
from evenstand.engine.quantities.working import Line
from evenstand.engine.quantities.written import AS_TEXT, inside, put
from evenstand.engine.seeding.closing import Closed, close_field
from evenstand.engine.seeding.field_area import by_map
from evenstand.engine.seeding.seeding import LeverAt, Sowing, sowing
from evenstand.engine.seeding.steps import Known
from evenstand.engine.statistics.budget import Quantity, nominal, standard_uncertainty

from ..calibration.setting import Setting
from ..job.tables import KEYS, InTables, many, one
from ..parsing import reading
from ..parsing.given import Given, Written
from .events import BoxKnown, read_box, read_events
from .ground import area_meter, overlap, rest_of_field
from .meter import Meter, read_meter


@dataclass(frozen=True, kw_only=True)
class SownBox:
    """One box: what it sows, and the whole field once it is done."""

    KEYS = (
        *(put("box", "name"), put("target", "target", "rate")),
        *(put("tolerance", "target", "tolerance"), "ground", put("rate", "found", "rate")),
        put("verdict", "found", "verdict", "word"),
        *inside(("found", "verdict"), "odds_within", "odds_light", "odds_heavy"),
        *(put("alarm", "found", "alarm"), put("budget", "found", "shares")),
        *inside(("found", "balance"), "points", "stretches"),
        *(put("change", "found", "turning"), put("until_empty", "found", "until")),
        *inside(("found",), "run_out", "lever"),
        *("closed", put("say", "advice"), put("warnings", "found", "warnings"), "working"),
        put("taken_as", "found", "assumed"),
    )

    name: str
    target: Target
    found: Sowing
    closed: Closed | None

    @property
    def ground(self) -> Annotated[float, FIELD]:
        """Ground sown so far. [m²]"""
        return nominal(self.found.balance.ground)

    @property
    def working(self) -> tuple[Line, ...]:
        """The arithmetic of the whole field once it is done, else of what it sows."""
        return (self.closed or self.found).working

    @property
    def advice(self) -> Annotated[tuple[Phrase, ...], AS_TEXT]:
        """Sentences, the one next thing first."""
        if self.closed is not None:
            cure = () if self.closed.cure is None else (self.closed.cure,)
            return (self.closed.next, self.closed.say, *cure)
        found = self.found
        left = found.run_out
        more = () if left is None or left.say == found.next else (left.say,)
        cure = () if found.cure is None else (found.cure,)
        return (found.next, found.say, *more, *cure)


@dataclass(frozen=True, kw_only=True)
class SownField:
    """All boxes of a field."""

    KEYS = ("boxes",)

    boxes: tuple[SownBox, ...]


def read_sow(file: Mapping[str, Any], *, sets: Mapping[str, Setting] | None = None) -> SownField:
    """Follow every box of a job file over the field.

    Parameters
    ----------
    file : mapping of str
        A job file as parsed.
    sets : mapping of str, optional
        What Set found for a box, where that is not in the file.

    Raises
    ------
    MeasurementError
        Naming the field as ``[sow] key`` or ``[[loads]] 2 key``.
    """
    tables = [table.given for table in many(file, "sow")]
    if not tables:
        raise MeasurementError(InTables("sow"), None, say("missing: add the table [sow]"))
    names = [given.text("box") if "box" in given else "" for given in tables]
    if len(set(names)) < len(names):
        raise tables[-1].refuse("box", say("use a different name for each box"))
    return SownField(
        boxes=tuple(
            _box(file, given, alone=len(tables) == 1, set_=(sets or {}).get(name))
            for given, name in zip(tables, names, strict=True)
        )
    )


def _box(file: Mapping[str, Any], given: Given, *, alone: bool, set_: Setting | None) -> SownBox:
    name = given.text("box") if "box" in given else ""
    target = _target(file, given)
    box = read_box(given, name=name or "box")
    meter = read_meter(file, given, set_) if "setting" in given else None
    loads = _loads(file, name=name, alone=alone)
    events, place = read_events(loads, box, meter=meter)
    known = _known(file, given, target=target, box=box, meter=meter)
    rest = rest_of_field(file, given)
    inside, holds = box.box if box.holds else None, box.holds or inf
    lever = None
    if meter is not None and place is not None:
        lever = LeverAt(curve=meter.curve, setting=place.setting, gear=place.gear)
    with _named(given, loads):
        found = sowing(events, known, box=inside, holds=holds, rest=rest, lever=lever)
        closed = None
        if given.yes("done"):
            plain, _ = read_events(loads, box, meter=None)
            unpromised = replace(known, expected=None)
            closed = _closed(file, given, sowing(plain, unpromised, box=inside, holds=holds))
    return SownBox(name=name, target=target, found=found, closed=closed)


def _target(file: Mapping[str, Any], given: Given) -> Target:
    wanted = given if "rate" in given else one(file, "target").given
    return reading.target(wanted, "rate", test_weight=None)


def _loads(file: Mapping[str, Any], *, name: str, alone: bool) -> list[Given]:
    """Tables of one box; with one box alone they need not name it."""
    tables = [table.given for table in many(file, "loads")]
    if not tables:
        need = say("missing: enter a [[loads]] table for each load and each level")
        raise MeasurementError(InTables("loads"), None, need)
    if alone and not name:
        return tables
    names = [g.text("box") for g in (table.given for table in many(file, "sow")) if "box" in g]
    for given in tables:
        if given.text("box") not in names:
            raise given.refuse("box", say("choose one of {names}", names=", ".join(names)))
    return [given for given in tables if given.text("box") == name]


def _known(
    file: Mapping[str, Any], given: Given, *, target: Target, box: BoxKnown, meter: Meter | None
) -> Known:
    promised: Quantity | None = meter.promised if meter else None
    if "promised" in given:
        promised = given.quantity("promised", RATE, tag="calibration")
        if not standard_uncertainty(promised):
            text = "enter its ± too, such as {example}"
            raise given.refuse("promised", say(text, example="60 ± 2 lb/ac"))
    return Known(
        target=target,
        expected=promised,
        meter=area_meter(file, given),
        test_weight_error=box.error,
    )


def _closed(file: Mapping[str, Any], given: Given, found: Sowing) -> Closed:
    area = one(file, "field").given.quantity("area", FIELD, tag="map")
    static = given.quantity("static", RATE, tag="stationary rate") if "static" in given else None
    return close_field(found.balance, by_map(area, overlap=overlap(file)), static=static)


@contextmanager
def _named(given: Given, loads: Sequence[Given]) -> Iterator[None]:
    """Let what the engine refuses be named as it stands in the file."""
    try:
        yield
    except MeasurementError as refused:
        if isinstance(refused.path, Written):
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
    return MeasurementError(InTables("loads"), None, refused.need)
