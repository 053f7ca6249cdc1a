"""The Order step: what to buy, to mix and to load, and how long it takes."""

from flask import Blueprint, render_template, url_for
from flask.typing import ResponseReturnValue

from evenstand.book.book import Book
from evenstand.book.kinds import work
from evenstand.book.kinds.sown import Finished
from evenstand.engine.order.inoculant import RULES
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.quantities.units import MONEY
from evenstand.engine.statistics.budget import nominal
from evenstand.tasks.boxes.kept import body_of, order_of
from evenstand.tasks.job.kept import Kept
from evenstand.tasks.order.form import at_order_field, order_texts, read_order_form
from evenstand.tasks.order.order import Ordered

from ..site import forms, here, keeping
from ..site.editing import saved
from ..site.spine import Step, StepLine
from .filling import Worked, box_names, boxes_of, kept_job, order_made, ordered, told_once
from .holding import about, page_that_holds
from .mix import warned_url

blueprint = Blueprint("order", __name__)
MOST_LOADS = 12  # shown one by one; of more, the first ones and the last
NOTHING_MORE = say("Nothing more to buy: the field is finished.")


@blueprint.get("/jobs/<job>/order")
def show(job: str) -> ResponseReturnValue:
    """Show what to buy, to mix and to load."""
    kept = kept_job(job)
    found = order_made(kept)
    return _page(kept, found, form=_filled_in(kept, found))


@blueprint.post("/jobs/<job>/order")
def save(job: str) -> ResponseReturnValue:
    """Keep what the order reckons with."""
    kept = kept_job(job)

    def keep(form: forms.Form) -> str:
        body = read_order_form(form.given, job, boxes=box_names(kept))
        _check(kept, body, form)
        keeping.settle(order_of(here.book(), kept), body, form)
        return url_for("order.show", job=job)

    return saved(keep, lambda form: _page(kept, order_made(kept), form=form))


def _check(kept: Kept, body: work.Order, form: forms.Form) -> None:
    """Refuse what the form says and no order can have; what else is missing may wait."""
    try:
        ordered(kept, body)
    except MeasurementError as error:
        if refused := at_order_field(error, form.given):
            raise refused from None


def _legumes(kept: Kept, order: work.Order | None) -> list[str]:
    """Return the seed that may get an inoculant, and what has one on the list already."""
    boxes = boxes_of(kept).result
    legumes = [each.portion.name for each in boxes.tipped if each.portion.legume] if boxes else []
    known = [label.species for label in order.inoculants] if order else []
    return list(dict.fromkeys((*legumes, *known)))


def _filled_in(kept: Kept, found: Worked[Ordered]) -> forms.Form:
    """Fill the form in with what is kept; what is refused of it stands at its field."""
    body = body_of(found.thing, work.Order)
    if body is None:
        form = forms.opened(None)
    else:
        legumes = _legumes(kept, body)
        texts = order_texts(body, boxes=box_names(kept), legumes=legumes)
        form = forms.opened(found.thing, texts)
    refused = at_order_field(found.missing, form.given) if found.missing else None
    return form.refused(refused) if refused else form


def _page(kept: Kept, found: Worked[Ordered], *, form: forms.Form) -> str:
    missing = found.missing
    return render_template(
        "order.html",
        kept=kept,
        found=found.result,
        assumed=told_once(found.result.assumed) if found.result else [],
        missing=missing,
        fix=page_that_holds(missing, kept) if missing else "",
        about=about(missing, kept) if missing else "",
        warned_url=warned_url(kept),
        own=found.thing,
        form=form,
        boxes=box_names(kept),
        legumes=_legumes(kept, body_of(found.thing, work.Order)),
        sures=("50%", "75%", "90%", "95%", "99%"),
        rules=RULES,
        nothing_more=NOTHING_MORE if _seeded(here.book(), kept) else None,
        most=MOST_LOADS,
        nominal=nominal,
    )


def lines(book: Book, kept: Kept) -> list[StepLine]:
    """Say how far the order is, with what it costs."""
    if kept.body.mix is None:
        return [StepLine("later", say("needs a mix and the field's area"))]
    found = order_made(kept)
    if found.result is None:
        return [StepLine("open", found.missing.need if found.missing else say("needs a mix"))]
    if _seeded(book, kept):
        return [StepLine("done", NOTHING_MORE)]
    return [StepLine("done" if found.thing else "open", _headline(found.result))]


def _seeded(book: Book, kept: Kept) -> bool:
    """Whether the field of a job is finished, so that nothing more is bought for it."""
    return bool(book.things(Finished.kind, of=kept.thing.id, limit=1))


def _headline(found: Ordered) -> Phrase:
    cost, buying = found.order.cost, [line for line in found.order.lines if line.to_buy]
    if not buying:
        return say("you have all the seed you need")
    if cost is None:
        return say("{n} items to buy, a price is missing", n=len(buying))
    return say("{cost} of seed to buy", cost=MONEY(cost, 5))


STEP = Step(
    key="order",
    title=say("Order"),
    question=say("How much do I buy, haul and load?"),
    lines=lines,
    endpoint="order.show",
)
