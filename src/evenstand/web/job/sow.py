"""The Sow step: is it really going down at that rate, and what to do next?"""

from collections.abc import Iterator
from dataclasses import dataclass

from flask import Blueprint, render_template, request, url_for
from flask.typing import ResponseReturnValue
from markupsafe import Markup

from evenstand.book.book import Book
from evenstand.book.kinds import sown, work
from evenstand.book.kinds.shape import Body, Typed
from evenstand.book.storage.thing import Thing
from evenstand.engine.catch.target import odds_in_words
from evenstand.engine.drill.drill import number
from evenstand.engine.parsing.retold import retold
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.quantities.units import FIELD, LOAD, NUMBER, RATE, SHARE, Amount
from evenstand.engine.seeding.cures import CURES
from evenstand.engine.seeding.plan import SowPlan
from evenstand.engine.statistics.budget import Quantity
from evenstand.report.charts import result_strip
from evenstand.report.sown_course import course_chart
from evenstand.tasks.boxes.kept import body_of, order_of
from evenstand.tasks.job.kept import Kept, chosen_of, find
from evenstand.tasks.order.day import plan_day
from evenstand.tasks.seeding.checks import Checked, judge_check, seeds_in_box
from evenstand.tasks.seeding.seeding import SownBox
from evenstand.tasks.whole_job.seeding import Sown

from ..site import here
from ..site.spine import Step, StepLine
from .filling import Worked, boxes_of, kept_box, order_made, sown_of

blueprint = Blueprint("sow", __name__)
MOST_PEOPLE = 9
MAY_RUN_OUT = 0.05  # odds from which the line of the job tells them
KINDS = (sown.Load, sown.Level, sown.Moved, sown.Ground, sown.Check, sown.Finished)
WORDS: dict[str, Phrase] = {
    "load": say("Load"),
    "level": say("Box reading"),
    "moved": say("Lever change"),
    "area": say("Acre meter check"),
    "check": say("Seed check behind the drill"),
    "finished": say("Finished"),
}
SOILS: dict[str, Phrase] = {
    "": say("not entered"),
    "firm": say("firm"),
    "loose": say("loose"),
    "wet": say("wet"),
    "residue": say("heavy residue"),
}


@dataclass(frozen=True)
class Written:
    """An entry in the list of a box, with what it says in short."""

    thing: Thing
    kind: Phrase
    at: Amount | None
    told: tuple[str, ...]


@dataclass(frozen=True)
class Looked:
    """A check behind the drill, and what it says or what it lacks."""

    thing: Thing
    found: Checked | None
    missing: MeasurementError | None


@blueprint.get("/jobs/<job>/seeding")
def show(job: str) -> ResponseReturnValue:
    """Show a box along the acres, and what to do next."""
    kept = kept_box(job)
    worked = sown_of(kept)
    found = worked.result
    box = found.box(kept.box) if found else None
    plan = None if found and found.way.begun else _plan(kept)
    entries = _entries(kept)
    return render_template(
        "sow.html",
        kept=kept,
        box=box,
        missing=worked.missing,
        begun=bool(found and found.way.begun),
        finished=found.way.finished if found else None,
        fix=_fix(kept, worked),
        strip=_strip(box),
        course=_course(kept, box),
        plan=plan,
        people=_people(),
        lever=body_of(chosen_of(here.book(), kept), work.Chosen),
        entries=entries,
        looked=[_looked(each.thing, kept) for each in entries if each.thing.kind == "check"][:2],
        soils=SOILS,
        cures=CURES,
    )


def _strip(box: SownBox | None) -> Markup | None:
    if box is None:
        return None
    rate = box.closed.rate if box.closed else box.found.rate
    return Markup(result_strip(rate, box.target, here.style(), name="so-far"))


def _course(kept: Kept, box: SownBox | None) -> Markup | None:
    if box is None or not box.found.balance.stretches:
        return None
    area = kept.field.area if kept.field else None
    drawn = course_chart(
        box.found.balance,
        box.target,
        here.style(),
        ground=area.value if area and not box.closed else 0.0,
        turning=box.found.turning,
    )
    return Markup(drawn)


def _people() -> int:
    asked = request.args.get("people", "")
    return min(MOST_PEOPLE, max(1, int(asked))) if asked.isdecimal() and len(asked) < 3 else 1


def _plan(kept: Kept) -> tuple[SowPlan, tuple[Phrase, ...]] | None:
    """Plan the day, where the order can be worked out."""
    if kept.body.mix is None:
        return None
    ordered = order_made(kept).result
    order = body_of(order_of(here.book(), kept), work.Order)
    return plan_day(ordered, kept, order, people=_people()) if ordered else None


def _fix(kept: Kept, worked: Worked[Sown]) -> str:
    """Return where what stands in the way can be put right."""
    if worked.missing is None:
        return ""
    if kept.wanted is None:
        return url_for("jobs.edit", job=kept.thing.id)
    return url_for("sow.show", job=kept.thing.id, box=kept.box or None, _anchor="entries")


