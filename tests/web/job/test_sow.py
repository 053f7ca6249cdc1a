"""The Sow step: loads, levels, the lever on the way, checks, the end of a field."""

import re
from itertools import permutations

import pytest

import labels
from evenstand.book.kinds.sown import Load

AT = {"at_unit": "ac", "bag_unit": "lb", "weight_unit": "lb", "left_unit": "lb", "edge_unit": "lb"}


@pytest.fixture
def job(visitor):
    """A job for 60 lb/ac on 38.5 ac, its setting not taken."""
    return visitor.job(wanted1_rate="60")


@pytest.fixture
def set_job(visitor):
    """A job for 54 lb/ac, caught at 33 and taken."""
    made = visitor.job()
    visitor.send(f"{made}/calibrate", visitor.LIGHT)
    visitor.send(f"{made}/calibrate", visitor.GOOD)
    visitor.send(f"{made}/calibrate", visitor.GOOD)
    visitor.send(f"{made}/calibrate/choose", {"take": "33", "gear": "only", "box": ""})
    return made


def in_field(rate):
    return labels.UNIT_IN_FIELD(unit=rate)


def load(visitor, job, at, *, code=303, **fields):
    return visitor.send(f"{job}/seeding/load", {**AT, "at": at, **fields}, code=code)


def level(visitor, job, at, *, code=303, **fields):
    return visitor.send(f"{job}/seeding/level", {**AT, "at": at, **fields}, code=code)


def test_before_anything_the_page_asks_for_a_setting_and_the_first_load(visitor, job):
    page = visitor.read(f"{job}/seeding")
    assert labels.CHOOSE_SETTING_FIRST in page.text
    assert f"{job}/seeding/load" in " ".join(page.links)
    assert labels.STOP_KEY_OUT in page.text
    line = visitor.read(job).text
    assert labels.NEEDS_SETTING_LOAD in line


def test_a_box_by_hand(visitor, job):
    """1000 − 520 on 8 ac are 60; 520 + 450 − 490 = 480 on 8 more are 60 again."""
    load(visitor, job, "0", bags="20", bag="50", edge="2000")
    assert labels.LOADED_READ_BOX in visitor.read(job).text
    load(visitor, job, "8", left="520 ± 5", bags="9", bag="50")
    level(visitor, job, "16", left="490 ± 5")
    page = visitor.read(f"{job}/seeding")
    assert labels.RATE_SO_FAR in page.text
    assert in_field("60 lb/ac") in page.text
    assert labels.RATE_ACROSS_FIELD in page.text
    bags = f"{labels.BAGS_OF(n=20, weight='50 lb')}, "
    assert bags + labels.AT_THE_EDGE(amount="2,000 lb") in page.text
    # 2000 − 450 at the edge and 490 in the box against 22.5 × 60 = 1350: 690 left over.
    assert f"{labels.LEFT_OVER} 690 lb" in page.text
    assert labels.SO_FAR(rate="lb/ac") in visitor.read(job).text


def test_entries_count_in_the_order_of_the_acres(visitor, job):
    """Written down in any order, the page says the same."""
    told = set()
    entries = [
        ("load", {"at": "0", "bags": "20", "bag": "50"}),
        ("load", {"at": "8", "left": "520 ± 5", "bags": "9", "bag": "50", "late": "yes"}),
        ("level", {"at": "16", "left": "490 ± 5"}),
    ]
    for order in permutations(entries[1:]):
        made = visitor.send("/jobs/new", {**visitor.JOB, "name": f"again {len(told)}"})
        load(visitor, made, "0", bags="20", bag="50")
        for kind, fields in order:
            visitor.send(f"{made}/seeding/{kind}", {**AT, **fields})
        text = visitor.read(f"{made}/seeding").text
        told.add(text[text.index(labels.RATE_SO_FAR) : text.index(labels.ENTRIES)])
    assert len(told) == 1


