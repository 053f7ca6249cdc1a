"""Whatever is typed into a field is read or refused in words: never any other error."""

import inspect
from html.parser import HTMLParser

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evenstand.book.opening import open_book
from evenstand.engine.parsing.parse import read
from evenstand.engine.quantities import units
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.seed.species_names import find
from evenstand.tasks.parsing.dates import month
from evenstand.tasks.parsing.given import Given, listed
from evenstand.tasks.seed.species_table import species_table
from long import TIMES, tried

KINDS = [kind for _, kind in inspect.getmembers(units) if isinstance(kind, units.Kind)]
SYMBOLS = sorted({unit.symbol for kind in KINDS for unit in (kind.us, kind.metric)})
NUMBERS = st.one_of(
    st.integers(-(10**30), 10**30).map(str),
    st.floats(allow_nan=True).map(str),
    st.from_regex(r"\d{0,6}[.,]?\d{0,6}( \d{1,3}/\d{0,3})?", fullmatch=True),
    st.sampled_from(["", "0", "-0", "1/0", "½", "1 ½", "٣", "1e9", "1_000", "²", "1.234", "∞"]),
    st.sampled_from("09.,").flatmap(lambda c: st.integers(1, 90).map(lambda n: c * n)),
)
BETWEEN = st.sampled_from(["", " ", ", ", "; ", " ± ", "+/-", " of ", "/", " in ", ":", "\n", "\t"])
UNITS = st.sampled_from([*SYMBOLS, "", "%", "'", '"', "lb", "oz", "bu", "/", "per", "$", "ft 3 in"])
NAMES = st.sampled_from(["hairy vetch", "rye", "out", "all", "yes", "no", "rest", "2026-03", "KY"])
# As people type, and as a cat on the keyboard does; half a surrogate pair cannot be sent.
TYPED = st.one_of(
    st.lists(st.one_of(NUMBERS, UNITS, BETWEEN, NAMES), max_size=8).map("".join),
    st.text(st.characters(exclude_categories=["Cs"]), max_size=90),
)


def refusal(reading):
    """Read something; gives what was refused about it, None where nothing was."""
    try:
        reading()
    except MeasurementError as error:
        return error
    return None


@settings(max_examples=500 * TIMES)
@given(
    st.sampled_from(KINDS),
    TYPED,
    st.fixed_dictionaries(
        {"decimal": st.sampled_from(".,"), "test_weight": st.sampled_from([None, 770.0])}
    ),
)
def test_every_unit_field_reads_or_refuses(kind, text, how):
    tried("typed texts")
    refused = refusal(lambda: read(text, kind, field="it", **how))
    if refused:
        assert refused.field == "it"
        assert str(refused.need)
    else:
        found = read(text, kind, field="it", **how)
        for part in (found.value, found.give_or_take):
            assert part == 0 or 1e-15 <= abs(part) <= 1e15
        assert found.give_or_take >= 0


@settings(max_examples=200 * TIMES)
@given(st.sampled_from(KINDS), NUMBERS, st.sampled_from(SYMBOLS))
def test_numbers_with_a_unit_read_or_refuse(kind, number, symbol):
    tried("typed texts")
    refused = refusal(lambda: read(f"{number} {symbol}", kind, field="it"))
    assert refused is None or refused.field == "it"


@settings(max_examples=200 * TIMES)
@given(TYPED)
def test_lists_months_counts_and_names_read_or_refuse(text):
    tried("typed texts")
    given_ = Given({"it": text})
    assert all(listed(text)) or not listed(text)
    find(text, species_table())
    for reading in (
        lambda: month(given_, "it"),
        lambda: given_.count("it", units.ROWS),
        lambda: given_.yes("it"),
        lambda: given_.one_of("it", ("below", "above")),
        lambda: given_.share("it", tag="slip"),
        lambda: given_.ratio("it", tag="field ratio"),
    ):
        refused = refusal(reading)
        assert refused is None or refused.field == "it"


class Forms(HTMLParser):
    """The forms of a page that are sent: where to, and what stands in their fields."""

    def __init__(self, path, html):
        super().__init__()
        self.path, self.links, self.forms, self._form, self._area = path, [], [], None, None
        self.feed(html)

    def handle_starttag(self, name, attributes):
        tag = {key: value or "" for key, value in attributes}
        if name == "a" and tag.get("href", "").startswith("/"):
            self.links.append(tag["href"].split("#")[0])
        if name == "form" and tag.get("method", "").lower() == "post":
            self._form = {}
            self.forms.append((tag.get("action") or self.path, self._form))
        if self._form is None or "name" not in tag:
            self._option(name, tag)
            return
        if name == "input" and (tag.get("type") not in ("radio", "checkbox") or "checked" in tag):
            self._form[tag["name"]] = tag.get("value", "")
        if name in ("textarea", "select"):
            self._form[tag["name"]], self._area = "", (name, tag["name"])
        if name == "button":
            self._form.setdefault(tag["name"], tag.get("value", ""))

    def _option(self, name, tag):
        if name == "option" and self._area and (not self._form[self._area[1]] or "selected" in tag):
            self._form[self._area[1]] = tag.get("value", "")

    def handle_endtag(self, name):
        if self._area and name == self._area[0]:
            self._area = None
        if name == "form":
            self._form = None

    def handle_data(self, data):
        if self._area and self._area[0] == "textarea":
            self._form[self._area[1]] += data


