"""The things of the book through the API: listed, read, added, corrected, removed."""

from collections.abc import Iterable
from typing import Annotated, Any

from flask import Response, abort, request
from msgspec import Meta, Raw, Struct
from werkzeug.http import quote_etag

from evenstand.book.errors import BookError
from evenstand.book.kinds.bodies import KINDS, Newer, Photo, Removal
from evenstand.book.kinds.shape import Id, Text
from evenstand.book.log.editing import MeanwhileError
from evenstand.book.log.entries import Entry
from evenstand.book.storage.thing import Text as Written
from evenstand.book.storage.thing import Thing
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import say
from evenstand.tasks.record.frozen import freeze_what_ends

from ..site import here
from ..site.guard import KEPT_BY_KEEPERS, REMOVED_BY_KEEPERS, demand
from .answers import CHANGED, CLASH, UNMATCHED, RefusedError, answer, sent
from .bodies import read_body
from .operations import Operation, Parameter, Short

USUAL, MOST, MOST_PHOTOS = 50, 200, 4  # things on a page; pictures are large

Limit = Annotated[int, Meta(ge=1, le=MOST)]


class Kept(Struct, frozen=True, kw_only=True):
    """A thing: what its newest entry says of it, and who said it when."""

    id: Id
    kind: str
    body: Any
    removed: bool
    newer: Annotated[bool, Meta(description="a newer release wrote what this one cannot read")]
    born: str
    entry: Id
    made: str
    by: str
    why: str


class Page(Struct, frozen=True, kw_only=True):
    """Things, newest first; ``after`` asks for the next page, null on the last."""

    things: tuple[Kept, ...]
    after: Id | None


class Told(Struct, frozen=True, kw_only=True):
    """Every entry about a thing, oldest first, as they were written."""

    entries: tuple[Raw, ...]