def test_a_form_sent_twice_is_kept_once(visitor, job, book):
    fields = {**AT, "entry": book.new_id(), "at": "0", "weight": "800"}
    for _ in range(2):
        visitor.send(f"{job}/seeding/load", fields)
    assert len(book.things("load")) == 1
    level(visitor, job, "8", left="300")
    visitor.send(f"{job}/seeding/load", fields)  # and once more, when the drill is farther on
    assert len(book.things("load")) == 1


def test_a_field_ends_once_and_not_before_its_loads(visitor, job, book):
    load(visitor, job, "0", weight="3000", day="2026-10-02")
    end = {**AT, "at": "38.5", "left1": "100", "left1_unit": "lb"}
    early = visitor.send(f"{job}/seeding/finished", {**end, "day": "2026-10-01"}, code=422)
    fits = labels.DATE_FITS_OTHERS(loaded="Oct 2, 2026", ended="Oct 1, 2026")
    assert fits in early.wrong["day"]
    future = visitor.send(f"{job}/seeding/finished", {**end, "day": "9999-01-01"}, code=422)
    assert re.search(labels.DATE_NOT_FUTURE.like(), future.wrong["day"])
    visitor.send(f"{job}/seeding/finished", {**end, "day": "2026-10-02"})
    again = visitor.send(f"{job}/seeding/finished", end, code=422)
    assert labels.END_ALREADY_ENTERED in again.wrong["at"]
    (kept,) = book.things("finished")
    visitor.send(f"/sown/{kept.id}", {**end, "day": "2026-10-03"})
    assert book.get(kept.id).body.day == "2026-10-03"


@pytest.mark.parametrize(
    ("kind", "fields", "field"),
    [
        ("load", {"at": "8"}, "weight"),
        ("load", {"at": "8", "bags": "9"}, "bag"),
        ("load", {"at": "8", "bags": "9", "bag": "50", "weight": "450"}, "weight"),
        ("load", {"at": "", "weight": "450"}, "at"),
        ("load", {"at": "2", "weight": "450"}, "at"),
        ("load", {"at": "8", "weight": "0"}, "weight"),
        ("load", {"at": "8", "weight": "much"}, "weight"),
        ("load", {"at": "8", "mark": "90%"}, "mark"),
        ("load", {"at": "8", "weight": "450", "day": "yesterday"}, "day"),
        ("load", {"at": "90", "weight": "450"}, "weight"),
        ("level", {"at": "8"}, "left"),
        ("level", {"at": "8", "left": "4900"}, "left"),
        ("level", {"at": "8", "level": "30"}, "level"),
        ("level", {"at": "8", "left": "30", "level": "30%"}, "level"),
        ("moved", {"at": "8", "setting": ""}, "setting"),
        ("moved", {"at": "8", "setting": "99"}, "setting"),
        ("moved", {"at": "2", "setting": "33"}, "at"),
        ("area", {"shown": "10"}, "known"),
        ("area", {"shown": "10", "known": "1", "known_unit": "ac"}, "shown"),
        ("area", {"shown": "10", "passes": "20"}, "length"),
        ("check", {}, "seeds"),
        ("check", {"seeds": "33 28"}, "length"),
        ("check", {"seeds": "33 x", "length": "3 ft"}, "seeds"),
        ("check", {"dug": "1 1.5", "dug_in": "in"}, "wanted"),
        ("check", {"dug": "1.5", "dug_in": "in", "wanted": "1.5 in"}, "dug"),
        ("finished", {"at": "38.5"}, "left1"),
        ("finished", {"at": "38.5", "left1": "9000", "left1_unit": "lb"}, "left1"),
        ("finished", {"at": "38.5", "left1": "-1", "left1_unit": "lb"}, "left1"),
    ],
)
def test_refused_at_its_field_and_nothing_lost(visitor, job, book, *, kind, fields, field):
    load(visitor, job, "0", weight="1000")
    level(visitor, job, "4", left="760")
    before = len(book.things(kind))
    units = {"shown_unit": "ac", "length_unit": "ft"}
    page = visitor.send(f"{job}/seeding/{kind}", {**AT, **units, **fields}, code=422)
    assert field in page.wrong, page.wrong
    assert len(book.things(kind)) == before
    kept = {name: text for name, text in fields.items() if text}  # the unit stands beside it
    assert {name: page.fields[name].split()[0] for name in kept} == {
        name: text.split()[0].removesuffix("%") for name, text in kept.items()
    }


