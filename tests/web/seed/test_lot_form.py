"""The form of a lot: each refusal at its field, and all of a tag there and back."""

import pytest

from evenstand.engine.quantities.units import POUND

pytestmark = pytest.mark.usefixtures("november")
RYE = {
    "species": "cereal rye",
    "name": "R-26",
    "purity": "98",
    "purity_unit": "%",
    "germination": "92",
    "germination_unit": "%",
    "tested": "2026-08",
    "seeds_per_lb": "18,100",
    "seeds_per_lb_unit": "seeds/lb",
}


@pytest.mark.parametrize(
    "case",
    [
        ("species", "", "this is missing"),
        ("species", "ryee grain", "not in the list. Did you mean Cereal rye?"),
        ("purity", "", "this is missing"),
        ("purity", "0", "above 0% to 100%"),
        ("purity", "120", "0% to 100%"),
        ("purity", "98 lb", "98 lb is a weight"),
        ("purity", "98 ± 1", "without ±"),
        ("germination", "many", "enter a share"),
        ("hard", "12", "add up to 104%"),
        ("inert", "5", "add up to 103%"),
        ("coating", "30", "2% at most"),
        ("tested", "08/26", "enter its month and year"),
        ("tested", "2027-08", "it can't be after Nov 2026"),
        ("seeds_tested", "some", "enter a number of seeds"),
        ("noxious1_count", "18", "this is missing"),
        ("noxious1_name", "dodder", "this is missing"),
        ("seeds_per_lb", "many", "enter a number of seeds per weight"),
        ("seeds_per_lb", "0", "above 0"),
        ("tsw", "25", "only one way"),
        ("bag1_price", "16", "this is missing"),
        ("bag1_weight", "50 ac", "50 ac is an area"),
        ("bag1_weight", "50 ± 1", "without ±"),
        ("price", "-1", "0 or more"),
        ("price", "1 ± 0.1", "without ±"),
        ("on_hand", "10 ft", "10 ft is a length"),
        ("age_limit", "0", "whole number of 1 or more"),
        ("test_weight", "56 ft", "56 ft is a length"),
    ],
)
def test_a_refusal_stands_at_a_field(visitor, book, case):
    field, typed, need = case
    units = {
        "hard": "%",
        "inert": "%",
        "coating": "%",
        "tsw": "g per 1,000",
        "noxious1_count": "seeds/lb",
        "bag1_weight": "lb",
        "bag1_price": "$",
        "price": "$/lb",
    }
    unit = {f"{field}_unit": units[field]} if field in units else {}
    page = visitor.send("/seed/new", RYE | {field: typed} | unit, code=422)
    assert any(need in said for said in page.wrong.values()), page.wrong
    assert all(f"#f-{name}" in page.links for name in page.wrong)
    assert page.fields["name"] == "R-26"
    assert book.things("lot") == []


def test_which_field_a_refusal_stands_at(visitor):
    """What is refused of the whole tag stands at the figure to look at again."""
    for typed, field in (
        ({"hard": "12%"}, "germination"),
        ({"inert": "5%"}, "purity"),
        ({"coating": "30%"}, "coating"),
        ({"germination": "92%", "total_viable": "yes", "count_hard": "no"}, "count_hard"),
        ({"total_viable": "yes", "hard": "2%"}, "hard"),
    ):
        assert list(visitor.send("/seed/new", RYE | typed, code=422).wrong) == [field]


def test_several_refusals_are_told_at_once(visitor):
    typed = RYE | {"species": "", "purity": "x", "tested": "soon", "on_hand": "2 ac"}
    page = visitor.send("/seed/new", typed, code=422)
    assert set(page.wrong) == {"species", "purity", "tested", "on_hand"}
    assert (page.fields["purity"], page.fields["tested"]) == ("x", "soon")


def test_a_name_of_several_species_asks_which(visitor):
    page = visitor.send("/seed/new", RYE | {"species": "clover"}, code=422)
    assert "clover" in page.wrong["species"].casefold()
    assert 'list="known-species"' in page.html
    assert '<option value="Crimson clover">' in page.html


def test_a_form_sent_twice_is_kept_once(visitor, book):
    fields = RYE | {"entry": book.new_id()}
    assert visitor.send("/seed/new", fields) == visitor.send("/seed/new", fields)
    assert len(book.things("lot")) == 1
    page = visitor.send("/seed/new", fields | {"name": "R-27"}, code=422)
    assert "This was already saved with other values." in page.text


def test_everything_on_a_tag_comes_back_into_its_form(visitor, book):
    full = RYE | {
        "inert": "1.4%",
        "other_crop": "0.5%",
        "weed": "0.1%",
        "coating": "1%",
        "seeds_tested": "200",
        "hermetic": "yes",
        "treated": "yes",
        "treated_with": "a fungicide",
        "noxious1_name": "dodder",
        "noxious1_count": "18 seeds/lb",
        "noxious2_name": "Canada thistle",
        "noxious2_count": "0 seeds/lb",
        "bag1_weight": "50 lb",
        "bag1_price": "16 $",
        "bag2_weight": "2000 lb",
        "price": "0.30 $/lb",
        "on_hand": "120 lb",
        "sold_out": "yes",
        "count_hard": "no",
        "fluffy": "no",
        "age_limit": "7",
        "test_weight": "56 lb/bu",
        "note": "in the loft",
    }
    lot = visitor.send("/seed/new", full)
    fields = visitor.read(f"{lot}/edit").fields
    before = book.things("lot")[0].body
    assert (fields["inert"], fields["noxious2_name"], fields["bag2_weight"]) == (
        "1.4",
        "Canada thistle",
        "2000",
    )
    visitor.send(f"{lot}/edit", fields)
    assert book.things("lot")[0].body == before
    assert len(before.tag.noxious) == 2
    page = visitor.read(lot)
    for said in ("a fungicide", "Do not use it for food, feed or oil.", "in the loft", "7 months"):
        assert said in page.text or said == "7 months"
    assert "the limit you entered allows 7" in page.text
    assert "not available to buy" in visitor.read("/seed").text


def test_a_comma_is_a_decimal_sign_where_it_is_chosen(client, visitor, book):
    client.set_cookie("decimal", "comma")
    fields = RYE | {"purity": "98,5", "seeds_per_lb": "18100", "on_hand": "12,5 lb"}
    fields |= {"noxious1_name": "dodder", "noxious1_count": "1,5 seeds/lb"}
    lot = visitor.send("/seed/new", fields)
    (thing,) = book.things("lot")
    assert thing.body.tag.purity == pytest.approx(0.985)
    assert thing.body.on_hand.value == pytest.approx(12.5 * POUND)
    assert thing.body.tag.noxious[0].per_kg.value == pytest.approx(1.5 / POUND)
    again = visitor.read(f"{lot}/edit").fields
    visitor.send(f"{lot}/edit", again)
    assert book.things("lot")[0].body == thing.body
