"""No English is left on a Spanish page: every page of the demo book, read with marked words.

Each template is wrapped in ⟦⟧ and each value in it in ⟨⟩. What then has letters and stands
outside ⟦⟧, or bare inside ⟨⟩, was never looked up: it must be a name somebody typed, a unit,
or the title of a source.
"""

import re
from html.parser import HTMLParser
from itertools import count
from random import Random

import msgspec
import pytest

pytest.importorskip("flask", reason="the pages need Flask")

from evenstand.book.opening import open_book
from evenstand.demo.book import fill
from evenstand.engine.quantities import units
from evenstand.engine.quantities.phrases import CITED, WORDED
from evenstand.engine.seed.age import LIMITS
from evenstand.tasks.seed.species_table import species_table
from evenstand.web.run.app import create_app
from evenstand.web.site import here
from evenstand.web.site.forms import UNITS
from evenstand.web.site.languages import LANGUAGES

NOW = 1_795_568_400_000  # ms: 2026-11-25
LEFT_OUT = ("script", "style", "pre", "code", "textarea")  # code: a command to be typed
SHOWN = ("aria-label", "title", "alt")  # a placeholder is an example, as it is to be typed
WORD = re.compile(r"[^\W\d_]{2,}")
LINK = re.compile(r'href="(/[^"#]*)')
VALUE = re.compile(r"\{\w+\}")
HASH = r"\b[0-9a-f]{16}\b"  # a quarter of the fingerprint of a record
NO_PAGES = ("/static/", "/history/", "/settings/export", "/photos/", "/api")
# Publications that sentences and arithmetic name as their source.
TITLES = (
    "JCGM 100:2008 (GUM)",
    "Cochran (1977), section 6.3",
    "7 CFR 201.64",
    "Iowa State University Extension, Ag Decision Maker A3-24",
    "SCS Colorado, form CO-ECS-6",
    "Tennessee native plants note",
    "Middle Park Conservation District, an average",
    "Erdman, USDA bulletin on legume inoculation, 1967",
)


def marked(text):
    """Wrap a template as a translator's catalogue would never do."""
    if not any(map(str.isalpha, VALUE.sub("", text))):
        return VALUE.sub(lambda found: f"⟨{found[0]}⟩", text)
    return f"⟦{VALUE.sub(lambda found: f'⟨{found[0]}⟩', text)}⟧"


def bare(text):
    """Yield the pieces of a text that no template stands around."""
    inside, piece = [False], ""
    for letter in text:
        if letter in "⟦⟧⟨⟩":
            if not inside[-1]:
                yield piece
            piece = ""
            inside.append(letter == "⟦") if letter in "⟦⟨" else inside.pop()
        else:
            piece += letter
    if not inside[-1]:
        yield piece


class Seen(HTMLParser):
    """What a reader sees or is told of a page."""

    def __init__(self, html):
        super().__init__()
        self.texts, self._left_out = [], 0
        self.feed(html)

    def handle_starttag(self, name, attributes):
        said = dict(attributes)
        self._left_out += name in LEFT_OUT
        self.texts += [said[key] for key in SHOWN if said.get(key)]
        self.texts += [v for key, v in said.items() if key.startswith("data-") and v and "⟦" in v]

    def handle_endtag(self, name):
        self._left_out -= name in LEFT_OUT

    def handle_data(self, data):
        if not self._left_out:
            self.texts.append(data)


def words_of(body):
    """Yield every text of what the book keeps."""
    if isinstance(body, dict):
        for each in body.values():
            yield from words_of(each)
    elif isinstance(body, list | tuple):
        for each in body:
            yield from words_of(each)
    elif isinstance(body, str):
        yield body


@pytest.fixture(scope="module")
def demo():
    minutes = count(NOW - 24 * 3_600_000, 60_000)
    clock = {"clock": lambda: next(minutes), "random": Random(1).randbytes}
    with open_book(":memory:", device="shed", who="Tamarack Flats", **clock) as book:
        fill(book)
        yield book


