"""One count of plants: its history, its correction, its removal."""

from flask import Blueprint, render_template, url_for

from evenstand.book.kinds.work import StandCount
from evenstand.book.storage.thing import Thing
from evenstand.tasks.job.kept import Kept, find
from evenstand.tasks.stand.form import WAYS, places_texts

from ..site import forms, here
from ..site.editing import Editing
from .stand import read_count

blueprint = Blueprint("plants", __name__)


def _kept(count: StandCount) -> Kept:
    return find(here.book(), count.job)


def _read(form: forms.Form, count: StandCount, thing: Thing | None) -> StandCount:
    return read_count(form, _kept(count), but=thing.id if thing else "")


def _back(count: StandCount, *_: str) -> str:
    return url_for("stand.show", job=count.job)


def _page(form: forms.Form, count: StandCount, thing: Thing | None) -> str:
    return render_template(
        "plants.html",
        thing=thing,
        kept=_kept(count),
        form=form,
        away=forms.blank(),
        ways=tuple(WAYS),
        history=here.book().history(thing.id) if thing else [],
    )


Editing(
    kind=StandCount,
    of=lambda count: count,
    read=_read,
    texts=places_texts,
    page=_page,
    shown=_back,
    left=_back,
).serve(blueprint, edit="/plants/<count>", remove="/plants/<count>/remove")
