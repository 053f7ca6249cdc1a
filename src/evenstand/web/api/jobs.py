"""Results of a job through the API: the same as the commands write with ``--json``."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from flask import abort

from evenstand.book.kinds import work
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.quantities.written import inside, put
from evenstand.engine.rows.evenness import Evenness
from evenstand.report.document import Printed
from evenstand.tasks.boxes.boxes import Boxed, boxed
from evenstand.tasks.boxes.kept import body_of, order_of, split_of
from evenstand.tasks.calibration.row_by_row import last_rows
from evenstand.tasks.calibration.setting import Setting, where_next
from evenstand.tasks.job.kept import Kept, find
from evenstand.tasks.mix.kept import job_mix
from evenstand.tasks.mix.mix import Mixed, read_mix
from evenstand.tasks.order.order import Ordered
from evenstand.tasks.record.frozen import as_frozen, frozen_record, version_of
from evenstand.tasks.seeding.seeding import SownField
from evenstand.tasks.stand.job import read_kept_stand
from evenstand.tasks.stand.stand import Stood
from evenstand.tasks.whole_job.calibration import set_job
from evenstand.tasks.whole_job.seeding import sow_job

from ..job.filling import filled, ordered
from ..site import here
from ..site.spine import Step, StepLine
from .answers import told
from .operations import UNITS, Operation, Parameter, Short, result_of
from .things import found

BOX = Parameter(name="box", type=Short, about="One of the boxes; the first without.")
JOB = "/jobs/<job>"
REFUSES = (404, 422)


@dataclass(frozen=True, kw_only=True)
class LineOfStep:
    """A line of a step, with the step that it is of."""

    KEYS = (
        *(put("step", "step", "key"), put("title", "step", "title")),
        *inside(("line",), "state", "headline", "box"),
    )

    step: Step
    line: StepLine


@dataclass(frozen=True)
class Spine:
    """How far every step of a job is."""

    KEYS = ("lines",)

    lines: tuple[LineOfStep, ...]


@dataclass(frozen=True)
class JobStand:
    """The stand of a job, and how the live seed that was sown is known."""

    KEYS = (put("stood", added=True), put("seed", "known"))

    stood: Stood
    known: tuple[Phrase, ...]


def spine(steps: Sequence[Step]) -> Callable[..., Spine]:
    """Return what finds a job's steps."""

    def find_spine(*, job: str) -> Spine:
        kept = _kept(job, None)
        lines = (
            LineOfStep(step=step, line=line)
            for step in steps
            for line in step.lines(here.book(), kept)
        )
        return Spine(tuple(lines))

    return find_spine


def _kept(job: str, box: str | None) -> Kept:
    if not isinstance(found(job).body, work.Job):
        abort(404)
    return find(here.book(), job, box=box)


def setting(*, job: str, box: str | None) -> Setting:
    """Tell where the lever goes next."""
    kept = _kept(job, box)
    return where_next(set_job(here.book(), kept))


def rows(*, job: str, box: str | None) -> Evenness:
    """Tell how even the rows of the latest catch are."""
    even = last_rows(set_job(here.book(), _kept(job, box)))
    if even is None:
        need = say("weigh a catch's rows one by one to see how even they are")
        raise MeasurementError("catch", None, need)
    return even


def mix(*, job: str) -> Mixed:
    """Tell what each member of the mix comes to on every basis."""
    return read_mix(job_mix(here.book(), _kept(job, None)), today=here.this_month())


def boxes(*, job: str) -> Boxed:
    """Tell which seed goes in which box."""
    kept = _kept(job, None)
    said = body_of(split_of(here.book(), kept), work.Split)
    return boxed(filled(kept, said))


def order(*, job: str) -> Ordered:
    """Tell what to buy, to mix and to load."""
    kept = _kept(job, None)
    said = body_of(order_of(here.book(), kept), work.Order)
    return ordered(kept, said)


def stand(*, job: str) -> JobStand:
    """Tell what came up, and how the live seed that was sown is known."""
    found, down = read_kept_stand(here.book(), _kept(job, None), today=here.this_month())
    return JobStand(found, tuple(down.known))


def sow(*, job: str) -> SownField:
    """Tell what goes down on the way, box by box."""
    found = sow_job(here.book(), _kept(job, None))
    if found.field is None:
        raise MeasurementError("load", None, say("enter the first load in the box"))
    return found.field


def record(*, job: str, version: int | None) -> Printed:
    """Write the record of a job: as it was frozen where it is finished."""
    _kept(job, None)
    book, reader = here.book(), here.document_reader()
    if version is not None:
        return frozen_record(book, version_of(book, job, version), reader)
    return as_frozen(book, job, reader, today=here.this_month())


def operations(steps: Sequence[Step]) -> tuple[Operation, ...]:
    """Return what a program can ask about a job."""
    return (
        Operation(
            method="GET",
            path=f"{JOB}/steps",
            name="read_steps",
            about="Tell how far each step of a job is, and its headline number.",
            query=(UNITS,),
            refuses=REFUSES,
            **result_of(spine(steps)),
        ),
        _result("mix", "Tell what each member of the mix comes to on every basis.", mix),
        _result("boxes", "Tell which seed goes in which box, and each box's rate.", boxes),
        _result("order", "Tell what to buy, to mix and to load.", order),
        _result("set", "Tell where the lever goes next, and what each catch says.", setting),
        _result("stand", "Tell what came up, of all plants and of each species.", stand),
        _result("sow", "Track the rate while seeding, and what to do next.", sow),
        Operation(
            method="GET",
            path=f"{JOB}/record",
            name="read_record",
            about="Read the seeding record, of a finished job as it was frozen.",
            query=(
                Parameter(name="version", type=int, about="Of a finished one; newest without."),
                UNITS,
            ),
            refuses=REFUSES,
            view=lambda **asked: told(record(**asked)),
            gives={"type": "object"},
        ),
        _result("rows", "Tell how even the rows of the latest catch are.", rows),
    )


_BY_BOX = ("set", "rows")


def _result(step: str, about: str, find: Callable[..., Any]) -> Operation:
    return Operation(
        method="GET",
        path=f"{JOB}/{step}",
        name=f"read_{step}",
        about=about,
        query=(BOX, UNITS) if step in _BY_BOX else (UNITS,),
        refuses=REFUSES,
        **result_of(find),
    )
