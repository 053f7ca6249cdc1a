"""What a request is about: the book, the settings, its reader's units and language."""

from datetime import date
from typing import TypeVar, cast

from flask import abort, current_app, g, request

from evenstand.book.book import Book
from evenstand.book.errors import BookError
from evenstand.book.shape import Body
from evenstand.book.thing import Thing
from evenstand.engine.tag import Month
from evenstand.engine.words import Style, System

from .languages import LANGUAGES, looking_up
from .settings import Settings

SYSTEMS: tuple[System, ...] = ("us", "metric")
KEY = "evenstand"
MOST_NAME = 80
Some = TypeVar("Some", bound=Body)


def book() -> Book:
    """Return the book that the app was made for."""
    return cast(Book, current_app.extensions[KEY][0])


def settings() -> Settings:
    """Return how the app was set up."""
    return cast(Settings, current_app.extensions[KEY][1])


def language() -> str:
    """Return the reader's language: as chosen on this device, else as the browser asks."""
    chosen = request.cookies.get("language", "")
    if chosen in LANGUAGES:
        return chosen
    return request.accept_languages.best_match(list(LANGUAGES), default="en") or "en"


def who() -> str | None:
    """Return the name under which this reader writes; None is that of the book's opener."""
    return request.cookies.get("who", "").strip()[:MOST_NAME] or None


def style() -> Style:
    """Return how the reader wants to read, made once for each request."""
    if "style" not in g:
        units = request.cookies.get("units", "")
        system = next((each for each in SYSTEMS if each == units), settings().units)
        g.style = Style(system=system, translate=looking_up(language()))
    return cast(Style, g.style)


def this_month() -> Month:
    """Return the month that the age of tests is judged in."""
    today = date.today()
    return Month(today.year, today.month)


def thing(id: str, kind: type[Body]) -> Thing:
    """Return a thing of some kind, or answer that there is none."""
    try:
        found = book().get(id)
    except BookError:
        abort(404)
    if not isinstance(found.body, kind):
        abort(404)
    return found


def body(thing: Thing, kind: type[Some]) -> Some:
    """Return what a thing says, or answer that it is no such thing."""
    if not isinstance(thing.body, kind):
        abort(404)
    return thing.body
