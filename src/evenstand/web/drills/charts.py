"""Charts of a drill: typed in or pasted, and drawn meanwhile."""

from flask import Blueprint, redirect, render_template, url_for
from flask.typing import ResponseReturnValue
from markupsafe import Markup

from evenstand.book.kinds.machine import Chart, Drill, Scale
from evenstand.book.storage.thing import Thing
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.units import TEST_WEIGHT
from evenstand.report.curve import points_chart
from evenstand.tasks.drill.chart_form import chart_points, chart_texts, read_chart
from evenstand.tasks.drill.machines import engine_scale

from ..site import forms, here, keeping

blueprint = Blueprint("charts", __name__)


@blueprint.get("/drills/<drill>/charts/new")
def new(drill: str) -> ResponseReturnValue:
    """Show the form of a new chart."""
    return _form(forms.blank(), here.thing(drill, Drill), None)


@blueprint.post("/drills/<drill>/charts/new")
def add(drill: str) -> ResponseReturnValue:
    """Keep a new chart."""
    thing, form = here.thing(drill, Drill), forms.sent()
    try:
        keeping.add(_read(form, thing), form)
    except MeasurementError as error:
        return _form(form.refused(error), thing, None), 422
    return redirect(url_for("drills.show", drill=drill), 303)


@blueprint.post("/drills/<drill>/charts/draw")
def draw(drill: str) -> ResponseReturnValue:
    """Draw what is typed so far; nothing is kept."""
    thing = here.thing(drill, Drill)
    return render_template("chart_sketch.html", sketch=_sketch(forms.sent(), thing))


@blueprint.get("/charts/<chart>")
def edit(chart: str) -> ResponseReturnValue:
    """Show the form of a chart filled in."""
    thing = here.thing(chart, Chart)
    body = _chart(thing)
    return _form(forms.opened(thing, chart_texts(body)), here.thing(body.drill, Drill), thing)


@blueprint.post("/charts/<chart>")
def correct(chart: str) -> ResponseReturnValue:
    """Keep a chart's newer state."""
    thing, form = here.thing(chart, Chart), forms.sent()
    drill = here.thing(_chart(thing).drill, Drill)
    try:
        keeping.correct(chart, _read(form, drill), form)
    except MeasurementError as error:
        form = form.refused(error)
        return _form(form, drill, thing), form.code
    return redirect(url_for("drills.show", drill=drill.id), 303)


@blueprint.post("/charts/<chart>/remove")
def remove(chart: str) -> ResponseReturnValue:
    """Take a chart away; its history stays."""
    thing = here.thing(chart, Chart)
    keeping.remove(chart, forms.sent())
    return redirect(url_for("drills.show", drill=_chart(thing).drill), 303)


def _chart(thing: Thing) -> Chart:
    return here.body(thing, Chart)


def _read(form: forms.Form, drill: Thing) -> Chart:
    return read_chart(form.given, drill_id=drill.id, drill=here.body(drill, Drill))


def _sketch(form: forms.Form, drill: Thing) -> Markup | None:
    """Draw what can be read of a chart; None where nothing can be yet."""
    scale = here.body(drill, Drill).scale
    try:
        points = chart_points(form.given, unit=form.text("unit"), test_weight=_test_weight(form))
    except MeasurementError:
        return None
    return drawn([(point.setting, point.rate.value) for point in points], scale, name="sketch")


def drawn(points: list[tuple[float, float]], scale: Scale | None, *, name: str) -> Markup:
    """Draw points of a chart over the whole scale of the drill."""
    whole = engine_scale(scale) if scale else None
    # What is drawn is escaped where it is written.
    return Markup(points_chart(points, scale=whole, style=here.style(), name=name))


def _test_weight(form: forms.Form) -> float | None:
    try:
        return form.given.exact("test_weight", TEST_WEIGHT)
    except MeasurementError:
        return None


def _form(form: forms.Form, drill: Thing, thing: Thing | None) -> str:
    return render_template(
        "chart_form.html",
        form=form,
        drill=drill,
        body=drill.body,
        thing=thing,
        sketch=_sketch(form, drill),
    )
