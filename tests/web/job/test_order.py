"""The Order step: what to buy, to mix, to load, and how long it takes."""

import csv
import re
from pathlib import Path

import pytest
from msgspec.structs import replace

import labels
from evenstand.book.kinds.seed import BagSize
from evenstand.book.kinds.shape import Typed
from evenstand.book.kinds.sown import Finished
from evenstand.engine.quantities.units import POUND, POUND_PER_BUSHEL

REFERENCE = Path(__file__).parents[2] / "reference"
UNITS = {
    "area_unit": "ac",
    "pass_length_unit": "ft",
    "overlap_unit": "%",
    "spread_unit": "%",
    "batch_unit": "lb",
    "speed_unit": "mph",
    "efficiency_unit": "%",
    "refill_unit": "min",
    "box1_heel_unit": "lb",
    "box1_catches_unit": "lb",
    "inoculant1_amount_unit": "oz",
    "inoculant1_seed_unit": "lb",
    "inoculant1_pack_unit": "oz",
    "inoculant1_within_unit": "h",
}
LABEL = {"inoculant1_species": "Hairy vetch", "inoculant1_amount": "6", "inoculant1_seed": "100"}


def published(name):
    lines = (REFERENCE / name).read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


def needs(page, weight):
    return re.search(labels.NEED_OF_SEED.like(need=weight), page.text)


def to_buy(name, n):
    return f"{name}: {labels.BAGS_OF(n=n, weight='50 lb')}"


def bags(*sizes):
    return tuple(
        BagSize(
            weight=Typed(value=pounds * POUND, text=f"{pounds} lb"),
            price=Typed(value=price, text=f"${price}"),
        )
        for pounds, price in sizes
    )


def weighs(pounds):
    return Typed(value=pounds * POUND_PER_BUSHEL, text=f"{pounds} lb/bu")


@pytest.fixture
def two(visitor, shelf):
    """Rye 40 and vetch 12 lb/ac from one box of 32 bu, on 38.5 ac; a mixture of 56.875 lb/bu."""

    def make(*, drill=None, **changes):
        seeds = (
            shelf(
                "R-26", "cereal rye", 18_100, test_weight=weighs(56), bags=bags((50, 16)),
            ),
            shelf("V-26", "hairy vetch", 16_500, test_weight=weighs(60), bags=bags((50, 120))),
        )  # fmt: skip
        boxes = {"box1_name": "grain", "box1_volume": "32 bu"} | (drill or {})
        made = visitor.heron(**boxes).rsplit("/", 1)[1]
        job = visitor.send("/jobs/new", {**visitor.JOB, "drill": made, **changes})
        visitor.mix(job, (seeds[0], "40", "bulk|lb/ac"), (seeds[1], "12", "bulk|lb/ac"))
        return job

    return make


def test_bags_and_their_cost(visitor, two):
    page = visitor.read(f"{two()}/order")
    # 38.5 × 40 lb are 1,540 lb or 31 bags of 50 lb, at $16; 38.5 × 12 are 462 lb or 10, at $120.
    assert to_buy("Cereal rye", 31) in page.text
    assert needs(page, "1,540 lb")
    assert to_buy("Hairy vetch", 10) in page.text
    assert needs(page, "462 lb")
    assert labels.SEED_TO_BUY(cost="$1,696.00") in page.text
    # 1,550 − 1,540 lb.
    assert re.search(labels.NEED_OF_SEED.like(need="1,540 lb", left="10 lb"), page.text)


def test_of_a_finished_field_nothing_is_on_a_shopping_list(visitor, two, book):
    job = two()
    book.add(Finished(job=job.rsplit("/", 1)[1], at=Typed(value=155_800.0), left=()))
    page = visitor.read(f"{job}/order")
    assert labels.NOTHING_MORE in page.text
    assert to_buy("Cereal rye", 31) not in page.text
    assert not re.search(labels.LOADS_OF.like(box="grain"), page.text)
    assert labels.NEEDED_FOR in page.text
    assert f"{job}/seeding" in page.html


HULLS = {
    "line3_seed": "carrier",
    "line3_name": "rice hulls",
    "line3_rate": "6",
    "line3_rate_basis": "bulk|lb/ac",
    "line3_bag1_weight": "50",
    "line3_bag1_weight_unit": "lb",
    "line3_bag1_price": "9",
    "line3_on_hand": "40",
    "line3_on_hand_unit": "lb",
}


