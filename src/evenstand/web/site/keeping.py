"""Keeping what a form says: once, however often it is sent, and under its writer's name."""

from collections.abc import Collection
from time import time

from flask import Response, g, request

from evenstand.book.kinds.shape import Body
from evenstand.book.log.entries import Entry
from evenstand.book.storage.thing import Thing

from . import here
from .forms import Form, TwinError

JUST = "just"  # the cookie with what was just changed or removed
OFFERED = 180  # s: for so long undoing is offered on every page


def add(body: Body, form: Form, *names: str) -> Entry:
    """Keep a new thing under the form's own id.

    Raises
    ------
    TwinError
        Where another has the same ``names``, unless the form says that it is another one.
    """
    twin = _twin(body, names) if names and not form.text("another") else None
    if twin and twin.id != form.entry:
        raise TwinError(twin)
    return here.book().add(body, id=form.entry, by=here.who())


def correct(
    thing: str, body: Body, form: Form, *, why: str = "", settled: Collection[str] = ()
) -> Entry:
    """Keep a thing's newer state, with the reason where the form asks for one.

    Raises
    ------
    MeanwhileError
        Where somebody else has changed the same since the form was opened.
    """
    entry = here.book().correct(
        thing,
        body,
        why=why or form.text("why"),
        id=form.entry,
        by=here.who(),
        base=form.base,
        settled=settled,
        answered=form.answered,
    )
    return _just(entry)


def remove(thing: str, form: Form) -> Entry:
    """Take a thing out of the lists; its history stays."""
    return _just(here.book().remove(thing, why=form.text("why"), id=form.entry, by=here.who()))


def settle(thing: Thing | None, body: Body, form: Form) -> Entry:
    """Keep the only thing of its kind that a job has: new where there is none yet."""
    return correct(thing.id, body, form) if thing else add(body, form)


def _just(entry: Entry) -> Entry:
    """Remember what was just changed or removed, so that the next pages offer to undo it."""
    g.just = entry
    return entry


def remember(answer: Response) -> Response:
    """Let the browser remember for some minutes what was just changed or removed."""
    if entry := g.get("just"):
        text = f"{entry.about}/{entry.id}"
        answer.set_cookie(JUST, text, max_age=OFFERED, samesite="Lax", httponly=True)
    return answer


def just_done() -> Entry | None:
    """Return what was changed or removed here minutes ago, if nothing came after it."""
    about, _, id = request.cookies.get(JUST, "").partition("/")
    thing = here.book().many.things([about]).get(about)
    if thing is None or thing.heads != (id,) or id == about:
        return None
    [entry] = here.book().many.entries([id])
    return entry if time() - entry.made.ms / 1000 < OFFERED else None


def _twin(body: Body, keys: tuple[str, ...]) -> Thing | None:
    """Return a thing of the same kind that has the same names already, None where none has."""
    mine = [str(getattr(body, key)).strip().casefold() for key in keys]
    if not all(mine):
        return None
    for each in here.book().things(body.kind):
        if [str(getattr(each.body, key, "")).strip().casefold() for key in keys] == mine:
            return each
    return None
