"""Jobs: one field, one mix, one drill, one season, and its seven steps."""

import re

import pytest

import labels
from evenstand.demo.book import fill
from evenstand.engine.quantities.units import ACRE, POUND_PER_ACRE

STEPS = ("Mix", "Boxes", "Order", "Calibrate", "Seeding", "Stand count", "Record")


def test_a_job_is_kept_with_its_field(visitor, book):
    visitor.job()
    (job,), (field,) = book.things("job"), book.things("field")
    assert job.body.field == field.id
    assert field.body.area.value == pytest.approx(38.5 * ACRE)
    assert job.body.wanted[0].rate.value == pytest.approx(54 * POUND_PER_ACRE)


def test_a_job_sent_twice_is_kept_once_and_so_is_its_field(visitor, book):
    drill = visitor.heron().rsplit("/", 1)[1]
    ids = {"entry": book.new_id(), "field_entry": book.new_id()}
    fields = {**visitor.JOB, "drill": drill, **ids}
    assert visitor.send("/jobs/new", fields) == visitor.send("/jobs/new", fields)
    assert (len(book.things("job")), len(book.things("field"))) == (1, 1)


def test_a_job_can_take_a_field_that_is_there(visitor, book):
    visitor.job()
    (field,) = book.things("field")
    again = {**visitor.JOB, "field": field.id, "field_name": "", "field_area": ""}
    visitor.send("/jobs/new", again)
    assert len(book.things("field")) == 1
    assert {job.body.field for job in book.things("job")} == {field.id}


@pytest.mark.parametrize(
    "case",
    [
        ("name", "", labels.MISSING_GIVE.like()),
        ("wanted1_rate", "54 ft", labels.WANTED_SUCH.like(given="54 ft", name="a length")),
        ("wanted1_rate", "1 bu/ac", labels.GIVE_TEST_WEIGHT_TOO.like()),
        ("wanted1_rate", "54 ± 2 lb/ac", labels.WRITE_WITHOUT_ABOUT),
        ("wanted1_rate", "", labels.MISSING_GIVE.like()),
        ("wanted1_tolerance", "60", labels.PERCENT_UP_TO_HALF.like()),
        ("speed", "fast", labels.WRITE_SUCH.like(wanted="a speed")),
        ("blocked", "some", labels.WRITE_SUCH.like(wanted="a number of rows")),
        ("field_area", "38.5 lb", labels.WANTED_SUCH.like(given="38.5 lb", name="a weight")),
        ("drill", "01a20f15-2c80-7000-8000-000000000000", labels.CHOOSE_FROM_LIST.like()),
    ],
)
def test_a_refusal_stands_at_its_field(visitor, book, case):
    field, typed, need = case
    page = visitor.send("/jobs/new", {**visitor.JOB, field: typed}, code=422)
    assert re.search(need, page.wrong[field])
    assert page.fields["name"] == ("" if field == "name" else "Alder Bench, fall")
    assert book.things("job") == []


def test_bushels_with_their_test_weight(visitor, book):
    weights = {"wanted1_rate": "0.9 bu/ac", "wanted1_test_weight": "60 lb/bu"}
    visitor.job(**weights)
    (job,) = book.things("job")
    # 0.9 bu/ac at 60 lb/bu are 54 lb/ac.
    assert job.body.wanted[0].rate.value == pytest.approx(54 * POUND_PER_ACRE)


def test_the_job_page_is_its_seven_steps(visitor):
    page = visitor.read(visitor.job())
    places = [page.text.rindex(f" {step} ") for step in STEPS]
    assert places == sorted(places)
    assert labels.NEXT_STEP(step="Calibrate") in page.text
    assert labels.NEXT_SETTING(setting=30) in page.text


@pytest.mark.parametrize(
    ("step", "title"),
    [
        ("mix", "Mix"),
        ("boxes", "Seed boxes"),
        ("order", "Seed order"),
        ("calibrate", "Calibrate"),
        ("seeding", "Seeding"),
        ("stand-count", "Stand count"),
        ("record", "Seeding record"),
    ],
)
def test_each_step_has_a_page(visitor, step, title):
    job = visitor.job()
    page = visitor.read(f"{job}/{step}")
    assert f"{job}" in page.links
    assert page.text.startswith(f"{title} · Alder Bench, fall")


