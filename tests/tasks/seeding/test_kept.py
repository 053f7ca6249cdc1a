"""Kept entries of sowing, read by the same task as a job file."""

import pytest
from msgspec.structs import replace

import labels
from evenstand.book.kinds import machine, sown, work
from evenstand.book.kinds.shape import Typed
from evenstand.book.opening import open_book
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import ACRE, BUSHEL, INCH, POUND, POUND_PER_ACRE
from evenstand.report.json import as_json
from evenstand.tasks.job.calibration import target
from evenstand.tasks.job.kept import find
from evenstand.tasks.seeding.closed import closed_boxes
from evenstand.tasks.seeding.kept import sow_said
from evenstand.tasks.seeding.on_the_way import on_the_way
from evenstand.tasks.seeding.said import sow_in
from evenstand.tasks.seeding.seeding import read_sow
from evenstand.tasks.whole_job.seeding import check_entry, sow_job

STYLE = Style(system="us")


def lb(value):
    return Typed(value=value * POUND, text=f"{value} lb")


def ac(value):
    return Typed(value=value * ACRE, text=f"{value} ac")


@pytest.fixture
def book():
    with open_book(":memory:", device="shed", who="Ada") as opened:
        yield opened


@pytest.fixture
def job(book):
    drill = book.add(
        machine.Drill(name="Heron", rows=24, spacing=Typed(value=7.5 * INCH, text="7.5 in"))
    ).about
    field = book.add(work.Field(name="Alder Bench", area=ac(38.5))).about
    wanted = work.Wanted(rate=Typed(value=60 * POUND_PER_ACRE, text="60 lb/ac"))
    id = book.add(work.Job(name="fall", drill=drill, field=field, wanted=(wanted,))).about
    book.add(work.Order(job=id, pass_length=Typed(value=1320 * 0.3048, text="1320 ft")))
    return id


@pytest.fixture
def loaded(book, job):
    """1000 lb at first, 450 at 8 ac with 520 left, 490 left at 16."""
    left = Typed(value=520 * POUND, give_or_take=5 * POUND, text="520 ± 5 lb")
    book.add(sown.Level(job=job, at=ac(16), left=lb(490)))
    book.add(sown.Load(job=job, at=ac(8), bags=Typed(value=9, text="9"), bag=lb(50), left=left))
    book.add(sown.Load(job=job, at=ac(0), weight=lb(1000), edge=lb(2000)))
    return job


def test_a_target_with_limits_of_its_own_is_refused_as_calibrate_does(book, loaded):
    """An earlier release kept them; Calibrate and Seeding name the same field."""
    body = book.get(loaded).body
    wide = replace(body.wanted[0].rate, give_or_take=POUND_PER_ACRE, text="60 ± 1 lb/ac")
    book.correct(loaded, replace(body, wanted=(replace(body.wanted[0], rate=wide),)))
    kept = find(book, loaded)
    with pytest.raises(MeasurementError, match=labels.WRITE_WITHOUT_ABOUT.like()) as refused:
        target(kept.wanted)
    with pytest.raises(MeasurementError, match=labels.WRITE_WITHOUT_ABOUT.like()) as sown_:
        read_sow(sow_said(book, on_the_way(book, kept)))
    assert (refused.value.field, sown_.value.given) == ("target", "60 ± 1 lb/ac")


def test_what_happened_is_in_order_with_the_entries_it_was_made_of(book, loaded):
    said = sow_said(book, on_the_way(book, find(book, loaded)))
    [box] = said.boxes
    assert [(e.load.at.text, e.load.weight and e.load.weight.text) for e in box.events] == [
        ("0 ac", "1000 lb"),
        ("8 ac", None),
        ("16 ac", None),
    ]
    assert [e.load.left and e.load.left.text for e in box.events] == [None, "520 ± 5 lb", "490 lb"]
    assert (box.events[1].load.bags.text, box.events[1].load.bag.text) == ("9", "50 lb")
    assert (said.area.text, said.pass_length.text) == ("38.5 ac", "1320 ft")
    assert box.at_edge == pytest.approx(1550 * POUND)  # 2000 − 450
    assert [book.get(event.id).kind for event in said.events] == ["load", "load", "level"]


def test_the_dead_part_of_a_box_stays_in_it_where_nothing_else_was_typed(book, loaded):
    """4% of 32 bu at 56 lb each: 71.68 lb."""
    kept = find(book, loaded)
    volume = Typed(value=32 * BUSHEL, text="32 bu")
    box = machine.Box(name="grain", volume=volume, dead=0.04)
    book.correct(kept.drill_id, replace(kept.drill, boxes=(box,)))
    packed = Typed(value=56 * POUND / BUSHEL, text="56 lb/bu")
    wanted = (replace(kept.wanted, test_weight=packed),)
    book.correct(loaded, replace(kept.body, wanted=wanted))
    [box] = sow_said(book, on_the_way(book, find(book, loaded))).boxes
    assert box.heel == pytest.approx(71.68 * POUND)


def test_rows_shut_at_an_end_narrow_the_passes(book, loaded):
    """Twelve of 24 rows at 7.5 in cover 7.5 ft: 176 passes of a quarter mile are 40 ac."""
    kept = find(book, loaded)
    book.correct(loaded, replace(kept.body, blocked_end=12))
    length = Typed(value=1320 * 0.3048, text="1320 ft")
    passes = Typed(value=176.0, text="176")
    book.add(sown.Ground(job=loaded, shown=ac(40), passes=passes, length=length))
    found = sow_job(book, find(book, loaded)).field.boxes[0].found
    assert found.balance.known.scale == pytest.approx(1)


