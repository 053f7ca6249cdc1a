"""The schema in the documents is that of the types, and it fits what is written."""

import json
from pathlib import Path

import jsonschema
import pytest

from evenstand.book.kinds.bodies import KINDS
from evenstand.book.kinds.work import Note
from evenstand.book.log.entries import read
from evenstand.book.log.schema import entry_schema

THING = "01a21037-7680-7000-8000-000000000000"
PAGE = Path(__file__).parents[3] / "docs/entry.schema.json"


@pytest.fixture(scope="module")
def validator():
    schema = json.loads(PAGE.read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    return jsonschema.Draft202012Validator(schema)


def test_the_documents_show_the_schema_of_this_release():
    """Written by: evenstand book schema > docs/entry.schema.json."""
    assert PAGE.read_bytes() == entry_schema()


def test_every_kind_that_is_written_fits(opened, samples, validator):
    book = opened()
    for body in samples.every():
        entry = book.add(body)
        assert list(validator.iter_errors(json.loads(entry.text))) == []
    assert list(validator.iter_errors(json.loads(book.remove(entry.about, why="x").text))) == []


def test_the_entry_in_the_documents_is_one(validator):
    page = PAGE.with_name("format.md").read_text(encoding="utf-8")
    example = json.loads(page.split("```json\n")[1].split("```")[0])
    assert list(validator.iter_errors(example)) == []
    assert [bag.row for bag in read(json.dumps(example).encode()).body.bags] == [1, 2]


def test_the_documents_name_every_kind():
    page = PAGE.with_name("format.md").read_text(encoding="utf-8")
    assert all(f"`{kind}`" in page for kind in KINDS)


@pytest.mark.parametrize(
    "change",
    [
        ('"text":"stones"', '"text":5'),
        ('"text":"stones"', '"ink":""'),
        ('"about"', '"of"'),
        ('"id":"0', '"id":"g'),
    ],
)
def test_what_is_refused_does_not_fit(opened, validator, change):
    text = opened().add(Note(of=THING, text="stones")).text
    assert not validator.is_valid(json.loads(text.replace(*change)))
    assert validator.is_valid(json.loads(text))
