"""What lies on the disk: for whom it can be read, and what the file alone holds."""

import os
import shutil
import stat
import time

import pytest

from evenstand.book.errors import BookError
from evenstand.book.exchange import export_book
from evenstand.book.kinds.work import Note
from evenstand.book.opening import open_book

THING = "01a21037-7680-7000-8000-000000000000"
pytestmark = pytest.mark.skipif(os.name == "nt", reason="modes of files are Unix's")


def mode(path):
    return stat.S_IMODE(path.stat().st_mode)


def test_nobody_else_reads_a_book_its_log_a_backup_or_an_export(opened, tmp_path):
    book = opened(tmp_path / "book")
    book.add(Note(of=THING, text="x"))
    book.backup(tmp_path / "copy")
    export_book(book, tmp_path / "out.zip")
    names = ("book", "book-wal", "copy", "out.zip")
    assert [mode(tmp_path / name) for name in names] == [0o600] * len(names)


def test_a_book_that_others_could_read_is_closed_to_them(opened, tmp_path):
    opened(tmp_path / "book").close()
    (tmp_path / "book").chmod(0o644)
    opened(tmp_path / "book")
    assert mode(tmp_path / "book") == 0o600


def test_the_file_alone_holds_the_book_when_nobody_writes(opened, tmp_path):
    book = opened(tmp_path / "book")
    book.add(Note(of=THING, text="x"))
    shutil.copy(tmp_path / "book", tmp_path / "too-soon")
    with pytest.raises(BookError, match="this file is empty; copy its -wal file"):
        open_book(tmp_path / "too-soon", device="b", create=False)
    book.settle()
    book.settle()
    assert (tmp_path / "book-wal").stat().st_size == 0
    shutil.copy(tmp_path / "book", tmp_path / "later")
    with open_book(tmp_path / "later", device="b", create=False) as copy:
        assert copy.counts() == {"note": 1}


def test_the_log_is_left_alone_while_somebody_writes(opened, tmp_path):
    book = opened(tmp_path / "book")
    for _ in range(3):
        book.add(Note(of=THING, text="x"))
        book.settle()
    assert (tmp_path / "book-wal").stat().st_size > 0


def test_an_empty_file_is_no_book(tmp_path):
    (tmp_path / "book").touch()
    with pytest.raises(BookError, match="this file is empty"):
        open_book(tmp_path / "book", device="b", create=False)


def test_what_a_killed_program_left_is_swept_away_later(opened, tmp_path):
    book = opened(tmp_path / "book")
    old, new = tmp_path / "copy.1.part", tmp_path / "copy.2.part"
    for each in (old, new):
        each.touch()
    os.utime(old, (time.time() - 7200,) * 2)
    book.backup(tmp_path / "copy")
    assert (old.exists(), new.exists()) == (False, True)
