"""What Set is told of the boxes, and where it aims at something else."""

import pytest
from msgspec.structs import replace

import labels
from evenstand.book.kinds.shape import Typed
from evenstand.book.kinds.work import Job, Wanted
from evenstand.demo.jobs import alder_bench
from evenstand.engine.quantities.units import POUND_PER_ACRE, POUND_PER_BUSHEL
from evenstand.engine.seed.tag import Month
from evenstand.tasks.boxes.boxes import fill
from evenstand.tasks.boxes.handed_over import apart, asked, changes, handed_over
from evenstand.tasks.boxes.said import boxes_in

# Rye 40, vetch 12 and radish 2 lb/ac in the grain box, 57 lb/bu as measured.
FILE = {
    **alder_bench().job,
    "mix": [
        {"lot": "R-26", "bulk": "40 lb/ac", "box": "grain"},
        {"lot": "V-26", "bulk": "12 lb/ac", "box": "grain"},
        {"lot": "C-26", "bulk": "3 lb/ac", "box": "small seed"},
        {"lot": "T-26", "bulk": "2 lb/ac", "box": "grain"},
    ],
}


def pounds(rate):
    return Typed(value=rate * POUND_PER_ACRE, text=f"{rate} lb/ac")


@pytest.fixture(scope="module")
def boxes():
    return fill(boxes_in(FILE), today=Month(2026, 11))


def job(*wanted):
    return Job(name="Fall", wanted=wanted)


def test_each_box_has_its_line(boxes):
    body = handed_over(job(), boxes, system="us")
    assert [(line.box, line.rate.text) for line in body.wanted] == [
        ("grain", "54 lb/ac"),
        ("small seed", "3 lb/ac"),
    ]
    assert body.wanted[0].test_weight.value == pytest.approx(57 * POUND_PER_BUSHEL)


def test_it_is_the_same_twice(boxes):
    once = handed_over(job(), boxes, system="us")
    assert handed_over(once, boxes, system="metric") == once


@pytest.mark.parametrize(("rate", "kept"), [(54.26, True), (54.28, False), (53.74, True)])
def test_rates_agree_to_half_a_per_cent(boxes, rate, kept):
    """54 × 1.005 is 54.27, 54 × .995 is 53.73."""
    body = handed_over(job(Wanted(box="grain", rate=pounds(rate))), boxes, system="us")
    assert (body.wanted[0].rate == pounds(rate)) == kept


def test_the_first_line_without_a_box_goes_to_the_first_box_without_a_line(boxes):
    lines = (Wanted(rate=pounds(9)), Wanted(box="grain", rate=pounds(54)))
    grain, small = asked(job(*lines), boxes)
    assert grain.wanted is lines[1]
    assert small.wanted is lines[0]
    assert asked(job(*lines), boxes, bare=False)[1].wanted is None


def test_lines_of_boxes_that_the_drill_has_not_stay(boxes):
    other = Wanted(box="fertilizer", rate=pounds(100))
    body = handed_over(job(other), boxes, system="us")
    assert body.wanted[-1] == other


def test_where_no_measure_was_weighed_the_test_weight_of_the_line_stays(boxes):
    unweighed = [{k: v for k, v in box.items() if k != "test_weight"} for box in FILE["boxes"]]
    known = fill(boxes_in({**FILE, "boxes": unweighed}), today=Month(2026, 11))
    weight = Typed(value=700.0, text="70 kg/hL")
    before = job(Wanted(box="grain", rate=pounds(54), test_weight=weight))
    assert handed_over(before, known, system="us").wanted[0].test_weight == weight


def test_changes_are_said_box_by_box(boxes):
    before = job(Wanted(box="grain", rate=pounds(60)), Wanted(box="third", rate=pounds(1)))
    after = handed_over(before, boxes, system="us").wanted
    said = [str(each) for each in changes(before.wanted, after[:2])]
    assert said == [
        labels.INSTEAD_OF(box="grain", rate="54 lb/ac", before="60 lb/ac"),
        labels.OF_NEW(box="small seed", rate="3 lb/ac", seed="Crimson clover"),
        labels.NO_SEED_GOES(box="third"),
    ]


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"seed": "oats"}, labels.ITS_SEED_IS(box="grain", seed="oats")),
        (
            {"test_weight": Typed(value=60 * POUND_PER_BUSHEL)},
            labels.SEED_WEIGHS(box="grain", weight="60 lb/bu"),
        ),
    ],
)
def test_a_change_of_the_seed_alone_is_said_too(boxes, change, said):
    (line, _) = handed_over(job(), boxes, system="us").wanted
    assert [str(each) for each in changes([line], [replace(line, **change)])] == [said]


def test_a_line_that_only_gets_its_box_says_so():
    bare = Wanted(rate=pounds(54), seed="rye")
    (said,) = changes([bare], [replace(bare, box="grain")])
    assert str(said) == labels.WHAT_WANTED_WITHOUT(box="grain")


def test_set_is_told_where_it_differs(boxes):
    near, far = Wanted(box="grain", rate=pounds(54.2)), Wanted(box="grain", rate=pounds(60))
    assert apart(near, job(near), boxes) is None
    said = str(apart(far, job(far), boxes))
    assert said == labels.SEED_ASKS_WANTED(box="grain", rate="54 lb/ac", wanted="60 lb/ac")
    other = Wanted(box="fluffy", rate=pounds(60))
    assert str(apart(other, job(other), boxes)) == labels.BOXES_JOB_NO(box="fluffy")
