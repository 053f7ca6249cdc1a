"""Seed: the lots of the book."""

from flask import Blueprint, render_template
from flask.typing import ResponseReturnValue

from evenstand.book.seed import Lot

from . import here

blueprint = Blueprint("seed", __name__)
MOST_SHOWN = 100


@blueprint.get("/seed")
def index() -> ResponseReturnValue:
    """List the lots, newest first."""
    things = here.book().things("lot", limit=MOST_SHOWN)
    return render_template("seed.html", lots=[t for t in things if isinstance(t.body, Lot)])
