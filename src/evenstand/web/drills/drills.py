"""Drills: the list, the page of one, its form, its label."""

from collections.abc import Sequence
from urllib.parse import urlsplit

from flask import Blueprint, render_template, request, url_for
from flask.typing import ResponseReturnValue
from markupsafe import Markup

from evenstand.book.kinds import machine, work
from evenstand.book.kinds.machine import Drill
from evenstand.book.storage.thing import Thing
from evenstand.engine.quantities.phrases import say
from evenstand.engine.seed.size_class import CLASS_WORDS, SeedClass
from evenstand.engine.seeding.field_ratio import FieldRatio
from evenstand.report.code import code_to_scan
from evenstand.tasks.drill.form import MOST_BOXES, MOST_GEARS, drill_texts, read_drill
from evenstand.tasks.drill.machines import engine_drill
from evenstand.tasks.job.kept import charts_of
from evenstand.tasks.whole_job.field_ratios import OwnField, learn, own_fields

from ..site import forms, here
from ..site.editing import Editing
from .charts import drawn

blueprint = Blueprint("drills", __name__)
SPARE = 2  # empty lines behind the gears and boxes that are there
MOST_JOBS = 10
MOST_SHOWN = 60  # drills on a page
MOST_DIGITS = 7


@blueprint.get("/drills")
def index() -> ResponseReturnValue:
    """List the drills by name."""
    drills, first, more = by_name()
    return render_template(
        "drills.html", drills=drills, newer=here.newer("drill"), first=first, more=more
    )


def by_name() -> tuple[list[Thing], int, int | None]:
    """Return a page of the drills by their names, where it begins, and where the next one does."""
    asked, book = request.args.get("from", ""), here.book()
    first = int(asked) if asked.isdecimal() and len(asked) < MOST_DIGITS else 0
    ids = [id for id, _ in sorted(book.many.names("drill"), key=lambda each: each[1].casefold())]
    found = book.many.things(ids[first : first + MOST_SHOWN]).values()
    more = first + MOST_SHOWN if len(ids) > first + MOST_SHOWN else None
    return [thing for thing in found if isinstance(thing.body, Drill)], first, more


def _drill(thing: Thing) -> Drill:
    return here.body(thing, Drill)


@blueprint.get("/drills/<drill>")
def show(drill: str) -> ResponseReturnValue:
    """Show a drill with its charts and its jobs."""
    thing = here.thing(drill, Drill)
    body, book = _drill(thing), here.book()
    charts = [each for each in charts_of(book, drill) if isinstance(each.body, machine.Chart)]
    jobs = [each for each in book.things("job", of=drill, limit=MOST_JOBS)]
    fields = own_fields(book, drill)
    return render_template(
        "drill.html",
        thing=thing,
        drill=body,
        width=engine_drill(body).width,
        charts=[(each, _drawn(each, body)) for each in charts],
        jobs=[each for each in jobs if isinstance(each.body, work.Job)],
        fields=fields,
        ratios=_ratios(fields),
        classes=CLASS_WORDS,
        form=forms.blank(),
    )


def _ratios(fields: Sequence[OwnField]) -> list[tuple[SeedClass, FieldRatio]]:
    """Learn the field ratio of each class of seed that was sown."""
    classes = dict.fromkeys(field.past.seed_class for field in fields if field.past)
    found = ((each, learn(fields, seed_class=each)) for each in classes)
    return [(each, ratio) for each, ratio in found if ratio]


def _drawn(thing: Thing, drill: Drill) -> Markup:
    chart = here.body(thing, machine.Chart)
    points = [(point.setting, point.rate.value) for point in chart.points]
    return drawn(points, drill.scale, name=f"chart-{thing.id}")


@blueprint.get("/drills/<drill>/label")
def label(drill: str) -> ResponseReturnValue:
    """Show a label to print, whose code opens the drill's page."""
    thing = here.thing(drill, Drill)
    given = request.args.get("at", "").strip()
    base = given or request.url_root
    page = url_for("drills.show", drill=drill)
    need = None
    parts = urlsplit(base)
    if parts.scheme not in ("http", "https") or not parts.netloc:
        need = say("enter an address that starts with http:// or https://")
        base = request.url_root
    address = base.rstrip("/") + page
    return render_template(
        "label.html",
        thing=thing,
        drill=_drill(thing),
        width=engine_drill(_drill(thing)).width,
        address=address,
        base=given or base,
        need=need,
        code=code(address),
    )


def code(text: str) -> Markup:
    """Draw a text as a QR code."""
    return Markup(code_to_scan(text))


def _form(form: forms.Form, _: None, thing: Thing | None) -> str:
    return render_template(
        "drill_form.html",
        form=form,
        thing=thing,
        gears=min(MOST_GEARS, form.last("gear{}_name", MOST_GEARS) + SPARE),
        boxes=min(MOST_BOXES, form.last("box{}_name", MOST_BOXES) + SPARE),
    )


Editing(
    kind=Drill,
    of=lambda drill: None,
    read=lambda form, owner, thing: read_drill(form.given),
    texts=drill_texts,
    page=_form,
    shown=lambda owner, drill: url_for("drills.show", drill=drill),
    left=lambda owner: url_for("drills.index"),
    start=lambda owner: {"scale_step": "1", "scale_slack": "below"},
    names=("name",),
).serve(
    blueprint,
    new="/drills/new",
    edit="/drills/<drill>/edit",
    remove="/drills/<drill>/remove",
)
