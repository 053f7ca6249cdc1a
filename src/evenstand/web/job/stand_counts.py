"""One count of plants: its history, its correction, its removal."""

from flask import Blueprint, redirect, render_template, url_for
from flask.typing import ResponseReturnValue

from evenstand.book.kinds.work import StandCount
from evenstand.book.storage.thing import Thing
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.tasks.job.kept import Kept, find
from evenstand.tasks.stand.form import WAYS, places_texts

from ..site import forms, here, keeping
from .stand import read_count

blueprint = Blueprint("plants", __name__)


@blueprint.get("/plants/<count>")
def edit(count: str) -> ResponseReturnValue:
    """Show a count filled in, and what it said before."""
    thing = here.thing(count, StandCount)
    return _page(thing, forms.opened(thing, places_texts(here.body(thing, StandCount))))


@blueprint.post("/plants/<count>")
def correct(count: str) -> ResponseReturnValue:
    """Keep the right form of a count."""
    thing, form = here.thing(count, StandCount), forms.sent()
    kept = _kept(thing)
    try:
        keeping.correct(count, read_count(form, kept, but=count), form)
    except MeasurementError as error:
        form = form.refused(error)
        return _page(thing, form), form.code
    return redirect(url_for("stand.show", job=kept.thing.id), 303)


@blueprint.post("/plants/<count>/remove")
def remove(count: str) -> ResponseReturnValue:
    """Leave a count out from here on; it stays in the history."""
    thing = here.thing(count, StandCount)
    keeping.remove(count, forms.sent())
    return redirect(url_for("stand.show", job=here.body(thing, StandCount).job), 303)


def _kept(thing: Thing) -> Kept:
    return find(here.book(), here.body(thing, StandCount).job)


def _page(thing: Thing, form: forms.Form) -> str:
    return render_template(
        "plants.html",
        thing=thing,
        kept=_kept(thing),
        form=form,
        away=forms.blank(),
        ways=tuple(WAYS),
        history=here.book().history(thing.id),
    )
