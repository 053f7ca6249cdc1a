"""The Set step: from the chart to an accepted notch, with nothing lost on the way."""

import re

import pytest
from msgspec.structs import replace

import labels
from evenstand.book.kinds.shape import Typed
from evenstand.book.kinds.work import Chosen
from evenstand.engine.quantities.units import OUNCE

CHART_ALONE = labels.CHART_ALONE.partition("{")[0]


def lever(template, **values):
    return template(levers=labels.THE_LEVER, **values)


def in_field(rate):
    return labels.UNIT_IN_FIELD(unit=rate)


def test_before_any_catch_the_chart_says_where_to_begin(visitor):
    page = visitor.read(f"{visitor.job()}/calibrate")
    assert f"{lever(labels.SET_TO, to=30)} {labels.COMING_UP_BELOW}" in page.text
    assert CHART_ALONE in page.text
    # 1/20 ac are 2178 ft²; 12.5 ft × 95 in are 98.958 ft² a turn: 22.0 turns.
    assert labels.TURN_WHEEL(n=22) in page.text
    # 95 in at 5 mph: 7.9167 ft ÷ 7.3333 ft/s.
    assert labels.TIME_EACH(time="1.1 s") in page.text
    assert page.fields["setting"] == "30"


def test_a_light_catch_sends_the_lever_up(visitor):
    job = visitor.job()
    visitor.send(f"{job}/calibrate", visitor.LIGHT)
    page = visitor.read(f"{job}/calibrate")
    # 48.6 lb/ac at 30 where 54 was looked for: a tenth less. 54 ÷ 0.9 ÷ 1.8 is 33.3.
    assert lever(labels.MOVE_FROM_TO, from_=30, to=33) in page.text
    assert in_field("48.6 lb/ac") in page.text
    assert labels.LIGHT in page.text
    assert labels.CATCH_AT(n=1, setting=30) in page.text


def test_a_good_catch_is_accepted_and_taken(visitor, book):
    job = visitor.job()
    visitor.send(f"{job}/calibrate", visitor.LIGHT)
    visitor.send(f"{job}/calibrate", visitor.GOOD)
    assert labels.LOCK_IN(setting=33) in visitor.read(f"{job}/calibrate").text
    visitor.send(f"{job}/calibrate/choose", {"take": "33"})
    (chosen,) = book.things("setting")
    assert isinstance(chosen.body, Chosen)
    assert (chosen.body.setting, chosen.body.drill) == (33, book.things("drill")[0].id)
    assert 0.9 < chosen.body.odds <= 1
    assert labels.LEVER_STANDS_AT(setting=33)[:-1] in visitor.read(f"{job}/calibrate").text
    assert labels.SET_AT(setting=33) in visitor.read(job).text
    assert labels.SET_AT(setting=33) in visitor.read("/").text


def test_what_changes_after_a_setting_is_locked_in_is_told(visitor, book):
    job = visitor.job()
    visitor.send(f"{job}/calibrate", visitor.GOOD)
    visitor.send(f"{job}/calibrate/choose", {"take": "33"})
    sheet = visitor.read(f"{job}/calibrate/worksheet").text
    assert labels.LOCKED_IN in sheet
    (drill,) = book.things("drill")
    fields = visitor.read(f"/drills/{drill.id}/edit").fields
    visitor.send(f"/drills/{drill.id}/edit", fields | {"rolled": "100"})
    page = visitor.read(f"{job}/calibrate").text
    assert labels.CHANGED_SINCE_LOCKED(n=1) in page
    assert "95 in 100 in" in page
    again = visitor.read(f"{job}/calibrate/worksheet").text
    assert again.partition(labels.PDF_LETTER)[2] == sheet.partition(labels.PDF_LETTER)[2]


def test_a_catch_sent_twice_is_kept_once(visitor, book):
    job = visitor.job()
    catch = {**visitor.LIGHT, "entry": book.new_id()}
    visitor.send(f"{job}/calibrate", catch)
    visitor.send(f"{job}/calibrate", catch)
    assert len(book.things("catch")) == 1


