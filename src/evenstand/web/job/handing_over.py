"""From the boxes to Set: the rates that Set is to aim at, and where it aims at others."""

from functools import lru_cache
from itertools import pairwise

from flask import Blueprint, redirect, request, url_for
from flask.typing import ResponseReturnValue

from evenstand.book.kinds import work
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase
from evenstand.engine.seed.tag import Month
from evenstand.tasks.boxes.boxes import Boxes, fill
from evenstand.tasks.boxes.handed_over import Asked, apart, asked, changes, handed_over
from evenstand.tasks.boxes.kept import body_of, boxes_said, split_of
from evenstand.tasks.boxes.said import BoxesSaid
from evenstand.tasks.job.kept import Kept, catches_of, find

from ..site import forms, here, keeping
from .filling import boxes_of

blueprint = Blueprint("handing_over", __name__)
REMEMBERED = 64  # jobs that are being set


@blueprint.post("/jobs/<job>/boxes/rates")
def add(job: str) -> ResponseReturnValue:
    """Let Set aim at the rates of the boxes; where it does already, nothing is written."""
    here.thing(job, work.Job)
    kept, form = find(here.book(), job), forms.sent()
    boxes = boxes_of(kept).result
    if boxes is None:
        return redirect(url_for("boxes.show", job=job), 303)
    body = _body(kept, boxes)
    if body != kept.body:
        said = changes(kept.body.wanted, body.wanted)
        why = "; ".join(here.style().write(each) for each in said)
        keeping.correct(job, body, form, why=why)
    return redirect(url_for("boxes.show", job=job, changed=form.entry), 303)


def _body(kept: Kept, boxes: Boxes) -> work.Job:
    return handed_over(kept.body, boxes, system=here.style().system, bare=_bare(kept))


def _bare(kept: Kept) -> bool:
    """Whether a rate wanted without a box may get one: not where catches go with it."""
    return not catches_of(here.book(), kept.thing.id, box="")


def asks(kept: Kept, boxes: Boxes | None) -> tuple[Asked, ...]:
    """Return what each box asks for beside what Set aims at."""
    return asked(kept.body, boxes, bare=_bare(kept)) if boxes else ()


def pending(kept: Kept, boxes: Boxes) -> tuple[Phrase, ...]:
    """Say what a hand-over would change."""
    return changes(kept.body.wanted, _body(kept, boxes).wanted)


def changed(kept: Kept) -> tuple[Phrase, ...] | None:
    """Say what a hand-over has changed, None where none was asked for."""
    entry = request.args.get("changed")
    if not entry:
        return None
    for before, after in pairwise(here.book().history(kept.thing.id)):
        old, new = before.body, after.body
        if after.id == entry and isinstance(old, work.Job) and isinstance(new, work.Job):
            return changes(old.wanted, new.wanted)
    return ()


def beside_set(kept: Kept) -> Phrase | None:
    """Say where the rate wanted in Set is not that of the box; None where it is, or no mix is."""
    if kept.body.mix is None or kept.wanted is None:
        return None
    try:
        split = body_of(split_of(here.book(), kept), work.Split)
        said = boxes_said(here.book(), kept, split)
    except MeasurementError:
        return None
    place = kept.body.wanted.index(kept.wanted)
    return _apart(job=kept.body, place=place, said=said, today=here.this_month())


@lru_cache(maxsize=REMEMBERED)
def _apart(*, job: work.Job, place: int, said: BoxesSaid, today: Month) -> Phrase | None:
    """Say it once for the same mix and boxes: Set asks again with each catch."""
    try:
        boxes = fill(said, today=today)
    except MeasurementError:
        return None
    return apart(job.wanted[place], job, boxes)
