"""Documents: what a pen writes, their JSON, and what is handed to be set in type."""

import json

import pytest

import labels
from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import POUND_PER_ACRE, RATE
from evenstand.engine.statistics.budget import Estimate
from evenstand.report.json import as_json
from evenstand.report.pen import Pen
from evenstand.report.typesetting import typesetting

PEN = Pen(Style())
COMMA = Pen(Style(system="metric", decimal=",", thousands="."))


def ranged(value, low, high):
    return Estimate(*(each * POUND_PER_ACRE for each in (value, low, high)), u=POUND_PER_ACRE)


def test_a_range_stands_behind_its_number_in_the_readers_unit():
    found = PEN.ranged(ranged(54, 52.26, 55.76), RATE)
    assert found.text == "54\u00a0(52.3\u00a0to 55.8)"
    assert found.quantity["unit"] == "lb/ac"
    assert found.quantity["low"] == pytest.approx(52.26)
    assert (
        COMMA.amount(ranged(54, 52.26, 55.76), RATE).text == "60,5\u00a0kg/ha (58,6\u00a0to 62,5)"
    )


def test_what_is_exact_has_no_range_and_what_is_unknown_a_dash():
    exact = Estimate(POUND_PER_ACRE, POUND_PER_ACRE, POUND_PER_ACRE, u=0.0)
    assert PEN.ranged(exact, RATE).text == "1"
    assert PEN.ranged(None, RATE).text == PEN.number(None, RATE).text == PEN.cell(None).text == "–"
    missing = PEN.fact("Farm", None)
    assert (missing.cell.text, missing.missing) == (labels.NOT_WRITTEN_DOWN, True)


def test_json_tells_every_block_and_the_quantity_beside_its_text(whole, every_block):
    found = as_json(whole(*every_block), Style())
    json.dumps(found, allow_nan=False)
    blocks = found["sections"][0]["blocks"]
    assert [each["block"] for each in blocks] == [each.kind for each in every_block]
    assert found["facts"][0] == {
        "name": "Farm", "value": {"text": labels.NOT_WRITTEN_DOWN}, "missing": True,
    }  # fmt: skip
    assert blocks[4]["lines"][0]["value"]["quantity"]["unit"] == "lb/ac"
    assert blocks[7]["sha256"] == "0f4636c78f65d3639ece5a064b5ae753e3408614a14fb18ab4d7540d2c248543"
    assert "data" not in blocks[7]


def test_type_is_set_from_that_json_alone(whole, every_block):
    document = whole(*every_block)
    files = typesetting(document, "a4")
    assert set(files) == {"main.typ", "document.json", "photo-p1"}
    laid = json.loads(files["document.json"])
    assert laid["paper"] == "a4"
    assert "Libertinus Serif" in laid["sections"][0]["blocks"][5]["svg"]
    laid.pop("paper")
    same = as_json(document, Style())
    for part in (laid, same):
        for block in part["sections"][0]["blocks"]:
            block.pop("svg", None), block.pop("format", None)
    assert laid == same


def test_a_photo_that_cannot_be_read_is_said_to_be_one(whole, every_block):
    files = typesetting(whole(*every_block), "letter", unreadable={"p1"}, instead="unreadable")
    block = json.loads(files["document.json"])["sections"][0]["blocks"][7]
    assert block == {"block": "unreadable", "text": "A tag: unreadable"}


def test_signs_that_the_letters_have_not_are_written_by_their_numbers(whole):
    files = typesetting(whole(about="Äcker 中\t№ 1\x07"), "a4")
    assert json.loads(files["document.json"])["about"] == "Äcker [U+4E2D] № 1[U+0007]"