@pytest.mark.parametrize(
    "case",
    [
        ("setting", "70", labels.GIVE_NUMBER_RANGE(low=0, high=60)),
        ("setting", "", labels.MISSING_GIVE),
        ("turns", "", labels.GIVE_TURNS_MADE),
        ("turns", "-3", labels.GIVE_VALUE_ABOVE),
        ("rows_caught", "21", labels.GIVE_OPEN_ROWS(rows=20)),
        ("rows_caught", "", labels.GIVE_ROWS_CAUGHT),
        ("net", "", labels.GIVE_SEED_WEIGHED),
        ("net", "0", labels.GIVE_WEIGHT_ABOVE),
        ("net", "41 ft", labels.WANTED_SUCH.like(given="41 ft")),
        ("distance", "100 ft", labels.ONE_OF_THREE_GROUNDS),
    ],
)
def test_a_refusal_stands_at_its_field(visitor, book, case):
    field, typed, need = case
    job = visitor.job()
    page = visitor.send(f"{job}/calibrate", {**visitor.LIGHT, field: typed}, code=422)
    assert re.search(need, page.wrong[field])
    assert page.fields[field] in typed
    assert lever(labels.SET_TO, to=30) in page.text
    assert book.things("catch") == []


def test_each_row_apart_shows_the_odd_one(visitor, book):
    job = visitor.job()
    weights = {f"row{i}": "50" for i in range(1, 21)} | {"row13": "42"}
    visitor.send(f"{job}/calibrate", {"setting": "30", "turns": "20", "unit": "g"} | weights)
    (catch,) = book.things("catch")
    assert [bag.row for bag in catch.body.bags] == list(range(1, 21))
    assert catch.body.bags[12].weight.value == pytest.approx(0.042)
    page = visitor.read(f"{job}/calibrate")
    assert re.search(labels.ROW_DROPS_THAN.like(row=13), page.text)
    assert re.search(labels.ROWS_FURTHEST_MEAN.like(row=13), page.text)


def test_a_form_for_each_row(visitor):
    page = visitor.read(f"{visitor.job()}/calibrate?each=yes")
    assert {f"row{i}" for i in range(1, 21)} <= set(page.fields)
    assert "net" not in page.fields


def test_several_bags_at_once(visitor, book):
    job = visitor.job()
    visitor.send(
        f"{job}/calibrate", {**visitor.LIGHT, "rows_caught": "6", "net": "3.1, 3.2, 3.0 oz"}
    )
    (catch,) = book.things("catch")
    assert [(bag.rows, bag.weight.text) for bag in catch.body.bags] == [
        (2, "3.1 oz"),
        (2, "3.2 oz"),
        (2, "3.0 oz"),
    ]


def test_a_drill_with_a_crank_is_turned_by_it(visitor, book):
    """22.0 turns of the wheel are 77.0 of a crank that turns 3.5 times as fast."""
    job = visitor.job()
    (drill,) = book.things("drill")
    book.correct(drill.id, replace(drill.body, crank_per_wheel=Typed(value=3.5, text="3.5")))
    page = visitor.read(f"{job}/calibrate")
    assert labels.TURN_CRANK(n=77) in page.text
    assert "turns" not in page.fields
    rest = {key: text for key, text in visitor.LIGHT.items() if key != "turns"}
    fine = {"resolution": "1", "resolution_unit": "g"}
    turned = {"crank_turns": str(3.5 * float(visitor.LIGHT["turns"]))}
    visitor.send(f"{job}/calibrate", rest | turned | fine)
    page = visitor.read(f"{job}/calibrate")
    assert in_field("48.6 lb/ac") in page.text  # as 22 turns of the wheel make it
    assert float(page.fields["crank_turns"]) == 3.5 * float(visitor.LIGHT["turns"])
    assert re.search(labels.CRANK_INSTEAD.like(), page.text)
    assert f"70 {labels.TURNS} ÷ 3.5" in page.text


