"""Charts of a drill: typed in or pasted, and drawn meanwhile."""

from flask import Blueprint, render_template, url_for
from flask.typing import ResponseReturnValue
from markupsafe import Markup

from evenstand.book.kinds.machine import Chart, Drill, Scale
from evenstand.book.storage.thing import Thing
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.units import TEST_WEIGHT
from evenstand.report.curve import points_chart
from evenstand.tasks.drill.chart_form import chart_points, chart_texts, read_chart
from evenstand.tasks.drill.machines import engine_scale

from ..site import forms, here
from ..site.editing import Editing

blueprint = Blueprint("charts", __name__)


@blueprint.post("/drills/<drill>/charts/draw")
def draw(drill: str) -> ResponseReturnValue:
    """Draw what is typed so far; nothing is kept."""
    thing = here.thing(drill, Drill)
    return render_template("chart_sketch.html", sketch=_sketch(forms.sent(), thing))


def _read(form: forms.Form, drill: str, _: Thing | None) -> Chart:
    body = here.body(here.thing(drill, Drill), Drill)
    return read_chart(form.given, drill_id=drill, drill=body)


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


def _form(form: forms.Form, drill: str, thing: Thing | None) -> str:
    owner = here.thing(drill, Drill)
    return render_template(
        "chart_form.html",
        form=form,
        drill=owner,
        body=owner.body,
        thing=thing,
        sketch=_sketch(form, owner),
    )


Editing(
    kind=Chart,
    owner=lambda drill: here.thing(drill, Drill).id,
    of=lambda chart: chart.drill,
    read=_read,
    texts=chart_texts,
    page=_form,
    shown=lambda drill, chart: url_for("drills.show", drill=drill),
    left=lambda drill: url_for("drills.show", drill=drill),
).serve(
    blueprint,
    new="/drills/<drill>/charts/new",
    edit="/charts/<chart>",
    remove="/charts/<chart>/remove",
)
