"""Seed: the tag is kept as typed, shown as a tag, and worked out in the open."""

import csv
import re
from pathlib import Path

import pytest

import labels
from evenstand.book.kinds.seed import Dish, GerminationTest, Member, Mix
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
PUBLISHED = Path(__file__).parents[2] / "reference/pls_examples.csv"


SHARE_OF_BAG = labels.PART_LIVE_SEED.like().replace(".+?", r"([\d.]+%)", 1)


@pytest.fixture
def rye(visitor):
    return visitor.send("/seed/new", RYE)


def live(page):
    """What part of the bag is live seed, as the page says it first."""
    return re.search(SHARE_OF_BAG, page.text)[1]


def examples(asked):
    lines = [line for line in PUBLISHED.read_text().splitlines() if not line.startswith("#")]
    return [row for row in csv.DictReader(lines) if row["asked"] == asked]


def test_an_empty_book_asks_for_a_tag(visitor):
    page = visitor.read("/seed")
    assert labels.ENTER_FIRST_TAG in page.text
    assert "/seed/new" in page.links


def test_a_lot_is_kept_as_typed(visitor, book, rye):
    (thing,) = book.things("lot")
    assert (thing.body.tag.purity, thing.body.tag.germination) == (0.98, 0.92)
    assert thing.body.seeds_per_kg.text == "18,100 seeds/lb"
    assert thing.body.seeds_per_kg.value == pytest.approx(18_100 / POUND)
    assert visitor.read("/seed").text.count("R-26") == 1


def test_the_page_of_a_lot(visitor, rye):
    page = visitor.read(rye)
    # 0.98 × 0.92 = 90.16 %; 1 ÷ 0.9016 = 1.109 times; 18,100 × 0.9016 = 16,319 live in a pound.
    assert labels.PART_LIVE_SEED(pls="90.2%", more="10.9%") in page.text
    assert "16,319 seeds/lb" in page.text
    allows = labels.PLACE_ALLOWS(place=labels.INTERSTATE_TRADE, allowed=5)
    assert f"{labels.AGE_MONTHS(n=3)} , {allows}. {labels.STILL_GOOD}" in page.text
    assert "98% × 92%" in page.text


@pytest.mark.parametrize("row", examples("pls"), ids=lambda row: row["number"])
def test_published_pure_live_seed(visitor, row):
    """The page against worked examples of state agencies, universities and sellers of seed."""
    hard = {"hard": row["hard"], "hard_unit": "%", "count_hard": "yes"}
    fields = RYE | {"purity": row["purity"], "germination": row["germination"]}
    page = visitor.read(visitor.send("/seed/new", fields | (hard if row["hard"] != "0" else {})))
    shown = float(live(page).removesuffix("%"))
    # Three digits are shown: within half of the last one, and of what was printed.
    assert shown == pytest.approx(float(row["exact"]), abs=0.0501)
    if row["printed"]:
        assert shown == pytest.approx(float(row["printed"]), abs=float(row["off"]) + 0.0501)


@pytest.mark.parametrize("row", examples("price"), ids=lambda row: row["number"])
def test_published_prices_of_live_seed(visitor, row):
    hard = {"hard": row["hard"], "hard_unit": "%", "count_hard": "yes"}
    fields = RYE | {"purity": row["purity"], "germination": row["germination"]}
    fields |= {"price": row["given"], "price_unit": "$/lb"}
    page = visitor.read(visitor.send("/seed/new", fields | (hard if row["hard"] != "0" else {})))
    shown = float(page.text.split(f"{labels.PRICE_LIVE_SEED} $")[1].split("/lb")[0])
    assert shown == pytest.approx(float(row["exact"]), rel=0.005)


def test_both_ways_with_and_without_hard_seed(visitor):
    vetch = RYE | {"species": "hairy vetch", "germination": "80", "hard": "12", "hard_unit": "%"}
    page = visitor.read(visitor.send("/seed/new", vetch))
    # 0.98 × 0.80 = 78.4 %, with hard seed 0.98 × 0.92 = 90.16 %.
    assert live(page) == "78.4%"
    assert f"{labels.WITH_HARD_SEED} 90.2%" in page.text
    page = visitor.read(visitor.send("/seed/new", vetch | {"name": "R-27", "count_hard": "yes"}))
    assert live(page) == "90.2%"
    assert f"{labels.WITHOUT_HARD_SEED} 78.4%" in page.text


def test_a_name_of_ones_own(visitor, book):
    typed = RYE | {"species": "bee mix", "seeds_per_lb": ""}
    assert "own" in visitor.send("/seed/new", typed, code=422).wrong["species"]
    page = visitor.read(visitor.send("/seed/new", typed | {"own_name": "yes"}))
    assert labels.COUNT_THIS_LOT in page.text
    assert any(link.endswith("/counts/new") for link in page.links)


def test_treated_seed_is_cautioned(visitor):
    page = visitor.read(visitor.send("/seed/new", RYE | {"treated_with": "an insecticide"}))
    assert labels.TREATED_SEED_NEVER in page.text
    assert labels.TREATED_LOT in page.text
    assert labels.TREATED in visitor.read("/seed").text


def test_the_price_of_a_bag_is_that_of_its_weight(visitor):
    bags = {"bag1_weight": "50 lb", "bag1_price": "16 $", "bag2_weight": "25 lb"}
    page = visitor.read(visitor.send("/seed/new", RYE | bags | {"bag2_price": "9 $"}))
    # The cheapest: 16 ÷ 50 = 0.32 $/lb, of live seed 0.32 ÷ 0.9016 = 0.3549: in cents 0.35.
    assert f"{labels.PRICE_AS_SOLD} $0.32/lb" in page.text
    assert f"{labels.PRICE_LIVE_SEED} $0.35/lb 0.34 to 0.37" in page.text


