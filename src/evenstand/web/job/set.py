"""The Set step: where the lever goes, what to turn, what was caught."""

from dataclasses import dataclass, replace
from typing import cast

from flask import Blueprint, g, render_template, request, url_for
from flask.typing import ResponseReturnValue
from markupsafe import Markup

from evenstand.book.book import Book
from evenstand.book.kinds import work
from evenstand.engine.drill.drill import number
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.rows.evenness import Evenness
from evenstand.report.charts import result_strip, row_chart
from evenstand.report.curve import curve_chart
from evenstand.tasks.calibration.form import RUNS, read_catch, rows_text
from evenstand.tasks.calibration.row_by_row import last_rows
from evenstand.tasks.calibration.setting import Setting, where_next
from evenstand.tasks.calibration.turning import Turning, turning
from evenstand.tasks.job.kept import Kept, chosen_of, find
from evenstand.tasks.parsing.given import unlent
from evenstand.tasks.record.frozen import changed_since, freeze_what_ends, locked, reason
from evenstand.tasks.whole_job.calibration import set_job
from evenstand.tasks.whole_job.chosen import read_chosen

from ..site import forms, here, keeping
from ..site.editing import saved
from ..site.spine import Step, StepLine
from .filling import kept_box
from .handing_over import beside_set

blueprint = Blueprint("set", __name__)
OWN = ("setting", "net")  # of each box, where several are caught in the same turns
Worked = tuple[Setting | None, MeasurementError | None]
SAME_TURNS = (*RUNS, "per_turn", "crank_per_wheel", "rows_caught", "resolution", "gear")


@dataclass(frozen=True)
class Drawn:
    """The drawings of the page; None where there is nothing to draw."""

    strip: Markup | None
    curve: Markup | None
    rows: Markup | None


@blueprint.get("/jobs/<job>/calibrate")
def show(job: str) -> ResponseReturnValue:
    """Show where the lever goes next and everything that speaks for it."""
    kept = kept_box(job)
    found, missing = _setting(kept)
    return _page(kept, found, missing, form=_blank(kept, found))


@dataclass(frozen=True)
class BoxSoFar:
    """One box of the job: what it is called, whether it is set, how far it is, its next notch.

    The fields of a catch made from it in the same turns begin with ``key``.
    """

    name: str
    set: bool
    said: Phrase
    next: str
    key: str


@blueprint.post("/jobs/<job>/calibrate")
def add(job: str) -> ResponseReturnValue:
    """Keep a catch, and those made from other boxes in the same turns."""
    kept = kept_box(job)

    def keep(form: forms.Form) -> str:
        others = [each for each in _boxes(kept) if form.text(f"{each.key}net").strip()]
        also = [(each, _also(form, kept, each)) for each in others if each.name != kept.box]
        keeping.add(read_catch(form.given, kept), form)
        for each, body in also:
            keeping.add(body, form.under(f"{each.key}entry"))
        return _back(kept)

    return saved(keep, lambda form: _page(kept, *_setting(kept), form=form))


@blueprint.post("/jobs/<job>/calibrate/choose")
def choose(job: str) -> ResponseReturnValue:
    """Keep the notch that was taken."""
    kept = kept_box(job)

    def keep(form: forms.Form) -> str:
        body = read_chosen(form.given, kept, here.book())
        keeping.add(body, form)
        freeze_what_ends(here.book(), body, today=here.this_month(), by=here.who())
        return _back(kept)

    def again(form: forms.Form) -> str:
        found, missing = _setting(kept)
        return _page(kept, found, missing, form=_blank(kept, found), taken=form)

    return saved(keep, again)


def _also(form: forms.Form, kept: Kept, box: BoxSoFar) -> work.Catch:
    """Read a catch from another box: its own lever and weight, the same turns and rows."""
    given = form.given
    own = {key: given.texts.get(box.key + key, "") for key in OWN}
    texts = {key: given.texts[key] for key in SAME_TURNS if key in given.texts} | own
    return read_catch(
        replace(
            given,
            texts={key: text for key, text in texts.items() if text},
            path=lambda key: given.path(box.key + key if key in OWN else key),
        ),
        find(here.book(), kept.thing.id, box=box.name),
    )


def _boxes(kept: Kept) -> list[BoxSoFar]:
    """Say of each box of the job how far it is, looked up once for each request."""
    known = g.setdefault("boxes so far", {})
    if kept.thing.id not in known:
        book, job = here.book(), kept.thing.id
        each = [find(book, job, box=wanted.box) for wanted in kept.body.wanted]
        known[job] = [_of_box(one, key=f"also{i}_") for i, one in enumerate(each)]
    return cast(list[BoxSoFar], known[kept.thing.id])


def _of_box(kept: Kept, *, key: str) -> BoxSoFar:
    line, (found, _) = _line(here.book(), kept), _setting(kept)
    return BoxSoFar(
        name=kept.box,
        set=line.state == "done",
        said=line.headline,
        next=number(found.choice.best.setting) if found else "",
        key=key,
    )


def _back(kept: Kept) -> str:
    return url_for("set.show", job=kept.thing.id, box=kept.box or None)


def _setting(kept: Kept) -> Worked:
    """Work out where to go next, or what stands in the way, once for each request."""
    known = g.setdefault("settings", {})
    if (kept.thing.id, kept.box) not in known:
        known[kept.thing.id, kept.box] = _worked_out(kept)
    return cast(Worked, known[kept.thing.id, kept.box])


def _worked_out(kept: Kept) -> Worked:
    try:
        return where_next(set_job(here.book(), kept)), None
    except MeasurementError as error:
        return None, error


