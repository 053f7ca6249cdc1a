"""One catch: its history, its correction, its removal."""

from flask import Blueprint, render_template, url_for
from flask.typing import ResponseReturnValue
from msgspec.structs import replace

from evenstand.book.kinds.work import Catch
from evenstand.book.storage.thing import Thing
from evenstand.tasks.calibration.form import catch_texts, read_catch, row_by_row
from evenstand.tasks.calibration.shut import shut_off
from evenstand.tasks.job.kept import Kept, find

from ..site import forms, here, keeping
from ..site.editing import Editing, saved

blueprint = Blueprint("catches", __name__)


def _kept(catch: Catch) -> Kept:
    return find(here.book(), catch.job, box=catch.box or None)


def _back(catch: Catch, *_: str) -> str:
    return url_for("set.show", job=catch.job, box=catch.box or None)


def _page(form: forms.Form, catch: Catch, thing: Thing | None) -> str:
    return render_template(
        "catch.html",
        thing=thing,
        kept=_kept(catch),
        form=form,
        away=forms.blank(),
        each=row_by_row(catch),
        history=here.book().history(thing.id) if thing else [],
    )


Editing(
    kind=Catch,
    of=lambda catch: catch,
    read=lambda form, catch, thing: read_catch(form.given, _kept(catch)),
    texts=catch_texts,
    page=_page,
    shown=_back,
    left=_back,
).serve(blueprint, edit="/catches/<catch>", remove="/catches/<catch>/remove")


@blueprint.post("/catches/<catch>/count")
def count(catch: str) -> ResponseReturnValue:
    """Let a catch count in which a row stopped."""
    thing = here.thing(catch, Catch)
    found = here.body(thing, Catch)

    def keep(form: forms.Form) -> str:
        keeping.correct(catch, replace(found, counted=True), form)
        return _back(found)

    return saved(keep, lambda form: _page(form, found, thing))


@blueprint.post("/catches/<catch>/shut")
def shut(catch: str) -> ResponseReturnValue:
    """Keep that a row is shut off on purpose: the job's row, no fault of the catch."""
    thing = here.thing(catch, Catch)
    found = here.body(thing, Catch)

    def keep(form: forms.Form) -> str:
        left, job = shut_off(found, _kept(found), row=form.text("row"))
        keeping.correct(found.job, job, forms.blank())
        keeping.correct(catch, left, form)
        return _back(found)

    return saved(keep, lambda form: _page(form, found, thing))
