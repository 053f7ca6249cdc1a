"""What is found out about a lot at home: counts of its seeds, and germination tests."""

from flask import Blueprint, render_template, request, url_for
from flask.typing import ResponseReturnValue

from evenstand.book.book import Book
from evenstand.book.kinds.seed import GerminationTest, Lot, SeedCount
from evenstand.book.storage.thing import Thing
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.seed.count import PER_REPLICATE, REPLICATES
from evenstand.engine.statistics.budget import nominal
from evenstand.tasks.seed.count_form import (
    MOST_SAMPLES,
    MOST_WEIGHTS,
    CountSheet,
    count_sheet,
    count_texts,
    read_count_form,
    read_within,
)
from evenstand.tasks.seed.kept import read_kept, test_of
from evenstand.tasks.seed.lots import LotRead
from evenstand.tasks.seed.sheet import look_at
from evenstand.tasks.seed.sprout_form import MOST_DISHES, read_sprout_form, sprout_texts

from ..site import forms, here
from ..site.editing import Editing

blueprint = Blueprint("tests", __name__)
SAMPLES, DISHES, SPARE = 3, 4, 2


@blueprint.get("/counts/<count>")
def show_count(count: str) -> ResponseReturnValue:
    """Show what a count comes to, and how many more would make it surer."""
    thing = here.thing(count, SeedCount)
    body = here.body(thing, SeedCount)
    lot, texts = _lot(body.lot), request.args.to_dict()
    form = forms.Form({"within": "3%", **texts})
    try:
        return _count_page(thing, lot, form, within=read_within(form.given)), 200
    except MeasurementError as error:
        return _count_page(thing, lot, form.refused(error)), 422


@blueprint.get("/tests/<test>")
def show(test: str) -> ResponseReturnValue:
    """Show what a test says beside the tag."""
    thing = here.thing(test, GerminationTest)
    body = here.body(thing, GerminationTest)
    lot = _lot(body.lot)
    read = _read(lot, test=body) if body.counted else None
    together = read.tag.compared(hard_too=read.result.count_hard) if read else None
    return render_template(
        "sprouted.html",
        thing=thing,
        test=body,
        lot=lot,
        read=read,
        together=together,
        look=None if body.counted else look_at(body),
        laid=sum(dish.seeds for dish in body.dishes),
        up=sum(dish.sprouted or 0 for dish in body.dishes),
        newest=test_of(here.book(), body.lot) == body,
        form=forms.blank(),
    )


def _lot(lot: str) -> Thing:
    return here.thing(lot, Lot)


def _read_count(form: forms.Form, lot: str, _: Thing | None) -> SeedCount:
    body, today = here.body(_lot(lot), Lot), here.this_month()
    return read_count_form(form.given, lot_id=lot, lot=body, today=today)


def _read_test(form: forms.Form, lot: str, _: Thing | None) -> GerminationTest:
    body, today = here.body(_lot(lot), Lot), here.this_month()
    return read_sprout_form(form.given, lot_id=lot, lot=body, today=today)


def _read(lot: Thing, *, test: GerminationTest | None = None) -> LotRead | None:
    """Read a lot, None where what is kept of it does not fit together."""
    try:
        return read_kept(here.body(lot, Lot), today=here.this_month(), test=test)
    except MeasurementError:
        return None


def _is_newest(book: Book, thing: Thing, lot: str) -> bool:
    return [each.id for each in book.things(thing.kind, of=lot, limit=1)] == [thing.id]


def _count_page(thing: Thing, lot: Thing, form: forms.Form, *, within: float | None = None) -> str:
    sheet: CountSheet | None = None
    body, today = here.body(thing, SeedCount), here.this_month()
    try:
        about = {} if within is None else {"within": within}
        sheet = count_sheet(here.body(lot, Lot), body, today=today, **about)
    except MeasurementError:
        sheet = None
    return render_template(
        "counted.html",
        thing=thing,
        count=body,
        lot=lot,
        sheet=sheet,
        form=form,
        away=forms.blank(),
        newest=_is_newest(here.book(), thing, body.lot),
    )


def _count_form(form: forms.Form, lot: str, thing: Thing | None) -> str:
    way = "replicates" if form.text("way") == "replicates" else "samples"
    samples = form.last("sample{}_seeds", MOST_SAMPLES)
    weights = form.last("weight{}", MOST_WEIGHTS)
    of = _lot(lot)
    read = _read(of)
    count = read.count if read else None
    return render_template(
        "count_form.html",
        form=form,
        thing=thing,
        lot=of,
        way=way,
        samples=max(SAMPLES, min(MOST_SAMPLES, samples + SPARE)),
        weights=MOST_WEIGHTS if weights >= REPLICATES else REPLICATES,
        hundred=PER_REPLICATE / nominal(count.seeds_per_kg) if count else None,
    )


def _test_form(form: forms.Form, lot: str, thing: Thing | None) -> str:
    laid, up = (form.last(f"dish{{}}_{key}", MOST_DISHES) for key in ("seeds", "sprouted"))
    of = _lot(lot)
    body, read = here.body(of, Lot), _read(of)
    return render_template(
        "sprout_form.html",
        form=form,
        thing=thing,
        lot=of,
        dishes=max(DISHES, laid, min(MOST_DISHES, up + 1)),
        hard=body.tag.total_viable or body.tag.hard or body.tag.dormant,
        needs_hard=read is not None and read.result.count_hard,
        treated=body.tag.treated,
    )


Editing(
    kind=SeedCount,
    owner=lambda lot: _lot(lot).id,
    of=lambda count: count.lot,
    read=_read_count,
    texts=count_texts,
    page=_count_form,
    shown=lambda lot, count: url_for("tests.show_count", count=count),
    left=lambda lot: url_for("seed.show", lot=lot),
    start=lambda lot: {"way": request.args.get("way", "samples")},
).serve(
    blueprint,
    new="/seed/<lot>/counts/new",
    edit="/counts/<count>/edit",
    remove="/counts/<count>/remove",
    behind="_count",
)
Editing(
    kind=GerminationTest,
    owner=lambda lot: _lot(lot).id,
    of=lambda test: test.lot,
    read=_read_test,
    texts=sprout_texts,
    page=_test_form,
    shown=lambda lot, test: url_for("tests.show", test=test),
    left=lambda lot: url_for("seed.show", lot=lot),
    start=lambda lot: {f"dish{i}_seeds": str(PER_REPLICATE) for i in range(1, DISHES + 1)},
).serve(
    blueprint,
    new="/seed/<lot>/tests/new",
    edit="/tests/<test>/edit",
    remove="/tests/<test>/remove",
)
