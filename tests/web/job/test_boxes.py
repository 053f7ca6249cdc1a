"""The Boxes step: which seed goes where, what each box is set to, what Set is told of it."""

import csv
import re
from pathlib import Path

import pytest
from msgspec.structs import replace

import labels
from evenstand.book.kinds.seed import Mix
from evenstand.book.kinds.shape import Typed
from evenstand.engine.quantities.units import (
    KG_PER_HECTARE,
    LITRE,
    POUND_PER_ACRE,
    POUND_PER_BUSHEL,
)

REFERENCE = Path(__file__).parents[2] / "reference"
TWO_BOXES = {
    "box1_name": "grain",
    "box1_volume": "32 bu",
    "box2_name": "small seed",
    "box2_seed": "small seed",
    "box2_volume": "4 bu",
}


def set_to(grain, small=""):
    said = labels.TO(box="grain", rate=grain)
    if small:
        said = labels.AND(names=said, last=labels.TO(box="small seed", rate=small))
    return labels.SET_BOXES(boxes=said)


def weighs(pounds):
    return Typed(value=pounds * POUND_PER_BUSHEL, text=f"{pounds} lb/bu")


@pytest.fixture
def three(visitor, shelf):
    """Rye 40, vetch 12 and clover 3 lb/ac; full measures of them weigh 56, 60 and 60 lb/bu."""

    def make(*, boxes=TWO_BOXES, **changes):
        seeds = (
            shelf("R-26", "cereal rye", 18_100, test_weight=weighs(56)),
            shelf("V-26", "hairy vetch", 16_500, test_weight=weighs(60)),
            shelf("C-26", "crimson clover", 220_000, test_weight=weighs(60)),
        )
        drill = visitor.heron(**boxes).rsplit("/", 1)[1]
        job = visitor.send("/jobs/new", {**visitor.JOB, "drill": drill, **changes})
        rates = zip(seeds, ("40", "12", "3"), strict=True)
        visitor.mix(job, *((seed, rate, "bulk|lb/ac") for seed, rate in rates))
        return job

    return make


def wanted(book):
    return {line.box: line for line in book.things("job")[0].body.wanted}


def test_what_each_box_is_set_to_and_how_far_it_goes(visitor, three):
    page = visitor.read(f"{three()}/boxes")
    assert set_to("52 lb/ac", "3 lb/ac") in page.text
    # 52 ÷ (40 ÷ 56 + 12 ÷ 60) is 56.875 lb/bu; 32 bu of that are 1,820 lb, for 35 ac.
    assert f"{labels.FULL_BOX_SEEDS} 1,820 lb" in page.text
    assert f"{labels.AND_COVERS} 35 ac" in page.text
    # 4 bu of 60 lb/bu are 240 lb, for 80 ac.
    assert f"{labels.FULL_BOX_SEEDS} 240 lb" in page.text
    assert f"{labels.AND_COVERS} 80 ac" in page.text
    refused = labels.CLASS_NOT_HANDLED.like(
        seed="Cereal rye", why="18,100 seeds/lb", box="small seed"
    )
    assert re.search(refused, page.text)


def test_a_full_hopper_lasts_as_far_as_printed(visitor, shelf, book):
    """lecture notes on setting drills (Argentina): 300 kg last 16.53 ha."""
    lines = (REFERENCE / "area_per_load.csv").read_text(encoding="utf-8").splitlines()
    (row,) = csv.DictReader(line for line in lines if not line.startswith("#"))
    hopper = float(row["hopper"]) * float(row["hoppers"])
    weight = Typed(value=float(row["test_weight"]) * 1e-2 / LITRE, text="80 kg/hL")
    seed = shelf("M-26", "corn", 1_375, test_weight=weight)
    drill = visitor.heron(box1_name="hoppers", box1_volume=f"{hopper} L").rsplit("/", 1)[1]
    job = visitor.send("/jobs/new", {**visitor.JOB, "drill": drill})
    visitor.mix(job, (seed, row["rate"], "bulk|kg/ha"))
    visitor.client.set_cookie("units", "metric")
    page = visitor.read(f"{job}/boxes")
    assert f"{labels.FULL_BOX_SEEDS} {float(row['whole']):g} kg" in page.text
    assert f"{labels.AND_COVERS} {float(row['area']):.3g} ha" in page.text


