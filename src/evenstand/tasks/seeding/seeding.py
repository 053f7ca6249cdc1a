"""Sow: each box along the acres, and the field when it is done."""

from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, replace
from math import inf
from typing import Annotated

from evenstand.engine.catch.target import Target
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.quantities.units import FIELD
from evenstand.engine.quantities.working import Line
from evenstand.engine.quantities.written import AS_TEXT, inside, put
from evenstand.engine.seeding.closing import Closed, close_field
from evenstand.engine.seeding.field_area import by_map
from evenstand.engine.seeding.seeding import LeverAt, Sowing, sowing
from evenstand.engine.seeding.steps import Known
from evenstand.engine.statistics.budget import Quantity, nominal, standard_uncertainty

from ..calibration.setting import Setting
from ..drill.machines import quantity
from ..job.calibration import target as target_of
from ..job.tables import KEYS, InTables
from ..parsing.given import Written
from .events import BoxKnown, read_box, read_events
from .ground import area_meter, overlap, rest_of_field
from .meter import Meter, read_meter
from .said import BoxSaid, Happened, SowSaid


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
        *inside(("found",), "run_out", "lever", "awaited", "before"),
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
        left = [found.run_out.say] if found.run_out and found.run_out.say != found.next else []
        before = [found.before.say] if found.before else []
        cures = [found.cure] if found.cure and not found.awaited else []
        return (found.next, found.say, *before, *left, *cures)


@dataclass(frozen=True, kw_only=True)
class SownField:
    """All boxes of a field."""

    KEYS = ("boxes",)

    boxes: tuple[SownBox, ...]


def read_sow(said: SowSaid, *, sets: Mapping[str, Setting] | None = None) -> SownField:
    """Follow every box over the field.

    Parameters
    ----------
    sets : mapping of str, optional
        What Set found for a box, where it is not worked out from ``said``.

    Raises
    ------
    MeasurementError
        Naming the field as ``[sow] key`` or ``[[loads]] 2 key``.
    """
    known = sets or {}
    return SownField(
        boxes=tuple(_box(said, box, set_=known.get(box.wanted.box)) for box in said.boxes)
    )


def _box(said: SowSaid, told: BoxSaid, *, set_: Setting | None) -> SownBox:
    target, box = _target(told), read_box(told)
    job = set_.job if set_ else said.job
    meter = read_meter(told, job, set_) if job else None
    events, place = read_events(told.events, box, meter=meter)
    known = _known(said, told, target=target, box=box, meter=meter)
    rest = rest_of_field(said, told)
    levels, holds = box.box if box.holds else None, box.holds or inf
    lever = None
    if meter is not None and place is not None:
        lever = LeverAt(curve=meter.curve, setting=place.setting, gear=place.gear)
    with _named(told):
        found = sowing(events, known, box=levels, holds=holds, rest=rest, lever=lever)
        closed = None
        if told.done:
            plain, _ = read_events(told.events, box, meter=None)
            unpromised = replace(known, expected=None)
            closed = _closed(said, told, sowing(plain, unpromised, box=levels, holds=holds))
    return SownBox(name=told.wanted.box, target=target, found=found, closed=closed)


def _target(told: BoxSaid) -> Target:
    with told.aim.pointing(target="rate"):
        return target_of(told.wanted)


def _known(
    said: SowSaid, told: BoxSaid, *, target: Target, box: BoxKnown, meter: Meter | None
) -> Known:
    promised: Quantity | None = meter.promised if meter else None
    if told.promised:
        promised = quantity(told.promised, "calibration")
        if not standard_uncertainty(promised):
            text = "enter its ± too, such as {example}"
            raise told.given.refuse("promised", say(text, example="60 ± 2 lb/ac"))
    return Known(
        target=target,
        expected=promised,
        meter=area_meter(said, told),
        test_weight_error=box.error,
    )


def _closed(said: SowSaid, told: BoxSaid, found: Sowing) -> Closed:
    if said.area is None:
        raise said.of_field.refuse("area", say("this is missing; enter it"))
    static = quantity(told.static, "stationary rate") if told.static else None
    ground = by_map(quantity(said.area, "map"), overlap=overlap(said))
    return close_field(found.balance, ground, static=static)


@contextmanager
def _named(told: BoxSaid) -> Iterator[None]:
    """Let what the engine refuses be named where it stands."""
    try:
        yield
    except MeasurementError as refused:
        if isinstance(refused.path, Written):
            raise
        if refused.field in KEYS["sow"]:
            raise told.given.refuse(refused.field, refused.need) from None
        raise _placed(refused, told.events) from None


def _placed(refused: MeasurementError, happened: Sequence[Happened]) -> MeasurementError:
    """Name the load whose area or weight was refused, else all loads."""
    for each in happened:
        for key, typed in (("at", each.load.at), ("left", each.load.left)):
            if typed and typed.value == refused.given:
                return each.given.refuse(key, refused.need)
    return MeasurementError(InTables("loads"), None, refused.need)
