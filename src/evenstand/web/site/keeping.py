"""Keeping what a form says: once, however often it is sent, and under its writer's name."""

from evenstand.book.entries import Entry
from evenstand.book.shape import Body
from evenstand.book.thing import Thing

from . import here
from .forms import Form


def add(body: Body, form: Form) -> Entry:
    """Keep a new thing under the form's own id."""
    return here.book().add(body, id=form.entry, by=here.who())


def correct(thing: str, body: Body, form: Form, *, why: str = "") -> Entry:
    """Keep a thing's newer state, with the reason where the form asks for one.

    Raises
    ------
    MeanwhileError
        Where somebody else has changed the same since the form was opened.
    """
    return here.book().correct(
        thing,
        body,
        why=why or form.text("why"),
        id=form.entry,
        by=here.who(),
        base=form.base,
        answered=form.answered,
    )


def remove(thing: str, form: Form) -> Entry:
    """Take a thing out of the lists; its history stays."""
    return here.book().remove(thing, why=form.text("why"), id=form.entry, by=here.who())


def settle(thing: Thing | None, body: Body, form: Form) -> Entry:
    """Keep the only thing of its kind that a job has: new where there is none yet."""
    return correct(thing.id, body, form) if thing else add(body, form)
