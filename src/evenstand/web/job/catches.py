"""One catch: its history, its correction, its removal."""

from flask import Blueprint, redirect, render_template, url_for
from flask.typing import ResponseReturnValue

from evenstand.book.kinds.work import Catch
from evenstand.book.storage.thing import Thing
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.tasks.calibration.form import catch_texts, read_catch
from evenstand.tasks.job.kept import Kept, find

from ..site import forms, here, keeping

blueprint = Blueprint("catches", __name__)


@blueprint.get("/catches/<catch>")
def edit(catch: str) -> ResponseReturnValue:
    """Show a catch filled in, and what it said before."""
    thing = here.thing(catch, Catch)
    return _page(thing, forms.opened(thing, catch_texts(here.body(thing, Catch))))


@blueprint.post("/catches/<catch>")
def correct(catch: str) -> ResponseReturnValue:
    """Keep the right form of a catch."""
    thing, form = here.thing(catch, Catch), forms.sent()
    kept = _kept(thing)
    try:
        body = read_catch(form.given, kept)
        keeping.correct(catch, body, form)
    except MeasurementError as error:
        form = form.refused(error)
        return _page(thing, form), form.code
    return redirect(_back(kept), 303)


@blueprint.post("/catches/<catch>/remove")
def remove(catch: str) -> ResponseReturnValue:
    """Leave a catch out from here on; it stays in the history."""
    thing, form = here.thing(catch, Catch), forms.sent()
    keeping.remove(catch, form)
    return redirect(_back(_kept(thing)), 303)


def _kept(thing: Thing) -> Kept:
    body = here.body(thing, Catch)
    return find(here.book(), body.job, box=body.box if body.box else None)


def _back(kept: Kept) -> str:
    return url_for("set.show", job=kept.thing.id, box=kept.box or None)


def _page(thing: Thing, form: forms.Form) -> str:
    body = here.body(thing, Catch)
    return render_template(
        "catch.html",
        thing=thing,
        kept=_kept(thing),
        form=form,
        away=forms.blank(),
        each=any(bag.row for bag in body.bags),
        history=here.book().history(thing.id),
    )