NOT_SENT = ("/remove", "/import", "/sign-out", "/check")


@pytest.fixture(scope="module")
def pages():
    """A filled demo book, an app over it, and every form that a link leads to."""
    pytest.importorskip("flask", reason="the pages need Flask")
    from evenstand.demo.book import fill
    from evenstand.web.run.app import create_app

    with open_book(":memory:", device="shed", who="Ada") as book:
        fill(book)
        app = create_app(book)
        app.testing = True  # what is no refusal comes through
        client = app.test_client()
        yield client, every_form(client)


def every_form(client):
    seen, todo, found = set(), ["/"], []
    while todo:
        path = todo.pop(0)
        shape = "/".join("*" if len(part) > 30 else part for part in path.split("?")[0].split("/"))
        if path in seen or sum(each == shape for each in seen) > 2:
            continue
        seen |= {path}
        answer = client.get(path)
        if answer.mimetype == "text/html" and answer.status_code == 200:
            page = Forms(path, answer.text)
            todo += page.links
            found += [form for form in page.forms if not form[0].split("?")[0].endswith(NOT_SENT)]
    return found


def test_the_forms_of_every_page_are_found(pages):
    """What no link leads to would never be typed into."""
    client, forms = pages
    rules = client.application.url_map.bind("localhost")
    reached = {rules.match(action.split("?")[0], "POST")[0].split(".")[0] for action, _ in forms}
    assert reached >= {"jobs", "drills", "charts", "set", "catches", "seed", "mix_form", "boxes"}


STRANGE = ("abc", "-1", "9" * 5000, "\x00", "1/0", "\N{SUPERSCRIPT TWO}", "[]", "../..")


TOGETHER = 6  # fields of a form that are strange at once


def test_every_field_takes_what_no_form_would_send(pages):
    """Hidden fields too: whoever writes a request by hand is answered in words."""
    client, forms = pages
    rules, seen = client.application.url_map.bind("localhost"), set()
    for action, fields in forms:
        endpoint = rules.match(action.split("?")[0], "POST")[0]
        names = [name for name in sorted(fields) if (endpoint, name) not in seen]
        seen |= {(endpoint, name) for name in names}
        for i in range(0, len(names), TOGETHER):
            typed = {name: STRANGE[(i + j) % 8] for j, name in enumerate(names[i : i + TOGETHER])}
            answer = client.post(action, data={**fields, **typed})
            tried("forms")
            assert answer.status_code < 500, (action, typed)
        if endpoint not in seen and not seen.add(endpoint):
            for text in STRANGE[::3]:
                answer = client.post(action, data=dict.fromkeys(fields, text))
                assert answer.status_code < 500, (action, text)


NAMES_ASKED = (
    *("after", "box", "ground", "each", "new", "known", "at", "drill", "next", "changed", "from"),
    *("sample", "species", "way", "units"),
)


def test_every_page_takes_what_no_link_would_ask(pages):
    client, forms = pages
    seen, todo = set(), {"/", *(action.split("?")[0] for action, _ in forms)}
    for path in sorted(todo):
        shape = "/".join("*" if len(part) > 30 else part for part in path.split("/"))
        if shape not in seen and not seen.add(shape):
            for text in STRANGE:
                answer = client.get(path, query_string=dict.fromkeys(NAMES_ASKED, text))
                assert answer.status_code < 500, (path, text)


@settings(max_examples=150 * TIMES)
@given(
    which=st.integers(0, 10_000),
    places=st.lists(st.integers(0, 200), min_size=1, max_size=3),
    texts=st.lists(TYPED, min_size=3, max_size=3),
)
def test_every_form_is_taken_or_refused(pages, *, which, places, texts):
    client, forms = pages
    action, fields = forms[which % len(forms)]
    names = sorted(fields) or ["nothing"]
    typed = {names[i % len(names)]: text for i, text in zip(places, texts, strict=False)}
    answer = client.post(action, data={**fields, **typed})
    tried("forms")
    assert answer.status_code in (200, 303, 403, 404, 409, 413, 422), answer.text