def test_turns_of_a_crank_that_nobody_has_measured_are_refused(visitor, book):
    job = visitor.job()
    rest = {key: text for key, text in visitor.LIGHT.items() if key != "turns"}
    page = visitor.send(f"{job}/calibrate", rest | {"crank_turns": "77"}, code=422)
    assert labels.GIVE_CRANK_RATIO in page.wrong["crank_turns"]
    assert book.things("catch") == []


def test_several_bags_of_a_writer_of_decimal_commas(visitor, client, book):
    client.set_cookie("decimal", "comma")
    job = visitor.job()
    bags = {**visitor.LIGHT, "rows_caught": "4", "net": "152,5; 150,1", "net_unit": "g"}
    visitor.send(f"{job}/calibrate", bags)
    (catch,) = book.things("catch")
    weights = [(bag.weight.value, bag.rows) for bag in catch.body.bags]
    assert weights == [(pytest.approx(0.1525), 2), (pytest.approx(0.1501), 2)]


def test_a_bag_weighed_with_its_seed(visitor, book):
    job = visitor.job()
    visitor.send(f"{job}/calibrate", {**visitor.LIGHT, "net": "37.33", "tare": "2 oz"})
    (catch,) = book.things("catch")
    assert catch.body.bags[0].weight.value == pytest.approx(35.33 * OUNCE)
    assert (catch.body.gross.text, catch.body.tare.text) == ("37.33 oz", "2 oz")
    assert visitor.read(f"/catches/{catch.id}").fields["net"] == "37.33"


def test_a_bag_heavier_than_its_seed(visitor):
    page = visitor.send(f"{visitor.job()}/calibrate", {**visitor.LIGHT, "tare": "50 oz"}, code=422)
    assert labels.BAG_EMPTY in page.wrong["net"]


def test_a_pull_and_a_weigh_back_stand_for_their_ground(visitor, book):
    job = visitor.job()
    # 20 turns of 95 in are 158.33 ft.
    visitor.send(f"{job}/calibrate", {**visitor.LIGHT, "turns": "", "distance": "158.333 ft"})
    assert in_field("48.6 lb/ac") in visitor.read(f"{job}/calibrate").text
    weighed_back = {**visitor.LIGHT, "turns": "", "area": "1", "area_unit": "ac", "net": "54 lb"}
    visitor.send(f"{job}/calibrate", weighed_back | {"rows_caught": ""})
    assert in_field("54 lb/ac") in visitor.read(f"{job}/calibrate").text


def test_a_catch_is_corrected_and_its_history_stays(visitor, book):
    job = visitor.job()
    visitor.send(f"{job}/calibrate", {**visitor.LIGHT, "setting": "40"})
    (catch,) = book.things("catch")
    fields = visitor.read(f"/catches/{catch.id}").fields
    assert (fields["setting"], fields["net"], fields["net_unit"]) == ("40", "35.33", "oz")
    visitor.send(f"/catches/{catch.id}", fields | {"setting": "30", "why": "typed wrong"})
    assert labels.CATCH_AT(n=1, setting=30) in visitor.read(f"{job}/calibrate").text
    page = visitor.read(f"/catches/{catch.id}")
    assert "typed wrong" in page.text
    assert [entry.body.setting for entry in book.history(catch.id)] == [40, 30]


def test_a_wrong_correction_changes_nothing(visitor, book):
    job = visitor.job()
    visitor.send(f"{job}/calibrate", visitor.LIGHT)
    (catch,) = book.things("catch")
    page = visitor.send(f"/catches/{catch.id}", {**visitor.LIGHT, "net": "x"}, code=422)
    assert page.fields["net"] == "x"
    assert len(book.history(catch.id)) == 1


def test_a_catch_left_out_no_longer_counts(visitor, book):
    job = visitor.job()
    visitor.send(f"{job}/calibrate", visitor.LIGHT)
    (catch,) = book.things("catch")
    visitor.send(f"/catches/{catch.id}/remove", {"why": "bag tore"})
    assert CHART_ALONE in visitor.read(f"{job}/calibrate").text
    assert labels.LEFT_OUT_NOW in visitor.read(f"/catches/{catch.id}").text


