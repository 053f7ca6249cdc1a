"""Opening a book: what is one, what is none, and how safely it writes."""

import sqlite3
from contextlib import closing

import pytest

from evenstand.book.errors import BookError
from evenstand.book.opening import wall_clock
from evenstand.book.storage import migrations, store


def tables(path):
    """What the file says of its tables."""
    with closing(sqlite3.connect(path, isolation_level=None)) as file:
        return file.execute("SELECT name, sql FROM sqlite_master ORDER BY name").fetchall()


def refusal(opened, where, **options):
    with pytest.raises(BookError) as refused:
        opened(where, **options)
    return refused.value


def test_a_book_is_begun_and_opened_again(opened, samples, tmp_path):
    path = tmp_path / "book.evenstand"
    drill = opened(path).add(samples.heron).about
    assert opened(str(path), create=False).get(drill).body == samples.heron


def test_a_file_writes_safely(opened, tmp_path):
    """SQLite's own words: FULL is 2; the log is synchronised at each commit."""
    sqlite = opened(tmp_path / "book")._store._sqlite
    asked = ("journal_mode", "synchronous", "foreign_keys", "busy_timeout", "fullfsync")
    found = {name: sqlite.execute(f"PRAGMA {name}").fetchone()[0] for name in asked}
    assert found == {
        "journal_mode": "wal",
        "synchronous": 2,
        "foreign_keys": 1,
        "busy_timeout": 10_000,
        "fullfsync": 1,
    }


def test_a_book_that_is_not_there_is_not_begun_by_mistake(opened, tmp_path):
    refused = refusal(opened, tmp_path / "bok", create=False)
    assert (refused.field, refused.given) == ("book", str(tmp_path / "bok"))
    assert not (tmp_path / "bok").exists()


def test_a_folder_that_is_not_there_is_said(opened, tmp_path):
    assert refusal(opened, tmp_path / "none" / "book").field == "book"


def test_an_address_is_no_file(opened):
    assert refusal(opened, "elsewhere://host/book").given == "elsewhere://host/book"


@pytest.mark.parametrize("content", [b"x" * 5000, b"SQLite format 3\0" + b"x" * 5000])
def test_another_file_is_left_alone(opened, tmp_path, content):
    path = tmp_path / "letter.txt"
    path.write_bytes(content)
    assert refusal(opened, path).field == "book"
    assert path.read_bytes() == content


def test_another_database_is_left_alone(opened, tmp_path):
    path = tmp_path / "other.db"
    with closing(sqlite3.connect(path, isolation_level=None)) as other:
        other.execute("CREATE TABLE entry (id)")
    before = tables(path)
    assert "this file is not a book" in str(refusal(opened, path))
    assert tables(path) == before


def test_a_newer_file_is_refused_with_what_to_do(opened, tmp_path):
    path = tmp_path / "book"
    opened(path).close()
    with closing(sqlite3.connect(path, isolation_level=None)) as file:
        file.execute(f"PRAGMA user_version = {len(migrations.STEPS) + 1}")
    before = tables(path)
    assert "with a newer Evenstand" in str(refusal(opened, path))
    assert tables(path) == before


def test_a_device_that_cannot_stand_in_a_stamp_is_refused(opened, tmp_path):
    assert refusal(opened, tmp_path / "book", device="The Shed").field == "device"
    assert not (tmp_path / "book").exists()


@pytest.fixture
def older(opened, samples, tmp_path):
    """A file written by this release with a drill in it, and the drill."""
    with opened(tmp_path / "book") as book:
        return tmp_path / "book", book.add(samples.heron)


def test_an_older_file_is_brought_up_to_date_step_by_step(older, opened, monkeypatch):
    path, drill = older
    step = ("CREATE TABLE extra (id TEXT)", "INSERT INTO extra SELECT id FROM thing")
    monkeypatch.setattr(store, "STEPS", (*migrations.STEPS, step))
    again = opened(path)
    assert again.get(drill.about).entry == drill
    sqlite = again._store._sqlite
    assert sqlite.execute("SELECT id FROM extra").fetchall() == [(drill.about,)]
    assert sqlite.execute("PRAGMA user_version").fetchone() == (len(migrations.STEPS) + 1,)


def test_a_step_that_fails_leaves_the_file_as_it_was(older, opened, monkeypatch):
    path, drill = older
    before = tables(path)
    step = ("CREATE TABLE extra (id TEXT)", "INSERT INTO nowhere SELECT id FROM thing")
    monkeypatch.setattr(store, "STEPS", (*migrations.STEPS, step))
    assert "nowhere" in str(refusal(opened, path))
    monkeypatch.undo()
    assert tables(path) == before
    assert opened(path).get(drill.about).entry == drill


def test_a_locked_file_says_so(opened, samples, tmp_path):
    path = tmp_path / "book"
    book = opened(path)
    book._store._sqlite.execute("PRAGMA busy_timeout = 1")
    with closing(sqlite3.connect(path, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(BookError, match="locked") as refused:
            book.add(samples.heron)
        other.execute("ROLLBACK")
    assert refused.value.field == "book"
    assert book.add(samples.heron)


def test_the_wall_clock_counts_milliseconds():
    assert wall_clock() > 1_700_000_000_000  # 2023-11-14