def test_the_rates_are_handed_to_set_and_what_was_set_there_stays(visitor, three, book):
    job = three(wanted1_tolerance="4")
    entry = book.new_id()
    page = visitor.read(visitor.send(f"{job}/boxes/rates", {"entry": entry}))
    changed = labels.INSTEAD_OF(box="grain", rate="52 lb/ac", before="54 lb/ac")
    assert changed in page.text
    assert labels.OF_NEW(box="small seed", rate="3 lb/ac", seed="Crimson clover") in page.text
    lines = wanted(book)
    assert list(lines) == ["grain", "small seed"]
    grain, small = lines.values()
    assert grain.rate.value == pytest.approx(52 * POUND_PER_ACRE)
    assert (grain.rate.text, grain.tolerance.text) == ("52 lb/ac", "4%")
    assert grain.seed == "Cereal rye, Hairy vetch"
    assert grain.test_weight.value == pytest.approx(56.875 * POUND_PER_BUSHEL, rel=2e-4)
    assert (small.rate.text, small.tolerance) == ("3 lb/ac", None)
    (job_thing,) = book.things("job")

    assert changed in book.history(job_thing.id)[-1].why


def test_handing_over_again_writes_nothing(visitor, three, book):
    job = three()
    sent = {"entry": book.new_id()}
    visitor.send(f"{job}/boxes/rates", sent)
    (thing,) = book.things("job")
    entries = len(book.history(thing.id))
    visitor.send(f"{job}/boxes/rates", sent)
    page = visitor.read(visitor.send(f"{job}/boxes/rates", {}))
    assert labels.RATES_NOT_CHANGED in page.text
    assert labels.RATES_HANDED_OVER in page.text
    assert len(book.history(thing.id)) == entries


def test_a_rate_that_was_rounded_agrees_and_stays(visitor, three, book):
    """52.2 lb/ac are 0.4% more than 52: no lever tells them apart."""
    job = three(wanted1_box="grain", wanted1_rate="52.2")
    visitor.send(f"{job}/boxes/rates", {})
    assert wanted(book)["grain"].rate.text == "52.2 lb/ac"


def test_chart_gear_and_losses_of_a_line_stay(visitor, three, book):
    boxes = TWO_BOXES | {"gear1_name": "full", "gear1_ratio": "1"}
    job = three(
        boxes=boxes, wanted1_box="grain", wanted1_gear="full", wanted1_dearer="thin stand",
        wanted1_on="static",
    )  # fmt: skip
    visitor.send(f"{job}/boxes/rates", {})
    line = wanted(book)["grain"]
    assert (line.gear, line.dearer, line.on) == ("full", "thin stand", "static")


def test_a_line_of_a_box_that_gets_no_seed_is_left_out(visitor, three, book):
    job = three(
        wanted1_box="grain", wanted2_box="small seed", wanted2_rate="9", wanted2_rate_unit="lb/ac"
    )
    everything = {f"member{i}_box": "grain" for i in (1, 2, 3)}
    visitor.send(f"{job}/boxes", everything)
    page = visitor.read(visitor.send(f"{job}/boxes/rates", {}))
    assert labels.NO_SEED_GOES(box="small seed") in page.text
    assert list(wanted(book)) == ["grain"]
    # 40 + 12 + 3.
    assert wanted(book)["grain"].rate.text == "55 lb/ac"


def test_a_line_without_a_box_that_has_catches_is_not_touched(visitor, three, book):
    job = three()
    visitor.send(f"{job}/calibrate", visitor.LIGHT)
    visitor.send(f"{job}/boxes/rates", {})
    assert wanted(book)[""].rate.text == "54 lb/ac"
    assert wanted(book)["grain"].rate.text == "52 lb/ac"


