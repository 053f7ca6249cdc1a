"""What is found out about a lot at home: counts of its seeds, and germination tests."""

from flask import Blueprint, redirect, render_template, request, url_for
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

from ..site import forms, here, keeping

blueprint = Blueprint("tests", __name__)
SAMPLES, DISHES, SPARE = 3, 4, 2


@blueprint.get("/seed/<lot>/counts/new")
def new_count(lot: str) -> ResponseReturnValue:
    """Show how a lot is counted, step by step, and where the numbers go."""
    way = request.args.get("way", "samples")
    return _count_form(_lot(lot), forms.blank({"way": way}), None)


@blueprint.post("/seed/<lot>/counts/new")
def add_count(lot: str) -> ResponseReturnValue:
    """Keep a count."""
    thing, form = _lot(lot), forms.sent()
    try:
        entry = keeping.add(_read_count(thing, form), form)
    except MeasurementError as error:
        return _count_form(thing, form.refused(error), None), 422
    return redirect(url_for("tests.show_count", count=entry.about), 303)


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


@blueprint.get("/counts/<count>/edit")
def edit_count(count: str) -> ResponseReturnValue:
    """Show the form of a count filled in."""
    thing = here.thing(count, SeedCount)
    body = here.body(thing, SeedCount)
    return _count_form(_lot(body.lot), forms.opened(thing, count_texts(body)), thing)


@blueprint.post("/counts/<count>/edit")
def correct_count(count: str) -> ResponseReturnValue:
    """Keep the right form of a count."""
    thing, form = here.thing(count, SeedCount), forms.sent()
    lot = _lot(here.body(thing, SeedCount).lot)
    try:
        keeping.correct(count, _read_count(lot, form), form)
    except MeasurementError as error:
        form = form.refused(error)
        return _count_form(lot, form, thing), form.code
    return redirect(url_for("tests.show_count", count=count), 303)


@blueprint.post("/counts/<count>/remove")
def remove_count(count: str) -> ResponseReturnValue:
    """Leave a count out from here on; it stays in the history."""
    thing = here.thing(count, SeedCount)
    keeping.remove(count, forms.sent())
    return redirect(url_for("seed.show", lot=here.body(thing, SeedCount).lot), 303)


@blueprint.get("/seed/<lot>/tests/new")
def new(lot: str) -> ResponseReturnValue:
    """Show how a lot is tested at home, step by step, and where the numbers go."""
    laid = {f"dish{i}_seeds": str(PER_REPLICATE) for i in range(1, DISHES + 1)}
    return _test_form(_lot(lot), forms.blank(laid), None)


@blueprint.post("/seed/<lot>/tests/new")
def add(lot: str) -> ResponseReturnValue:
    """Keep a germination test."""
    thing, form = _lot(lot), forms.sent()
    try:
        entry = keeping.add(_read_test(thing, form), form)
    except MeasurementError as error:
        return _test_form(thing, form.refused(error), None), 422
    return redirect(url_for("tests.show", test=entry.about), 303)


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


@blueprint.get("/tests/<test>/edit")
def edit(test: str) -> ResponseReturnValue:
    """Show the form of a test filled in."""
    thing = here.thing(test, GerminationTest)
    body = here.body(thing, GerminationTest)
    return _test_form(_lot(body.lot), forms.opened(thing, sprout_texts(body)), thing)


@blueprint.post("/tests/<test>/edit")
def correct(test: str) -> ResponseReturnValue:
    """Keep the right form of a test."""
    thing, form = here.thing(test, GerminationTest), forms.sent()
    lot = _lot(here.body(thing, GerminationTest).lot)
    try:
        keeping.correct(test, _read_test(lot, form), form)
    except MeasurementError as error:
        form = form.refused(error)
        return _test_form(lot, form, thing), form.code
    return redirect(url_for("tests.show", test=test), 303)


@blueprint.post("/tests/<test>/remove")
def remove(test: str) -> ResponseReturnValue:
    """Leave a test out from here on; it stays in the history."""
    thing = here.thing(test, GerminationTest)
    keeping.remove(test, forms.sent())
    return redirect(url_for("seed.show", lot=here.body(thing, GerminationTest).lot), 303)


def _lot(lot: str) -> Thing:
    return here.thing(lot, Lot)


def _read_count(lot: Thing, form: forms.Form) -> SeedCount:
    body, today = here.body(lot, Lot), here.this_month()
    return read_count_form(form.given, lot_id=lot.id, lot=body, today=today)


def _read_test(lot: Thing, form: forms.Form) -> GerminationTest:
    body, today = here.body(lot, Lot), here.this_month()
    return read_sprout_form(form.given, lot_id=lot.id, lot=body, today=today)


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


def _count_form(lot: Thing, form: forms.Form, thing: Thing | None) -> str:
    way = "replicates" if form.text("way") == "replicates" else "samples"
    samples = max(
        (i for i in range(1, MOST_SAMPLES + 1) if form.text(f"sample{i}_seeds")), default=0
    )
    weights = max((i for i in range(1, MOST_WEIGHTS + 1) if form.text(f"weight{i}")), default=0)
    read = _read(lot)
    count = read.count if read else None
    return render_template(
        "count_form.html",
        form=form,
        thing=thing,
        lot=lot,
        way=way,
        samples=max(SAMPLES, min(MOST_SAMPLES, samples + SPARE)),
        weights=MOST_WEIGHTS if weights >= REPLICATES else REPLICATES,
        hundred=PER_REPLICATE / nominal(count.seeds_per_kg) if count else None,
    )


def _test_form(lot: Thing, form: forms.Form, thing: Thing | None) -> str:
    places = range(1, MOST_DISHES + 1)
    laid = max((i for i in places if form.text(f"dish{i}_seeds")), default=0)
    up = max((i for i in places if form.text(f"dish{i}_sprouted")), default=0)
    body = here.body(lot, Lot)
    read = _read(lot)
    return render_template(
        "sprout_form.html",
        form=form,
        thing=thing,
        lot=lot,
        dishes=max(DISHES, laid, min(MOST_DISHES, up + 1)),
        hard=body.tag.total_viable or body.tag.hard or body.tag.dormant,
        needs_hard=read is not None and read.result.count_hard,
        treated=body.tag.treated,
    )
