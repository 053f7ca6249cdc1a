"""One catch: its history, its correction, its removal."""

from flask import Blueprint, render_template, url_for

from evenstand.book.kinds.work import Catch
from evenstand.book.storage.thing import Thing
from evenstand.tasks.calibration.form import catch_texts, read_catch
from evenstand.tasks.job.kept import Kept, find

from ..site import forms, here
from ..site.editing import Editing

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
        each=any(bag.row for bag in catch.bags),
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