def test_a_job_without_drill_or_rate_says_what_is_missing(visitor):
    job = visitor.send("/jobs/new", {"name": "Alder Bench"})
    assert labels.ENTER_TARGET_RATE in visitor.read(job).text
    page = visitor.read(f"{job}/calibrate")
    assert labels.CHOOSE_DRILL_FIRST in page.text
    assert f"{job}/edit" in page.links


def test_a_job_is_changed_and_keeps_its_mix(visitor, book, samples_mix):
    job = visitor.job()
    (thing,) = book.things("job")
    fields = visitor.read(f"{job}/edit").fields
    assert (fields["wanted1_rate"], fields["wanted1_rate_unit"]) == ("54", "lb/ac")
    samples_mix(thing)
    visitor.send(f"{job}/edit", fields | {"wanted1_rate": "60"})
    changed = book.get(thing.id).body
    assert changed.wanted[0].rate.text == "60 lb/ac"
    assert changed.mix is not None


def test_the_list_says_which_jobs_are_finished(visitor, book):
    fill(book)
    ends = {end.body.job for end in book.things("finished")}
    assert visitor.read("/").text.count("finished") == len(ends) == 5


def test_the_list_says_how_far_each_job_is(visitor):
    job = visitor.job()
    assert labels.NO_CATCHES_YET in visitor.read("/").text
    visitor.send(f"{job}/calibrate", visitor.LIGHT)
    assert "1 catch" in visitor.read("/").text
    visitor.send(f"{job}/remove", {})
    assert "Alder Bench" not in visitor.read("/").text


def test_many_jobs_go_over_pages(visitor, book):
    from evenstand.book.kinds.work import Job

    for i in range(45):
        book.add(Job(name=f"Field {i}"))
    first = visitor.read("/")
    assert "Field 44" in first.text
    assert "Field 4 " not in first.text
    (older,) = [link for link in first.links if "after=" in link]
    assert "Field 4 " in visitor.read(older).text


def test_a_drill_taken_off_the_list_is_still_that_of_its_jobs(visitor, book):
    drill = visitor.send(
        "/drills/new", {"name": "Old Heron", "rows": "20", "spacing": "7.5", "spacing_unit": "in"}
    )
    id = drill.rsplit("/", 1)[1]
    job = visitor.send("/jobs/new", {"name": "Fall", "drill": id})
    visitor.send(f"{drill}/remove", {})
    assert "Old Heron" not in visitor.read("/drills").text
    assert labels.REMOVED_JOBS_GO_ON in visitor.read(drill).text
    assert "Old Heron" in visitor.read(f"{job}/calibrate").text
    assert "Old Heron" not in visitor.read("/jobs/new").text
    form = visitor.read(f"{job}/edit").fields
    assert form["drill"] == id
    visitor.send(f"{job}/edit", form)
    assert book.get(job.rsplit("/", 1)[1]).body.drill == id
    visitor.send(f"{drill}/edit", visitor.read(f"{drill}/edit").fields)
    assert labels.REMOVED_JOBS_GO_ON not in visitor.read(drill).text
    assert "Old Heron" in visitor.read("/drills").text


def test_a_metric_reader_reads_acres_and_pounds_in_metric_units_with_what_was_typed(
    visitor, client
):
    """38.5 ac are 15.58 ha."""
    job = visitor.job()
    assert "38.5 ac" in visitor.read(job).text
    client.set_cookie("units", "metric")
    assert "15.6 ha (38.5 ac)" in visitor.read(job).text
    assert "15.6 ha" in (page := visitor.read(f"{job}/calibrate")).text
    assert "38.5 ac" not in page.text
    drill = visitor.send("/drills/new", visitor.HERON | {"name": "Teal"})
    assert "19.1 cm (7.5 in)" in visitor.read(drill).text


def test_the_list_shows_the_setting_of_every_box(visitor):
    boxes = {"box1_name": "grain", "box2_name": "small seed", "box2_seed": "small seed"}
    drill = visitor.heron(**boxes).rsplit("/", 1)[1]
    rates = {"wanted1_box": "grain", "wanted2_box": "small seed", "wanted2_rate": "8 lb/ac"}
    job = visitor.send("/jobs/new", {**visitor.JOB, "drill": drill, **rates})
    for box, take in (("grain", "30"), ("grain", "33"), ("small seed", "12")):
        visitor.send(f"{job}/calibrate", {**visitor.GOOD, "box": box, "setting": take})
        visitor.send(f"{job}/calibrate/choose", {"take": take, "gear": "only", "box": box})
    assert labels.SET_AT(setting="33 · small seed 12") in visitor.read("/").text
