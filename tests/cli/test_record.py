"""``evenstand record``: a job of a book as page, JSON and PDF."""

import pytest

from evenstand.book.opening import open_book
from evenstand.demo.book import fill

JOB = "Alder Bench, spring oats"


@pytest.fixture
def kept(tmp_path):
    """The demo's book."""
    path = tmp_path / "book.evenstand"
    with open_book(path, device="shed", who="Ada", create=True) as book:
        fill(book)
    return str(path)


def test_a_record_is_printed(run, kept):
    said = run("record", JOB, "--book", kept).stdout
    assert said.startswith("Seeding record")
    assert "Set to  " in said
    assert "88 kg/ha" in said or "78.5 lb/ac" in said
    assert " Tract  " in said
    assert "not recorded" in said


def test_wide_tables_become_lines_that_fit(run, kept, monkeypatch):
    monkeypatch.setenv("COLUMNS", "60")
    said = run("record", "Alder Bench, fall cover", "--book", kept).stdout
    assert max(len(line) for line in said.splitlines()) <= 60


def test_json_is_the_same_document(document, kept):
    found = document("record", JOB, "--book", kept, "--units", "metric")
    assert (found["document"], found["about"]) == ("record", JOB)
    planned = next(fact for fact in found["facts"] if fact["name"] == "Ground planned")
    # 38.5 ac × 0.40469 ha/ac = 15.58 ha
    assert planned["value"]["quantity"]["value"] == pytest.approx(15.58, abs=0.005)
    assert planned["value"]["quantity"]["unit"] == "ha"


def test_a_pdf_is_written_the_same_each_time(run, kept, tmp_path):
    first, second = tmp_path / "1.pdf", tmp_path / "2.pdf"
    for path in (first, second):
        done = run("record", JOB, "--book", kept, "--pdf", str(path), "--paper", "a4")
        assert (done.exit_code, done.stdout) == (0, "")
    assert first.read_bytes() == second.read_bytes()
    assert first.read_bytes().startswith(b"%PDF-1.7")


@pytest.mark.parametrize(
    ("arguments", "field"),
    [
        (("--paper", "a4"), "--paper"),
        (("--pdf", "no/such/folder/r.pdf"), "--pdf"),
        (("--today", "soon"), "--today"),
    ],
)
def test_what_cannot_be_is_refused_under_its_flag(run, kept, *, arguments, field):
    done = run("record", JOB, "--book", kept, *arguments)
    assert done.exit_code == 2
    assert field in done.stderr


def test_a_job_or_a_book_that_is_not_there_is_named(run, kept):
    assert "THING" in run("record", "Nowhere", "--book", kept).stderr
    assert "job" in run("record", "Plover", "--book", kept).stderr
    assert "no such file" in run("record", JOB, "--book", "nowhere").stderr