def test_boxes_are_set_one_by_one(visitor, book):
    boxes = {"box1_name": "grain", "box2_name": "small seed"}
    drill = visitor.heron(**boxes).rsplit("/", 1)[1]
    wanted = {"wanted1_box": "grain", "wanted2_box": "small seed", "wanted2_rate": "40 lb/ac"}
    job = visitor.send("/jobs/new", {**visitor.JOB, "drill": drill, **wanted})
    visitor.send(f"{job}/calibrate", {**visitor.LIGHT, "box": "grain"})
    moved = labels.MOVE_FROM_TO.like(levers=labels.THE_LEVER, from_=30)
    assert re.search(moved, visitor.read(f"{job}/calibrate?box=grain").text)
    other = visitor.read(f"{job}/calibrate?box=small+seed")
    assert CHART_ALONE in other.text
    assert f"{job}/calibrate?box=grain" in other.links
    visitor.read(f"{job}/calibrate?box=none", code=422)


def test_gears_and_a_reversed_scale(visitor, book):
    gears = {"gear1_name": "full", "gear1_ratio": "1", "gear2_name": "half", "gear2_ratio": "1/2"}
    drill = visitor.send("/drills/new", {**visitor.HERON, **gears, "scale_reversed": "yes"})
    chart = {"points": "40\t36\n30\t54\n20\t72", "unit": "lb/ac", "gear": "full"}
    visitor.send(f"{drill}/charts/new", chart)
    wanted = {"drill": drill.rsplit("/", 1)[1], "wanted1_gear": "full"}
    job = visitor.send("/jobs/new", {**visitor.JOB, **wanted})
    first = visitor.read(f"{job}/calibrate").text
    assert f"{lever(labels.SET_TO, to=30)} {labels.GEAR_OF(gear='full')}" in first
    visitor.send(f"{job}/calibrate", {**visitor.LIGHT, "gear": "full"})
    assert lever(labels.MOVE_FROM_TO, from_=30, to=2) in visitor.read(f"{job}/calibrate").text


def test_without_a_wheel_turns_say_nothing(visitor):
    drill = visitor.send("/drills/new", {**visitor.HERON, "rolled": ""}).rsplit("/", 1)[1]
    job = visitor.send("/jobs/new", {**visitor.JOB, "drill": drill})
    assert labels.WHEEL_NOT_MEASURED in visitor.read(f"{job}/calibrate").text
    page = visitor.send(f"{job}/calibrate", visitor.LIGHT, code=422)
    assert labels.WHEEL_UNMEASURED in page.wrong["turns"]


def test_other_ground_to_stand_for(visitor):
    job = visitor.job()
    # Half the ground, half the turns.
    assert labels.TURN_WHEEL(n=11) in visitor.read(f"{job}/calibrate?ground=1/40+ac").text
    assert visitor.read(f"{job}/calibrate?ground=a+lot").code == 200


def test_metric_readers_read_metric(visitor, client):
    job = visitor.job()
    visitor.send(f"{job}/calibrate", visitor.LIGHT)
    client.set_cookie("units", "metric")
    page = visitor.read(f"{job}/calibrate")
    # 48.6 lb/ac × 1.12085 is 54.5 kg/ha.
    assert in_field("54.5 kg/ha") in page.text
    # The scale that was read last reads ounces.
    assert page.fields["net_unit"] == "oz"


def test_what_to_do_comes_in_order_before_the_first_turn(visitor):
    page = visitor.read(f"{visitor.job()}/calibrate").text
    words = ("manual", "key out", "jack stands", "under the drill", "gloves", "mask")
    below = page.partition(labels.BEFORE_YOU_TURN)[2]
    at = [below.index(word) for word in words]
    assert at == sorted(at)
    counting = labels.COUNT_TURNS
    assert at[-1] < page.index(counting if counting in page else labels.SAVE_CATCH)


