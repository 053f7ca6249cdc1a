"""Seed: the lots by species, the page of one, its form."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby

from flask import Blueprint, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue

from evenstand.book.book import Book
from evenstand.book.kinds.bodies import Newer
from evenstand.book.kinds.seed import Lot, Mix
from evenstand.book.kinds.work import Job
from evenstand.book.storage.thing import Thing
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.seed.age import LIMITS
from evenstand.tasks.seed.bags import MOST_BAGS
from evenstand.tasks.seed.form import MOST_WEEDS, lot_texts, read_lot_form
from evenstand.tasks.seed.kept import count_of, test_of
from evenstand.tasks.seed.sheet import LotSheet, lot_sheet
from evenstand.tasks.seed.species_table import species_table

from ..site import forms, here
from ..site.editing import Editing

blueprint = Blueprint("seed", __name__)
MOST_SHOWN = 60  # lots on a page
MOST_USES, MOST_JOBS, MOST_BESIDE = 12, 6, 24
SPARE = 1  # empty lines behind the weeds and bags that are there
STATE = "state"  # the cookie that remembers whose limit of a test's age holds
A_YEAR = 365 * 24 * 3600  # s


@dataclass(frozen=True)
class ShownLot:
    """A lot in the list; without its sheet where what is kept of it does not fit together."""

    thing: Thing
    species: str
    sheet: LotSheet | None


@blueprint.get("/seed")
def index() -> ResponseReturnValue:
    """List the lots by species."""
    book = here.book()
    after = here.any_thing(request.args["after"]) if request.args.get("after") else None
    things = book.things("lot", after=after, limit=MOST_SHOWN + 1)
    shown = sorted(_shown(book, things[:MOST_SHOWN]), key=_order)
    return render_template(
        "seed.html",
        newer=[each for each in things[:MOST_SHOWN] if isinstance(each.body, Newer)],
        groups=[(name, list(lots)) for name, lots in groupby(shown, lambda lot: lot.species)],
        more=things[MOST_SHOWN - 1].id if len(things) > MOST_SHOWN else None,
        later=bool(after),
    )


def _shown(book: Book, things: list[Thing]) -> Iterator[ShownLot]:
    for thing in things:
        if isinstance(thing.body, Lot):
            sheet = _sheet(thing)
            found = sheet if isinstance(sheet, LotSheet) else None
            name = found.read.species_name if found else thing.body.species
            yield ShownLot(thing, name, found)


def _order(lot: ShownLot) -> tuple[str, str]:
    body = here.body(lot.thing, Lot)
    return lot.species.casefold(), body.name.casefold()


def _sheet(thing: Thing) -> LotSheet | MeasurementError:
    try:
        return lot_sheet(here.book(), thing, today=here.this_month(), state=state())
    except MeasurementError as error:
        return error


def state() -> str:
    """Return the state whose limit of a test's age was chosen on this device."""
    chosen = request.cookies.get(STATE, "")
    return chosen if chosen in [limit.short for limit in LIMITS] else ""


@blueprint.post("/seed/state")
def choose_state() -> ResponseReturnValue:
    """Remember on this device whose limit of a test's age holds."""
    form = forms.sent()
    lot = form.text("lot")
    back = url_for("seed.show", lot=lot) if lot else url_for("seed.index")
    answer = redirect(back, 303)
    if form.text("state") in [limit.short for limit in LIMITS]:
        answer.set_cookie(STATE, form.text("state"), max_age=A_YEAR, samesite="Lax", httponly=True)
    return answer


@blueprint.get("/seed/<lot>")
def show(lot: str) -> ResponseReturnValue:
    """Show a lot: its tag, what it comes to, what was counted and tested."""
    thing, book = here.thing(lot, Lot), here.book()
    sheet = _sheet(thing)
    found = sheet if isinstance(sheet, LotSheet) else None
    return render_template(
        "lot.html",
        thing=thing,
        lot=here.body(thing, Lot),
        sheet=found,
        wrong=None if found else sheet,
        wrong_test=_wrong_test(sheet, lot),
        counts=book.things("seed count", of=lot, limit=MOST_BESIDE),
        tests=book.things("germination test", of=lot, limit=MOST_BESIDE),
        photos=book.things("photo", of=lot, limit=MOST_BESIDE),
        uses=list(_uses(book, lot)),
        limits=LIMITS,
        state=state(),
        form=forms.blank(),
    )


def _wrong_test(sheet: LotSheet | MeasurementError, lot: str) -> bool:
    """Whether it is the newest home test that does not fit the tag."""
    if isinstance(sheet, LotSheet) or sheet.path[0] not in ("home_test", "home_hard"):
        return False
    return test_of(here.book(), lot) is not None


def _uses(book: Book, lot: str) -> Iterator[tuple[Thing, list[Thing]]]:
    """Return the mixes that name a lot, each with its jobs."""
    for mix in book.things("mix", of=lot, limit=MOST_USES):
        if isinstance(mix.body, Mix):
            jobs = book.things("job", of=mix.id, limit=MOST_JOBS)
            yield mix, [job for job in jobs if isinstance(job.body, Job)]


def _read(form: forms.Form, _: None, thing: Thing | None) -> Lot:
    return read_lot_form(form.given, today=here.this_month())


def _form(form: forms.Form, _: None, thing: Thing | None) -> str:
    return render_template(
        "lot_form.html",
        form=form,
        thing=thing,
        names=sorted((each.name for each in species_table()), key=str.casefold),
        weeds=min(MOST_WEEDS, form.last("noxious{}_name", MOST_WEEDS) + SPARE),
        bags=min(MOST_BAGS, form.last("bag{}_weight", MOST_BAGS) + SPARE),
        counted=thing is not None and count_of(here.book(), thing.id) is not None,
    )


Editing(
    kind=Lot,
    of=lambda lot: None,
    read=_read,
    texts=lot_texts,
    page=_form,
    shown=lambda owner, lot: url_for("seed.show", lot=lot),
    left=lambda owner: url_for("seed.index"),
    start=lambda owner: {"species": request.args.get("species", "")},
    names=("species", "name"),
).serve(blueprint, new="/seed/new", edit="/seed/<lot>/edit", remove="/seed/<lot>/remove")
