"""The Boxes step: which seed goes in which box, what each is set to, and what that gives up."""

from flask import Blueprint, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue

from evenstand.book.book import Book
from evenstand.book.kinds import work
from evenstand.book.log.editing import MeanwhileError
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.quantities.units import RATE
from evenstand.tasks.boxes.boxes import Boxed, Boxes, boxed
from evenstand.tasks.boxes.form import placed, read_split, split_texts
from evenstand.tasks.boxes.handed_over import Asked
from evenstand.tasks.boxes.kept import body_of, members, split_of
from evenstand.tasks.job.kept import Kept
from evenstand.tasks.parsing.given import Given

from ..site import forms, here, keeping
from ..site.editing import saved
from ..site.spine import Step, StepLine
from .box_shown import example_of, names_of, notes_of, of_box, places_of, ways_of
from .filling import Worked, box_names, boxes_of, filled, kept_job, told_once
from .handing_over import asks, changed, pending
from .holding import about, in_boxes, page_that_holds
from .mix import warned_url

blueprint = Blueprint("boxes", __name__)
ASKED = ("sample", "achieved")  # what is judged on the page and not kept
GRADES = {1: say("minor:"), 2: say("moderate:"), 3: say("serious:")}


@blueprint.get("/jobs/<job>/boxes")
def show(job: str) -> ResponseReturnValue:
    """Show which seed goes in which box and everything that speaks for it."""
    kept = kept_job(job)
    found = boxes_of(kept)
    form = _filled_in(kept, found)
    tried = _asked_about(found.result)
    return _page(kept, found, form=form, tried=tried), 422 if tried and tried.errors else 200


@blueprint.post("/jobs/<job>/boxes")
def save(job: str) -> ResponseReturnValue:
    """Keep the user's own way to fill the boxes."""
    kept = kept_job(job)

    def keep(form: forms.Form) -> str:
        names, seeds = box_names(kept), members(here.book(), kept)
        return _settled(kept, read_split(form.given, job, members=seeds, boxes=names), form)

    return saved(keep, lambda form: _page(kept, boxes_of(kept), form=form))


@blueprint.post("/jobs/<job>/boxes/take")
def take(job: str) -> ResponseReturnValue:
    """Keep one of the ways that were worked out; what is mixed in stays."""
    kept, form = kept_job(job), forms.sent()
    before, names = body_of(split_of(here.book(), kept), work.Split), box_names(kept)
    try:
        inside = {
            member: form.text(f"member{i}_box") or _place(before, member)
            for i, member in enumerate(members(here.book(), kept), start=1)
        }
        address = _settled(kept, placed(before, job, inside, boxes=names), form)
    except MeanwhileError:
        raise
    except MeasurementError as error:
        found = boxes_of(kept)
        return _page(kept, found, form=_filled_in(kept, found).refused(error)), 422
    return redirect(address, 303)


def _place(split: work.Split | None, member: str) -> str:
    boxes = split.boxes if split else ()
    return next((box.box for box in boxes if member in box.members), "")


def _settled(kept: Kept, body: work.Split, form: forms.Form) -> str:
    """Keep a way to fill the boxes, unless something in its form cannot be; return its page."""
    try:
        filled(kept, body)
    except MeasurementError as error:
        if refused := in_boxes(error, kept, body):
            raise refused from None
    keeping.settle(split_of(here.book(), kept), body, form)
    return url_for("boxes.show", job=kept.thing.id)


@blueprint.post("/jobs/<job>/boxes/propose")
def propose(job: str) -> ResponseReturnValue:
    """Go back to the way that gives up least; the own one stays in the history."""
    kept = kept_job(job)
    thing = split_of(here.book(), kept)
    if thing:
        keeping.remove(thing.id, forms.sent())
    return redirect(url_for("boxes.show", job=job), 303)


def _filled_in(kept: Kept, found: Worked[Boxes]) -> forms.Form:
    """Fill the form in with what is kept; what is refused of it stands at its field."""
    body = body_of(found.thing, work.Split)
    texts = split_texts(body, members=_members(kept), boxes=box_names(kept)) if body else {}
    refused = in_boxes(found.missing, kept, body) if found.missing else None
    form = forms.opened(found.thing, texts)
    return form.refused(refused) if refused else form


def _members(kept: Kept) -> tuple[str, ...]:
    try:
        return members(here.book(), kept)
    except MeasurementError:
        return ()


def _page(
    kept: Kept, found: Worked[Boxes], *, form: forms.Form, tried: forms.Form | None = None
) -> str:
    boxes, missing = found.result, found.missing
    said = _boxed(boxes, tried) if boxes else None
    return render_template(
        "boxes.html",
        kept=kept,
        found=said,
        assumed=told_once(said.assumed) if said else [],
        missing=missing,
        fix=page_that_holds(missing, kept) if missing else "",
        about=about(missing, kept) if missing else "",
        warned_url=warned_url(kept),
        notes=notes_of(boxes) if boxes else [],
        own=found.thing,
        boxes=[
            of_box(each, box_names(kept).index(each.filled.box.name) + 1)
            for each in asks(kept, boxes)
        ],
        example=example_of(boxes) if boxes else "",
        ways=ways_of(boxes) if boxes else [],
        form=form,
        aiming=forms.opened(kept.thing),
        members=_choices(kept, boxes),
        pending=pending(kept, boxes) if boxes else (),
        changed=changed(kept),
        tried=tried or forms.blank(),
        grades=GRADES,
    )


def _asked_about(boxes: Boxes | None) -> forms.Form | None:
    """Read a sample, or rates that were reached, that are asked about; nothing of it is kept."""
    texts = {key: text for key in ASKED if (text := request.args.get(key, "").strip())}
    if boxes is None or not texts:
        return None
    form = forms.blank(texts)
    try:
        _boxed(boxes, form)
    except MeasurementError as error:
        return form.refused(error)
    return form


def _boxed(boxes: Boxes, tried: forms.Form | None) -> Boxed:
    given = tried.given if tried and not tried.errors else Given({})
    return boxed(
        boxes,
        achieved=given if "achieved" in given else None,
        samples=[given] if "sample" in given else [],
    )


def _choices(kept: Kept, boxes: Boxes | None) -> list[tuple[str, str]]:
    """Return each member of the mix with the box that is proposed for it."""
    proposed = places_of(boxes, boxes.ways.best[0]) if boxes else {}
    names = names_of(boxes) if boxes else {}
    return [
        (names.get(i, name), proposed.get(f"member{i}_box", ""))
        for i, name in enumerate(_members(kept), start=1)
    ]


def lines(book: Book, kept: Kept) -> list[StepLine]:
    """Say how far the boxes are: whether Set aims at their rates."""
    if kept.body.mix is None:
        return [StepLine("later", say("needs a mix and the drill's boxes"))]
    found = boxes_of(kept)
    if found.missing:
        return [StepLine("open", found.missing.need)]
    rates = asks(kept, found.result)
    headline = _headline(rates)
    if all(each.rate_agrees for each in rates):
        return [StepLine("done", headline)]
    return [StepLine("under way" if found.thing else "open", headline)]


def _headline(rates: tuple[Asked, ...]) -> Phrase:
    parts = [
        say("{box} {rate}", box=each.filled.box.name, rate=RATE(each.filled.rate)) for each in rates
    ]
    values = {f"b{i}": part for i, part in enumerate(parts)}
    return Phrase(", ".join(f"{{{name}}}" for name in values), values)


STEP = Step(
    key="boxes",
    title=say("Boxes"),
    question=say("Which seed goes in which box?"),
    lines=lines,
    endpoint="boxes.show",
)