def test_the_only_box_of_a_drill_needs_no_name_in_the_job(visitor, three, book):
    one = {"box1_name": "grain", "box1_volume": "32 bu"}
    job = three(boxes=one)
    visitor.send(f"{job}/calibrate", visitor.LIGHT)
    visitor.send(f"{job}/boxes/rates", {})
    assert list(wanted(book)) == [""]
    assert wanted(book)[""].rate.text == "55 lb/ac"
    assert labels.CATCH_AT(n=1, setting=30) in visitor.read(f"{job}/calibrate").text


def test_set_says_when_its_rate_is_no_longer_that_of_the_box(visitor, three, book):
    job = three()
    visitor.send(f"{job}/boxes/rates", {})
    asks = labels.SEED_ASKS_WANTED.like()
    assert not re.search(asks, visitor.read(f"{job}/calibrate?box=grain").text)
    (mix,) = book.things("mix")
    first, *others = mix.body.members
    more = Typed(value=50 * POUND_PER_ACRE, text="50 lb/ac")
    book.correct(mix.id, replace(mix.body, members=(replace(first, rate=more), *others)))
    page = visitor.read(f"{job}/calibrate?box=grain")
    told = labels.SEED_ASKS_WANTED(box="grain", rate="62 lb/ac", wanted="52 lb/ac")
    assert told in page.text
    assert f"{job}/boxes" in page.links
    assert not re.search(asks, visitor.read(f"{job}/calibrate?box=small+seed").text)


def test_set_leads_to_the_boxes_where_no_rate_is_wanted_yet(visitor, three):
    job = three(wanted1_rate="", wanted1_tolerance="")
    assert f"{job}/boxes" in visitor.read(f"{job}/calibrate").links


def test_the_own_way_is_kept_once_and_changed_in_place(visitor, three, book):
    job = three()
    own = {"entry": book.new_id(), "member3_box": "grain"}
    visitor.send(f"{job}/boxes", own)
    visitor.send(f"{job}/boxes", own)
    (split,) = book.things("split")
    assert [(box.box, box.members) for box in split.body.boxes] == [("grain", ("crimson clover",))]
    page = visitor.read(f"{job}/boxes")
    assert page.fields["member3_box"] == "grain"
    assert set_to("55 lb/ac") in page.text
    assert re.search(labels.LIKELY_SINK_UNDER.like(small="Crimson clover"), page.text)
    assert re.search(labels.ANOTHER_PLAN_BETTER.like(), page.text)
    visitor.send(f"{job}/boxes", {"member3_box": "small seed"})
    assert [thing.id for thing in book.things("split")] == [split.id]
    assert len(book.history(split.id)) == 2


def test_a_form_changed_and_sent_again_under_its_old_id_is_told_so(visitor, three, book):
    job, entry = three(), book.new_id()
    visitor.send(f"{job}/boxes", {"entry": entry, "member3_box": "grain"})
    page = visitor.send(f"{job}/boxes", {"entry": entry, "member3_box": ""}, code=422)
    assert labels.SAVED_OTHER_VALUES in page.text


@pytest.mark.parametrize(
    "case",
    [
        (
            "member2_box",
            "small seed",
            labels.CLASS_NOT_HANDLED.like(seed="Hairy vetch", why="16,500 seeds/lb"),
        ),
        ("member1_box", "loft", labels.CHOOSE_FROM_LIST),
        ("box1_carrier_rate", "6", labels.MISSING_GIVE, "box1_carrier"),
        ("box1_carrier", "rice hulls", labels.MISSING_GIVE, "box1_carrier_rate"),
        ("box1_carrier_price", "9", labels.MISSING_GIVE, "box1_carrier_bag"),
        ("box1_carrier_bag", "50 lb", labels.MISSING_GIVE, "box1_carrier"),
        ("box1_carrier_rate", "6 ft", labels.WANTED_SUCH.like(given="6 ft")),
        ("box1_sample", "6.1", labels.BOTH_OR_NEITHER, "box1_measure"),
        ("box1_measure", "1", labels.BOTH_OR_NEITHER, "box1_sample"),
        ("box1_measure", "no", labels.WRITE_SUCH.like()),
        ("box1_test_weight", "0", labels.GIVE_VALUE_ABOVE),
        ("box2_full", "120", labels.GIVE_SHARE_TO_WHOLE),
        ("box2_full", "0", labels.GIVE_VALUE_ABOVE),
    ],
)
def test_a_refusal_stands_at_its_field(visitor, three, case):
    field, typed, need, *at = case
    job = three()
    units = {
        "box1_carrier_rate_unit": "lb/ac",
        "box1_sample_unit": "lb",
        "box1_measure_unit": "gal",
        "box1_test_weight_unit": "lb/bu",
        "box2_full_unit": "%",
    }
    page = visitor.send(f"{job}/boxes", {**units, "member3_box": "grain", field: typed}, code=422)
    assert re.search(need, page.wrong[at[0] if at else field])
    assert page.fields["member3_box"] == "grain"
    assert visitor.book.things("split") == []


