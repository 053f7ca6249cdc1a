"""Exchange with phones: they hand over what was written on them, and take what others wrote.

A phone shows the key that it was given when it was paired; its page's cookie
does not count, so that entries go on arriving when a sign-in has ended.
"""

from collections.abc import Iterable
from contextlib import suppress
from itertools import accumulate
from typing import Annotated

import msgspec
from flask import Blueprint, Response, request
from flask.typing import ResponseReturnValue
from msgspec import Meta, Struct

from evenstand.book.book import Book
from evenstand.book.errors import BookError, NotKeptError
from evenstand.book.kinds.bodies import Newer, Removal
from evenstand.book.log.entries import Entry, read
from evenstand.book.people.attempts import TooManyError
from evenstand.book.people.devices import Device
from evenstand.engine.quantities.errors import MeasurementError, Path
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.tasks.library.admitting import admitted
from evenstand.tasks.record.frozen import freeze_what_ends

from ..site import here, watch
from ..site.guard import KEPT_BY_KEEPERS, REMOVED_BY_KEEPERS

blueprint = Blueprint("exchange", __name__, url_prefix="/exchange")
MOST_TAKEN = 300  # entries of an answer
MOST_BYTES = 400_000  # of an answer, unless its first entry alone is longer


class Offered(Struct, frozen=True, forbid_unknown_fields=True):
    """What a phone sends: its place in this book, and entries that wait on it.

    ``mark`` is the book's when it told that place, with what was handed over by
    then: a book that has gone back to an older copy since never had it.
    """

    cursor: Annotated[int, Meta(ge=0, le=2**53)]
    mark: str = ""
    entries: tuple[str, ...] = ()


class Pairing(Struct, frozen=True, forbid_unknown_fields=True):
    """What a phone sends to be paired."""

    code: Annotated[str, Meta(max_length=40)]
    name: Annotated[str, Meta(max_length=200)]


@blueprint.post("/pair")
def pair() -> ResponseReturnValue:
    """Give a phone its key, for the code that this book showed."""
    try:
        asked = msgspec.json.decode(request.get_data(), type=Pairing)
        device, key = here.book().devices.pair(
            asked.code, asked.name, address=request.remote_addr or ""
        )
    except (msgspec.DecodeError, UnicodeError) as error:
        return _problem(400, say("send the code and a name: {said}", said=str(error)))
    except TooManyError as error:
        return _problem(429, error.need)
    except BookError as error:
        return _problem(422, error.need)
    watch.add(device=device.id, of=device.who)
    signs = device.who if device.account else ""
    told = {"device": device.id, "key": key, "who": device.who, "role": device.role}
    return _json({**told, "signs": signs})


@blueprint.post("")
def hand_over() -> ResponseReturnValue:
    """Take in what a phone wrote, and give it what it has not yet."""
    book, device = here.book(), _device()
    if device is None:
        return _problem(401, say("pair this phone again: its access was removed"))
    try:
        offered = msgspec.json.decode(request.get_data(), type=Offered)
        entries = [read(text.encode()) for text in offered.entries]
        _allow(book, device, entries)
        book.merge(admitted(book, entries))
        book.devices.handed_over(device, entries)
    except (msgspec.DecodeError, UnicodeError) as error:
        return _problem(400, say("send a cursor and entries: {said}", said=str(error)))
    except NotKeptError as error:  # the phone tries again later
        return _problem(507 if error.full else 503, error.need)
    except NotAllowedError as error:
        return _problem(403, error.need)
    except MeasurementError as error:
        return _problem(422, error.need)
    _freeze(book, entries, by=device.who)
    book.devices.heard_of(device.id)
    if not _is_place(book, offered):
        return _json({"anew": True})
    told = _behind(book, offered, known={entry.id for entry in entries})
    return _json(told | {"role": device.role})


def _freeze(book: Book, entries: Iterable[Entry], *, by: str) -> None:
    """Freeze what was ended on a phone which did not do so itself."""
    for entry in entries:
        with suppress(MeasurementError):  # its job may still come
            if not isinstance(entry.body, Newer):
                freeze_what_ends(book, entry.body, today=here.this_month(), by=by)


class NotAllowedError(MeasurementError):
    """A phone hands over what its person may not write."""


def _device() -> Device | None:
    scheme, _, key = request.headers.get("Authorization", "").partition(" ")
    return here.book().devices.by_key(key.strip()) if scheme.lower() == "bearer" else None


def _allow(book: Book, device: Device, entries: Iterable[Entry]) -> None:
    for entry in (each for each in entries if not book.has(each)):
        _check(device, entry)
        if device.role == "reads":
            need = say("your account is view only: ask an owner")
            raise NotAllowedError("entry", entry.id, need)
        if entry.kind in KEPT_BY_KEEPERS and device.role != "keeps":
            need = say("only owners can do this: ask one of them")
            raise NotAllowedError("entry", entry.id, need)
        if entry.kind == Removal.kind and device.role != "keeps" and _is_kept(book, entry.about):
            need = say("only owners can remove drills, charts and lots: ask one of them")
            raise NotAllowedError("entry", entry.id, need)


def _check(device: Device, entry: Entry) -> None:
    """Refuse what this phone cannot have written: in a newer way, or as somebody else."""
    if entry.newer:
        need = say("update Evenstand on the office computer: this phone's version is newer")
        raise MeasurementError(Path("entry", "format"), entry.id, need)
    if device.account and entry.made.device == device.id and entry.by != device.who:
        need = say("sign as {who}: this phone is paired for that account", who=device.who)
        raise NotAllowedError(Path("entry", "by"), entry.by, need)


def _is_kept(book: Book, thing: str) -> bool:
    try:
        return book.get(thing).kind in REMOVED_BY_KEEPERS
    except BookError:
        return False


def _is_place(book: Book, offered: Offered) -> bool:
    """Whether the place that a phone names is one that this book gave."""
    return not (offered.cursor or offered.mark) or book.marks.was(offered.mark)


def _behind(book: Book, offered: Offered, *, known: set[str]) -> dict[str, object]:
    """Return what came in behind a place, as much as fits into an answer."""
    batch = book.written(since=offered.cursor, limit=MOST_TAKEN)
    sizes = accumulate(len(entry.text) for entry in batch.entries)
    fitting = max(1, sum(size <= MOST_BYTES for size in sizes))
    if fitting < len(batch.entries):
        batch = book.written(since=offered.cursor, limit=fitting)
    found = [{"id": e.id, "text": e.text} for e in batch.entries if e.id not in known]
    place = {"cursor": batch.cursor, "mark": book.marks.now()}
    return {"entries": found, **place, "more": batch.more}


def _json(told: dict[str, object]) -> Response:
    return Response(msgspec.json.encode(told), content_type="application/json")


def _problem(status: int, need: Phrase) -> Response:
    text = here.style().write(need)
    return Response(
        msgspec.json.encode({"need": text}), status=status, content_type="application/json"
    )
