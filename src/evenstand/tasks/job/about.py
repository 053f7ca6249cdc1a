"""What the book says of itself: one thing, though books that were swapped may have brought two."""

from evenstand.book.about import About
from evenstand.book.book import Book
from evenstand.book.thing import Thing
from evenstand.engine.quantities.phrases import say

from ..parsing.given import Given
from ..parsing.writing import Writing

MOST_NAME = 200


def about_book(book: Book) -> tuple[Thing | None, About]:
    """Return the thing whose newest entry is the newest, and what it says."""
    found = [thing for thing in book.things("book") if isinstance(thing.body, About)]
    newest = max(found, key=lambda thing: thing.entry.order, default=None)
    said = newest.body if newest and isinstance(newest.body, About) else About()
    return newest, said


def read_about(given: Given, *, languages: tuple[str, ...]) -> About:
    """Read what the book is to say of itself; what was left empty is not chosen.

    Raises
    ------
    RefusalsError
        Each under the field it was typed in.
    """
    form = Writing(given)
    name, note = form.text("name"), form.text("note")
    if len(name) > MOST_NAME:
        form.refuse(given.refuse("name", say("give at most {n} characters", n=MOST_NAME)))
    chosen = {
        key: _one_of(form, key, choices)
        for key, choices in (
            ("units", ("us", "metric")),
            ("language", languages),
            ("decimal", ("point", "comma")),
        )
    }
    form.done()
    return About(name=name, note=note, **chosen)  # type: ignore[arg-type]


def about_texts(said: About) -> dict[str, str]:
    """Return the fields of the form as they were filled in."""
    names = ("name", "units", "language", "decimal", "note")
    return {name: getattr(said, name) for name in names}


def _one_of(form: Writing, key: str, choices: tuple[str, ...]) -> str:
    text = form.text(key)
    if text and text not in choices:
        form.refuse(form.given.refuse(key, say("choose one from the list")))
    return text
