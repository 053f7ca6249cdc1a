"""What readers meet speaks one plain voice: no banned words, no British spelling, short sentences.

The sentences are those gathered for translators, and the prose of the guide and of README.
"""

import re
from pathlib import Path

import click
import pytest

ROOT = Path(__file__).parents[2]
PAGES = sorted([ROOT / "README.md", ROOT / "docs/index.md", *ROOT.glob("docs/guide/*.md")])
ENGLISH = [page for page in PAGES if page.stem != "dia-de-campo"]
EACH_PAGE = pytest.mark.parametrize("page", ENGLISH, ids=lambda page: page.stem)
BRITISH = (
    r"tyres?|met(?:re|res)|lit(?:re|res)|colour\w*|mould\w*|grey|licence|judgement|"
    r"neighbour\w*|centre\w*|plough\w*|anaemic|aluminium|favour\w*"
)
BANNED = re.compile(
    rf"\b(?:{BRITISH}|suffices?|taken as|let go of|wished|looked for|write down|there is no|"
    r"it is no|stand rate|at the stand|hoses?|surer|whoever|somebody|from memory|stands? for|"
    r"grave|give(?:s|n)? (?:as|each|its own|more|the|only|none)|a given|can take|to keep, then|"
    r"kept in|keeps? (?:it|them) in|"
    r"takes? (?:\w+ ){0,2}(?:in|back|away)|taken (?:in|back|away)|hand(?:s|ed)? over)\b|\bgives …",
    re.IGNORECASE,
)
PLACEHOLDER = re.compile(r"\{\w+\}")
SPACED = re.compile(r"\d %")
BLOCK = re.compile(r"^```[\s\S]*?^```$|^(?: {4}[^\s-]|[#!<|]).*$", re.MULTILINE)
PARAGRAPH = re.compile(r"\n\s*\n|\n(?=\s*(?:-|\d+\.) )")  # an item of a list is one too
WORD = re.compile(r"[A-Za-z][\w'’-]*")
MOST_WORDS = 25


def wrong(text):
    """What is not said so, in a text."""
    return [*BANNED.findall(PLACEHOLDER.sub("…", text)), *SPACED.findall(text)]


def sentences(text):
    """The sentences of a text."""
    return re.split(r"(?<=[.!?])\s+", " ".join(text.split()))


def long(texts):
    """The sentences that are too long to be said in one breath."""
    parts = (part for text in texts for part in sentences(text))
    return [part for part in parts if len(WORD.findall(part)) > MOST_WORDS]


def prose(page):
    """What a page says outside of code, tables and headings."""
    text = BLOCK.sub("", page.read_text(encoding="utf-8"))
    text = re.sub(r"\]\([^)]*\)", "", text)
    return re.sub(r"`[^`]*`|[*_\[\]]", "", text)


def syllables(word):
    """Groups of vowels, a silent e at the end not counted; one at least."""
    groups = re.findall(r"[aeiouy]+", word.lower())
    silent = word.lower().endswith("e") and not word.lower().endswith("le")
    return max(1, len(groups) - silent)


def grade(text):
    """0.39 × words per sentence + 11.8 × syllables per word - 15.59: Kincaid and others (1975)."""
    words = WORD.findall(text)
    ends = max(1, len(re.findall(r"[.!?](?:\s|$)", text)))
    return 0.39 * len(words) / ends + 11.8 * sum(map(syllables, words)) / len(words) - 15.59


def test_no_sentence_of_the_program_has_a_banned_word(gathered):
    assert {text: wrong(text) for text in gathered if wrong(text)} == {}


def helps(command, path="evenstand"):
    """What a command says of itself and its options, and so do those below it."""
    yield path, " ".join((command.help or "").split())
    for option in command.params:
        yield f"{path} {option.name}", getattr(option, "help", None) or ""
    if isinstance(command, click.Group):
        for name in command.list_commands(context := click.Context(command)):
            yield from helps(command.get_command(context, name), f"{path} {name}")


def test_no_help_of_a_command_has_a_banned_word_or_a_long_sentence():
    from evenstand.cli.line import commands

    told = dict(helps(commands))
    assert len(told) > 100
    assert {each: wrong(text) for each, text in told.items() if wrong(text)} == {}
    assert long(told.values()) == []


@EACH_PAGE
def test_no_page_has_a_banned_word(page):
    assert wrong(prose(page)) == []


def test_sentences_of_the_program_are_short(gathered):
    assert long(gathered) == []


@EACH_PAGE
def test_sentences_of_a_page_are_short(page):
    assert long(PARAGRAPH.split(prose(page))) == []


@EACH_PAGE
def test_a_page_reads_at_the_grade_of_a_newspaper(page, record_property):
    """Reported with ``pytest --junit-xml``; a page above grade 11 wants shorter sentences."""
    found = grade(prose(page))
    record_property("grade", f"{found:.1f}")
    assert found <= 11


def test_the_grade_of_a_sentence_by_hand():
    # 6 words, 1 sentence, 6 syllables: 0.39 × 6 + 11.8 × 1 - 15.59 = -1.45.
    assert grade("The cat sat on the mat.") == pytest.approx(-1.45)
    assert wrong("5 % of the tyre") == ["tyre", "5 %"]
    assert wrong("{setting} gives {rate}, all it can take") == ["gives …", "can take"]
