"""Measuring ground by a phone's position: a wheel that rolled, a field walked round."""

from flask import Blueprint, redirect, render_template, url_for
from flask.typing import ResponseReturnValue
from msgspec.structs import replace

from evenstand.book.kinds import work
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import TURNS
from evenstand.tasks.drill.outline import kept_outline
from evenstand.tasks.drill.position import Rolled, Walked, read_fixes, rolled, walked

from ..site import forms, here, keeping

blueprint = Blueprint("position", __name__)
MOST_FIELDS = 60  # to choose from, newest first


@blueprint.get("/position")
def show() -> ResponseReturnValue:
    """Ask for positions, which the phone fills in where it may."""
    return _page(forms.blank())


@blueprint.post("/position/wheel")
def wheel() -> ResponseReturnValue:
    """Work out the ground for one turn."""
    form = forms.sent()
    try:
        start, *_, end = read_fixes(form.text("points"), least=2)
        found = rolled(start, end, turns=form.given.count("turns", TURNS))
    except MeasurementError as error:
        return _page(form.refused(error)), 422
    return _page(form, found=found)


@blueprint.post("/position/field")
def field() -> ResponseReturnValue:
    """Work out the area of a field."""
    form = forms.sent()
    try:
        found = walked(read_fixes(form.text("edge"), least=3))
    except MeasurementError as error:
        return _page(form.refused(_at_edge(error))), 422
    return _page(form, found=found)


@blueprint.post("/position/keep")
def keep() -> ResponseReturnValue:
    """Keep the outline with a field, and its area."""
    form, found = forms.sent(), None
    try:
        found = walked(read_fixes(form.text("edge"), least=3))
        outline, area = kept_outline(found.outline, units=here.style().system)
        thing = _field(form)
        body = here.body(here.thing(thing, work.Field), work.Field)
        keeping.correct(thing, replace(body, outline=outline, area=area), form)
    except MeasurementError as error:
        return _page(form.refused(_at_edge(error)), found=found), 422
    return redirect(url_for("jobs.index"), 303)


def _field(form: forms.Form) -> str:
    known = [thing.id for thing in here.book().things("field", limit=MOST_FIELDS)]
    if form.text("field") not in known:
        raise form.given.refuse("field", say("choose one from the list"))
    return form.text("field")


def _at_edge(error: MeasurementError) -> MeasurementError:
    return error.at("edge") if error.path == ("points",) else error


def _page(form: forms.Form, *, found: Rolled | Walked | None = None) -> str:
    return render_template(
        "position.html",
        form=form,
        rolled=found if isinstance(found, Rolled) else None,
        walked=found if isinstance(found, Walked) else None,
        fields=here.book().things("field", limit=MOST_FIELDS),
    )