def test_a_box_read_by_its_mark_asks_for_the_test_weight_right_there(visitor, book):
    """30% of 20 bu of 50 lb/bu: 300 lb."""
    drill = visitor.heron(box1_name="grain", box1_volume="20", box1_volume_unit="bu")
    rate = {"drill": drill.rsplit("/", 1)[1], "wanted1_box": "grain", "wanted1_rate": "60"}
    job = visitor.send("/jobs/new", {**visitor.JOB, **rate})
    load(visitor, job, "0", weight="780", box="grain")
    read = {"box": "grain", "level": "30", "level_unit": "%"}
    refused = level(visitor, job, "8", code=422, **read)
    assert "test_weight" in refused.wrong
    weight = {"test_weight": "50", "test_weight_unit": "lb/bu"}
    level(visitor, job, "8", **read, **weight)
    assert book.get(job.rsplit("/", 1)[1]).body.wanted[0].test_weight.text == "50 lb/bu"
    page = visitor.read(f"{job}/seeding").text
    assert "300 lb" in page
    assert "test_weight" not in visitor.read(f"{job}/seeding/level").fields


def test_more_seed_used_than_was_loaded_is_refused_at_the_load(visitor, set_job):
    """500 lb do not sow 70 acres at some 54 lb/ac."""
    load(visitor, set_job, "0", weight="500")
    page = load(visitor, set_job, "70", code=422, weight="450")
    assert re.search(labels.MORE_SEED_WENT.like(ground="70 ac"), page.wrong["weight"])


def test_what_was_forgotten_is_written_down_late(visitor, job, book):
    load(visitor, job, "0", weight="1000")
    level(visitor, job, "16", left="490")
    assert "late" in load(visitor, job, "8", code=422, weight="450").wrong["at"]
    load(visitor, job, "8", weight="450", late="yes")
    assert in_field("60 lb/ac") in visitor.read(f"{job}/seeding").text  # (1450 − 490) ÷ 16


def test_an_entry_is_corrected_left_out_and_put_back(visitor, job, book):
    load(visitor, job, "0", weight="1000")
    level(visitor, job, "8", left="520")
    entry = f"/sown/{book.things('load')[0].id}"
    fields = visitor.read(entry).fields
    assert (fields["at"], fields["weight"]) == ("0", "1000")
    visitor.send(entry, {**fields, "entry": book.new_id(), "weight": "1040", "why": "misread"})
    assert "520 ÷ 8" in visitor.read(f"{job}/seeding").text.replace(" lb", "").replace(" ac", "")
    text = visitor.read(entry).text
    assert labels.CORRECTED in text
    assert "misread" in text
    level_ = f"/sown/{book.things('level')[0].id}"
    visitor.send(f"{level_}/remove", {})
    unread = labels.NO_CATCH_NO_READING.like(target="60 lb/ac")
    assert re.search(unread, visitor.read(f"{job}/seeding").text)
    assert labels.LEFT_OUT in visitor.read(level_).text
    visitor.send(level_, visitor.read(level_).fields | {"entry": book.new_id()})
    assert labels.RATE_SO_FAR in visitor.read(f"{job}/seeding").text


def test_a_correction_that_cannot_be_is_refused(visitor, job, book):
    load(visitor, job, "0", weight="1000")
    level(visitor, job, "8", left="520")
    entry = f"/sown/{book.things('level')[0].id}"
    fields = visitor.read(entry).fields | {"left": "5200"}
    assert "left" in visitor.send(entry, fields, code=422).wrong