def test_a_carrier_of_the_mix_is_bought_by_the_bag(visitor, two):
    job = two()
    fields = visitor.read(f"{job}/mix/edit").fields
    visitor.send(f"{job}/mix/edit", fields | HULLS)
    page = visitor.read(f"{job}/order")
    # 38.5 × 6 less 40 are 191 lb or 4 bags, at $9: $36 beside the seed's $1,696.
    assert to_buy("rice hulls", 4) in page.text
    assert labels.SEED_TO_BUY(cost="$1,732.00") in page.text
    fields = visitor.read(f"{job}/mix/edit").fields
    assert HULLS.items() <= fields.items()
    # No bag, and no price: the page asks for them, and leads to the line of the carrier.
    cleared = dict.fromkeys(("line3_bag1_weight", "line3_bag1_price", "line3_on_hand"), "")
    visitor.send(f"{job}/mix/edit", fields | cleared)
    page = visitor.read(f"{job}/order")
    assert labels.PRICE_MISSING in page.text
    assert "#f-line3_bag1_weight" in page.html


def test_a_carrier_of_a_box_is_bought_by_the_bag(visitor, two):
    job = two()
    said = {"carrier": "rice hulls", "carrier_rate": "6 lb/ac"}
    sold = {"carrier_bag": "50 lb", "carrier_price": "$9"}
    box = {f"box1_{key}": text for key, text in (said | sold).items()}
    visitor.send(f"{job}/boxes", box)
    page = visitor.read(f"{job}/order")
    # 38.5 × 6 are 231 lb or 5 bags, at $9: $45 beside the seed's $1,696.
    assert to_buy("rice hulls", 5) in page.text
    assert labels.SEED_TO_BUY(cost="$1,741.00") in page.text


def test_everything_else_that_goes_out_of_the_bags(visitor, two):
    job = two()
    said = {"overlap": "4", "box1_heel": "26", "box1_catches": "13"}
    visitor.send(f"{job}/order", UNITS | said)
    page = visitor.read(f"{job}/order")
    # Rye: 1,540 + 4 % of it + 40/52 of 26 and of 13 lb: 1,540 + 61.6 + 20 + 10.
    assert needs(page, "1,632 lb")
    # Vetch: 462 + 18.48 + 12/52 of 26 and of 13 lb: 462 + 18.48 + 6 + 3.
    assert needs(page, "489 lb")
    for part in ("1,540 62 20 10 1,632", "462 18 6 3 489"):
        assert part in page.text
    assert page.fields["overlap"] == "4"
    assert page.fields["box1_heel"] == "26"


def test_nothing_stays_in_a_box_that_is_swept_out(visitor, two):
    """3% of 32 bu at 56.875 lb/bu are 54.6 lb, 42 of them rye; a heel of 0 says it is none."""
    job = two(drill={"box1_dead": "3%"})
    assert "1,540 0 42 0 1,582" in visitor.read(f"{job}/order").text
    visitor.send(f"{job}/order", UNITS | {"box1_heel": "0"})
    assert "1,540 0 0 0 1,540" in visitor.read(f"{job}/order").text


def test_seed_on_hand_is_not_bought_again(visitor, two, book):
    job = two()
    lot = next(thing for thing in book.things("lot") if thing.body.name == "V-26")
    hand = Typed(value=462 * POUND, text="462 lb")
    book.correct(lot.id, replace(lot.body, on_hand=hand))
    page = visitor.read(f"{job}/order")
    assert labels.ENOUGH_HAND(name="Hairy vetch") in page.text
    assert labels.SEED_TO_BUY(cost="$496.00") in page.text  # 31 × 16


def test_batches_are_equal_and_hold_their_parts(visitor, two):
    job = two()
    visitor.send(f"{job}/order", UNITS | {"batch": "600"})
    page = visitor.read(f"{job}/order")
    # 2,002 lb in all: four batches of 500.5 lb; of rye 40/52 of that.
    assert labels.BATCHES_EACH(box="grain", batches=4, weight="500.5 lb") in page.text
    assert "Cereal rye 385 Hairy vetch 116" in page.text