def test_a_notch_can_be_taken_all_the_same_and_another_later(visitor, book):
    job = visitor.job()
    page = visitor.send(f"{job}/calibrate/choose", {"take": "70"}, code=422)
    assert labels.GIVE_NUMBER_RANGE(low=0, high=60) in page.wrong["take"]
    visitor.send(f"{job}/calibrate/choose", {"take": "31"})
    visitor.send(f"{job}/calibrate/choose", {"take": "32"})
    assert labels.LEVER_STANDS_AT(setting=32)[:-1] in visitor.read(f"{job}/calibrate").text
    assert len(book.things("setting")) == 2


def test_a_catch_that_cannot_be_measured_any_more_is_pointed_at(visitor, book):
    job = visitor.job()
    visitor.send(f"{job}/calibrate", visitor.LIGHT)
    (catch,), (drill,) = book.things("catch"), book.things("drill")
    fields = visitor.read(f"/drills/{drill.id}/edit").fields
    visitor.send(f"/drills/{drill.id}/edit", fields | {"rows": "12"})
    page = visitor.read(f"{job}/calibrate")
    said = f"catch 1 : {labels.GIVE_OPEN_ROWS(rows=12)}"
    assert said in page.text.replace("1:", "1 :")
    assert f"/catches/{catch.id}" in page.links


# Rows as a crew takes them: a few across the drill, each weighed by itself; row 8 gave nothing.
ROWS = (1, 3, 6, 8, 11, 14, 17, 20)
PLUGGED = {"setting": "30", "turns": "20", "unit": "g"} | {
    f"row{row}": "0" if row == 8 else "50" for row in ROWS
}


def test_a_plugged_row_is_the_headline_under_its_own_number(visitor):
    job = visitor.job()
    visitor.send(f"{job}/calibrate", PLUGGED)
    page = visitor.read(f"{job}/calibrate")
    assert labels.ROW_NUMBER(rows=8) in page.text
    assert labels.LEAVE_LEVER(setting=30) in page.text
    assert not re.search(lever(labels.MOVE_FROM_TO, from_=30, to=".*"), page.text)
    assert page.fields["setting"] == "30"
    # The job's page leads to the same.
    assert labels.ROW_NUMBER(rows=8) in visitor.read(job).text


def test_a_catch_with_a_plugged_row_counts_where_somebody_says_so(visitor, book):
    job = visitor.job()
    visitor.send(f"{job}/calibrate", PLUGGED)
    (catch,) = book.things("catch")
    visitor.send(f"/catches/{catch.id}/count", {})
    page = visitor.read(f"{job}/calibrate")
    assert re.search(labels.MOVE_FROM_TO.like(from_=30), page.text)
    assert book.get(catch.id).body.counted


@pytest.mark.parametrize(("row", "shut"), [(8, (1, 0)), (1, (0, 1)), (20, (0, 1))])
def test_a_row_shut_off_on_purpose_is_told_to_the_job(visitor, row, shut):
    """The seven rows left in the catch stand for the nineteen that are open."""
    job = visitor.job()
    weights = {f"row{each}": "0" if each == row else "50" for each in ROWS}
    visitor.send(f"{job}/calibrate", PLUGGED | weights)
    (catch,) = visitor.book.things("catch")
    visitor.send(f"/catches/{catch.id}/shut", {"row": str(row)})
    body = visitor.book.things("job")[0].body
    assert (body.blocked, body.blocked_end) == shut
    assert [bag.row for bag in visitor.book.get(catch.id).body.bags] == [
        r for r in ROWS if r != row
    ]
    assert labels.ROW_NUMBER(rows=row) not in visitor.read(f"{job}/calibrate").text


def test_a_row_is_shut_off_once(visitor, book):
    job = visitor.job()
    visitor.send(f"{job}/calibrate", PLUGGED)
    (catch,) = book.things("catch")
    visitor.send(f"/catches/{catch.id}/shut", {"row": "8"})
    page = visitor.send(f"/catches/{catch.id}/shut", {"row": "8"}, code=422)
    assert "row" in page.wrong or page.text
    assert book.things("job")[0].body.blocked == 1


