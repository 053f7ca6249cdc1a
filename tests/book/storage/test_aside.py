"""A long look at a book: nobody who reads or writes meanwhile waits for it."""

import sys
import threading

import pytest

from evenstand.book.kinds.work import Note

pytestmark = pytest.mark.skipif(sys.platform == "emscripten", reason="needs threads")
THING = "01a21037-7680-7000-8000-000000000000"


@pytest.fixture
def kept(opened, tmp_path):
    book = opened(tmp_path / "book")
    for _ in range(150):
        book.add(Note(of=THING, text="x"))
    return book


def meanwhile(work):
    """Do something in another thread; whether it was done within 5 s."""
    thread = threading.Thread(target=work, daemon=True)
    thread.start()
    thread.join(5)
    return not thread.is_alive()


def test_others_read_and_write_while_a_book_is_exported(kept):
    with kept.all_entries() as entries:
        next(entries)
        assert meanwhile(lambda: kept.counts())
        assert meanwhile(lambda: kept.add(Note(of=THING, text="y")))
        assert meanwhile(kept.settle)
        assert meanwhile(kept.settle)
        assert len(list(entries)) == 149
    assert kept.counts() == {"note": 151}


@pytest.mark.parametrize("look", ["check", "backup"])
def test_others_read_and_write_while_it_is_looked_through(kept, monkeypatch, tmp_path, *, look):
    from evenstand.book.storage.store import Store

    held, go = threading.Event(), threading.Event()

    def wait(store, *given):
        held.set()
        go.wait(10)
        return real(store, *given)

    name = {"check": "faults", "backup": "copy_to"}[look]
    real = getattr(Store, name)
    monkeypatch.setattr(Store, name, wait)
    found = []
    given = (tmp_path / "copy",) if look == "backup" else ()
    thread = threading.Thread(target=lambda: found.append(getattr(kept, look)(*given)))
    thread.start()
    assert held.wait(5)
    assert meanwhile(lambda: kept.add(Note(of=THING, text="y")))
    go.set()
    thread.join(20)
    assert len(found) == 1