def test_loads_and_where_each_runs_out(visitor, two):
    job = two()
    visitor.send(f"{job}/order", UNITS | {"pass_length": "1320"})
    page = visitor.read(f"{job}/order")
    # 32 bu × 56.875 lb/bu ÷ 52 lb/ac are 35 ac. A pass of 12.5 ft × 1,320 ft is 16,500 ft²;
    # 35 ac are 1,524,600 ft², 92.4 of them: pass 93, .4 × 1,320 = 528 ft along it.
    assert "1,820 lb 35 ac" in page.text
    assert labels.LOAD_ENDS_IN_PASS(number=93, along="528 ft") in page.text
    # 38.5 − 35 ac at 52 lb/ac.
    assert "2 182 lb 38.5 ac" in page.text


def test_hours_are_those_of_the_published_work_rate(visitor, two):
    """Iowa State Extension, Ag Decision Maker A3-24: 15 ft at 5 mph and 63% do 5.7 ac/h."""
    row = published("field_capacity.csv")[1]
    assert (row["width"], row["speed"], row["capacity"]) == ("15", "5", "5.7")
    job = two(drill={"rows": "24"}, field_area="57")  # 24 × 7.5 in are 15 ft
    visitor.send(f"{job}/order", UNITS | {"speed": row["speed"], "efficiency": row["efficiency"]})
    said = labels.ABOUT_DRILL_ONE.like(time="10 h")  # 57 ÷ 5.7
    assert re.search(said, visitor.read(f"{job}/order").text)


def test_the_speed_of_the_job_is_taken_and_said(visitor, two):
    job = two()
    page = visitor.read(f"{job}/order")
    # 5 mph × 12.5 ft ÷ 8.25 × 70 % are 5.303 ac/h: 38.5 ac take 7.26 h.
    assert re.search(labels.ABOUT_DRILL_ONE.like(time="7.3 h"), page.text)
    assert labels.BLANK_JOB_SPEED(speed="5 mph") in page.text


def test_inoculant_goes_by_its_label(visitor, two):
    job = two()
    visitor.send(f"{job}/order", UNITS | LABEL | {"inoculant1_pack": "6"})
    page = visitor.read(f"{job}/order")
    # 462 lb × 6 oz ÷ 100 lb are 27.72 oz: five packs of 6 oz.
    assert labels.INOCULANT_PACKS(name="Hairy vetch", amount="27.7 oz", packs=5) in page.text
    assert labels.LABEL_DECIDES_RATE in page.text
    assert page.fields["inoculant1_amount"] == "6"
    assert page.fields["inoculant1_pack"] == "6"


def test_more_sure_is_more_seed(visitor, two):
    """40 lb/ac to within 3% (standard): for 19 in 20 it takes 1.645 × 3% more than 1,540 lb."""
    job = two()
    visitor.send(f"{job}/order", UNITS | {"sure": "95%"})
    page = visitor.read(f"{job}/order")
    assert to_buy("Cereal rye", 33) in page.text  # 1,616 lb
    assert page.fields["sure"] == "95%"


@pytest.mark.parametrize(
    "case",
    [
        ("area", "no", labels.WRITE_SUCH.like()),
        ("overlap", "150", labels.GIVE_SHARE_BELOW),
        ("overlap", "-4", labels.GIVE_NUMBER_MORE),
        ("pass_length", "0", labels.GIVE_VALUE_ABOVE),
        ("spread", "120", labels.GIVE_SHARE_BELOW),
        ("sure", "40%", labels.GIVE_ODDS),
        ("batch", "0", labels.GIVE_VALUE_ABOVE),
        ("batch", "0.001", labels.GIVE_MIXER_HOLDS),
        ("speed", "fast", labels.WRITE_SUCH.like()),
        ("efficiency", "120", labels.GIVE_EFFICIENCY),
        ("refill", "15 lb", labels.WANTED_SUCH.like(given="15 lb")),
        ("box1_heel", "-1", labels.GIVE_NUMBER_MORE),
        ("box1_heel", "90000", labels.FILL_ABOVE_HEEL(box="grain")),
        ("box1_catches", "6 ft", labels.WANTED_SUCH.like(given="6 ft")),
        ("inoculant1_amount", "6", labels.MISSING_GIVE, "inoculant1_seed"),
        ("inoculant1_seed", "100", labels.MISSING_GIVE, "inoculant1_amount"),
        ("inoculant1_pack", "0", labels.GIVE_VALUE_ABOVE),
        ("inoculant1_within", "soon", labels.WRITE_SUCH.like()),
    ],
)
def test_a_refusal_stands_at_its_field(visitor, two, case):
    field, typed, need, *at = case
    job = two()
    sent = UNITS | {"inoculant1_species": "Hairy vetch", "refill": "15", field: typed}
    page = visitor.send(f"{job}/order", sent, code=422)
    assert re.search(need, page.wrong[at[0] if at else field])
    assert page.fields["refill"] in ("15", "15 lb")
    assert visitor.book.things("order") == []