def test_what_no_longer_goes_together_is_said_and_can_be_put_right(visitor, job, book):
    load(visitor, job, "0", weight="1000")
    load(visitor, job, "8", left="520", weight="450")
    first = next(t for t in book.things("load") if isinstance(t.body, Load) and not t.body.at.value)
    visitor.send(f"/sown/{first.id}/remove", {})
    visitor.send(f"/sown/{book.things('load')[0].id}/remove", {})
    level(visitor, job, "8", left="520")
    page = visitor.read(f"{job}/seeding")
    assert "Entries Box reading at 8 ac" in page.text


def test_a_heavy_box_moves_the_lever(visitor, set_job):
    """Three fills of 8 ac lay down 62.5 lb/ac where 54 are wanted."""
    load(visitor, set_job, "0", weight="1000")
    load(visitor, set_job, "8", left="500 ± 4", weight="500")
    load(visitor, set_job, "16", left="500 ± 4", weight="500")
    level(visitor, set_job, "24", left="500 ± 4")
    page = visitor.read(f"{set_job}/seeding")
    assert labels.HEAVY in page.text
    moved = labels.MOVE_FROM_TO(levers=labels.THE_LEVER, from_=33, to=29)
    assert moved in " ".join(box_told(visitor, set_job)["say"].split())
    assert re.search(
        rf"{labels.MOVE_FROM_TO(levers=labels.THE_LEVER, from_=33, to='29')}", page.text
    )


def box_told(visitor, job):
    (box,) = visitor.client.get(f"/api{job}/sow").json["boxes"]
    return box


@pytest.fixture
def light_job(visitor, set_job):
    """360 lb on 8 ac and again on 8 more: 45 lb/ac where 54 are wanted, weighed to 4 lb."""
    load(visitor, set_job, "0", weight="1000")
    level(visitor, set_job, "8", left="640 ± 4")
    level(visitor, set_job, "16", left="280 ± 4")
    return set_job


@pytest.mark.parametrize("to", ["36", "38"])
def test_what_was_told_holds_until_a_new_reading_answers_it(visitor, light_job, to):
    """Moved as told or elsewhere: no other notch is told before the box is read again."""
    before = box_told(visitor, light_job)
    assert before["verdict"] == "light"
    visitor.send(f"{light_job}/seeding/moved", {**AT, "at": "16", "setting": to})
    told, text = box_told(visitor, light_job), visitor.read(f"{light_job}/seeding").text
    assert told["lever"] is None
    assert told["verdict"] is None
    assert told["odds_within"] is None
    assert not told["alarm"]
    assert told["before"]["verdict"] == "light"
    assert told["before"]["odds_light"] == pytest.approx(before["odds_light"])
    assert told["before"]["rate"] == before["rate"]
    for sentence in (
        labels.LEVER_NOW_AT.like(setting=to, target="54 lb/ac"),
        labels.BEFORE_MOVED.like(),
    ):
        assert re.search(sentence, text)
        assert re.search(sentence, told["say"])
    # The chart is a line through 0: 1.8 lb/ac a notch.
    assert told["rate"]["value"] == pytest.approx(45 * int(to) / 33, rel=0.03)
    # Limits of 4 lb, and of 54 lb/ac · 0.05 ac for the place, each ÷ √3 and at both ends:
    # 1.645 · √(2 · (2.31² + 1.56²)) ÷ (5% of 54) = 2.40 ac; readings before narrow the start.
    assert 2.2 < told["awaited"]["ground"]["value"] < 2.4
    assert re.search(labels.READ_BOX_AFTER.like(), told["say"])
    load(visitor, light_job, "17", weight="400")
    assert box_told(visitor, light_job)["lever"] is None
    level(visitor, light_job, "20", left="460 ± 4")
    after = box_told(visitor, light_job)
    assert after["verdict"] is not None
    assert after["awaited"] is after["before"] is None


