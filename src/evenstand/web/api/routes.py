"""The JSON API: one table of operations, which the app and its document are made of."""

from collections.abc import Callable, Sequence

from flask import Blueprint, Response, url_for

from evenstand import __version__
from evenstand.engine.quantities.errors import MeasurementError

from ..site.spine import Step
from . import book as api_book
from . import files as api_files
from . import jobs as api_jobs
from . import reckon as api_reckon
from . import things as api_things
from .answers import ROOT, RefusedError, answer, refused_input, refused_request
from .document import document
from .operations import Operation


def blueprint(steps: Sequence[Step]) -> Blueprint:
    """Make the blueprint of the API over the steps of the app."""
    pages = Blueprint("api", __name__, url_prefix=ROOT)
    for each in operations(steps):
        pages.add_url_rule(each.path, each.name, each.answer, methods=[each.method])
    pages.register_error_handler(MeasurementError, refused_input)
    pages.register_error_handler(RefusedError, refused_request)
    return pages


def operations(steps: Sequence[Step]) -> tuple[Operation, ...]:
    """Return every operation, the index and the document among them."""
    others = (
        *api_things.OPERATIONS,
        *api_jobs.operations(steps),
        *api_reckon.OPERATIONS,
        *api_files.OPERATIONS,
        *api_book.OPERATIONS,
    )
    every: list[Operation] = []
    every += (
        Operation(
            method="GET",
            path="/",
            name="index",
            about="List what can be asked here.",
            view=_index(every),
            gives={"type": "object", "required": ["operations"]},
            refuses=(422,),
        ),
        Operation(
            method="GET",
            path="/openapi.json",
            name="describe",
            about="Read this document.",
            view=_describe(every),
            gives={"type": "object", "required": ["openapi", "paths"]},
            refuses=(422,),
        ),
        *others,
    )
    return tuple(every)


def _index(every: Sequence[Operation]) -> Callable[[], Response]:
    def view() -> Response:
        """List every operation."""
        asked = [
            {"method": each.method, "path": ROOT + each.path, "about": each.about} for each in every
        ]
        about = {"evenstand": __version__, "document": url_for("api.describe")}
        return answer({**about, "operations": asked})

    return view


def _describe(every: Sequence[Operation]) -> Callable[[], Response]:
    def view() -> Response:
        """Write the document."""
        return answer(document(every, root=url_for("api.index").rstrip("/")))

    return view
