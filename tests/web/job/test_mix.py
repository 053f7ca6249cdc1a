"""The Mix step: what stands on its page, what is missing, which mix a job has."""

import csv
import re
from pathlib import Path

import pytest
from msgspec.structs import replace

import labels
from evenstand.book.kinds.shape import Typed

REFERENCE = Path(__file__).parents[2] / "reference"
# On the page: live seeds, pure live, bulk, share of the seeds, share of the weight, cost.
SEEDS, PLS, BULK, OF_SEEDS, OF_WEIGHT, COST = range(6)


def published(name):
    lines = (REFERENCE / name).read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


def table(page):
    """The numbers of the table, a row for each member and the last for all together."""
    body = page.html[page.html.index('<table class="members"') :]
    rows = re.findall(r'<tr role="row">(.*?)</tr>', body[: body.index("</table>")], re.DOTALL)
    return [re.findall(r'class="worth">([^<]*)', row) for row in rows[1:]]


def test_a_job_without_a_mix_asks_for_one(visitor):
    job = visitor.job()
    page = visitor.read(f"{job}/mix")
    assert labels.CHOOSE_WHAT_TO_GROW in page.text
    assert f"{job}/mix/edit?new=yes" in page.links
    assert labels.NO_MIX_RATE_KNOWN in visitor.read(job).text


def test_a_job_that_knows_neither_mix_nor_rate_begins_with_its_mix(visitor):
    job = visitor.job(wanted1_rate="", wanted1_tolerance="")
    assert labels.NEXT_STEP(step="Mix") in visitor.read(job).text


def test_shares_of_full_rates_are_those_printed(visitor, shelf):
    """SCS Colorado letter, document 518541, page 3: pounds of pure live seed per acre."""
    rows = published("mix_full_rates.csv")
    lines, full = [], {}
    for i, row in enumerate(rows, 1):
        lot = shelf(row["species"], row["species"], per_lb=200_000)
        lines.append((lot, row["share"], "of full rate|%"))
        full |= {f"line{i}_full": row["full"], f"line{i}_full_basis": "pls|lb/ac"}
    job = visitor.job()
    page = visitor.read(visitor.mix(job, *lines, **full))
    for row, shown in zip(rows, table(page), strict=False):
        assert float(shown[PLS]) == pytest.approx(float(row["pls"]), abs=0.005), row["species"]


def test_weights_are_the_seeds_printed_beside_them(visitor, shelf):
    """Minnesota Board of Water and Soil Resources, Conservation Dry Northwest (2018)."""
    rows = published("mix_weight_to_seeds.csv")[:8]
    lines = []
    for row in rows:
        name = row["species"]
        lot = shelf(name, name, per_lb=int(row["seeds_per_lb"]), own_name=True)
        lines.append((lot, row["pls"], "pls|lb/ac"))
    page = visitor.read(visitor.mix(visitor.job(), *lines))
    for row, shown in zip(rows, table(page), strict=False):
        assert float(shown[SEEDS]) == pytest.approx(float(row["seeds"]), rel=5.1e-3), row["species"]


def test_one_lot_by_hand(visitor, shelf):
    """60 lb/ac at 98% × 90%: 52.92 lb/ac live, × 18000 ÷ 43560 = 21.87 seeds/ft², $18/ac."""
    price = Typed(value=0.3 / 0.45359237, text="0.3 $/lb")
    page = visitor.read(visitor.mix(visitor.job(), (shelf(price=price), "60", "bulk|lb/ac")))
    [line, total] = table(page)
    assert (line[SEEDS], line[PLS], line[BULK], line[COST]) == ("21.9", "52.9", "60", "18.00")
    assert (line[OF_SEEDS], line[OF_WEIGHT]) == ("100", "100")
    assert total == ["21.9", "52.9", "60", "18.00"]
    assert labels.SEED_TOTAL(bulk="60 lb/ac") in page.text
    assert "$693.00 for 38.5 ac" in page.text  # 18 × 38.5


def test_a_metric_reader_sees_metric(visitor, shelf, client):
    """60 kg/ha: 52.92 live, × 39683 seeds/kg ÷ 10000 = 210 live seeds/m²."""
    client.set_cookie("units", "metric")
    page = visitor.read(visitor.mix(visitor.job(), (shelf(), "60", "bulk|kg/ha")))
    assert table(page)[0][:3] == ["210", "52.9", "60"]
    assert "210 live seeds/m²" in page.text


def test_weight_stands_beside_seeds_with_its_drawing(visitor, shelf):
    """40 of rye and 4 of clover: 9% of the weight; 10 x 18000 = 4 x 45000: half of the seeds."""
    lots = shelf(), shelf("C-26", "crimson clover", per_lb=180_000)
    lines = [(lots[0], "40", "pls|lb/ac"), (lots[1], "4", "pls|lb/ac")]
    page = visitor.read(visitor.mix(visitor.job(), *lines))
    (rye, clover, _) = table(page)
    assert (rye[OF_WEIGHT], clover[OF_WEIGHT]) == ("91", "9.1")
    assert (rye[OF_SEEDS], clover[OF_SEEDS]) == ("50", "50")
    assert (
        labels.WEIGHT_LIVE_SEEDS(letter="B", name="Crimson clover", weight="9.1%", seeds="50%")
        in page.html
    )
    assert "Crimson clover is 9.09% of the weight but 50% of the seeds" in page.text


