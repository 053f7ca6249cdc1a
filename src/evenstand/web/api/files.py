"""What the commands work out from a job file, through the API: its tables as JSON."""

from collections.abc import Mapping
from typing import Annotated, Any

from msgspec import Meta, Struct

from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import say
from evenstand.engine.seed.tag import Month
from evenstand.tasks.boxes.boxes import Boxed, boxed, fill
from evenstand.tasks.boxes.job import set_box
from evenstand.tasks.boxes.part import boxes_named
from evenstand.tasks.boxes.said import boxes_in
from evenstand.tasks.calibration.setting import Setting, where_next
from evenstand.tasks.job.file import read_job
from evenstand.tasks.job.tables import KEYS, MANY, check_tables, in_tables
from evenstand.tasks.mix.best import BestMix
from evenstand.tasks.mix.mix import Mixed, read_mix
from evenstand.tasks.mix.said import mix_in
from evenstand.tasks.order.order import Ordered, read_order
from evenstand.tasks.order.said import order_in
from evenstand.tasks.parsing.given import Given, Written
from evenstand.tasks.parsing.repeats import repeated

from ..site.solver import solved
from .answers import sent
from .operations import reckons
from .reckon import Many, Said, today
from .schemas import Schema

Tables = Annotated[dict[str, Any], Meta(description="The tables of a job file.")]


class JobAsked(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A job file, and the month in which the age of tests is judged."""

    job: Tables
    today: Said | None = None

    @property
    def month(self) -> Month:
        """The month given, or the one the clock says."""
        return today(Given({"today": self.today} if self.today else {}))


class BoxAsked(JobAsked, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A job file, and the box that is set."""

    box: Said | None = None


class BoxesAsked(JobAsked, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A job file, rates that its boxes reach, and catches that were separated."""

    achieved: Said | None = None
    samples: Many = ()


def setting() -> Setting:
    """Tell where the lever goes next."""
    asked = sent(BoxAsked)
    check_tables(asked.job)
    return _setting(asked)


def _setting(asked: BoxAsked) -> Setting:
    if asked.box is not None:
        return set_box(asked.job, Given({"box": asked.box}), today=asked.month)
    if names := boxes_named(asked.job):
        need = say("choose a box to calibrate: {names}", names=" or ".join(names))
        raise MeasurementError("box", None, need)
    with in_tables(asked.job):
        return where_next(read_job(asked.job))


def mix() -> Mixed:
    """Turn a mix into rates, seeds, shares and cost."""
    asked = _checked(JobAsked)
    with in_tables(asked.job):
        return read_mix(mix_in(asked.job), today=asked.month)


def best_mix() -> BestMix:
    """Find the best mix for a goal within limits."""
    asked = _checked(JobAsked)
    with in_tables(asked.job):
        found = solved(mix_in(asked.job), asked.job, today=asked.month)
    if found is None:
        need = say("use a computer that has the solver: it isn't installed here")
        raise MeasurementError("mix_goal", None, need)

    return found.best


def boxes() -> Boxed:
    """Tell which seed goes in which box."""
    asked = _checked(BoxesAsked)
    reached = Given({"achieved": asked.achieved} if asked.achieved else {})
    with in_tables(asked.job):
        found = boxed(
            fill(boxes_in(asked.job), today=asked.month),
            achieved=reached if "achieved" in reached else None,
            samples=repeated(asked.samples, "sample", path=Written("samples"), also=reached),
        )
        return found


def order() -> Ordered:
    """Tell what to buy, to mix and to load."""
    asked = _checked(JobAsked)
    with in_tables(asked.job):
        return read_order(order_in(asked.job), today=asked.month)


def _checked(kind: type[Any]) -> Any:
    asked = sent(kind)
    check_tables(asked.job)
    return asked


def job_schema() -> Schema:
    """Describe the tables of a job file by their names and keys."""
    tables: Mapping[str, Schema] = {name: _table(name) for name in KEYS if "." not in name}
    return {"type": "object", "properties": tables, "additionalProperties": False}


def _table(name: str) -> Schema:
    inside = {each.rpartition(".")[2]: each for each in KEYS if each.startswith(f"{name}.")}
    keys: dict[str, Any] = {key: {} for key in KEYS[name]}
    keys |= {key: _table(whole) for key, whole in inside.items()}
    table = {"type": "object", "properties": keys, "additionalProperties": False}
    return {"type": "array", "items": table} if name in MANY else table


OPERATIONS = (
    reckons(
        "set",
        "Tell where the lever goes next, from the tables of a job file.",
        setting,
        takes=BoxAsked,
    ),
    reckons(
        "mix",
        "Turn a mix into rates, seeds, shares and cost, from the tables of a job file.",
        mix,
        takes=JobAsked,
    ),
    reckons(
        "solve",
        "Find the best mix for the goal of a job file within its limits, from its tables.",
        best_mix,
        takes=JobAsked,
    ),
    reckons(
        "boxes",
        "Tell which seed goes in which box, from the tables of a job file.",
        boxes,
        takes=BoxesAsked,
    ),
    reckons(
        "order",
        "Tell what to buy, to mix and to load, from the tables of a job file.",
        order,
        takes=JobAsked,
    ),
)