def test_a_carrier_is_part_of_what_the_box_is_set_to(visitor, three):
    job = three()
    hulls = {"box1_carrier": "rice hulls", "box1_carrier_rate": "6 lb/ac"}
    visitor.send(f"{job}/boxes", hulls)
    page = visitor.read(f"{job}/boxes")
    # 40 + 12 + 6.
    assert set_to("58 lb/ac", "3 lb/ac") in page.text
    assert page.fields["box1_carrier_rate"] == "6"
    # Hulls weigh 9 lb/bu: 58 ÷ (40 ÷ 56 + 12 ÷ 60 + 6 ÷ 9) is 36.69 lb/bu, 1,174 lb in 32 bu.
    assert f"{labels.FULL_BOX_SEEDS} 1,174 lb" in page.text


def test_a_second_carrier_is_refused_where_it_is_mixed_in(visitor, three, book):
    job = three()
    (mix,) = book.things("mix")
    rate = Typed(value=5 * POUND_PER_ACRE, text="5 lb/ac")
    hulls = replace(
        mix.body.members[0], name="rice hulls", lot=None, carrier=True, rate=rate, basis="bulk"
    )
    book.correct(mix.id, replace(mix.body, members=(*mix.body.members, hulls)))
    page = visitor.read(f"{job}/boxes")
    choose = labels.GIVE_BOX_GOES.like()
    assert re.search(f"rice hulls: {choose}", page.text)
    assert re.search(choose, page.wrong["member4_box"])
    two = {"member4_box": "grain", "box1_carrier": "sand", "box1_carrier_rate": "6 lb/ac"}
    page = visitor.send(f"{job}/boxes", two, code=422)
    assert labels.CARRIER_ALREADY_THERE(box="grain") in page.wrong["box1_carrier"]
    visitor.send(f"{job}/boxes", {"member4_box": "grain"})
    assert set_to("57 lb/ac", "3 lb/ac") in visitor.read(f"{job}/boxes").text


def test_a_measure_of_the_mixture_tells_its_test_weight(visitor, three, book):
    """2,150.42 in³ of a bushel ÷ 231 in³ of a gallon × 6.12 lb are 56.97 lb/bu."""
    job = three()
    pail = {"box1_measure": "1 gal", "box1_sample": "6.12 lb"}
    visitor.send(f"{job}/boxes", pail)
    (split,) = book.things("split")
    said = split.body.boxes[0]
    assert said.test_weight.value == pytest.approx(56.97 * POUND_PER_BUSHEL, rel=1e-4)
    assert (said.measure.text, said.sample.text) == ("1 gal", "6.12 lb")
    page = visitor.read(f"{job}/boxes")
    assert (page.fields["box1_measure"], page.fields["box1_test_weight"]) == ("1", "")
    assert f"{labels.FULL_BOX_SEEDS} 1,823 lb" in page.text  # × 32
    both = pail | {"box1_test_weight": "57 lb/bu"}
    page = visitor.send(f"{job}/boxes", both, code=422)
    assert labels.SAMPLE_SETS_IT in page.wrong["box1_test_weight"]


