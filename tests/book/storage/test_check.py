"""A book that was tampered with says what is wrong."""

import pytest

from evenstand.book.kinds.work import Note
from evenstand.book.log.entries import read


@pytest.fixture
def filled(opened, samples, tmp_path):
    """A book with a drill, a note of it, and a removed field."""
    book = opened(tmp_path / "book")
    drill = book.add(samples.heron).about
    book.add(Note(of=drill, text="chain slipped"))
    book.remove(book.add(samples.alder_bench).about)
    return book


def tamper(book, sql, *values):
    book._store._sqlite.execute("PRAGMA foreign_keys = OFF")
    book._store._sqlite.execute(sql, values)


def test_a_sound_book_has_nothing_to_say(filled):
    found = filled.check()
    assert (found.entries, found.things) == (4, {"drill": 1, "note": 1})
    assert (found.newer, found.faults, found.loose) == (0, (), ())


def test_entries_of_a_newer_release_are_counted(filled):
    text = filled.entries().entries[1].text.replace('"text"', '"ink":"blue","text"')
    other = text[:10] + "f" + text[11:]
    filled.merge([read(other.encode())])
    assert filled.check().newer == 1


@pytest.mark.parametrize(
    ("sql", "said"),
    [
        (
            "UPDATE entry SET text = replace(text, 'Heron', 'Herom') WHERE seq = 1",
            "its hash does not match",
        ),
        ("UPDATE entry SET text = '{' WHERE seq = 1", "truncated"),
        (
            "UPDATE entry SET made = replace(made, '2026', '2027') WHERE seq = 1",
            "filed in the wrong place",
        ),
        ("UPDATE thing SET removed = 1 WHERE kind = 'drill'", "does not match its entries"),
        ("DELETE FROM thing WHERE kind = 'note'", "does not match its entries"),
        ("DELETE FROM link", "does not match its entries"),
        ("DELETE FROM entry WHERE seq = 1", "no such entry"),
        ("DELETE FROM thing WHERE kind = 'note'", "no such thing"),
    ],
)
def test_what_was_tampered_with_is_found(filled, sql, said):
    tamper(filled, sql)
    assert any(said in str(fault) for fault in filled.check().faults)


def test_what_names_a_thing_that_is_not_here_is_told_but_no_fault(opened, samples):
    book = opened()
    note = book.add(samples.note)
    found = book.check()
    [loose] = found.loose
    assert (loose.thing, loose.kind, loose.target) == (note.id, "note", samples.note.of)
    assert found.faults == ()