def _blank(kept: Kept, found: Setting | None) -> forms.Form:
    """Fill in what is likely: the notch that was advised, the rows and the unit of before."""
    texts = {}
    if found:
        at = found.job.catches[-1] if found.stopped else found.choice.best
        texts = {"setting": number(at.setting), "gear": at.gear.name}
    if kept.catches:
        last = here.body(kept.catches[-1], work.Catch)
        unit = unlent((last.gross or last.bags[0].weight).text, forms.units("catch"))[1]
        texts |= {"rows_caught": rows_text(last), "net_unit": unit, "tare_unit": unit, "unit": unit}
        crank = kept.drill and kept.drill.crank_per_wheel
        texts |= {"resolution": last.resolution.text} if last.resolution else {}
        texts |= {"turns": last.turns.text} if last.turns and not crank else {}
        texts |= {"crank_turns": last.crank_turns.text} if last.crank_turns else {}
    texts |= _start_of_others(kept)
    texts |= {"each": request.args["each"]} if request.args.get("each") else {}
    return forms.blank(texts)


def _start_of_others(kept: Kept) -> dict[str, str]:
    """Fill in where the levers of the other boxes go next."""
    return {f"{box.key}setting": box.next for box in _boxes(kept)}


def _page(
    kept: Kept,
    found: Setting | None,
    missing: MeasurementError | None,
    *,
    form: forms.Form,
    taken: forms.Form | None = None,
) -> str:
    rows, boxes = last_rows(found.job) if found else None, _boxes(kept)
    turns, chosen = _turning(kept), chosen_of(here.book(), kept)
    stood = locked(here.book(), chosen) if chosen else None
    return render_template(
        "set.html",
        kept=kept,
        found=found,
        missing=missing,
        fix=_fix(kept, missing),
        about=_about(missing),
        drawn=_drawn(found, rows),
        rows=rows,
        form=form,
        taken=taken or forms.blank(),
        turning=turns,
        chosen=chosen,
        locked=stood,
        reason=reason,
        since=changed_since(here.book(), stood) if stood else (),
        beside=beside_set(kept),
        catches=list(zip(kept.catches, found.caught, strict=True)) if found else [],
        each=form.text("each") == "yes",
        boxes=boxes,
        same_turns=[box for box in boxes if box.name != kept.box],
        open_box=next((box.name for box in boxes if not box.set), ""),
        new_id=here.book().new_id,
        of_catch=forms.opened(kept.catches[-1]) if kept.catches else None,
    )


def _turning(kept: Kept) -> Turning | None:
    try:
        return turning(kept, request.args.get("ground", ""), style=here.style())
    except MeasurementError:
        return None


def _about(missing: MeasurementError | None) -> Phrase | None:
    """Say which catch stands in the way, if one does."""
    number = _catch_number(missing)
    return say("catch {n}", n=number) if number else None


def _catch_number(missing: MeasurementError | None) -> int:
    match missing.path if missing else ():
        case ("catch", int(number), *_):
            return number
        case _:
            return 0


def _fix(kept: Kept, missing: MeasurementError | None) -> str:
    """Return the page where what is missing can be given."""
    if number := _catch_number(missing):
        return url_for("catches.edit", catch=kept.catches[number - 1].id)
    of_drill = missing and missing.path[0] in ("drill", "wheel", "scale", "chart", "gear")
    if of_drill and kept.drill_id:
        return url_for("drills.edit", drill=kept.drill_id)
    if missing and missing.path == ("wanted",) and kept.body.mix:
        return url_for("boxes.show", job=kept.thing.id)
    return url_for("jobs.edit", job=kept.thing.id)


def _drawn(found: Setting | None, rows: Evenness | None) -> Drawn:
    """Draw the last catch, the curve and the rows; drawings escape what they write."""
    if found is None:
        return Drawn(None, None, None)
    style, strip = here.style(), None
    if found.caught:
        measured = found.caught[-1].measured
        rate = measured.static if found.job.target.on == "static" else measured.field
        strip = Markup(result_strip(rate, found.job.target, style))
    curve = curve_chart(
        found.choice,
        start=found.start,
        catches=found.at,
        target=found.job.target,
        factor=found.factor,
        style=style,
    )
    return Drawn(strip, Markup(curve), Markup(row_chart(rows, style)) if rows else None)


def lines(book: Book, kept: Kept) -> list[StepLine]:
    """Say how far each box is."""
    boxes = [wanted.box for wanted in kept.body.wanted]
    if not boxes:
        return [StepLine("open", say("enter the target rate"))]
    return [_line(book, find(book, kept.thing.id, box=box)) for box in boxes]


def _line(book: Book, kept: Kept) -> StepLine:
    chosen = chosen_of(book, kept)
    if chosen:
        setting = here.body(chosen, work.Chosen).setting
        return StepLine("done", say("set to {setting}", setting=number(setting)), kept.box)
    found, missing = _setting(kept)
    if found is None:
        return StepLine("open", missing.need if missing else say("open"), kept.box)
    return StepLine("under way" if found.caught else "open", _headline(found), kept.box)


def _headline(found: Setting) -> Phrase:
    if found.stopped:
        return say("{rows}: clear it, catch again", rows=found.stopped[0].name)
    setting = number(found.choice.best.setting)
    if found.choice.ending == "accepted":
        return say("{setting} is accepted: use it", setting=setting)
    return say("next: {setting}", setting=setting)


STEP = Step(
    key="set",
    title=say("Calibrate"),
    question=say("Where do I set the lever?"),
    lines=lines,
    endpoint="set.show",
)