def test_a_stop_without_a_speed_is_refused_at_its_field(visitor, two, book):
    job = two(speed="")
    page = visitor.send(f"{job}/order", UNITS | {"refill": "15"}, code=422)
    assert labels.USE_TOGETHER_WITH(partner="[order] speed") in page.wrong["refill"]
    assert book.things("order") == []


def test_an_inoculant_is_for_a_legume(visitor, two):
    label = LABEL | {"inoculant1_species": "Cereal rye"}
    page = visitor.send(f"{two()}/order", UNITS | label, code=422)
    assert labels.NOT_LEGUME in page.text


def test_an_order_is_kept_once_and_changed_in_place(visitor, two, book):
    job, first = two(), {"entry": book.new_id(), "overlap": "4"}
    visitor.send(f"{job}/order", UNITS | first)
    visitor.send(f"{job}/order", UNITS | first)
    (order,) = book.things("order")
    visitor.send(f"{job}/order", UNITS | {"overlap": "5"})
    visitor.send(f"{job}/order", UNITS | first)  # sent once more, late
    assert [thing.id for thing in book.things("order")] == [order.id]
    assert len(book.history(order.id)) == 2
    assert visitor.read(f"{job}/order").fields["overlap"] == "5"


def test_an_area_that_is_missing_is_given_in_the_order(visitor, two):
    job = two(field_area="")
    page = visitor.read(f"{job}/order")
    assert labels.SOMETHING_MISSING in page.text
    assert any(link.endswith("/order#f-area") for link in page.links)
    assert labels.MISSING_GIVE in page.wrong["area"]
    visitor.send(f"{job}/order", UNITS | {"area": "10"})
    assert needs(visitor.read(f"{job}/order"), "400 lb")


def test_part_of_a_field_can_be_ordered_for(visitor, two):
    job = two()
    visitor.send(f"{job}/order", UNITS | {"area": "10"})
    assert needs(visitor.read(f"{job}/order"), "400 lb")


def test_what_the_mix_or_the_drill_lacks_leads_there(visitor, two, book):
    job = two()
    (drill,) = book.things("drill")
    box = replace(drill.body.boxes[0], volume=None)
    book.correct(drill.id, replace(drill.body, boxes=(box,)))
    page = visitor.read(f"{job}/order")
    assert f"grain: {labels.MISSING_GIVE}" in page.text
    assert any("/edit#f-box1_volume" in link for link in page.links)
    bare = visitor.send("/jobs/new", {"name": "Teal Draw"})
    page = visitor.read(f"{bare}/order")
    assert labels.CHOOSE_MIX_FIRST in page.text
    assert f"{bare}/mix" in page.links
    assert labels.NEEDS_MIX_AREA in visitor.read(bare).text


def test_the_job_page_says_what_is_to_buy(visitor, two, book):
    job = two()
    cost = labels.SEED_TO_BUY(cost="$1,696.00")
    assert f"{cost} {labels.STEP_TO_DO}" in visitor.read(job).text
    visitor.send(f"{job}/order", UNITS)
    assert f"{cost} {labels.STEP_DONE}" in visitor.read(job).text
    lot = next(thing for thing in book.things("lot") if thing.body.name == "V-26")
    book.correct(lot.id, replace(lot.body, bags=()))
    assert f"{labels.ITEMS_TO_BUY(n=2)} {labels.STEP_DONE}" in visitor.read(job).text
    for thing in book.things("lot"):
        hand = Typed(value=2000 * POUND, text="2000 lb")
        book.correct(thing.id, replace(thing.body, on_hand=hand))
    assert f"{labels.SEED_ALL_THERE} {labels.STEP_DONE}" in visitor.read(job).text
