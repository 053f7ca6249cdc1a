"""The book as a whole through the API: what came in, the file of exchange, the check for damage."""

import tempfile
from pathlib import Path
from typing import Annotated

from flask import Response, request
from msgspec import Meta, Raw, Struct

from evenstand.book.exchange import export_book, import_file
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import say
from evenstand.tasks.library.admitting import admitted
from evenstand.tasks.record.frozen import freeze_old

from ..book.book import MOST_IMPORT
from ..site import here
from .answers import HEADERS, WRONG_TYPE, ZIP, RefusedError, answer
from .operations import Operation, Parameter
from .things import as_written

USUAL, MOST = 100, 1000  # entries in an answer

Cursor = Annotated[int, Meta(ge=0, le=2**53)]
Limit = Annotated[int, Meta(ge=1, le=MOST)]


class Feed(Struct, frozen=True, kw_only=True):
    """Entries as they were written, in the order they came in; ``cursor`` asks for what follows."""

    entries: tuple[Raw, ...]
    cursor: int
    more: bool


class Merged(Struct, frozen=True, kw_only=True):
    """Entries that were new here, and those known already."""

    new: int
    known: int


class Loose(Struct, frozen=True, kw_only=True):
    """A thing that names another which is not here, perhaps not yet."""

    thing: str
    kind: str
    target: str


class Sound(Struct, frozen=True, kw_only=True):
    """What was looked at and what was found: ``faults`` are damage, ``loose`` is none."""

    entries: int
    things: dict[str, int]
    newer: int
    faults: tuple[str, ...]
    loose: tuple[Loose, ...]


def entries(*, since: int | None, limit: int | None) -> Response:
    """Give what came into the book after a cursor."""
    batch = here.book().written(since or 0, limit=limit or USUAL)
    return answer(Feed(entries=as_written(batch.entries), cursor=batch.cursor, more=batch.more))


def export() -> Response:
    """Hand out every entry as one file."""
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "book.zip"
        export_book(here.book(), file)
        return Response(file.read_bytes(), 200, HEADERS, mimetype=ZIP)


def import_() -> Response:
    """Take in what is new in a file; a damaged one changes nothing."""
    if request.mimetype != ZIP:
        need = say("send the file itself, as {type}", type=ZIP)
        raise RefusedError(WRONG_TYPE, MeasurementError("Content-Type", request.mimetype, need))
    request.max_content_length = MOST_IMPORT
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "in.zip"
        file.write_bytes(request.get_data(cache=False))
        merged = import_file(here.book(), file, admit=admitted)
        freeze_old(here.book(), today=here.this_month())
    return answer(Merged(new=merged.new, known=merged.known))


def check() -> Response:
    """Look for damage."""
    seen, style = here.book().check(), here.style()
    return answer(
        Sound(
            entries=seen.entries,
            things=seen.things,
            newer=seen.newer,
            faults=tuple(style.write(fault) for fault in seen.faults),
            loose=tuple(
                Loose(thing=each.thing, kind=each.kind, target=each.target) for each in seen.loose
            ),
        )
    )


OPERATIONS = (
    Operation(
        method="GET",
        path="/entries",
        name="read_entries",
        about="Read what came into the book after a cursor; 0 is the beginning.",
        view=entries,
        query=(
            Parameter(name="since", type=Cursor, about="Cursor of the answer before."),
            Parameter(name="limit", type=Limit, about=f"Entries in an answer, {USUAL} without."),
        ),
        gives=Feed,
        refuses=(422,),
    ),
    Operation(
        method="GET",
        path="/export",
        name="export_book",
        about="Read the whole book as the file by which books are exchanged.",
        view=export,
        gives_media=ZIP,
        refuses=(422,),
    ),
    Operation(
        method="POST",
        path="/import",
        name="import_book",
        about="Take in what is new in such a file, all of it or nothing.",
        view=import_,
        takes={"type": "string", "format": "binary"},
        media=ZIP,
        gives=Merged,
        refuses=(403, 413, 415, 422, 503, 507),
    ),
    Operation(
        method="GET",
        path="/check",
        name="check_book",
        about="Look through the whole book for damage.",
        view=check,
        gives=Sound,
        refuses=(422,),
    ),
)
