"""The book: exchange, check, people, the history of a thing."""

import tempfile
from contextlib import closing
from pathlib import Path

from flask import Blueprint, Response, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue

from evenstand.book.exchange import export_book, import_file
from evenstand.book.kinds.bodies import Newer
from evenstand.book.kinds.frozen import Frozen
from evenstand.book.kinds.shape import Body
from evenstand.book.people.people import MOST_NAME
from evenstand.book.storage.check import Checked
from evenstand.book.storage.thing import Merged
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.tasks.library.admitting import admitted
from evenstand.tasks.record.frozen import freeze_old

from ..drills.drills import code
from ..site import forms, here

blueprint = Blueprint("book", __name__)
MOST_DIGITS = 10  # of a number in an address
MOST_IMPORT = 64 * 1024 * 1024  # bytes of a file that is taken in
A_YEAR = 365 * 24 * 3600  # s


@blueprint.get("/settings")
def index() -> ResponseReturnValue:
    """Show the book."""
    return _page()


@blueprint.get("/settings/export")
def export() -> ResponseReturnValue:
    """Hand out every entry as one file."""
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "book.zip"
        export_book(here.book(), file)
        packed = file.read_bytes()
    answer = Response(packed, mimetype="application/zip")
    answer.headers["Content-Disposition"] = 'attachment; filename="evenstand-book.zip"'
    return answer


@blueprint.post("/settings/import")
def import_() -> ResponseReturnValue:
    """Take in what is new in a file; a damaged one changes nothing."""
    request.max_content_length = MOST_IMPORT
    file = request.files.get("file")
    if file is None or not file.filename:
        return _page(refused=say("choose a file first")), 422
    try:
        with closing(file), tempfile.TemporaryDirectory() as folder:
            packed = Path(folder) / "in.zip"
            file.save(packed)
            merged = import_file(here.book(), packed, admit=admitted)
            freeze_old(here.book(), today=here.this_month())
    except MeasurementError as error:
        return _page(refused=error.need), 422
    return redirect(url_for("book.index", new=merged.new, known=merged.known), 303)


@blueprint.post("/settings/check")
def check() -> ResponseReturnValue:
    """Look for damage."""
    return _page(checked=here.book().check())


@blueprint.post("/book/copy")
def copy() -> ResponseReturnValue:
    """Copy the book beside itself now."""
    try:
        here.book().copies.make()
    except MeasurementError as error:
        return _page(refused=error.need), 422
    return redirect(url_for("book.index", _anchor="copies"), 303)


@blueprint.get("/history/<thing>")
def history(thing: str) -> ResponseReturnValue:
    """Show every entry about a thing, oldest first."""
    found, entries = here.any_thing(thing), here.book().history(thing)
    return render_template(
        "history.html",
        thing=found,
        undo=not isinstance(found.body, Newer | Frozen),
        entries=entries,
        carriers=here.book().devices.carriers(entries),
        newer=isinstance(found.body, Newer),
        readable=any(isinstance(each.body, Body) for each in entries if each.kind == found.kind),
    )


@blueprint.post("/history/<thing>/put-back")
def put_back(thing: str) -> ResponseReturnValue:
    """Put back the last state of a thing that this release can read."""
    here.any_thing(thing)
    here.book().put_back(thing, by=here.who())
    return redirect(url_for("book.history", thing=thing), 303)


@blueprint.post("/settings/name")
def name() -> ResponseReturnValue:
    """Remember on this device under which name its reader writes."""
    answer = redirect(url_for("book.index"), 303)
    text = forms.sent().text("who").strip()[:MOST_NAME]
    answer.set_cookie("who", text, max_age=A_YEAR, samesite="Lax", httponly=True)
    return answer


def _page(*, refused: Phrase | None = None, checked: Checked | None = None) -> str:
    book = here.book()
    return render_template(
        "book.html",
        counts=book.counts(),
        merged=_merged(),
        refused=refused,
        checked=checked,
        device=book.device,
        copied=book.copies.last(),
        who=here.who() or book.who,
        signs=here.settings().signs,
        phone=[(address, code(address)) for address in here.settings().phone],
    )


def _merged() -> Merged | None:
    new, known = (request.args.get(name, "") for name in ("new", "known"))
    if not all(each.isdecimal() and len(each) < MOST_DIGITS for each in (new, known)):
        return None
    return Merged(int(new), int(known))
