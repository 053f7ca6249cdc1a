"""Other languages: every sentence is there, and says the same with the same values in it."""

import re
from pathlib import Path

import pytest

import labels

ROOT = Path(__file__).parents[3]
WORDS = ROOT / "src/evenstand/web/words"


@pytest.fixture(scope="module")
def spanish():
    pytest.importorskip("babel", reason="needs Babel")
    from babel.messages.pofile import read_po

    with (WORDS / "es.po").open("rb") as file:
        return {message.id: message for message in read_po(file) if message.id}


def untranslated(places, catalogue, where):
    return sorted(
        text
        for text, files in places.items()
        if any(file.startswith(where) for file in files)
        and not (text in catalogue and catalogue[text].string)
    )


def test_the_pages_read_what_the_translators_wrote(spanish):
    from gettext import GNUTranslations

    with (WORDS / "es.mo").open("rb") as file:
        read = GNUTranslations(file)
    for text, message in spanish.items():
        assert read.gettext(text) == (message.string or text), "run make words"


def test_a_translation_has_the_same_values_in_it(spanish):
    for text, message in spanish.items():
        if message.string:
            values = [sorted(re.findall(r"\{\w+\}", each)) for each in (text, message.string)]
            assert values[0] == values[1], text


def test_the_sentences_that_tests_look_for_are_the_code_s(gathered):
    stated = {text for text in vars(labels).values() if isinstance(text, labels.label.Label)}
    assert stated
    assert sorted(stated - gathered.keys()) == []


def test_the_pages_are_wholly_in_spanish(gathered, spanish):
    assert untranslated(gathered, spanish, "src/evenstand/web/") == []


def test_the_engine_is_wholly_in_spanish(gathered, spanish):
    assert untranslated(gathered, spanish, "src/evenstand/") == []


def test_what_the_tool_finds():
    """A text, one of two, a name's, a table's, a parameter's; not what has its values in it."""
    pytest.importorskip("babel", reason="needs Babel")
    from tools.words import spoken

    source = """
text = "one" if x else "two"
say(text)
say("three")
say(TABLE[kind])
TABLE = {"a": "four", "b": "five"}
def refuse(template):
    say(template)
refuse("six" + " and seven")
say(f"not {this}")
uncertain(1.0, u, "eight")
"""
    texts = {"one", "two", "three", "four", "five", "six and seven", "eight"}
    assert set(spoken(source)) == texts


def test_every_sentence_that_the_pages_ask_for_is_known(gathered, visitor, monkeypatch):
    """What the tool overlooks in the code would still come out here."""
    from evenstand.web.site import here

    asked = set()

    def looking_up(language):
        return lambda text: asked.add(text) or text

    monkeypatch.setattr(here, "looking_up", looking_up)
    job = visitor.job()
    for made in (visitor.LIGHT, visitor.GOOD, {**visitor.GOOD, "net": "20", "rows_caught": "4"}):
        visitor.read(f"{job}/calibrate")
        visitor.send(f"{job}/calibrate", made)
    rows = {f"row{i}": "50" for i in range(1, 21)} | {"row13": "42"}
    visitor.send(f"{job}/calibrate", {"setting": "33", "turns": "20", "unit": "g"} | rows)
    for path in (
        f"{job}/calibrate",
        job,
        "/",
        "/drills",
        "/pool",
        "/settings",
        "/seed",
        "/nowhere",
    ):
        visitor.read(path, code=404 if path == "/nowhere" else 200)
    known = set(gathered)
    assert {text for text in asked if re.search("[a-z]{3}", text)} - known == set()
