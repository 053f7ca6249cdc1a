"""``evenstand record``: a job of a book as page, JSON and PDF."""

import pytest
from msgspec.structs import replace

from evenstand.book.opening import open_book
from evenstand.demo.book import fill
from evenstand.engine.seed.tag import Month
from evenstand.tasks.record.frozen import freeze

JOB = "Alder Bench, spring oats"
ONCE = "Creek Bottom, rye cover"  # finished, and never amended


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
    assert "not recorded" not in said
    assert "not recorded" in run("record", ONCE, "--book", kept).stdout


def test_wide_tables_become_lines_that_fit(run, kept, monkeypatch):
    monkeypatch.setenv("COLUMNS", "60")
    said = run("record", "Alder Bench, fall cover", "--book", kept).stdout
    assert max(len(line) for line in said.splitlines()) <= 60


def test_json_is_the_same_document(document, kept):
    found = document("record", JOB, "--book", kept, "--units", "metric")
    assert (found["document"], found["about"]) == ("record", JOB)
    planned = next(fact for fact in found["facts"] if fact["name"] == "Area planned")
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


@pytest.fixture
def printed(run, kept, tmp_path):
    """A PDF of the finished record, and the id of its job."""
    pdf = tmp_path / "record.pdf"
    assert run("record", ONCE, "--book", kept, "--pdf", str(pdf)).exit_code == 0
    with open_book(kept, device="shed") as book:
        return str(pdf), next(job.id for job in book.things("job") if job.body.name == ONCE)


def checked(run, pdf, book):
    done = run("record", "check", pdf, book)
    return done.exit_code, done.stdout.strip()


def test_a_printed_record_agrees_until_it_is_amended(run, kept, printed):
    pdf, job = printed
    newer, older = f"{kept}.2.pdf", f"{kept}.1.pdf"
    assert checked(run, pdf, kept) == (0, "Agrees: version 1 of 1.")
    with open_book(kept, device="shed") as book:
        drill = book.get(book.get(job).body.drill)
        book.correct(drill.id, replace(drill.body, rows=17))
        assert checked(run, pdf, kept)[0] == 0  # a change alone touches no version
        freeze(book, job, today=Month(2026, 11), why="rows were taken off")
    amended = "Agrees with version 1, amended since: version 2 is the newest."
    assert checked(run, pdf, kept) == (1, amended)
    run("record", ONCE, "--book", kept, "--pdf", newer)
    assert checked(run, newer, kept) == (0, "Agrees: version 2 of 2.")
    run("record", ONCE, "--book", kept, "--version", "1", "--pdf", older)
    assert checked(run, older, kept)[0] == 1
    assert run("record", ONCE, "--book", kept, "--version", "3").exit_code == 2


def test_a_printed_record_of_another_book_or_with_lost_entries_does_not_agree(run, kept, printed):
    pdf, job = printed
    other = f"{kept}.other"
    with open_book(other, device="barn") as another, open_book(kept, device="shed") as book:
        assert checked(run, pdf, other)[0] == 2
        frozen = book.things("frozen", of=job)[0]
        another.merge(book.history(frozen.id))
    missing = "Version 1, but its entries here are missing or damaged."
    assert checked(run, pdf, other) == (2, missing)
    assert run("record", "check", kept, kept).exit_code == 2


def test_a_record_is_json_with_its_version(document, kept, printed):
    pdf, job = printed
    told = document("record", "check", pdf, kept)
    agrees = {"verdict": "agrees", "job": job, "version": 1, "versions": 1}
    assert agrees.items() <= told.items()
    facts = {each["name"] for each in document("record", ONCE, "--book", kept)["facts"]}
    assert {"Version", "Made of"} <= facts
