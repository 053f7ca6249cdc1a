"""Photos of a lot: taken in, handed out, taken off the page."""

from contextlib import closing
from functools import partial

from flask import Blueprint, Response, abort, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue

from evenstand.book.kinds.bodies import Photo
from evenstand.book.kinds.seed import Lot
from evenstand.book.storage.thing import Thing
from evenstand.tasks.seed.photo import read_photo

from ..site import forms, here, keeping
from ..site.editing import saved

blueprint = Blueprint("photos", __name__)
MOST_SENT = 16 * 1024 * 1024  # bytes: a picture as a camera makes it, so that it can be refused
# A picture runs nothing and fetches nothing, opened on its own too.
POLICY = "default-src 'none'; sandbox; frame-ancestors 'none'"


@blueprint.get("/seed/<lot>/photos/new")
def new(lot: str) -> ResponseReturnValue:
    """Show where a photo of a lot is chosen or taken."""
    return _form(here.thing(lot, Lot), forms.blank())


@blueprint.post("/seed/<lot>/photos/new")
def add(lot: str) -> ResponseReturnValue:
    """Keep a photo of a lot."""
    request.max_content_length = MOST_SENT
    thing = here.thing(lot, Lot)

    def keep(form: forms.Form) -> str:
        data, said = _sent()
        photo = read_photo(data, of=lot, caption=form.text("caption").strip(), said=said)
        keeping.add(photo, form)
        return url_for("seed.show", lot=lot, _anchor="photos")

    return saved(keep, partial(_form, thing))


@blueprint.get("/photos/<photo>")
def show(photo: str) -> ResponseReturnValue:
    """Hand out a photo."""
    thing = here.thing(photo, Photo)
    body = here.body(thing, Photo)
    if thing.removed:
        abort(404)
    known = request.if_none_match.contains(thing.entry.id)
    answer = Response(b"" if known else body.data, 304 if known else 200, mimetype=body.media)
    answer.headers["Content-Security-Policy"] = POLICY
    answer.headers["Content-Disposition"] = "inline"
    answer.headers["Cache-Control"] = "private, no-cache"
    answer.set_etag(thing.entry.id)
    return answer


@blueprint.post("/photos/<photo>/remove")
def remove(photo: str) -> ResponseReturnValue:
    """Take a photo off the page of its lot; it stays in the history."""
    thing = here.thing(photo, Photo)
    keeping.remove(photo, forms.sent())
    return redirect(url_for("seed.show", lot=here.body(thing, Photo).of, _anchor="photos"), 303)


def _sent() -> tuple[bytes, str]:
    """Return the file that was sent and the kind it is said to be, both empty where none was."""
    file = request.files.get("photo")
    if file is None:
        return b"", ""
    with closing(file):
        return file.read(), file.mimetype


def _form(lot: Thing, form: forms.Form) -> str:
    return render_template("photo_form.html", lot=lot, form=form)
