"""The Record step and the other papers: each as a page and, at the office, as a PDF."""

import re
from functools import partial
from typing import cast

from flask import Blueprint, Response, abort, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue
from markupsafe import Markup

from evenstand.book.book import Book
from evenstand.book.kinds import machine, work
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.quantities.units import FIELD
from evenstand.engine.statistics.budget import nominal
from evenstand.report.document import Printed
from evenstand.report.typesetting import PAPERS, Paper
from evenstand.tasks.boxes.kept import body_of
from evenstand.tasks.job.kept import Kept, chosen_of, find
from evenstand.tasks.record.drill_card import drill_card
from evenstand.tasks.record.form import read_record, record_texts
from evenstand.tasks.record.frozen import (
    Version,
    changed_since,
    freeze,
    frozen_record,
    locked,
    opened,
    reason,
    versions,
)
from evenstand.tasks.record.record import days_in_words, record
from evenstand.tasks.record.season import pages, seasons
from evenstand.tasks.record.season import season as season_document
from evenstand.tasks.record.worksheet import worksheet as worksheet_document
from evenstand.tasks.seeding.on_the_way import on_the_way
from evenstand.tasks.whole_job.gather import JobSoFar, boxes_to_fill, days_sown, record_of

from ..site import forms, here, keeping
from ..site.editing import saved
from ..site.spine import Step, StepLine
from .filling import kept_job

blueprint = Blueprint("record", __name__)
TYPESETTER = "typst"  # what a PDF needs beyond what a phone has
DEFAULT_PAPER: dict[str, Paper] = {"us": "letter", "metric": "a4"}
_NO_FILE_NAME = re.compile(r"[^a-z0-9]+")


@blueprint.get("/jobs/<job>/record")
def show(job: str) -> ResponseReturnValue:
    """Show the record of a job as far as it is."""
    kept, known = kept_job(job), versions(here.book(), job)
    version = _asked_of(known)
    pdf = url_for("record.pdf", job=job, version=version.number if version else None)
    return _page(
        _record(job, version),
        kept=kept,
        pdf=pdf,
        template="record.html",
        version=version,
        versions=known,
        reason=reason,
        since=changed_since(here.book(), version) if version and version == known[-1] else (),
        form=forms.blank(),
    )


@blueprint.post("/jobs/<job>/record/amend")
def amend(job: str) -> ResponseReturnValue:
    """Freeze a finished record once more, with the reason."""
    kept_job(job)
    why = forms.sent().text("why")
    freeze(here.book(), job, today=here.this_month(), by=here.who(), why=why)
    return redirect(url_for("record.show", job=job), 303)


@blueprint.get("/jobs/<job>/record.pdf")
def pdf(job: str) -> ResponseReturnValue:
    """Hand out the record of a job as a PDF."""
    kept_job(job)
    return _pdf(_record(job, _asked_of(versions(here.book(), job))))


@blueprint.get("/jobs/<job>/record/edit")
def edit(job: str) -> ResponseReturnValue:
    """Show the form of what a record says beyond the steps."""
    kept = kept_job(job)
    thing = record_of(here.book(), job)
    said = body_of(thing, work.Record)
    texts = record_texts(said, boxes=boxes_to_fill(kept)) if said else {}
    return _form(kept, forms.opened(thing, texts))


@blueprint.post("/jobs/<job>/record/edit")
def save(job: str) -> ResponseReturnValue:
    """Keep what a record says beyond the steps."""
    kept = kept_job(job)

    def keep(form: forms.Form) -> str:
        body = read_record(form.given, job, boxes=boxes_to_fill(kept))
        keeping.settle(record_of(here.book(), job), body, form)
        return url_for("record.show", job=job)

    return saved(keep, partial(_form, kept))


@blueprint.get("/jobs/<job>/calibrate/worksheet")
def worksheet(job: str) -> ResponseReturnValue:
    """Show the arithmetic of one Set, as with a pencil."""
    kept, box = kept_job(job), request.args.get("box")
    address = url_for("record.worksheet_pdf", job=job, box=box)
    return _page(_worksheet(job, box), kept=kept, pdf=address)


@blueprint.get("/jobs/<job>/calibrate/worksheet.pdf")
def worksheet_pdf(job: str) -> ResponseReturnValue:
    """Hand out a worksheet as a PDF."""
    kept_job(job)
    return _pdf(_worksheet(job, request.args.get("box")))


@blueprint.get("/drills/<drill>/card")
def card(drill: str) -> ResponseReturnValue:
    """Show the card of a drill for its tool box."""
    here.thing(drill, machine.Drill)
    pdf = url_for("record.card_pdf", drill=drill)
    return _page(_card(drill), back=url_for("drills.show", drill=drill), pdf=pdf)


@blueprint.get("/drills/<drill>/card.pdf")
def card_pdf(drill: str) -> ResponseReturnValue:
    """Hand out the card of a drill as a PDF."""
    here.thing(drill, machine.Drill)
    return _pdf(_card(drill))


