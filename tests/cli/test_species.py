"""``evenstand species``: what the table knows, and asking where a name means several."""

import pytest


def test_every_number_has_its_source(document):
    found = document("species", "hairy", "vetch")
    assert (found["name"], found["scientific"]) == ("Hairy vetch", "Vicia villosa")
    for each in found["seeds_per_weight"]:
        assert each["source"]
        assert isinstance(each["read"], bool)
    # Purdue prints 20,000 seeds in a pound.
    printed = {each["source"]: each["count"]["value"] for each in found["seeds_per_weight"]}
    assert printed["Purdue University"] == pytest.approx(20_000)
    assert found["depth"]["unit"] == "in"
    assert any("horses" in each for each in found["cautions"])
    assert "local extension office" in found["cautions"][-1]


def test_sources_far_apart_ask_for_a_count(document, run):
    assert document("species", "oats")["count_your_lot"] is True
    assert document("species", "cereal rye")["count_your_lot"] is False
    assert "Sources disagree too much: count the lot." in run("species", "oats").stdout


@pytest.mark.parametrize(
    ("name", "of"),
    [
        ("rye", ["Cereal rye", "Annual (Italian) ryegrass", "Perennial ryegrass"]),
        ("vetch", ["Hairy vetch", "Common vetch"]),
        ("clover", ["Crimson clover", "White clover"]),
        ("hary vetch", ["Did you mean Hairy vetch?"]),
    ],
)
def test_a_name_of_several_asks_which(refusal, name, of):
    error = refusal("species", *name.split())
    assert (error["field"], error["given"]) == ("NAME", name)
    assert all(each in error["need"] for each in of)


def test_a_name_of_none_says_so(refusal):
    assert "is not in the species table" in refusal("species", "quux")["need"]


def test_by_scientific_and_other_names(document):
    assert document("species", "Secale cereale")["name"] == "Cereal rye"
    assert document("species", "winter vetch")["name"] == "Hairy vetch"


def test_what_is_not_known_is_said(run, document):
    found = document("species", "camelina")
    assert (found["seeds_per_weight"], found["test_weight"]) == ([], None)
    page = run("species", "camelina").stdout
    assert "not listed" in page
    assert "count your lot" in page
    assert "common practice" in page


def test_all_are_listed(document, run):
    assert len(document("species")["species"]) == 142
    page = run("species").stdout
    assert all(group in page for group in ("Grasses", "Legumes", "Brassicas", "Broadleaf"))


@pytest.mark.parametrize("columns", [60, 80])
@pytest.mark.parametrize("name", ["", "switchgrass", "alfalfa", "cereal rye"])
def test_the_page_keeps_to_its_paper(run, name, columns):
    page = run("species", *name.split(), columns=columns).stdout
    assert max(map(len, page.splitlines())) <= columns
