"""Units, language and decimal sign: of the book, of one device, of the browser's country."""

import re

import pytest

import labels
from evenstand.book.kinds.about import About
from evenstand.book.opening import open_book
from evenstand.tasks.job.about import about_book
from evenstand.web.site.languages import COMMA_COUNTRIES, decimal_of

AS_THE_BOOK = {"units": "book", "language": "book", "decimal": "book", "outdoor": "book"}
ARGENTINA = {"Accept-Language": "es-AR,es;q=0.9"}


def test_a_device_chooses_for_itself(visitor, book):
    assert visitor.read("/settings").lang == "en"
    chosen = {"units": "metric", "language": "es", "decimal": "comma", "outdoor": "yes"}
    page = visitor.read(visitor.send("/settings/reading", chosen))
    assert page.lang == "es"
    checked = re.findall(r'name="(\w+)" value="(\w+)" checked', page.html)
    assert dict(checked) == chosen
    assert "Trabajos" in page.text
    assert "data-outdoor" in page.html
    visitor.send("/settings/reading", {"units": "furlongs", "language": "xx"})
    assert visitor.read("/settings").lang == "es"
    assert book.things("book") == []


def test_a_browser_s_own_language_counts_until_one_is_chosen(visitor):
    assert visitor.read("/", **{"Accept-Language": "es-MX,es;q=0.9,en;q=0.5"}).lang == "es"
    assert visitor.read("/", **{"Accept-Language": "fr"}).lang == "en"


def test_the_book_says_how_it_reads_and_a_device_may_differ(visitor, book):
    visitor.heron()
    said = {"name": "Tamarack Flats", "units": "metric", "language": "es", "decimal": "comma"}
    visitor.send("/settings/about", said)
    page = visitor.read("/settings")
    assert page.lang == "es"
    assert "Tamarack Flats" in page.text
    assert "7,5" in page.text
    visitor.send("/settings/reading", {"language": "en", "units": "us", "decimal": "point"})
    assert visitor.read("/settings").lang == "en"
    assert "7.5" in visitor.read("/settings").text
    visitor.send("/settings/reading", AS_THE_BOOK)
    assert visitor.read("/settings").lang == "es"
    assert len(book.history(book.things("book")[0].id)) == 1


def test_what_the_book_says_is_corrected_and_stays_in_sight(visitor, book):
    visitor.send("/settings/about", {"name": "Pool", "units": "us"})
    visitor.send("/settings/about", {"name": "Pool of Tamarack Flats", "units": "metric"})
    [thing] = book.things("book")
    assert [entry.body.name for entry in book.history(thing.id)] == [
        "Pool",
        "Pool of Tamarack Flats",
    ]
    assert visitor.read("/settings/reading").fields["name"] == "Pool of Tamarack Flats"


def test_a_form_sent_twice_is_kept_once(visitor, book):
    form = {"entry": book.new_id(), "name": "Pool", "units": "us"}
    for _ in range(2):
        visitor.send("/settings/about", form)
    assert len(book.history(book.things("book")[0].id)) == 1


@pytest.mark.parametrize(
    "wrong", [{"units": "furlongs"}, {"language": "xx"}, {"decimal": "dot"}, {"name": "x" * 201}]
)
def test_what_is_not_among_the_choices_is_refused_at_its_field(visitor, book, wrong):
    page = visitor.send("/settings/about", {"name": "Pool", **wrong}, code=422)
    assert list(page.wrong) == list(wrong)
    assert book.things("book") == []


def test_after_a_merge_the_newest_entry_counts():
    clock = {"first": 1_795_608_000_000, "second": 1_795_608_001_000}
    with (
        open_book(":memory:", device="first", clock=lambda: clock["first"]) as first,
        open_book(":memory:", device="second", clock=lambda: clock["second"]) as second,
    ):
        one = first.add(About(name="one", units="us"))
        second.add(About(name="two", units="metric"))
        for book, other in ((first, second), (second, first)):
            book.merge(other.entries().entries)
        assert [about_book(book)[1].name for book in (first, second)] == ["two", "two"]
        clock["first"] += 60_000
        first.correct(one.about, About(name="one again"))
        second.merge(first.entries().entries)
        assert [about_book(book)[1].name for book in (first, second)] == ["one again"] * 2


