"""What is written down while sowing: each entry, its correction, its removal."""

from datetime import date

from flask import Blueprint, abort, redirect, render_template, url_for
from flask.typing import ResponseReturnValue

from evenstand.book.kinds import sown
from evenstand.book.kinds.bodies import KINDS
from evenstand.book.kinds.shape import Body
from evenstand.book.storage.thing import Thing
from evenstand.engine.drill.drill import number
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.tasks.job.kept import Kept, find
from evenstand.tasks.record.frozen import freeze_what_ends
from evenstand.tasks.seeding.form import read_sown, sown_texts, with_test_weight
from evenstand.tasks.seeding.on_the_way import on_the_way
from evenstand.tasks.whole_job.seeding import check_entry, latest

from ..site import forms, here, keeping
from ..site.editing import saved
from .filling import kept_box, sown_of
from .sow import SOILS, WORDS

blueprint = Blueprint("sown", __name__)


@blueprint.get("/jobs/<job>/seeding/<kind>")
def new(job: str, kind: str) -> ResponseReturnValue:
    """Show the form of a new entry."""
    _known(kind)
    kept = kept_box(job)
    return _page(kept, forms.blank(_likely(kept, kind)), kind)


@blueprint.post("/jobs/<job>/seeding/<kind>")
def add(job: str, kind: str) -> ResponseReturnValue:
    """Keep an entry, once it goes together with those before."""
    _known(kind)
    kept, book = kept_box(job), here.book()

    def keep(form: forms.Form) -> str:
        way = on_the_way(book, kept)
        again = any(id == form.entry for id, _ in way.things)
        before = 0.0 if again else latest(way, box=kept.box)
        weighed = with_test_weight(form.given, kept)
        body = read_sown(form.given, weighed, kind, boxes=_boxes(kept), latest=before)
        _keep_weight(weighed, kept)
        check_entry(book, weighed, body, about=form.entry)
        keeping.add(body, form)
        freeze_what_ends(book, body, today=here.this_month(), by=here.who())
        return _back(kept)

    return saved(keep, lambda form: _page(kept, form, kind))


@blueprint.get("/sown/<entry>")
def edit(entry: str) -> ResponseReturnValue:
    """Show an entry filled in, and what it said before."""
    thing = _thing(entry)
    kept = _kept(thing)
    texts = sown_texts(here.body(thing, Body), boxes=_boxes(kept))
    return _page(kept, forms.opened(thing, texts), thing.kind, thing=thing)


@blueprint.post("/sown/<entry>")
def correct(entry: str) -> ResponseReturnValue:
    """Keep the right form of an entry."""
    thing = _thing(entry)
    kept = _kept(thing)

    def keep(form: forms.Form) -> str:
        weighed = with_test_weight(form.given, kept)
        body = read_sown(form.given, weighed, thing.kind, boxes=_boxes(kept))
        _keep_weight(weighed, kept)
        check_entry(here.book(), weighed, body, about=entry)
        keeping.correct(entry, body, form)
        return _back(kept)

    return saved(keep, lambda form: _page(kept, form, thing.kind, thing=thing))


@blueprint.post("/sown/<entry>/remove")
def remove(entry: str) -> ResponseReturnValue:
    """Leave an entry out from here on; it stays in the history."""
    thing, form = _thing(entry), forms.sent()
    keeping.remove(entry, form)
    return redirect(_back(_kept(thing)), 303)


def _keep_weight(weighed: Kept, kept: Kept) -> None:
    """Keep the test weight that came with an entry with the job's box."""
    if weighed.body != kept.body:
        here.book().correct(kept.thing.id, weighed.body, by=here.who())


def _known(kind: str) -> None:
    if kind not in WORDS:
        abort(404)


def _thing(entry: str) -> Thing:
    thing = here.thing(entry, Body)
    if type(thing.body) not in [KINDS[kind] for kind in WORDS]:
        abort(404)
    return thing


def _kept(thing: Thing) -> Kept:
    body = here.body(thing, Body)
    job, box = getattr(body, "job", ""), getattr(body, "box", "")
    try:
        return find(here.book(), job, box=box or None)
    except MeasurementError:  # the job has no box of this name any more
        return find(here.book(), job)


def _back(kept: Kept) -> str:
    return url_for("sow.show", job=kept.thing.id, box=kept.box or None)


def _boxes(kept: Kept) -> list[str]:
    return [wanted.box for wanted in kept.body.wanted]


def _likely(kept: Kept, kind: str) -> dict[str, str]:
    """Fill in what is likely: today, and what was typed the last time."""
    texts = {"day": date.today().isoformat()} if kind in ("load", "finished") else {}
    way = on_the_way(here.book(), kept)
    loads, checks = way.of(sown.Load, box=kept.box), way.of(sown.Check, box=kept.box)
    if kind == "load" and loads:
        texts |= {"bag": loads[-1].bag.text} if loads[-1].bag else {}
    elif kind == "load":
        texts["at"] = "0"
    if kind == "moved":
        texts |= _advised(kept)
    if kind == "check" and checks:
        last = checks[-1]
        known = {"wanted": last.wanted, "length": last.length, "seeds_per_kg": last.seeds_per_kg}
        texts |= {key: typed.text for key, typed in known.items() if typed}
    return texts


def _advised(kept: Kept) -> dict[str, str]:
    """Return the notch that the lever was told to go to, nothing where it stays."""
    found = sown_of(kept).result
    box = found.box(kept.box) if found else None
    lever = box.found.lever if box else None
    return {} if lever is None or lever.leave else {"setting": str(number(lever.setting))}


def _page(kept: Kept, form: forms.Form, kind: str, *, thing: Thing | None = None) -> str:
    way = on_the_way(here.book(), kept)
    return render_template(
        "sown.html",
        kept=kept,
        form=form,
        kind=kind,
        title=WORDS[kind],
        thing=thing,
        first=not way.begun,
        boxes=_boxes(kept),
        soils=[(key, word) for key, word in SOILS.items()],
        away=forms.blank(),
        history=here.book().history(thing.id) if thing else [],
    )