class New(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A new thing; with an ``id`` made by its sender it is kept once, however often it is sent."""

    kind: str
    body: Raw
    id: Id | None = None


class Newly(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A thing's newer state, with the reason; ``entry`` is its sender's id of this correction."""

    body: Raw
    why: Text = ""
    entry: Id | None = None


def kept(thing: Thing) -> Kept:
    """Write a thing."""
    newest = here.book().history(thing.id)[-1] if thing.removed else thing.entry
    return Kept(
        id=thing.id,
        kind=thing.body.kind,
        body=Raw(thing.body.text.encode()) if isinstance(thing.body, Newer) else thing.body,
        removed=thing.removed,
        newer=thing.newer,
        born=str(thing.born),
        entry=newest.id,
        made=str(newest.made),
        by=newest.by,
        why=newest.why,
    )


def _tagged(id: str, status: int = 200) -> Response:
    """Write a thing with the tag of its state."""
    thing = here.book().get(id)
    made = answer(kept(thing), status)
    made.headers["ETag"] = quote_etag(_tag(thing))
    return made


def _tag(thing: Thing) -> str:
    return "+".join(thing.heads)


def _match(now: Thing) -> None:
    """Refuse a change by whoever has not read the thing, or whose state of it is no longer so."""
    given = request.headers.get("If-Match")
    if given is None:
        need = say("send the ETag that you got when you read it, as If-Match")
        raise RefusedError(UNMATCHED, MeasurementError("If-Match", None, need))
    if not (request.if_match.star_tag or request.if_match.contains(_tag(now))):
        raise _changed_meanwhile(given)


def _changed_meanwhile(given: str) -> RefusedError:
    need = say("read it again: it was changed meanwhile")
    return RefusedError(CHANGED, MeasurementError("If-Match", given, need))


def listed(
    *, kind: str, of: str | None, after: str | None, limit: int | None, removed: bool | None
) -> Response:
    """List the things of a kind, a page of them."""
    book = here.book()
    last = found(after) if after else None
    most = min(limit or USUAL, MOST_PHOTOS if kind == Photo.kind else MOST)
    things = book.things(kind, of=of, removed=bool(removed), after=last, limit=most + 1)
    page = things[:most]
    following = page[-1].id if len(things) > most else None
    return answer(Page(things=tuple(kept(each) for each in page), after=following))


def found(id: str) -> Thing:
    """Return a thing, or answer that there is none."""
    try:
        return here.book().get(id)
    except BookError:
        abort(404)


def read(*, thing: str) -> Response:
    """Give a thing, a removed one too."""
    return _tagged(found(thing).id)


def history(*, thing: str) -> Response:
    """Give every entry about a thing."""
    found(thing)
    return answer(Told(entries=as_written(here.book().history(thing))))


def as_written(entries: Iterable[Entry | Written]) -> tuple[Raw, ...]:
    """Give entries as they were written."""
    return tuple(Raw(entry.text.encode()) for entry in entries)


def add() -> Response:
    """Keep a new thing."""
    new = sent(New)
    kind = KINDS.get(new.kind)
    if kind is None or kind is Removal:
        names = ", ".join(name for name in KINDS if name != Removal.kind)
        raise MeasurementError("kind", new.kind, say("choose one of {names}", names=names))
    if new.kind in KEPT_BY_KEEPERS:
        demand("keeps")
    book, known = here.book(), new.id is not None and _is_known(new.id)
    body = read_body(new.body, kind, again=known)
    try:
        entry = book.add(body, id=new.id, by=here.who())
    except BookError as refused:
        raise RefusedError(CLASH, refused) from None
    freeze_what_ends(book, body, today=here.this_month(), by=here.who())
    return _tagged(entry.about, 200 if known else 201)


def _is_known(id: str) -> bool:
    try:
        here.book().get(id)
    except BookError:
        return False
    return True


def correct(*, thing: str) -> Response:
    """Keep a thing's newer state."""
    now, book = found(thing), here.book()
    newly = sent(Newly)
    if now.body.kind in KEPT_BY_KEEPERS:
        demand("keeps")
    if isinstance(now.body, Newer):
        need = say("change it where it was made: a newer version of Evenstand wrote it")
        raise RefusedError(CLASH, MeasurementError(now.kind, thing, need))
    if not (again := _was_said(thing, newly.entry)):
        _match(now)
    body, heads = read_body(newly.body, type(now.body), again=again), now.heads
    try:
        book.correct(thing, body, why=newly.why, id=newly.entry, by=here.who(), base=heads)
    except MeanwhileError:
        raise _changed_meanwhile(request.headers["If-Match"]) from None
    except BookError as refused:
        raise RefusedError(CLASH, refused) from None
    return _tagged(thing)


def _was_said(thing: str, entry: str | None) -> bool:
    return entry is not None and any(each.id == entry for each in here.book().history(thing))


def remove(*, thing: str, why: str | None, entry: str | None) -> Response:
    """Take a thing out of the lists; one that is out already stays as it is."""
    now, book = found(thing), here.book()
    if now.body.kind in REMOVED_BY_KEEPERS:
        demand("keeps")
    if not now.removed or entry is not None:
        if not _was_said(thing, entry):
            _match(now)
        try:
            book.remove(thing, why=why or "", id=entry, by=here.who())
        except BookError as refused:
            raise RefusedError(CLASH, refused) from None
    return _tagged(thing)


THING = "/things/<thing>"
OPERATIONS = (
    Operation(
        method="GET",
        path="/things",
        name="list_things",
        about="List the things of a kind, newest first, a page at a time.",
        view=listed,
        query=(
            Parameter(name="kind", type=Short, about="Such as drill or catch.", needed=True),
            Parameter(name="of", type=Id | None, about="Only those that name this thing."),
            Parameter(name="after", type=Id | None, about="Last thing of the page before."),
            Parameter(name="limit", type=Limit, about=f"Things on a page, {USUAL} without."),
            Parameter(name="removed", type=bool, about="Those that were removed instead."),
        ),
        gives=Page,
        refuses=(404, 422),
    ),
    Operation(
        method="POST",
        path="/things",
        name="add_thing",
        about="Keep a new thing, once for each id; what a form would refuse is refused.",
        view=add,
        takes=New,
        gives=Kept,
        tagged=True,
        status=201,
        also=(200,),
        refuses=(400, 403, 409, 413, 415, 422, 503, 507),
    ),
    Operation(
        method="GET",
        path=THING,
        name="read_thing",
        about="Read a thing, a removed one too.",
        view=read,
        gives=Kept,
        tagged=True,
        refuses=(404, 422),
    ),
    Operation(
        method="PUT",
        path=THING,
        name="correct_thing",
        about="Keep a thing's newer state; the earlier ones stay in its history.",
        view=correct,
        takes=Newly,
        gives=Kept,
        tagged=True,
        refuses=(400, 403, 404, 409, 412, 413, 415, 422, 428, 503, 507),
    ),
    Operation(
        method="DELETE",
        path=THING,
        name="remove_thing",
        about="Take a thing out of the lists; it stays in its history.",
        view=remove,
        query=(
            Parameter(name="why", type=Text, about="The reason."),
            Parameter(name="entry", type=Id, about="The sender's id of this removal."),
        ),
        gives=Kept,
        tagged=True,
        refuses=(403, 404, 409, 412, 422, 428, 503, 507),
    ),
    Operation(
        method="GET",
        path=f"{THING}/history",
        name="read_history",
        about="Read every entry about a thing, oldest first.",
        view=history,
        gives=Told,
        refuses=(404, 422),
    ),
)
