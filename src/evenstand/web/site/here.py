"""What a request is about: the book, the settings, its reader's units and language."""

from datetime import date
from typing import TypeVar, cast

from flask import Flask, abort, current_app, g, request
from werkzeug.exceptions import Conflict

from evenstand.book.book import Book
from evenstand.book.errors import BookError
from evenstand.book.kinds.about import About
from evenstand.book.kinds.bodies import Newer
from evenstand.book.kinds.shape import Body
from evenstand.book.people.people import MOST_NAME, Person
from evenstand.book.storage.thing import Thing
from evenstand.engine.parsing.numerals import rewritten
from evenstand.engine.quantities.phrases import (
    CITED,
    WORDED,
    Decimal,
    Phrase,
    Style,
    System,
    say,
)
from evenstand.engine.seed.tag import Month
from evenstand.tasks.job.about import about_book
from evenstand.tasks.record.frame import Reader
from evenstand.tasks.seed.species_table import spanish_names, species_table

from .languages import LANGUAGES, SIGNS, decimal_of, looking_up
from .settings import Settings

SYSTEMS: tuple[System, ...] = ("us", "metric")
KEY = "evenstand"
SESSION = "session"  # the cookie that holds a session's token
Some = TypeVar("Some", bound=Body)


def serve(app: Flask, book: Book, settings: Settings) -> None:
    """Tell an app which book it answers for, and how."""
    app.extensions[KEY] = (book, settings)


def book() -> Book:
    """Return the book that the app answers for."""
    return cast(Book, current_app.extensions[KEY][0])


def settings() -> Settings:
    """Return how the app was set up."""
    return cast(Settings, current_app.extensions[KEY][1])


def about() -> About:
    """Return what the book says of itself, looked up once for each request."""
    if "about" not in g:
        g.about = about_book(book())[1]
    return cast(About, g.about)


def own(name: str) -> str:
    """Return what was chosen on this device; empty where it reads as the book says."""
    return request.cookies.get(name, "")


def language() -> str:
    """Return the reader's language: this device's, else the book's, else what the browser asks."""
    for chosen in (own("language"), about().language):
        if chosen in LANGUAGES:
            return chosen
    return request.accept_languages.best_match(list(LANGUAGES), default="en") or "en"


def decimal() -> Decimal:
    """Return the reader's decimal sign: this device's, else the book's, else by the country."""
    for chosen in (own("decimal"), about().decimal):
        if chosen in SIGNS:
            return SIGNS[chosen]
    return decimal_of(language(), request.accept_languages.values())


def _system() -> System:
    for chosen in (own("units"), about().units):
        if system := next((each for each in SYSTEMS if each == chosen), None):
            return system
    return settings().units


def token() -> str:
    """Return what the browser was given when its reader signed in."""
    return request.cookies.get(SESSION, "")


def reader() -> Person | None:
    """Return who asks, None for somebody who must sign in first; found once for each request."""
    if "reader" not in g:
        people = book().people
        alone = not people.any() and not settings().shared
        g.reader = Person("", "", settings().role) if alone else people.reader(token())
    return cast(Person | None, g.reader)


def who() -> str | None:
    """Return the name under which this reader writes; None is that of the book's opener.

    Somebody with an account writes under its name, whatever is typed elsewhere.
    """
    person = reader()
    if person and person.name:
        return person.name
    if settings().signs:
        return settings().signs
    return request.cookies.get("who", "").strip()[:MOST_NAME] or None


def style() -> Style:
    """Return how the reader wants to read, made once for each request."""
    if "style" not in g:
        translate = looking_up(language())
        names = dict(spanish_names()) if language() == "es" else {}
        names |= {each: translate(each) for each in (*CITED, *WORDED)}
        g.style = Style(system=_system(), decimal=decimal(), translate=translate, names=names)
    return cast(Style, g.style)


def document_reader() -> Reader:
    """Return for whom a document is written."""
    return Reader(style=style(), language=language(), invented=settings().invented)


def this_month() -> Month:
    """Return the month that the age of tests is judged in."""
    today = date.today()
    return Month(today.year, today.month)


def today() -> str:
    """Return the day it is here, as a field of a date writes it."""
    return date.today().isoformat()


def species(name: str) -> str:
    """Write a species in the reader's language, with its scientific name where that differs."""
    own = style().names.get(name)
    return f"{own} ({species_table().named(name).scientific})" if own else name


def seeds(names: str) -> str:
    """Write the names of seeds that were typed with commas, species in the reader's language."""
    return style().listed(names)


def cited(source: str) -> str:
    """Write where something is from: a title as it is, what is none in the reader's language."""
    return style().write(source)


def in_hand(text: str) -> str:
    """Write the numbers of a text that was kept with the reader's decimal sign."""
    return text if style().decimal == "." else rewritten(text, decimal=".", into=style().decimal)


class NewerError(Conflict):
    """A page is asked about a thing whose state only a newer release can read."""

    def __init__(self, thing: str) -> None:
        super().__init__()
        self.thing = thing
        self.need: Phrase = say(
            "A newer version of Evenstand made this, and this one can't read it. Update "
            "Evenstand on this computer, or open its history."
        )


def thing(id: str, kind: type[Body]) -> Thing:
    """Return a thing of some kind, or answer that there is none, or none that can be read here."""
    found = any_thing(id)
    if isinstance(found.body, Newer) and found.kind == getattr(kind, "kind", found.kind):
        raise NewerError(id)
    if not isinstance(found.body, kind):
        abort(404)
    return found


def newer(kind: str) -> list[Thing]:
    """Return the things of a kind that only a newer release can read."""
    return [each for each in book().things(kind) if isinstance(each.body, Newer)]


def any_thing(id: str) -> Thing:
    """Return a thing, one that only a newer release can read too, or answer that there is none."""
    try:
        return book().get(id)
    except BookError:
        abort(404)


def body(thing: Thing, kind: type[Some]) -> Some:
    """Return what a thing says, or answer that it is no such thing."""
    if not isinstance(thing.body, kind):
        abort(404)
    return thing.body