def test_one_of_the_ways_is_taken_and_what_is_mixed_in_stays(visitor, three, book):
    job = three()
    visitor.send(f"{job}/boxes", {"box1_carrier": "sand", "box1_carrier_rate": "6 lb/ac"})
    way = {"member1_box": "grain", "member2_box": "grain", "member3_box": "grain"}
    page = visitor.read(visitor.send(f"{job}/boxes/take", way))
    assert set_to("61 lb/ac") in page.text
    (split,) = book.things("split")
    assert [box.box for box in split.body.boxes] == ["grain"]
    assert split.body.boxes[0].carrier == "sand"
    page = visitor.send(f"{job}/boxes/take", way | {"member1_box": "small seed"}, code=422)
    refused = labels.CLASS_NOT_HANDLED.like(seed="Cereal rye")
    assert re.search(refused, page.wrong["member1_box"])


def test_a_carrier_of_the_mix_stays_where_it_is_when_a_way_is_taken(visitor, three, book):
    job = three()
    (mix,) = book.things("mix")
    hulls = replace(mix.body.members[0], name="rice hulls", lot=None, carrier=True)
    book.correct(mix.id, replace(mix.body, members=(*mix.body.members, hulls)))
    visitor.send(f"{job}/boxes", {"member4_box": "grain"})
    way = {"member1_box": "grain", "member2_box": "grain", "member3_box": "grain"}
    page = visitor.read(visitor.send(f"{job}/boxes/take", way))
    assert set_to("95 lb/ac") in page.text  # 40 + 12 + 3 + 40
    assert page.fields["member4_box"] == "grain"


def test_all_ways_stand_side_by_side(visitor, three):
    page = visitor.read(f"{three()}/boxes")
    # Rye and vetch fit the grain box alone, clover either: two ways.
    assert page.html.count(labels.USE_THIS_PLAN) == 1
    assert labels.PLAN_IN_USE in page.text
    assert labels.ALL_PLANS in page.text


def test_back_to_what_is_proposed(visitor, three, book):
    job = three()
    visitor.send(f"{job}/boxes", {"member3_box": "grain"})
    visitor.send(f"{job}/boxes/propose", {})
    assert book.things("split") == []
    assert set_to("52 lb/ac", "3 lb/ac") in visitor.read(f"{job}/boxes").text
    visitor.send(f"{job}/boxes/propose", {})


def test_a_separated_catch_is_judged_and_not_kept(visitor, three, book):
    """Seeds as filled in: rye 40 × 18,100 to vetch 12 × 16,500 are 724 to 198."""
    job = three()
    entries = book.entries().cursor
    even = visitor.read(f"{job}/boxes?sample=rye+724,+vetch+198")
    assert "78.5%" in even.text  # 724 ÷ 922
    assert even.text.count("78.5%") == 2
    odd = visitor.read(f"{job}/boxes?sample=rye+500,+vetch+422")
    assert "54.2%" in odd.text  # 500 ÷ 922
    assert odd.text != even.text
    page = visitor.read(f"{job}/boxes?sample=oats+5", code=422)
    assert re.search(labels.NOT_ONE_OF.like(text="oats"), page.wrong["sample"])
    assert book.entries().cursor == entries


def test_a_box_that_is_off_is_off_for_all_seed_in_it(visitor, three, book):
    """54.6 lb/ac are 5% more than 52: rye gets 42, vetch 12.6."""
    job = three()
    entries = book.entries().cursor
    page = visitor.read(f"{job}/boxes?achieved=grain+54.6+lb/ac")
    target = labels.RATE_AIMED_AT
    assert f"Cereal rye 42 {target(rate=40)} +5%" in page.text
    assert f"Hairy vetch 12.6 {target(rate=12)} +5%" in page.text
    assert f"Crimson clover 3 {target(rate=3)}" in page.text
    page = visitor.read(f"{job}/boxes?achieved=loft+5+lb/ac", code=422)
    assert re.search(labels.NOT_ONE_OF.like(text="loft"), page.wrong["achieved"])
    assert book.entries().cursor == entries


def test_what_the_drill_does_not_say_is_given_at_the_drill(visitor, three, book):
    job = three(boxes={})
    page = visitor.read(f"{job}/boxes")
    assert labels.ENTER_BOXES_FIRST in page.text
    assert any("/edit#f-box1_name" in link for link in page.links)
    (drill,) = book.things("drill")
    visitor.send(
        f"/drills/{drill.id}/edit",
        visitor.read(f"/drills/{drill.id}/edit").fields | {"box1_name": "grain"},
    )
    page = visitor.read(f"{job}/boxes")
    assert f"grain: {labels.MISSING_GIVE}" in page.text
    assert any("/edit#f-box1_volume" in link for link in page.links)