def symbols():
    """Yield the signs of units; what is counted or turned is a word, and no sign."""
    for kind in vars(units).values():
        if isinstance(kind, units.Kind):
            for unit in (kind.us, kind.metric):
                if unit.symbol and not unit.noun and unit.symbol not in WORDED:
                    yield unit.symbol
    for offered in UNITS.values():
        yield from {*offered["us"], *offered["metric"]} - set(WORDED)


def titles():
    """Yield where things are from: titles and places, which no language changes."""
    yield from TITLES
    for limit in LIMITS:
        yield from {limit.place, limit.source} - set(CITED)
    for each in species_table():
        ranges = (each.test_weight, each.rate, each.depth)
        for sourced in (*each.counts, *each.cautions, *filter(None, ranges)):
            yield from set(sourced.source.split("; ")) - set(CITED)


def species():
    """Yield the names that species have on a Spanish page: English ones where none is sure."""
    for each in species_table():
        yield from (each.spanish or each.name, each.scientific)


def known_in(book):
    """Match what people typed, and what is no word of a language."""
    texts = {"Evenstand", book.device, book.who, *LANGUAGES.values()}
    texts.update(symbols(), titles(), species())
    for entry in book.entries(limit=100_000).entries:
        texts.update({entry.by, entry.why}, words_of(msgspec.to_builtins(entry.body)))
    longest_first = sorted((text for text in texts if text), key=len, reverse=True)
    names = "|".join(map(re.escape, longest_first))
    return re.compile(rf"{HASH}|(?<![^\W\d_])(?:{names})(?![^\W\d_])|https?://\S+|{VALUE.pattern}")


def left_over(html, known):
    """Return what a reader sees that has words in it which nobody looked up."""
    found = []
    for text in Seen(html).texts:
        for piece in bare(text.replace("\u00a0", " ")):
            rest = known.sub(" ", piece)
            if WORD.search(rest):
                found.append(" ".join(rest.split()))
    return found


@pytest.fixture(scope="module")
def pages(demo):
    """Every page of the demo book in marked words, and every template that was looked up."""
    asked = {}

    def look(text):
        return asked.setdefault(text, marked(text))

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(here, "looking_up", lambda language: look)
        client = create_app(demo).test_client()
        client.set_cookie("language", "es")
        found, todo = {}, ["/"]
        while todo:
            path = todo.pop(0)
            if path in found or path.startswith(NO_PAGES):
                continue
            answer = client.get(path)
            found[path] = answer.text if answer.mimetype == "text/html" else ""
            todo += [link.replace("&amp;", "&") for link in LINK.findall(found[path])]
    return found, set(asked)


def test_no_page_has_words_that_nobody_looked_up(demo, pages):
    known = known_in(demo)
    found = {text: path for path, html in pages[0].items() for text in left_over(html, known)}
    assert found == {}
    assert len(pages[0]) > 100


def test_every_template_that_a_page_looks_up_is_known_to_translators(gathered, pages):
    known = set(gathered)
    assert {text for text in pages[1] if WORD.search(VALUE.sub("", text))} - known == set()


@pytest.mark.parametrize(
    ("html", "left"),
    [
        ("<p>⟦Sow ⟨60 lb/ac⟩.⟧</p>", []),
        ("<p>⟦Sow ⟨now⟩.⟧</p>", ["now"]),
        ("<p>Sow ⟦it⟧</p>", ["Sow"]),
        ('<p aria-label="here">⟦Sow⟧</p>', ["here"]),
        ("<p>⟦Sow ⟨⟦all ⟨twenty⟩ rows⟧⟩⟧</p>", ["twenty"]),
        ("<p>Heron, 38.5 ac</p><script>let it = 1</script>", []),
    ],
)
def test_what_the_marks_tell(html, left):
    assert left_over(html, re.compile("Heron|ac|lb/ac")) == left
