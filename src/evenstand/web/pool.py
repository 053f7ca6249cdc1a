"""The pool: drills that several people share."""

from flask import Blueprint, render_template
from flask.typing import ResponseReturnValue

from evenstand.book.work import Catch

from . import here
from .drills import by_name

blueprint = Blueprint("pool", __name__)
MOST_COUNTED = 999


@blueprint.get("/pool")
def index() -> ResponseReturnValue:
    """List the drills with what this book knows of each."""
    book = here.book()
    rows = []
    for thing in by_name(book.things("drill")):
        caught = book.things("catch", of=thing.id, limit=MOST_COUNTED)
        charts = len(book.things("chart", of=thing.id, limit=MOST_COUNTED))
        last = next((each for each in caught if isinstance(each.body, Catch)), None)
        rows.append((thing, charts, len(caught), last))
    return render_template("pool.html", rows=rows)