def test_the_form_of_a_moved_lever_is_filled_in_with_the_notch_told(visitor, light_job):
    """45 lb/ac at 33 where 54 are wanted: 33 · 54 ÷ 45 = 39.6; the promise takes some off."""
    entries = [a for a in visitor.read(f"{light_job}/seeding").links if "/seeding/" in a]
    assert entries[0].split("?")[0].endswith("/moved")  # the first key of the page
    form = visitor.read(f"{light_job}/seeding/moved").fields
    assert form["setting"] == f"{box_told(visitor, light_job)['lever']['setting']:g}"
    assert float(form["setting"]) == pytest.approx(39, abs=1)
    visitor.send(f"{light_job}/seeding/moved", {**AT, "at": "16", "setting": form["setting"]})
    assert not visitor.read(f"{light_job}/seeding/moved").fields.get("setting")
    entries = [a for a in visitor.read(f"{light_job}/seeding").links if "/seeding/" in a]
    assert entries[0].split("?")[0].endswith("/level")


def test_before_any_reading_there_is_no_verdict(visitor, set_job):
    load(visitor, set_job, "0", weight="1000")
    told, page = box_told(visitor, set_job), visitor.read(f"{set_job}/seeding").text
    assert (told["verdict"], told["odds_within"], told["lever"]) == (None, None, None)
    for label in (labels.ON_TARGET, labels.LEAVE_LEVER_ODDS, labels.LEAVE_LEVER_NO):
        assert not re.search(label.like(), page)
    assert re.search(labels.NO_READING_YET.like(target="54 lb/ac"), page)
    assert labels.READ_BOX_AT in page
    assert re.search(labels.READ_BOX_AFTER.like(), told["say"])


def test_a_field_that_is_done_teaches_the_next_job(visitor, set_job, book):
    """2000 − 30 = 1970 lb on 38.5 ac are 51.2 lb/ac, of about 53.5 at the stand."""
    load(visitor, set_job, "0", weight="1000")
    load(visitor, set_job, "16", weight="1000")
    end = {"at": "39", "at_unit": "ac", "left1": "30", "left1_unit": "lb", "soil": "firm"}
    visitor.send(f"{set_job}/seeding/finished", end)
    page = visitor.read(f"{set_job}/seeding")
    out = labels.WENT_OUT.like(used="1,970 lb", ground="38.5 ac", rate="51.2 lb/ac")
    assert re.search(out, page.text)
    meter = labels.AREA_METER_SHOWS.like(shown="39 ac", known="38.5 ac")
    assert re.search(meter, page.text)
    assert "Soil firm" in page.text
    assert labels.RATE_FINISHED(rate="51.2 lb/ac") in visitor.read(set_job).text
    drill = f"/drills/{book.things('drill')[0].id}"
    one_field = labels.COUNT_BENCH_RATE_ONE.like()
    assert re.search(one_field, visitor.read(drill).text)
    job = visitor.send(
        "/jobs/new", {**visitor.JOB, "drill": drill.rsplit("/", 1)[1], "name": "next"}
    )
    text = visitor.read(f"{job}/calibrate").text
    learned = re.search(one_field, text)[0]
    assert labels.USE_OTHER_RATIO(learned=learned) in text
    own = visitor.send(
        "/jobs/new",
        {**visitor.JOB, "drill": drill.rsplit("/", 1)[1], "name": "own", "field_ratio": "1"},
    )
    assert not re.search(one_field, visitor.read(f"{own}/calibrate").text)


def test_what_lies_behind_the_drill(visitor, set_job):
    """54 lb/ac of 18,000 seeds/lb in rows of 7.5 in: 13.95 seeds in a foot, 55.8 in four."""
    found = {"seeds": "13 15 14 12", "length": "1 ft", "seeds_per_kg": "18000 seeds/lb"}
    visitor.send(f"{set_job}/seeding/check", found)
    text = visitor.read(f"{set_job}/seeding").text
    found = labels.FOUND_ROWS_SHOULD.like(found="54 seeds", n=4, expected="55.8 seeds")
    assert re.search(found, text)
    assert labels.GO_COUNT_FITS in text
    deep = {"dug": "1.25 1.3 1.2\n0.2 0.3 0.25", "dug_in": "in", "wanted": "1.25 in"}
    visitor.send(f"{set_job}/seeding/check", deep)
    text = visitor.read(f"{set_job}/seeding").text
    assert labels.DO_DEPTH_STOPS in text


