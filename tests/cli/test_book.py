"""``evenstand book`` on the book that an earlier release wrote: the invented pool."""

import json
import shutil
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from evenstand.book.log.entries import read
from evenstand.book.opening import open_book
from evenstand.book.place import default_path

BOOKS = Path(__file__).parents[1] / "books"
EXPORTED = str(BOOKS / "book-0.1.0.zip")


@pytest.fixture(autouse=True)
def own_place(tmp_path, monkeypatch):
    """A person whose data folder is empty; where their book will lie."""
    for name in ("HOME", "USERPROFILE", "XDG_DATA_HOME", "APPDATA"):
        monkeypatch.setenv(name, str(tmp_path / "home"))
    return default_path()


@pytest.fixture
def kept(tmp_path):
    """The book of release 0.1.0."""
    return shutil.copy(BOOKS / "book-0.1.0.evenstand", tmp_path / "kept")


def test_a_new_book_takes_in_what_another_exported(run, document, kept):
    assert document("book", "export", "out.zip", "--book", str(kept)) == {
        "entries": 29,
        "file": "out.zip",
    }
    done = run("book", "import", "out.zip", "--book", "new")
    assert done.stdout == "Read out.zip: 29 new entries, 0 known already.\n"
    assert document("book", "import", "out.zip", "--book", "new") == {"new": 0, "known": 29}
    assert document("book", "import", EXPORTED, "--book", "new") == {"new": 0, "known": 29}


def test_the_book_lies_in_ones_own_data_folder_and_the_help_says_so(run, document, own_place):
    document("book", "import", EXPORTED)
    assert own_place.is_file()
    told = "".join(run("book", "check", "--help").stdout.split())
    assert "".join(f"[default: {own_place}]".split()) in told


def test_a_sound_book_says_so(run, document, kept):
    found = document("book", "check", "--book", str(kept))
    assert (found["entries"], found["faults"], found["loose"]) == (29, [], [])
    said = run("book", "check", "--book", str(kept)).stdout
    assert said.startswith("29 entries: area 1, book 1, catch 1, ")
    assert said.endswith("No damage found.\n")


def test_damage_is_told_with_its_own_code(run, kept):
    with closing(sqlite3.connect(kept, isolation_level=None)) as file:
        file.execute("UPDATE entry SET text = replace(text, 'Heron', 'Herom')")
    done = run("book", "check", "--book", str(kept))
    assert done.exit_code == 1
    assert "has changed since it was written" in done.stdout
    done = run("book", "check", "--book", str(kept), "--json")
    assert (done.exit_code, len(json.loads(done.stdout)["faults"]) > 0) == (1, True)


def test_what_is_only_missing_or_newer_is_no_damage(run, document, kept):
    with closing(sqlite3.connect(kept, isolation_level=None)) as file:
        [(text,)] = file.execute("SELECT text FROM entry WHERE kind = 'split'")
    with open_book(kept.with_name("other"), device="phone") as book:
        book.merge([read(text.replace('"job"', '"later":1,"job"').encode())])
    done = run("book", "check", "--book", "other")
    assert "which is not here; it may still come" in done.stdout
    assert "1 entries were made by a newer Evenstand" in done.stdout
    assert done.exit_code == 0
    [loose] = document("book", "check", "--book", "other")["loose"]
    assert loose["kind"] == "split"


def test_a_backup_is_a_book(run, document, kept):
    done = run("book", "backup", "copy", "--book", str(kept))
    assert done.stdout == "Copied the book into copy.\n"
    assert document("book", "check", "--book", "copy")["entries"] == 29
    assert document("book", "backup", "again", "--book", "copy") == {"file": "again"}


def test_a_history_tells_who_changed_what(run, document, kept):
    """As written by tests/books/write_0_1_0.py: the drill first, its change 27 entries later."""
    said = run("book", "history", "heron", "--book", str(kept)).stdout
    assert said.splitlines() == [
        "Nov 25, 2026 12:01 UTC, Ada on shed: drill made",
        "  name: Heron",
        "  rows: 20",
        "  spacing: 7.5 in",
        "  scale: low 0 high 100 slack above",
        "  gears: full ratio 1; half ratio 0.5 driver 12 driven 24",
        "  boxes: grain; small seed seed small seed dead 0.02",
        "  rolled: 8 ft ± 1 in",
        "  note: invented",
        "Nov 25, 2026 12:25 UTC, Ben on shed: drill changed",
        "  note: invented → invented; chain renewed",
    ]
    entries = document("book", "history", "Heron", "--book", str(kept))["entries"]
    assert [entry["by"] for entry in entries] == ["Ada", "Ben"]


def test_a_history_names_the_things_it_speaks_of(run, kept):
    said = run("book", "history", "Alder Bench, fall", "--book", str(kept)).stdout
    assert "  drill: Heron\n" in said


def test_a_removal_and_its_reason_stand_in_the_history(run, kept):
    with open_book(kept, device="shed") as book:
        [gone] = book.things("catch", removed=True)
        [photo] = book.things("photo")
    said = run("book", "history", gone.id, "--book", str(kept)).stdout
    assert said.endswith("Ada on shed: removed\n  why: setting typed wrong\n")
    assert "data: 8 bytes" in run("book", "history", photo.id, "--book", str(kept)).stdout


def test_the_schema_is_printed(run):
    page = Path(__file__).parents[2] / "docs/entry.schema.json"
    assert run("book", "schema").stdout == page.read_text(encoding="utf-8")


def test_what_is_not_there_is_refused(refusal, kept):
    for command in (("export", "x"), ("check",), ("backup", "x"), ("history", "x")):
        assert refusal("book", *command, "--book", "nowhere")["field"] == "book"
    assert refusal("book", "history", "Plover", "--book", str(kept))["field"] == "THING"


def test_two_of_one_name_are_told_apart_by_id(refusal, samples_named, kept):
    error = refusal("book", "history", "heron", "--book", str(kept))
    assert all(id in error["need"] for id in samples_named)


@pytest.fixture
def samples_named(kept):
    """Two drills of one name in the kept book."""
    with open_book(kept, device="shed") as book:
        [heron] = book.things("drill")
        return [heron.id, book.add(heron.body).about]


def test_a_file_that_is_none_changes_nothing(refusal, document, kept):
    kept.with_name("letter.txt").write_text("Dear Ada")
    assert refusal("book", "import", "letter.txt", "--book", str(kept))["field"] == "file"
    assert refusal("book", "import", "none.zip", "--book", str(kept))["field"] == "file"
    assert document("book", "check", "--book", str(kept))["entries"] == 29


def test_a_file_that_is_there_is_not_written_over(refusal, kept):
    for command in ("export", "backup"):
        assert refusal("book", command, str(kept), "--book", str(kept))["field"] == "file"


def test_a_folder_that_cannot_be_made_is_said(refusal, tmp_path):
    (tmp_path / "file").write_text("")
    error = refusal("book", "import", EXPORTED, "--book", "file/below/book")
    assert error["field"] == "--book"