def test_without_a_mix_there_is_nothing_to_share_out(visitor, samples_mix, book):
    job = visitor.job()
    page = visitor.read(f"{job}/boxes")
    assert labels.CHOOSE_MIX_FIRST in page.text
    assert f"{job}/mix" in page.links
    assert labels.NEEDS_MIX_BOXES in visitor.read(job).text
    assert labels.NEXT_STEP(step=labels.CALIBRATE) in visitor.read(job).text


def test_a_lot_that_cannot_be_is_put_right_at_the_lot(visitor, three, book):
    job = three()
    lot = next(thing for thing in book.things("lot") if thing.body.name == "C-26")
    book.correct(lot.id, replace(lot.body, species="no such seed at all"))
    page = visitor.read(f"{job}/boxes")
    assert "C-26" in page.text
    assert any(lot.id in link for link in page.links)


def test_two_lots_of_a_species_are_told_apart(visitor, three, shelf):
    job = three()
    more = shelf("R-25", "cereal rye", 17_500, test_weight=weighs(56))
    (mix,) = visitor.book.things("mix")
    second = replace(mix.body.members[0], lot=more)
    visitor.book.correct(mix.id, replace(mix.body, members=(*mix.body.members, second)))
    page = visitor.read(f"{job}/boxes")
    assert "Cereal rye (R-25)" in page.text
    visitor.send(f"{job}/boxes", {"member4_box": "grain"})
    (split,) = visitor.book.things("split")
    assert split.body.boxes[0].members == ("cereal rye (R-25)",)


def test_what_is_no_longer_in_the_mix_is_passed_over(visitor, three, book):
    job = three()
    visitor.send(f"{job}/boxes", {"member3_box": "grain"})
    (mix,) = book.things("mix")
    book.correct(mix.id, Mix(name="Fall cover", members=mix.body.members[:2]))
    assert set_to("52 lb/ac") in visitor.read(f"{job}/boxes").text


def test_the_job_page_says_how_far_the_boxes_are(visitor, three):
    job = three()
    boxes = "grain 52 lb/ac, small seed 3 lb/ac"
    assert f"{boxes} {labels.STEP_TO_DO}" in visitor.read(job).text
    visitor.send(f"{job}/boxes", {"member3_box": "small seed"})
    assert f"{boxes} {labels.STEP_IN_PROGRESS}" in visitor.read(job).text
    visitor.send(f"{job}/boxes/rates", {})
    assert f"{boxes} {labels.STEP_DONE}" in visitor.read(job).text


def test_the_page_speaks_the_readers_units(visitor, three, book):
    job = three()
    visitor.client.set_cookie("units", "metric")
    # 52 lb/ac are 58.28 kg/ha.
    said = set_to("58.3 kg/ha", "3.36 kg/ha")
    assert said in visitor.read(f"{job}/boxes").text
    visitor.send(f"{job}/boxes/rates", {})
    assert wanted(book)["grain"].rate.text == "58.28 kg/ha"
    assert wanted(book)["grain"].rate.value == pytest.approx(58.28 * KG_PER_HECTARE)


def test_rates_are_not_handed_over_where_somebody_changed_them_meanwhile(visitor, three, book):
    """The button has no fields beside it: it asks on a page of its own."""
    job = three()
    thing = book.get(job.rsplit("/", 1)[1])
    [line] = thing.body.wanted
    theirs = replace(line, rate=Typed(value=0.00785, text="70 lb/ac"))
    book.correct(thing.id, replace(thing.body, wanted=(theirs,)), by="Nia")
    page = visitor.send(f"{job}/boxes/rates", {"base": " ".join(thing.heads)}, code=409)
    assert re.search(labels.CHANGED_MEANWHILE.like(who="Nia"), page.text)
    assert "70 lb/ac" in page.text
    fields = page.fields | {"whose:/wanted": "yours"}
    visitor.send(f"{job}/boxes/rates", fields)
    assert "grain" in wanted(book)
