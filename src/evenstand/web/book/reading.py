"""How pages are read: units, language, decimal sign, of the book and of this device alone."""

from flask import Blueprint, redirect, render_template, url_for
from flask.typing import ResponseReturnValue

from evenstand.tasks.job.about import about_book, about_texts, read_about

from ..site import forms, here, keeping
from ..site.editing import saved
from ..site.languages import LANGUAGES, SIGNS

blueprint = Blueprint("reading", __name__)
A_YEAR = 365 * 24 * 3600  # s
# What a device may choose for itself; anything else there means as the book says.
CHOICES = {
    "units": here.SYSTEMS,
    "language": tuple(LANGUAGES),
    "decimal": tuple(SIGNS),
    "outdoor": ("yes",),
}
AS_THE_BOOK = "book"


@blueprint.get("/settings/reading")
def index() -> ResponseReturnValue:
    """Show how the book is read, here and by those who share it."""
    thing, said = about_book(here.book())
    return _page(forms.opened(thing, about_texts(said)))


@blueprint.post("/settings/reading")
def choose() -> ResponseReturnValue:
    """Remember on this device how its reader reads, where not as the book says."""
    form = forms.sent()
    answer = redirect(url_for("reading.index"), 303)
    for name, choices in CHOICES.items():
        if form.text(name) in choices:
            answer.set_cookie(name, form.text(name), max_age=A_YEAR, samesite="Lax", httponly=True)
        elif form.text(name) == AS_THE_BOOK:
            answer.delete_cookie(name, samesite="Lax", httponly=True)
    return answer


@blueprint.post("/settings/about")
def about() -> ResponseReturnValue:
    """Keep what the book says of itself: its name, and how those who share it read."""
    thing, _ = about_book(here.book())

    def keep(form: forms.Form) -> str:
        keeping.settle(thing, read_about(form.given, languages=tuple(LANGUAGES)), form)
        return url_for("reading.index")

    return saved(keep, _page)


def _page(form: forms.Form) -> str:
    thing, _ = about_book(here.book())
    return render_template("reading.html", form=form, own=here.own, thing=thing)