def test_the_unit_of_the_last_weight_is_offered_again(visitor):
    job = visitor.job()
    visitor.send(f"{job}/calibrate", {**visitor.LIGHT, "net": "1001.6", "net_unit": "g"})
    assert visitor.read(f"{job}/calibrate").fields["net_unit"] == "g"


def test_rows_by_number_come_back_as_they_were_typed(visitor, book):
    job = visitor.job()
    typed = {**visitor.LIGHT, "rows_caught": "1-6, 7-12", "net": "12.1, 12.3 oz"}
    visitor.send(f"{job}/calibrate", typed)
    (catch,) = book.things("catch")
    assert [(bag.row, bag.rows) for bag in catch.body.bags] == [(1, 6), (7, 6)]
    assert visitor.read(f"/catches/{catch.id}").fields["rows_caught"] == "1-6, 7-12"


TWO_BOXES = {
    "wanted1_box": "grain",
    "wanted2_box": "small seed",
    "wanted2_rate": "6",
    "wanted2_rate_unit": "lb/ac",
    "wanted2_tolerance": "10",
    "wanted2_tolerance_unit": "%",
}


def two_boxes(visitor):
    drill = visitor.heron(box1_name="grain", box2_name="small seed").rsplit("/", 1)[1]
    return visitor.job(drill=drill, **TWO_BOXES)


def test_two_boxes_are_caught_in_the_same_turns(visitor, book):
    job = two_boxes(visitor)
    also = {"also1_setting": "12", "also1_net": "3.9", "also1_net_unit": "oz"}
    fields = {**visitor.LIGHT, "box": "grain", "also1_entry": book.new_id(), **also}
    visitor.send(f"{job}/calibrate", fields)
    made = {each.body.box: each.body for each in book.things("catch")}
    assert made["grain"].setting == 30
    assert (made["small seed"].setting, made["small seed"].turns.text) == (12, "20")
    assert made["small seed"].bags[0].weight.text == "3.9 oz"


def test_a_refusal_of_the_other_box_stands_at_its_field_and_nothing_is_saved(visitor, book):
    job = two_boxes(visitor)
    also = {"also1_setting": "99", "also1_net": "3.9", "also1_entry": book.new_id()}
    page = visitor.send(f"{job}/calibrate", {**visitor.LIGHT, "box": "grain", **also}, code=422)
    assert "also1_setting" in page.wrong
    assert book.things("catch") == []


def test_one_box_leads_to_the_next_and_then_to_seeding(visitor):
    job = two_boxes(visitor)
    visitor.send(f"{job}/calibrate/choose", {"box": "grain", "take": "33"})
    assert labels.NEXT_BOX(box="small seed") in visitor.read(f"{job}/calibrate?box=grain").text
    visitor.send(f"{job}/calibrate/choose", {"box": "small seed", "take": "12"})
    assert labels.GO_TO_SEEDING in visitor.read(f"{job}/calibrate?box=grain").text


def test_what_nothing_can_better_is_locked_in_on_the_spot(visitor):
    """Two rows of twenty, time and again: what all catches share keeps the odds down."""
    job = visitor.job()
    few = {"setting": "30", "turns": "20", "rows_caught": "1", "net": "1.963", "net_unit": "oz"}
    for _ in range(6):
        visitor.send(f"{job}/calibrate", few)
    assert labels.LOCK_IN(setting=30) in visitor.read(f"{job}/calibrate").text


def test_the_scale_is_read_off_what_is_typed_until_its_step_is_entered(visitor, book):
    job = visitor.job()
    whole = visitor.LIGHT | {"net": "36"}
    visitor.send(f"{job}/calibrate", whole)
    assert labels.SCALE_TYPED(step="1 oz") in visitor.read(f"{job}/calibrate").text
    visitor.send(f"{job}/calibrate", whole | {"resolution": "2", "resolution_unit": "g"})
    page = visitor.read(f"{job}/calibrate")
    assert labels.SCALE_READ(step="2 g") in page.text
    assert (page.fields["resolution"], page.fields["resolution_unit"]) == ("2", "g")  # again