@blueprint.get("/season")
def season() -> ResponseReturnValue:
    """Show the summary of a season, the newest where none is chosen."""
    known = seasons(here.book())
    chosen = _season(known)
    pdf = url_for("record.season_pdf", of=chosen)
    last = pages(here.book(), chosen)
    page = min(last, max(1, request.args.get("page", 1, type=int)))
    document = _season_document(chosen, page)
    return _page(document, pdf=pdf, seasons=known, chosen=chosen, page=page, pages=last)


@blueprint.get("/season.pdf")
def season_pdf() -> ResponseReturnValue:
    """Hand out the summary of a season as a PDF."""
    return _pdf(_season_document(_season(seasons(here.book()))))


def _season(known: tuple[str, ...]) -> str:
    return request.args.get("of", known[0] if known else "")


def _asked_of(known: tuple[Version, ...]) -> Version | None:
    """Return the version that is asked for, the newest where none is, None while there is none."""
    number = request.args.get("version", type=int)
    if number is not None and not 0 < number <= len(known):
        abort(404)
    return known[(number or 0) - 1] if known else None


def _record(job: str, version: Version | None) -> Printed:
    if version is not None:
        return frozen_record(here.book(), version, here.document_reader())
    return record(here.book(), job, here.document_reader(), today=here.this_month())


def _worksheet(job: str, box: str | None) -> Printed:
    """Write a worksheet: as it was locked in, where a setting was taken."""
    book, reader = here.book(), here.document_reader()
    chosen = chosen_of(book, find(book, job, box=box))
    version = locked(book, chosen) if chosen else None
    if version is None:
        return worksheet_document(book, job, reader, box=box)
    with opened(book, version) as before:
        return worksheet_document(before, job, reader, box=box, locked_in=version)


def _card(drill: str) -> Printed:
    address = request.url_root.rstrip("/") + url_for("drills.show", drill=drill)
    return drill_card(here.book(), drill, here.document_reader(), address=address)


def _season_document(name: str, page: int | None = None) -> Printed:
    reader, today = here.document_reader(), here.this_month()
    return season_document(here.book(), name, reader, today=today, page=page)


def _page(document: Printed, *, pdf: str, template: str = "document.html", **more: object) -> str:
    chosen = DEFAULT_PAPER[here.style().system]
    return render_template(
        template,
        document=document,
        pdf=pdf,
        papers=sorted(PAPERS, key=lambda paper: paper != chosen),
        drawn=Markup,
        **more,
    )


def _pdf(document: Printed) -> Response:
    """Set a document in type; a phone cannot, and has no such address."""
    if here.settings().on_phone:
        abort(404)
    paper = request.args.get("paper", DEFAULT_PAPER[here.style().system])
    if paper not in PAPERS:
        need = say("choose the paper size: {papers}", papers=", ".join(PAPERS))
        raise MeasurementError("paper", paper, need)
    try:
        from evenstand.tasks.record.pdf import document_pdf
    except ModuleNotFoundError as missing:
        if missing.name != TYPESETTER:
            raise
        abort(404)
    made = document_pdf(document, cast(Paper, paper), here.document_reader().pen)
    answer = Response(made, mimetype="application/pdf")
    answer.headers["Content-Disposition"] = f'inline; filename="{_file_name(document)}"'
    answer.headers["Cache-Control"] = "private, no-cache"
    return answer


def _file_name(document: Printed) -> str:
    name = _NO_FILE_NAME.sub("-", f"{document.kind} {document.about}".casefold()).strip("-")
    return f"{name}.pdf"


def _form(kept: Kept, form: forms.Form) -> str:
    begun = on_the_way(here.book(), kept).begun
    return render_template(
        "record_form.html", kept=kept, form=form, boxes=boxes_to_fill(kept), begun=begun
    )


def lines(book: Book, kept: Kept) -> list[StepLine]:
    """Say how far the record is."""
    said, way = body_of(record_of(book, kept.thing.id), work.Record), on_the_way(book, kept)
    known = said or work.Record(job=kept.thing.id)
    days = days_in_words(*days_sown(known, way))
    ground = JobSoFar(book=book, kept=kept, today=here.this_month()).ground
    if days and ground is not None:
        return [StepLine("done", _headline(days, nominal(ground)))]
    if said is None and not way.begun:
        return [_none_yet(book, kept)]
    return [StepLine("under way", say("enter the seeding date and the area seeded"))]


def _none_yet(book: Book, kept: Kept) -> StepLine:
    if book.things("setting", of=kept.thing.id, limit=1):
        return StepLine("open", say("enter the seeding date and the area seeded"))
    return StepLine("later", say("needs the earlier steps"))


def _headline(days: Phrase, area: float) -> Phrase:
    return say("{ground} seeded {days}", ground=FIELD(area), days=days)


STEP = Step(
    key="record",
    title=say("Record"),
    question=say("Can I prove it?"),
    lines=lines,
    endpoint="record.show",
)
