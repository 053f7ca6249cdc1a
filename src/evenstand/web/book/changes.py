"""What was changed: the log of the book, undoing, and what two people changed apart."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

import msgspec
from flask import Blueprint, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue

from evenstand.book.kinds.bodies import Newer
from evenstand.book.kinds.frozen import Frozen
from evenstand.book.log.entries import Entry
from evenstand.book.log.merging import Clash, changes_of, put
from evenstand.book.log.said import said
from evenstand.book.storage.thing import Thing
from evenstand.engine.quantities.phrases import Phrase, Value, say
from evenstand.tasks.parsing.changes import Changed, changed_by
from evenstand.tasks.parsing.told import label, value

from ..site import forms, here, keeping
from ..site.guard import KEPT_BY_KEEPERS, REMOVED_BY_KEEPERS, demand
from ..site.meanwhile import called, local, who

blueprint = Blueprint("changes", __name__)
MOST_SHOWN = 60  # entries on a page


@dataclass(frozen=True)
class Event:
    """An entry of the log: what it is about, and what it changed."""

    entry: Entry
    thing: Thing
    name: str
    changed: Sequence[Changed]
    first: bool


@dataclass(frozen=True)
class Side:
    """One of two changes that were made apart."""

    entry: Entry
    value: Value


@dataclass(frozen=True)
class Apart:
    """A field that two people changed apart, with the change that counts and the other."""

    thing: Thing
    name: str
    pointer: str
    field: Phrase
    counted: Side
    other: Side


@blueprint.get("/settings/changes")
def log() -> ResponseReturnValue:
    """Show what was changed in the book, by day and person, newest first."""
    before = request.args.get("before", "~")
    entries = here.book().newest(before=before, limit=MOST_SHOWN + 1)
    events = list(_events(entries[:MOST_SHOWN]))
    groups = groupby(events, key=lambda each: (local(each.entry).date(), who(each.entry)))
    more = str(entries[MOST_SHOWN - 1].made) if len(entries) > MOST_SHOWN else None
    return render_template(
        "changes.html", groups=[(key, list(each)) for key, each in groups], more=more
    )


def _events(entries: Sequence[Entry]) -> Iterator[Event]:
    book = here.book()
    things = book.many.things(each.about for each in entries)
    told = {id: changed_by(book.history(id), names=called) for id in things}
    for entry in entries:
        thing = things[entry.about]
        first = entry.id == thing.id
        changed = told[entry.about].get(entry.id, ())
        yield Event(entry, thing, called(thing.id), changed, first=first)


@blueprint.post("/history/<thing>/undo")
def undo(thing: str) -> ResponseReturnValue:
    """Put back what an entry changed or removed, by a new entry."""
    found, form = here.any_thing(thing), forms.sent()
    if found.kind in KEPT_BY_KEEPERS or (found.removed and found.kind in REMOVED_BY_KEEPERS):
        demand("keeps")
    here.book().undo(thing, form.text("undo"), id=form.entry, by=here.who())
    answer = redirect(url_for("book.history", thing=thing), 303)
    answer.delete_cookie(keeping.JUST, samesite="Lax", httponly=True)
    return answer


@blueprint.get("/settings/apart")
def apart() -> ResponseReturnValue:
    """Show the fields that two people changed without knowing of each other."""
    return render_template("apart.html", apart=list(_apart()), form=forms.blank())


@blueprint.post("/settings/apart/<thing>")
def settle(thing: str) -> ResponseReturnValue:
    """Say which of two changes counts."""
    found, form = here.any_thing(thing), forms.sent()
    if found.kind in KEPT_BY_KEEPERS:
        demand("keeps")
    entries = said(each.text for each in here.book().history(thing))
    chosen = next((each for each in entries if each.id == form.text("keep")), None)
    if chosen is None or isinstance(found.body, Newer):
        raise form.given.refuse("keep", say("choose one from the list"))
    if chosen.removal:
        keeping.remove(thing, form)
    else:
        field = form.text("field")
        body = put(msgspec.to_builtins(found.body), chosen.body, [field])
        keeping.correct(thing, msgspec.convert(body, type(found.body)), form, settled=[field])
    return redirect(url_for("changes.apart"), 303)


def _apart() -> Iterator[Apart]:
    for thing in here.book().clashing():
        if not isinstance(thing.body, Newer | Frozen):
            entries = {each.id: each for each in here.book().history(thing.id)}
            for clash in here.book().clashes(thing.id):
                yield _clash(thing, clash, entries)


def _clash(thing: Thing, clash: Clash, entries: dict[str, Entry]) -> Apart:
    def side(id: str) -> Side:
        entry = entries[id]
        if entry.kind == "removal":
            return Side(entry, say("removed"))
        [(own, _)] = changes_of(said([entry.text]))
        return Side(entry, value(thing.kind, clash.field, own.body, names=called))

    return Apart(
        thing=thing,
        name=called(thing.id),
        pointer=clash.field,
        field=label(thing.kind, clash.field),
        counted=side(clash.counted),
        other=side(clash.other),
    )