def test_questions_name_their_lots_are_said_once_and_more_than_three_are_folded(
    visitor, shelf, book
):
    """Three lots tested in one month, then one lot of each of three months more."""
    months = ("2024-01", "2024-01", "2024-01", "2024-02", "2024-03", "2024-04")
    lots = [shelf(f"L-{n}") for n in range(1, 7)]
    for lot, month in zip(lots, months, strict=True):
        body = book.get(lot).body
        book.correct(lot, replace(body, tag=replace(body.tag, tested=month)))
    page = visitor.read(visitor.mix(visitor.job(), *((lot, "10", "bulk|lb/ac") for lot in lots)))
    shown, folded = page.html.replace("\xa0", " ").partition('<details class="more">')[::2]
    named = [f'<a href="/seed/{lot}/edit">Cereal rye L-{n}</a>' for n, lot in enumerate(lots, 1)]
    old = labels.GERMINATION_TEST_MONTHS.like
    assert re.search(f"<li>{', '.join(named[:3])}: {old(tested='Jan 2024')}", shown)
    assert all(each in shown for each in named[:5])
    assert len(re.findall(old(), shown)) == 3
    every = folded[: folded.index("</details>")].count("<li>")
    assert folded.startswith(f"<summary>{every} more</summary>")
    assert re.search(f"<li>{named[5]}: {old(tested='Apr 2024')}", folded)
    assert len(re.findall(old(), folded)) == 1


def test_more_than_three_things_good_to_know_are_folded(visitor, shelf):
    """Its depth, and of each of four species how different its two shares are."""
    seeds = [("rye", "cereal rye", 18_100, "60"), ("crimson", "crimson clover", 150_000, "4")]
    seeds += [("red", "red clover", 272_000, "3"), ("timothy", "timothy", 1_200_000, "2")]
    lots = [(shelf(name, species, count), rate) for name, species, count, rate in seeds]
    page = visitor.read(
        visitor.mix(visitor.job(), *((lot, rate, "bulk|lb/ac") for lot, rate in lots))
    )
    known = page.html.partition(labels.GOOD_TO_KNOW)[2].partition("</section>")[0]
    shown, folded = known.partition('<details class="more">')[::2]
    assert shown.count("<li>") == 3
    assert folded.startswith(f"<summary>{folded.count('<li>')}\xa0more</summary>")
    assert re.search(labels.WEIGHT_BUT_SEEDS.like(), folded)


def test_a_treated_lot_is_said(visitor, shelf, book):
    lot = shelf()
    tag = replace(book.get(lot).body.tag, treated=True)
    book.correct(lot, replace(book.get(lot).body, tag=tag))
    page = visitor.read(visitor.mix(visitor.job(), (lot, "60", "bulk|lb/ac")))
    assert labels.TREATED_LOTS_FOLLOW(lots="R-26") in page.text


def test_the_job_page_says_how_far_the_mix_is(visitor, shelf):
    job = visitor.job()
    visitor.mix(job, (shelf(), "60", "bulk|lb/ac"))
    assert labels.LIVE_AND_TOTAL(seeds="21.9 seeds/ft²", bulk="60 lb/ac") in visitor.read(job).text


def test_a_species_without_its_tag_leads_to_its_tag(visitor):
    job = visitor.job()
    page = visitor.read(visitor.mix(job, ("named", "60", "bulk|lb/ac"), line1_name="oats"))
    assert labels.SOMETHING_MISSING in page.text
    assert "/seed/new?species=oats" in page.links
    assert "oats 60 lb/ac" in page.text
    assert f"oats: {labels.TAG_NOT_ENTERED}" in page.text
    assert f"oats: {labels.TAG_NOT_ENTERED}" in visitor.read(job).text


def test_a_line_without_a_rate_leads_to_its_field(visitor, shelf):
    job = visitor.job()
    page = visitor.read(visitor.mix(job, (shelf(), "", "bulk|lb/ac")))
    assert f"{job}/mix/edit#f-line1_rate" in page.links
    assert f"cereal rye: {labels.ENTER_ITS_RATE}" in page.text


def test_what_is_wrong_with_a_tag_leads_to_its_lot(visitor, shelf, book):
    lot = shelf()
    page = visitor.read(visitor.mix(visitor.job(), (lot, "60", "bulk|lb/ac")))
    assert labels.SEED_TOTAL(bulk="60 lb/ac") in page.text
    body = book.get(lot).body
    book.correct(lot, replace(body, tag=replace(body.tag, germination=0.9, hard=0.2)))
    page = visitor.read(page_of(book))
    assert labels.SOMETHING_NOT_FITTING in page.text
    assert f"/seed/{lot}/edit" in page.links


def page_of(book):
    [job] = book.things("job")
    return f"/jobs/{job.id}/mix"


def test_a_job_can_use_the_mix_of_another(visitor, shelf, book):
    first, second = visitor.job(), visitor.job(name="Spring")
    visitor.mix(first, (shelf(), "60", "bulk|lb/ac"))
    [mix] = book.things("mix")
    page = visitor.read(f"{second}/mix")
    assert page.fields["mix"] == mix.id
    fields = {"mix": mix.id, "entry": page.fields["entry"]}
    assert visitor.send(f"{second}/mix/choose", fields) == f"{second}/mix"
    assert visitor.send(f"{second}/mix/choose", fields) == f"{second}/mix"
    assert labels.SEED_TOTAL(bulk="60 lb/ac") in visitor.read(f"{second}/mix").text
    assert len(book.things("mix")) == 1


def test_a_mix_that_is_not_there_is_refused_at_its_field(visitor, shelf):
    visitor.mix(visitor.job(), (shelf(), "60", "bulk|lb/ac"))
    job = visitor.job(name="Spring")
    page = visitor.send(f"{job}/mix/choose", {"mix": "gone"}, code=422)
    assert labels.CHOOSE_FROM_LIST in page.wrong["mix"]


def test_no_such_job(visitor):
    for path in ("mix", "mix/edit", "mix/goal"):
        visitor.read(f"/jobs/01a20f15-2c80-7000-8000-000000000000/{path}", code=404)
