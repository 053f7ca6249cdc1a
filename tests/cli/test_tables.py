"""``evenstand book table`` and ``take``."""

import csv
import io
import json

import openpyxl
import pytest

from evenstand.book.opening import open_book
from evenstand.demo.book import fill

LOTS = "lot,species,purity [%],germination [%],Cost\nR-1,cereal rye,98,92,$0.35/lb\n"


@pytest.fixture
def pool(tmp_path):
    path = tmp_path / "pool"
    with open_book(path, device="shed") as book:
        fill(book)
    return str(path)


def test_a_table_is_printed_as_csv_and_as_json(run, document, pool):
    rows = list(csv.DictReader(io.StringIO(run("book", "table", "fields", "--book", pool).stdout)))
    assert rows[0]["area [ac]"] == "38.5"
    found = document("book", "table", "fields", "--book", pool, "--units", "metric")
    assert found["units"] == {"area": "ha"}
    assert found["rows"][0]["area"] == pytest.approx(15.5804, abs=1e-4)
    assert document("book", "table", "catches", "--book", pool)["rows"][0]["made"][:2] == "20"


def test_tables_are_written_into_new_files(run, document, *, pool, tmp_path):
    done = run("book", "table", "lots", "--csv", "lots.csv", "--xlsx", "lots.xlsx", "--book", pool)
    assert done.stdout == "Wrote lots.csv.\nWrote lots.xlsx.\n"
    assert (tmp_path / "lots.csv").read_bytes().startswith(b"\xef\xbb\xbflot,")
    run("book", "table", "fields", "--geojson", "fields.geojson", "--book", pool)
    assert json.loads((tmp_path / "fields.geojson").read_text())["type"] == "FeatureCollection"
    assert document("book", "table", "all", "--xlsx", "all.xlsx", "--book", pool) == {
        "files": ["all.xlsx"]
    }
    assert "catches" in openpyxl.load_workbook(tmp_path / "all.xlsx").sheetnames


def test_all_as_json_is_everything(document, pool):
    assert "mix" in document("book", "table", "all", "--book", pool)["things"]


@pytest.mark.parametrize(
    ("arguments", "field"),
    [
        (["table", "lot"], "table"),
        (["table", "lots", "--geojson", "x"], "--geojson"),
        (["table", "all", "--csv", "x"], "KIND"),
        (["table", "lots", "--csv", "pool"], "file"),
        (["take", "gone.csv", "--kind", "lots"], "FILE"),
        (["take", "pool", "--kind", "catches"], "table"),
        (["take", "pool", "--kind", "lots"], "file"),
    ],
)
def test_what_cannot_be_is_refused(refusal, pool, *, arguments, field):
    assert refusal("book", *arguments, "--book", pool)["field"] == field


def test_a_table_of_all_takes_a_file(run, pool):
    done = run("book", "table", "all", "--book", pool)
    assert (done.exit_code, done.stdout) == (2, "")


def test_a_file_is_looked_at_then_taken_in_once(run, document, tmp_path):
    (tmp_path / "lots.csv").write_text(LOTS)
    take = ["book", "take", "lots.csv", "--kind", "lots", "--today", "2026-11", "--book", "new"]
    seen = run(*take, "--dry-run", "--column", "E=price")
    assert seen.exit_code == 0, seen.stderr
    assert "Column C (purity [%]): purity in %\n" in seen.stdout
    assert seen.stdout.endswith(
        "Would import: 1 new, 0 changed, 0 already in the book, 0 repeated in the file.\n"
    )
    done = document(*take, "--column", "Cost=price")
    assert (done["taken"], done["new"], done["known"]) == (True, 1, 0)
    assert {"column": "E (Cost)", "says": "price", "unit": None} in done["columns"]
    assert document(*take, "--column", "Cost=price")["known"] == 1
    with open_book(tmp_path / "new", device="x") as book:
        (lot,) = book.things("lot")
    assert lot.body.price.text == "$0.35/lb"


def test_each_cell_that_is_wrong_is_named_and_nothing_is_taken_in(run, tmp_path):
    (tmp_path / "lots.csv").write_text(LOTS + "R-2,radish,abc,200,\n" + "R,radish,x,1,\n" * 30)
    done = run("book", "take", "lots.csv", "--kind", "lots", "--book", "new")
    assert done.exit_code == 2
    assert "row 3, column C (purity [%]) is 'abc': " in done.stdout
    assert " more.\nNothing is imported while any row has an error.\n" in done.stdout
    assert done.stderr.startswith("Error: row 3, column C (purity [%]) is abc: ")
    with open_book(tmp_path / "new", device="x") as book:
        assert book.counts() == {}
    told = run("book", "take", "lots.csv", "--kind", "lots", "--book", "new", "--json")
    document = json.loads(told.stdout)
    assert (document["taken"], document["refused"][0]["row"]) == (False, 3)


def test_flags_say_how_a_file_is_written(run, tmp_path):
    (tmp_path / "f.csv").write_bytes("name|x;area\nCañada;1,5 ac\n".encode("cp1252"))
    flags = ["--encoding", "windows-1252", "--separator", "semicolon", "--decimal", "comma"]
    done = run(
        "book", "take", "f.csv", "--kind", "fields", *flags, "--column", "A=name", "--book", "b"
    )
    assert done.exit_code == 0, done.stderr
    with open_book(tmp_path / "b", device="x") as book:
        (field,) = book.things("field")
    assert (field.body.name, field.body.area.text) == ("Cañada", "1.5 ac")
