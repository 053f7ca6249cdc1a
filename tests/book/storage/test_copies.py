"""Copies before the first entry of a day, and going back to one."""

import pytest

from evenstand.book.errors import BookError
from evenstand.book.kinds.work import Note
from evenstand.book.storage.copies import DAY

NOTE = Note(of="01a21037-7680-7000-8000-000000000000", text="x")


@pytest.fixture
def kept(opened, tmp_path, clock):
    book = opened(tmp_path / "book", clock=clock)
    book.add(NOTE)
    return book


def names(book):
    return [path.name for path in book.copies.all()]


def test_the_first_entry_of_a_day_comes_after_a_copy(kept, clock, opened):
    assert names(kept) == []
    clock.ms += DAY
    kept.add(NOTE)
    kept.add(NOTE)
    assert names(kept) == ["2026-11-26.evenstand"]
    assert opened(kept.copies.all()[0]).counts() == {"note": 1}
    assert kept.copies.all()[0].stat().st_mode & 0o777 == 0o600


def test_the_copies_of_two_weeks_are_kept(kept, clock):
    for _ in range(20):
        clock.ms += DAY
        kept.add(NOTE)
    assert len(names(kept)) == 14
    assert names(kept)[0] == "2026-12-15.evenstand"


def test_a_disk_that_takes_no_copy_keeps_nobody_from_writing(kept, clock, monkeypatch):
    monkeypatch.setattr("evenstand.book.storage.store.Store.copy_to", lambda *_: 1 / 0)
    monkeypatch.setattr(
        "evenstand.book.storage.copies.new_file", lambda path: (_ for _ in ()).throw(OSError(path))
    )
    clock.ms += DAY
    kept.add(NOTE)
    assert kept.counts() == {"note": 2}


def test_a_book_goes_back_to_a_copy_after_saying_what_is_lost(kept, clock):
    copy = kept.copies.make()
    clock.ms += 60_000
    kept.add(NOTE)
    thing = kept.add(NOTE).about
    kept.correct(thing, Note(of=NOTE.of, text="y"))
    said = kept.restore(copy, really=False)
    assert (said.entries, said.things, said.newest[:16]) == (3, 2, "2026-11-25T12:01")
    assert kept.counts() == {"note": 3}
    clock.ms += 60_000
    kept.restore(copy, really=True)
    assert kept.counts() == {"note": 1}
    before = kept.copies.all()[0]
    assert kept.restore(before, really=True).entries == 0
    assert kept.counts() == {"note": 3}
    assert kept.check().faults == ()


def test_what_is_no_copy_is_refused(kept, tmp_path):
    (tmp_path / "odd").write_bytes(b"no book at all, but a text of some length" * 100)
    with pytest.raises(BookError):
        kept.restore(tmp_path / "odd", really=True)
    assert kept.counts() == {"note": 1}
