"""The pool: drills that several people share."""

from flask import Blueprint, render_template
from flask.typing import ResponseReturnValue

from ..site import here
from .drills import by_name

blueprint = Blueprint("pool", __name__)


@blueprint.get("/pool")
def index() -> ResponseReturnValue:
    """List the drills with what this book knows of each."""
    book = here.book()
    drills, first, more = by_name()
    ids = [thing.id for thing in drills]
    caught, charts = (book.many.tally(kind, of=ids) for kind in ("catch", "chart"))
    last = book.many.newest("catch", of=ids)
    rows = [(t, charts.get(t.id, 0), caught.get(t.id, 0), last.get(t.id)) for t in drills]
    return render_template("pool.html", rows=rows, first=first, more=more)