def test_a_file_says_the_same(book, loaded):
    file = {
        "field": {"area": "38.5 ac", "pass_length": "1320 ft"},
        "drill": {"rows": 24, "spacing": "7.5 in"},
        "sow": [{"rate": "60 lb/ac", "at_edge": "1550 lb"}],
        "loads": [
            {"at": "0 ac", "weight": "1000 lb"},
            {"at": "8 ac", "left": "520 ± 5 lb", "bags": 9, "bag": "50 lb"},
            {"at": "16 ac", "left": "490 lb"},
        ],
    }
    kept = as_json(sow_job(book, find(book, loaded)).field, STYLE)["boxes"][0]
    told = as_json(read_sow(sow_in(file)), STYLE)["boxes"][0]
    assert kept["say"] == told["say"]
    assert kept["rate"]["value"] == pytest.approx(told["rate"]["value"])
    assert kept["stretches"][0]["rate"]["value"] == pytest.approx(60)


def test_passes_hold_the_area_meter_against_the_ground(book, loaded):
    """20 passes of 1320 ft × 15 ft are 9.09 ac; the meter showed 10."""
    book.add(
        sown.Ground(
            job=loaded,
            shown=ac(10),
            passes=Typed(value=20, text="20"),
            length=Typed(value=1320 * 0.3048, text="1320 ft"),
        )
    )
    found = sow_job(book, find(book, loaded)).field.boxes[0].found
    assert found.balance.known.scale == pytest.approx(20 * 1320 * 15 / 43560 / 10)
    assert found.balance.known.meter.known


def test_a_check_by_more_ground_counts(book, loaded):
    book.add(sown.Ground(job=loaded, shown=ac(40), known=ac(40)))
    book.add(sown.Ground(job=loaded, shown=ac(2), known=ac(1.5)))
    found = sow_job(book, find(book, loaded)).field.boxes[0].found
    assert found.balance.known.scale == pytest.approx(1)


def test_a_field_that_is_done_checks_its_own_meter(book, loaded):
    left = sown.Left(weight=lb(100))
    book.add(sown.Load(job=loaded, at=ac(16), weight=lb(960)))
    book.add(sown.Finished(job=loaded, at=ac(39.3), left=(left,)))
    (box,) = sow_job(book, find(book, loaded)).field.boxes
    # (1000 + 450 + 960 − 100) lb ÷ 38.5 ac = 60.
    assert box.closed.rate.value / POUND_PER_ACRE == pytest.approx(60)
    assert box.found.balance.known.scale == pytest.approx(38.5 / 39.3)
    assert box.closed.ratio is None  # no catch was made


def test_the_end_of_a_field_does_not_hang_on_what_set_found(book, loaded):
    kept = find(book, loaded)
    assert closed_boxes(book, on_the_way(book, kept)) == {}
    book.add(sown.Finished(job=loaded, at=ac(39), left=(sown.Left(weight=lb(80)),)))
    book.add(work.Chosen(job=loaded, drill=kept.drill_id, setting=30.0))
    (box,) = sow_job(book, kept).field.boxes
    alone = closed_boxes(book, on_the_way(book, kept))[""]
    assert (alone.rate, alone.used, alone.say) == (box.closed.rate, box.closed.used, box.closed.say)


def test_nothing_written_down_is_nothing_followed(book, job):
    assert sow_job(book, find(book, job)).field is None


@pytest.mark.parametrize(
    ("body", "field"),
    [
        (sown.Level(job="", at=ac(20), left=lb(3000)), "left"),
        (sown.Ground(job="", shown=ac(10), known=ac(1)), "shown"),
        (sown.Finished(job="", at=ac(39), left=(sown.Left(weight=lb(3000)),)), "left1"),
    ],
)
def test_what_does_not_fit_is_refused_at_its_own_field(book, loaded, *, body, field):
    with pytest.raises(MeasurementError) as refused:
        check_entry(book, find(book, loaded), body)
    assert refused.value.field == field


def test_what_was_wrong_before_does_not_keep_the_next_entry_out(book, loaded):
    book.add(sown.Level(job=loaded, at=ac(20), left=lb(3000)))
    with pytest.raises(MeasurementError):
        sow_job(book, find(book, loaded))
    check_entry(book, find(book, loaded), sown.Load(job=loaded, at=ac(20), weight=lb(500)))


@pytest.mark.parametrize(
    ("filled", "order"), [(False, ["left", "weight"]), (True, ["weight", "left"])]
)
def test_a_level_at_the_place_of_a_load_comes_before_it(book, job, *, filled, order):
    """Nobody reads a box after filling it, unless he says so; who wrote first does not matter."""
    book.add(sown.Load(job=job, at=ac(0), weight=lb(1000)))
    book.add(sown.Load(job=job, at=ac(8), weight=lb(450)))
    book.add(sown.Level(job=job, at=ac(8), left=lb(970 if filled else 520), filled=filled))
    _, *events = sow_said(book, on_the_way(book, find(book, job))).events
    assert ["left" if each.load.left else "weight" for each in events] == order
    (box,) = sow_job(book, find(book, job)).field.boxes
    assert box.found.rate.value / POUND_PER_ACRE == pytest.approx(60, abs=0.3)
