"""What the book says of itself: one thing, though books that were swapped may have brought two."""

from evenstand.book.book import Book
from evenstand.book.kinds.about import About
from evenstand.book.storage.thing import Thing
from evenstand.engine.quantities.phrases import say

from ..parsing.given import Given
from ..parsing.structs import read, texts
from ..parsing.writing import Writing


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
    with Writing(given) as form:
        return read(form, About, language=lambda: _language(form, languages))


def _language(form: Writing, known: tuple[str, ...]) -> str:
    text = form.text("language")
    if text and text not in known:
        form.refuse(form.given.refuse("language", say("choose one from the list")))
    return text


def about_texts(said: About) -> dict[str, str]:
    """Return the fields of the form as they were filled in."""
    return texts(said)