@pytest.mark.parametrize(
    ("language", "wished", "sign"),
    [
        ("es", ["es-AR", "es"], ","),
        ("es", ["es_CL"], ","),
        ("es", ["es-MX"], "."),
        ("es", ["es-US"], "."),
        ("es", ["es"], "."),
        ("es", ["en-US", "es-ES"], ","),
        ("en", ["es-AR", "en"], "."),
        ("en", [], "."),
    ],
)
def test_a_decimal_comma_is_that_of_a_country(language, wished, sign):
    assert decimal_of(language, wished) == sign


def test_the_countries_are_those_of_cldr():
    """Unicode CLDR, as Babel carries it."""
    babel = pytest.importorskip("babel", reason="needs Babel")
    from babel.localedata import locale_identifiers

    found = set()
    for name in locale_identifiers():
        if name.startswith("es_"):
            signs = babel.Locale.parse(name).number_symbols
            if signs.get("latn", signs)["decimal"] == ",":
                found.add(name.removeprefix("es_"))
    assert found == COMMA_COUNTRIES


def test_a_comma_is_written_and_read_where_the_reader_has_one(visitor, book):
    """7,125 in are 0.180975 m; for a writer of points they would be 7125 in."""
    visitor.send("/settings/reading", {"decimal": "comma"})
    drill = visitor.send("/drills/new", {**visitor.HERON, "spacing": "7,125", "rolled": "95,5"})
    [thing] = book.things("drill")
    assert thing.body.spacing.value == pytest.approx(0.180975, rel=1e-12)
    assert thing.body.spacing.text == "7.125 in"
    assert "7,125 in" in visitor.read(drill).text
    form = visitor.read(f"{drill}/edit")
    assert (form.fields["spacing"], form.fields["rolled"]) == ("7,125", "95,5")
    visitor.send(f"{drill}/edit", form.fields)
    assert book.things("drill")[0].body == thing.body
    visitor.send("/settings/reading", {"decimal": "point"})
    assert "7.125 in" in visitor.read(drill).text
    assert visitor.read(f"{drill}/edit").fields["spacing"] == "7.125"


def test_what_was_typed_with_a_comma_stays_as_typed_where_it_is_refused(visitor):
    visitor.send("/settings/reading", {"decimal": "comma"})
    typed = {**visitor.HERON, "spacing": "7,125", "rows": "none"}
    page = visitor.send("/drills/new", typed, code=422)
    assert page.fields["spacing"] == "7,125"
    page = visitor.send("/drills/new", {**visitor.HERON, "spacing": "1.234"}, code=422)
    assert re.search(labels.CAN_READ_TWO.like(), page.wrong["spacing"])
    assert page.fields["spacing"] == "1.234"


def test_a_whole_job_with_decimal_commas(visitor, book, client):
    """The same catch as with points: 35.33 oz from 20 rows over 20 turns."""
    job = visitor.job()
    visitor.send("/settings/reading", {"decimal": "comma"})
    visitor.send(f"{job}/calibrate", {**visitor.LIGHT, "net": "35,33"})
    [catch] = book.things("catch")
    assert catch.body.bags[0].weight.text == "35.33 oz"
    page = visitor.read(f"{job}/calibrate")
    assert "48,6" in page.text
    assert "48.6" not in page.text
    assert visitor.read(f"/catches/{catch.id}").fields["net"] == "35,33"


def test_a_chart_is_shown_and_taken_again_with_commas(visitor, book):
    visitor.send("/settings/reading", {"decimal": "comma"})
    drill = visitor.send("/drills/new", visitor.HERON)
    chart = {**visitor.CHART, "points": "20\t36,125\n30,5\t54"}
    visitor.send(f"{drill}/charts/new", chart)
    [thing] = book.things("chart")
    assert [point.rate.text for point in thing.body.points] == ["36.125 lb/ac", "54 lb/ac"]
    page = visitor.read(f"/charts/{thing.id}")
    assert page.fields["points"] == "20\t36,125 lb/ac\n30,5\t54 lb/ac"
    visitor.send(f"/charts/{thing.id}", page.fields)
    assert book.things("chart")[0].body == thing.body


def test_a_browser_in_argentina_reads_commas_unasked(visitor):
    visitor.heron()
    assert "7,5" in visitor.read("/settings", **ARGENTINA).text
    assert "7.5" in visitor.read("/settings", **{"Accept-Language": "es-MX"}).text
