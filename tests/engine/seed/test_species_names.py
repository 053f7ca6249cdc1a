"""What people call species: found where it is one, asked where it is several, never guessed."""

import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

import evenstand.engine
import labels
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.seed.species import load
from evenstand.engine.seed.species_names import ASK, find, one

DATA = Path(evenstand.engine.__file__).parent / "data"
FILES = (("species", "species"), ("counts", "seed_counts"), ("cautions", "cautions"))
TABLE = load(**{name: (DATA / f"{file}.tsv").read_text(encoding="utf-8") for name, file in FILES})


def candidates(text):
    return {species.name for species in find(text, TABLE).candidates}


@pytest.mark.parametrize("species", TABLE.species, ids=lambda species: species.name)
def test_every_name_of_the_table_is_found(species):
    for name in (species.name, species.name.upper(), *species.also):
        assert one(name, TABLE) is species
    found = find(species.scientific, TABLE)
    assert species in (found.species, *found.candidates)


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("winter rye", "Cereal rye"),
        ("Cereal  Rye", "Cereal rye"),
        ("annual ryegrass", "Annual (Italian) ryegrass"),
        ("annual rye grass", "Annual (Italian) ryegrass"),
        ("oat", "Oats"),
        ("lucerne", "Alfalfa"),
        ("cowpeas", "Cowpea"),
        ("black-eyed peas", "Cowpea"),
        ("Austrian winter peas", "Field / winter pea"),
        ("sweet clover", "Sweetclover (yellow/white)"),
        ("milo", "Grain sorghum"),
        ("daikon", "Radish (forage/oilseed)"),
        ("turnips", "Turnip (forage)"),
        ("bird’s-foot trefoil", "Birdsfoot trefoil"),
        ("Trifolium pratense", "Red clover"),
        ("hairy vetches", "Hairy vetch"),
        ("vetches, hairy", None),
    ],
)
def test_names_people_use(text, name):
    found = find(text, TABLE).species
    assert (found and found.name) == name


@pytest.mark.parametrize(
    ("text", "among"),
    [
        ("rye", {"Cereal rye", "Annual (Italian) ryegrass", "Perennial ryegrass"}),
        ("annual rye", {"Cereal rye", "Annual (Italian) ryegrass"}),
        ("ryegrass", {"Annual (Italian) ryegrass", "Perennial ryegrass"}),
        ("vetch", {"Hairy vetch", "Common vetch", "Woollypod vetch", "Purple vetch"}),
        ("clover", {"Crimson clover", "Red clover", "White clover", "Berseem clover"}),
        ("millet", {"Pearl millet", "Proso millet", "Foxtail millet", "Japanese millet"}),
        ("peas", {"Field / winter pea", "Cowpea", "Chickpea", "Partridge pea"}),
        ("wheat", {"Winter wheat", "Durum wheat", "Spelt"}),
        ("sorghum", {"Grain sorghum", "Forage sorghum", "Sorghum-sudangrass"}),
        ("canola", {"Rapeseed / forage rape", "Winter rape / canola"}),
        ("mustard", {"Mustard, Indian/brown", "Mustard, white/yellow"}),
        ("bluestem", {"Big bluestem", "Little bluestem", "Sand bluestem"}),
        ("Sorghum bicolor", {"Grain sorghum", "Forage sorghum"}),
    ],
)
def test_words_for_several_plants_are_asked_about(text, among):
    found = find(text, TABLE)
    assert found.species is None
    assert among <= candidates(text)
    assert re.search(labels.CAN_MORE_THAN.like(), str(found.question))


def test_rye_is_told_from_ryegrass():
    assert labels.CEREAL_RYE_GRAIN in str(find("rye", TABLE).question)
    assert "Buckwheat" not in candidates("wheat")
    assert "Crownvetch" not in candidates("vetch")


@pytest.mark.parametrize("text", ["cereal", "hairy", "bermuda", "crimson"])
def test_part_of_a_name_is_not_taken_for_it(text):
    found = find(text, TABLE)
    assert found.species is None
    assert len(found.candidates) == 1
    assert re.search(labels.NOT_KNOWN_HERE.like(), str(found.question))


@pytest.mark.parametrize(
    ("text", "near"),
    [
        ("timoty", "Timothy"),
        ("alfafa", "Alfalfa"),
        ("crimson clovr", "Crimson clover"),
        ("tritcale", "Triticale"),
        ("phacellia", "Phacelia"),
    ],
)
def test_a_misspelling_is_shown_what_is_near(text, near):
    assert find(text, TABLE).species is None
    assert near in candidates(text)


def test_two_letters_are_no_part_of_a_name():
    assert candidates("ry") == candidates("s") == set()
    assert "Cereal rye" in candidates("rye x") | candidates("cer")


@pytest.mark.parametrize("text", ["", "  ", "xyzzy", "12", "ry"])
def test_nothing_like_it(text):
    found = find(text, TABLE)
    assert found.species is None
    if not found.candidates:
        assert re.search(labels.NOT_TABLE_SPECIES.like(), str(found.question))


def test_every_word_to_ask_about_names_species_of_the_table():
    names = {species.name for species in TABLE}
    assert all(set(asked) <= names for asked in ASK.values())


@given(st.text(max_size=30))
def test_no_text_is_too_strange(text):
    found = find(text, TABLE)
    assert (found.species is None) == (found.question is not None)


def test_refuses_and_asks():
    with pytest.raises(MeasurementError) as refusal:
        one("vetch", TABLE, field="mix.species")
    assert refusal.value.field == "mix.species"
    assert refusal.value.given == "vetch"
    assert "Hairy vetch, Woollypod vetch" in str(refusal.value.need)


@pytest.fixture(scope="module")
def spanish():
    files = (*FILES, ("spanish", "species_es"))
    return load(
        **{name: (DATA / f"{file}.tsv").read_text(encoding="utf-8") for name, file in files}
    )


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("centeno", "Cereal rye"),
        ("Trébol rojo", "Red clover"),
        ("trebol rojo", "Red clover"),
        ("maíz", "Corn (grazing)"),
        ("Raigrás anual", "Annual (Italian) ryegrass"),
    ],
)
def test_a_spanish_name_is_taken_with_or_without_its_accent(spanish, text, name):
    assert find(text, spanish).species.name == name


@pytest.mark.parametrize("text", ["trigo", "veza", "colza", "raigrás"])
def test_a_spanish_word_for_several_plants_asks(spanish, text):
    found = find(text, spanish)
    assert found.species is None
    assert len(found.candidates) > 1


def test_every_name_in_either_language_means_its_own_species(spanish):
    for species in spanish:
        assert find(species.name, spanish).species == species
        if species.spanish:
            assert find(species.spanish, spanish).species == species


def test_no_two_species_have_one_spanish_name(spanish):
    names = [species.spanish for species in spanish if species.spanish]
    assert len(set(names)) == len(names) > 70


def test_every_spanish_name_is_that_of_a_species_of_the_table(spanish):
    lines = (DATA / "species_es.tsv").read_text(encoding="utf-8").splitlines()
    named = [line.split("\t")[0] for line in lines if not line.startswith("#")][1:]
    assert set(named) <= {species.name for species in spanish}
