"""What is said of a field while it is sown, in the book or in a job file."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from evenstand.book.kinds.shape import Typed
from evenstand.book.kinds.sown import Ground, Load
from evenstand.book.kinds.work import Wanted
from evenstand.engine.drill.drill import Drill
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import FIELD, LENGTH, LOAD, RATE, SHARE, TEST_WEIGHT, VOLUME

from ..drill.machines import value_of
from ..job.calibration import Job
from ..job.file import read_drill, read_job
from ..job.tables import InTables, many, one
from ..parsing.given import Given
from ..parsing.structs import read
from ..parsing.writing import Writing

CHECKED = ("known", "shown", "passes")


@dataclass(frozen=True, kw_only=True)
class Happened:
    """What happened to a box at a place along the acre meter, and where its inputs stand.

    ``load`` is what was put in, or was in it; ``setting`` and ``gear`` are
    those that the lever was moved to. ``id`` is that of the entry it was made
    of, empty for one not kept yet.
    """

    given: Given = field(compare=False, repr=False)
    load: Load
    setting: float | None = None
    gear: str = ""
    id: str = field(default="", compare=False)


@dataclass(frozen=True, kw_only=True)
class BoxSaid:
    """A box that is sown from, and where its inputs stand.

    ``aim`` is where its target stands. ``setting`` and ``gear`` are those at
    the start; ``at_edge`` is seed that still waits, ``heel`` what must stay in
    the box [kg]; ``static`` what the catches promised [kg/m²].
    """

    given: Given = field(compare=False, repr=False)
    aim: Given = field(compare=False, repr=False)
    wanted: Wanted
    events: tuple[Happened, ...]
    volume: Typed | None = None
    promised: Typed | None = None
    setting: float | None = None
    gear: str = ""
    ground: Ground | None = None
    at_edge: float | None = None
    heel: float = 0.0
    static: Typed | None = None
    done: bool = False


@dataclass(frozen=True, kw_only=True)
class SowSaid:
    """A field that is sown: its boxes, its ground and its drill; ``job`` is what Set goes by."""

    boxes: tuple[BoxSaid, ...]
    area: Typed | None
    pass_length: Typed | None
    overlap: Typed | None
    drill: Drill | None = field(compare=False)
    job: Job | None = field(default=None, compare=False)
    of_field: Given = field(compare=False, repr=False)

    @property
    def events(self) -> tuple[Happened, ...]:
        """All that happened, box by box."""
        return tuple(event for box in self.boxes for event in box.events)


def sow_in(file: Mapping[str, Any]) -> SowSaid:
    """Read what a job file says of its sowing.

    Raises
    ------
    RefusalsError or MeasurementError
        Naming the field as ``[sow] key`` or ``[[loads]] 2 key``.
    """
    tables = [table.given for table in many(file, "sow")]
    if not tables:
        raise MeasurementError(InTables("sow"), None, say("missing: add the table [sow]"))
    names = [given.texts.get("box", "").strip() for given in tables]
    if len(set(names)) < len(names):
        raise tables[-1].refuse("box", say("use a different name for each box"))
    with Writing(one(file, "order").given) as order, Writing(one(file, "field").given) as of_field:
        area = of_field.amount("area", FIELD)
        length = of_field.amount("pass_length", LENGTH, exact=True)
        overlap = order.amount("overlap", SHARE, zero=True)
    wanted, loads = one(file, "target").given, _loads(file, names)
    return SowSaid(
        boxes=tuple(
            _box(given, given if "rate" in given else wanted, _of(loads, name, names))
            for given, name in zip(tables, names, strict=True)
        ),
        area=area,
        pass_length=length,
        overlap=overlap,
        drill=read_drill(file) if "rows" in one(file, "drill").given else None,
        job=read_job(file) if any("setting" in given for given in tables) else None,
        of_field=of_field.given,
    )


def _of(loads: Sequence[Happened], name: str, names: Sequence[str]) -> tuple[Happened, ...]:
    """Return what happened to one box; with one box alone it need not be named."""
    alone = list(names) == [""]
    return tuple(each for each in loads if alone or each.load.box == name)


def _loads(file: Mapping[str, Any], names: Sequence[str]) -> list[Happened]:
    found = []
    for given in (table.given for table in many(file, "loads")):
        if list(names) != [""] and given.text("box") not in names:
            raise given.refuse("box", say("choose one of {names}", names=", ".join(names)))
        with Writing(given) as form:
            load = read(form, Load, job="")
            setting = form.number("setting", otherwise=0.0) if "setting" in given else None
            found.append(Happened(given=given, load=load, setting=setting, gear=form.text("gear")))
    if not found:
        need = say("missing: enter a [[loads]] table for each load and each level")
        raise MeasurementError(InTables("loads"), None, need)
    return found


def _box(given: Given, target: Given, events: tuple[Happened, ...]) -> BoxSaid:
    checked = any(key in given for key in CHECKED)
    with Writing(given) as form:
        weight = form.amount("test_weight", TEST_WEIGHT)
        with Writing(target) as aim:
            wanted = read(aim, Wanted, box=form.text("box"), test_weight=weight)
        length = form.amount("pass_length", LENGTH)
        edge, heel = (form.amount(key, LOAD, zero=True, exact=True) for key in ("at_edge", "heel"))
        return BoxSaid(
            given=given,
            aim=target,
            wanted=wanted,
            events=events,
            volume=form.amount("volume", VOLUME),
            promised=form.amount("promised", RATE),
            setting=form.number("setting", otherwise=0.0) if "setting" in given else None,
            gear=form.text("gear"),
            ground=read(form, Ground, job="", length=length) if checked else None,
            at_edge=value_of(edge),
            heel=heel.value if heel else 0.0,
            static=form.amount("static", RATE),
            done="done" in given and given.yes("done"),
        )