def test_a_count_of_unknown_seed_asks_for_its_number(visitor, set_job):
    visitor.send(f"{set_job}/seeding/check", {"seeds": "13 15", "length": "1 ft"})
    assert labels.GIVE_SEED_COUNT in visitor.read(f"{set_job}/seeding").text


def test_two_boxes_have_a_line_each(visitor):
    boxes = {"box1_name": "grain", "box2_name": "small seed", "box2_seed": "small seed"}
    drill = visitor.heron(**boxes).rsplit("/", 1)[1]
    rates = {"wanted1_box": "grain", "wanted2_box": "small seed", "wanted2_rate": "8 lb/ac"}
    job = visitor.send("/jobs/new", {**visitor.JOB, "drill": drill, **rates})
    load(visitor, job, "0", weight="800", box="grain")
    load(visitor, job, "0", weight="100", box="small seed")
    level(visitor, job, "8", left="36", box="small seed")  # 64 lb on 8 ac
    assert in_field("8 lb/ac") in visitor.read(f"{job}/seeding?box=small+seed").text
    assert "800 lb" not in visitor.read(f"{job}/seeding?box=small+seed").text
    page = visitor.read(job).text
    assert f"{labels.SEEDING} grain {labels.LOADED_READ_BOX}" in page
    assert f"{labels.SEEDING} small seed" in page
    end = {"at": "12.5 ac", "area": "12.5 ac", "left1": "50 lb", "left2": "0 lb"}
    visitor.send(f"{job}/seeding/finished", end)
    page = visitor.read(job).text  # 750 and 100 lb on 12.5 ac
    assert f"{labels.SEEDING} grain {labels.RATE_FINISHED(rate='60 lb/ac')}" in page
    assert f"{labels.SEEDING} small seed {labels.RATE_FINISHED(rate='8 lb/ac')}" in page


def test_a_lever_and_its_gear_are_moved(visitor, book):
    gears = {"gear1_name": "full", "gear1_ratio": "1", "gear2_name": "half", "gear2_ratio": "0.5"}
    drill = visitor.send("/drills/new", {**visitor.HERON, **gears})
    visitor.send(f"{drill}/charts/new", {**visitor.CHART, "gear": "full"})
    job = visitor.send("/jobs/new", {**visitor.JOB, "drill": drill.rsplit("/", 1)[1]})
    visitor.send(f"{job}/calibrate", {**visitor.GOOD, "gear": "full"})
    visitor.send(f"{job}/calibrate/choose", {"take": "33", "gear": "full", "box": ""})
    load(visitor, job, "0", weight="1000")
    level(visitor, job, "8", left="568")
    visitor.send(f"{job}/seeding/moved", {**AT, "at": "8", "setting": "33", "gear": "half"})
    level(visitor, job, "16", left="352")  # 27 lb/ac: half of 54
    text = visitor.read(f"{job}/seeding").text
    assert "Lever change at 8 ac to 33 half" in text
    assert "a change at" not in text
    rate = re.search(rf"{labels.RATE_SO_FAR} {labels.LIGHT} (\S+) lb/ac", text)[1]
    assert float(rate) == pytest.approx(27, abs=0.5)


def test_the_page_says_what_programs_are_told(visitor, set_job):
    load(visitor, set_job, "0", weight="1000", edge="1200")
    level(visitor, set_job, "8", left="570 ± 4")
    (box,) = visitor.client.get(f"/api{set_job}/sow").json["boxes"]
    text = visitor.read(f"{set_job}/seeding").text
    assert in_field(f"{box['rate']['value']:.3g} lb/ac") in text
    assert box["say"].split(". ")[0] in text
    assert f"{labels.LEFT_OVER} {-box['run_out']['short']['value']:.3g} lb" in text


def test_programs_are_told_what_is_missing(visitor, set_job):
    answer = visitor.client.get(f"/api{set_job}/sow")
    assert answer.status_code == 422


def test_there_is_no_such_entry(visitor, job):
    visitor.read(f"{job}/seeding/other", code=404)
    visitor.read(f"/sown/{job.rsplit('/', 1)[1]}", code=404)