def _entries(kept: Kept) -> list[Written]:
    """Return what was written down of a box, the last along the acres first."""
    things = [
        thing
        for kind in KINDS
        for thing in here.book().things(kind.kind, of=kept.thing.id)
        if getattr(thing.body, "box", kept.box) == kept.box
    ]
    return sorted((_written(thing) for thing in things), key=_place, reverse=True)


def _place(each: Written) -> tuple[float, str]:
    return (each.at.value if each.at else -1.0), each.thing.id


def _written(thing: Thing) -> Written:
    body = here.body(thing, Body)
    at = getattr(body, "at", None) or getattr(body, "shown", None)
    return Written(
        thing=thing,
        kind=WORDS[thing.kind],
        at=FIELD(at.value) if at else None,
        told=tuple(_told(body)),
    )


def _told(body: Body) -> list[str]:
    """Write in short what an entry says, as it was typed."""
    style = here.style()
    told: list[Phrase | str] = list(_amounts(body))
    match body:
        case sown.Moved():
            told.append(say("to {setting} {gear}", setting=number(body.setting), gear=body.gear))
        case sown.Finished():
            told += [
                say("{weight} left", weight=retold(each.weight, LOAD, style)) for each in body.left
            ]
        case sown.Check():
            told.append(say("{n} rows counted", n=len(body.seeds)) if body.seeds else "")
            told.append(say("{n} rows dug up", n=len(body.dug)) if body.dug else "")
    return [text for each in told if (text := style.write(each).strip())]


# How an amount of an entry is told; what is not here stands as it was typed.
_SAID = {
    "left": say("{amount} left"),
    "level": say("{amount} full"),
    "mark": say("filled to {amount}"),
    "edge": say("{amount} at the edge"),
    "passes": say("{amount} passes"),
}
_AMOUNTS = {
    "left": LOAD,
    "level": SHARE,
    "bags": NUMBER,
    "weight": LOAD,
    "tote": LOAD,
    "mark": SHARE,
    "edge": LOAD,
    "known": FIELD,
    "passes": NUMBER,
}


def _amounts(body: Body) -> Iterator[Phrase | str]:
    for key, kind in _AMOUNTS.items():
        amount = getattr(body, key, None)
        if isinstance(amount, Typed):
            text = retold(amount, kind, here.style())
            if key == "bags" and isinstance(body, sown.Load) and body.bag:
                yield say(
                    "{n} bags of {weight}", n=text, weight=retold(body.bag, LOAD, here.style())
                )
            else:
                yield say(_SAID[key].template, amount=text) if key in _SAID else text


def _looked(thing: Thing, kept: Kept) -> Looked:
    try:
        check = here.body(thing, sown.Check)
        return Looked(thing, judge_check(check, kept, mixed=_mixed(kept)), None)
    except MeasurementError as error:
        return Looked(thing, None, error)


def _mixed(kept: Kept) -> Quantity | None:
    """Return the seeds in a weight of what the mix puts in the box, None where it does not."""
    boxes = boxes_of(kept).result if kept.body.mix else None
    filled = [each for each in boxes.used if each.box.name == kept.box] if boxes else []
    return seeds_in_box(filled[0]) if filled else None


def lines(book: Book, kept: Kept) -> list[StepLine]:
    """Say how far each box is."""
    if not kept.body.wanted:
        return [StepLine("later", say("needs a setting, and the first load weighed back"))]
    worked = sown_of(kept)
    if worked.missing:
        return [StepLine("open", worked.missing.need)]
    boxes = [wanted.box for wanted in kept.body.wanted]
    return [_line(worked.result, find(book, kept.thing.id, box=box)) for box in boxes]


def _line(found: Sown | None, kept: Kept) -> StepLine:
    box = found.box(kept.box) if found else None
    if box is None:
        set_ = chosen_of(here.book(), kept) is not None
        if set_:
            return StepLine("open", say("enter the first load"), kept.box)
        return StepLine("later", say("needs a setting, and the first load weighed back"), kept.box)
    if box.closed:
        return StepLine("done", say("{rate}, finished", rate=RATE(box.closed.rate.value)), kept.box)
    return StepLine("under way", headline(box), kept.box)


def headline(box: SownBox) -> Phrase:
    """Say the rate so far, and the odds to run short where they are worth a word."""
    if not box.found.balance.stretches:
        return say("loaded; read the box after a few passes")
    rate, left = RATE(box.found.rate.value), box.found.run_out
    if left is None or left.odds < MAY_RUN_OUT:
        return say("{rate} so far", rate=rate)
    return say(
        "{rate} so far, {odds} odds of running short", rate=rate, odds=odds_in_words(left.odds)
    )


STEP = Step(
    key="sow",
    title=say("Seeding"),
    question=say("Is it really going out at that rate?"),
    lines=lines,
    endpoint="sow.show",
)