def test_the_age_of_a_test_by_state(visitor):
    lot = visitor.send("/seed/new", RYE | {"species": "radish", "tested": "March 2026"})
    # From the end of March to that of November are 8 months: interstate trade 5, Kentucky 9.
    page = visitor.read(lot)
    assert labels.TEST_LOT_HOME(months=8, allowed=5) in page.text
    assert labels.AGE_TOO_OLD in page.text
    assert labels.TEST_TOO_OLD in visitor.read("/seed").text
    assert visitor.send("/seed/state", {"state": "KY", "lot": lot.rsplit("/", 1)[1]}) == lot
    page = visitor.read(lot)
    assert labels.PLACE_ALLOWS(place="Kentucky", allowed=9) in page.text
    assert labels.STILL_GOOD in page.text
    assert labels.TEST_TOO_OLD not in visitor.read("/seed").text
    assert visitor.send("/seed/state", {"state": "Oz"}) == "/seed"
    assert labels.PLACE_ALLOWS(place="Kentucky", allowed=9) in visitor.read(lot).text


@pytest.mark.parametrize("text", ["agosto 2026", "ago. 2026", "agosto de 2026", "August 2026"])
def test_a_month_by_its_name_in_both_languages(visitor, book, text):
    visitor.send("/seed/new", RYE | {"tested": text})
    assert book.things("lot")[0].body.tag.tested == "2026-08"


def test_a_tag_without_a_month_asks_for_it(visitor):
    page = visitor.read(visitor.send("/seed/new", RYE | {"tested": ""}))
    assert labels.ENTER_TEST_MONTH in page.text
    assert labels.TEST_MONTH_UNKNOWN in visitor.read("/seed").text


def test_lots_stand_by_species(visitor):
    for species, name in (("oats", "B"), ("cereal rye", "C"), ("oats", "A")):
        visitor.send("/seed/new", RYE | {"species": species, "name": name})
    text = visitor.read("/seed").text
    places = [text.index(word) for word in ("Cereal rye", " C ", "Oats", " A ", " B ")]
    assert places == sorted(places)
    assert text.count("Oats") == 1


def test_older_lots_are_a_page_on(visitor, book, monkeypatch):
    monkeypatch.setattr("evenstand.web.seed.seed.MOST_SHOWN", 2)
    for name in ("one", "two", "three"):
        visitor.send("/seed/new", RYE | {"name": name})
    page = visitor.read("/seed")
    assert "three" in page.text
    assert "one" not in page.text
    (older,) = [link for link in page.links if "after=" in link]
    assert "one" in visitor.read(older).text


def test_a_lot_is_changed_and_taken_off_the_list(visitor, book, rye):
    fields = visitor.read(f"{rye}/edit").fields
    visitor.send(f"{rye}/edit", fields | {"germination": "85"})
    assert live(visitor.read(rye)) == "83.3%"  # 0.98 × 0.85
    page = visitor.send(f"{rye}/edit", fields | {"germination": "850"}, code=422)
    assert page.fields["germination"] == "850"
    visitor.send(f"{rye}/remove", {})
    assert "R-26" not in visitor.read("/seed").text
    assert len(book.history(rye.rsplit("/", 1)[1])) == 3


def test_where_a_lot_is_used(visitor, book, rye):
    assert labels.NOT_IN_MIX in visitor.read(rye).text
    member = Member(name="rye", basis="rest", lot=rye.rsplit("/", 1)[1])
    mix = book.add(Mix(name="Fall cover", members=(member,))).about
    assert "Fall cover" in visitor.read(rye).text
    job = visitor.job()
    thing = book.get(job.rsplit("/", 1)[1])
    from msgspec.structs import replace

    book.correct(thing.id, replace(thing.body, mix=mix))
    page = visitor.read(rye)
    assert "Fall cover · Alder Bench, fall" in page.text
    assert job in page.links


def test_a_home_test_that_does_not_fit_the_tag_is_led_to(visitor, book):
    """A perennial's hard seed counts, so that a test without its firm seeds says too little."""
    fields = RYE | {"species": "alfalfa", "hard": "5%", "germination": "85"}
    lot = visitor.send("/seed/new", fields)
    test = GerminationTest(lot=lot.rsplit("/", 1)[1], dishes=(Dish(sprouted=80, seeds=100),))
    id = book.add(test).about
    page = visitor.read(lot)
    assert f"{labels.SOMETHING_NOT_FITTING} {labels.COUNT_FIRM_SEEDS}" in page.text
    assert f"/tests/{id}/edit" in page.links
    assert labels.DOES_NOT_ADD_UP in visitor.read("/seed").text
    assert labels.TEST_AGAINST_TAG in visitor.read(f"/tests/{id}").text


def test_what_is_no_lot_is_not_found(visitor, book):
    visitor.heron()
    (drill,) = book.things("drill")
    for page in ("", "/edit", "/counts/new", "/tests/new", "/photos/new"):
        visitor.read(f"/seed/{drill.id}{page}", code=404)
    visitor.read("/seed/nothing", code=404)


def test_a_lot_is_called_in_the_readers_language_on_its_forms(client, visitor, rye):
    client.set_cookie("language", "es")
    for form in ("counts/new", "tests/new", "photos/new"):
        assert "Centeno" in visitor.read(f"{rye}/{form}").text


def test_metric_readers_read_metric(client, visitor, rye):
    client.set_cookie("units", "metric")
    # 18,100 in a pound are 39,904 in a kg; live 0.9016 × that.
    text = visitor.read(rye).text
    assert "39,904 seeds/kg" in text
    assert visitor.read("/seed/new").fields["seeds_per_lb_unit"] == "seeds/kg"
