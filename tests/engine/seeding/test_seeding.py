"""One box so far: the answer, the one next thing, and what they rest on."""

import re
from dataclasses import replace

import pytest

import labels
from evenstand.engine.calibration.chart import Chart, curve_from_charts
from evenstand.engine.drill.drill import Drill, Gear, Scale
from evenstand.engine.order.loads import Passes
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import ACRE, INCH, POUND, POUND_PER_ACRE
from evenstand.engine.seeding.seeding import LeverAt, Rest, sowing

from .fields import EXACT, field, known, level, load

DRILL = Drill(rows=20, spacing=7.5 * INCH, scale=Scale(low=0, high=60))
POINTS = tuple((s, 2 * s * POUND_PER_ACRE) for s in (10.0, 20.0, 30.0, 40.0))
LEVER = LeverAt(curve=curve_from_charts([Chart(points=POINTS)], DRILL), setting=30.0, gear=Gear())


def rest(**changed):
    return Rest(**({"ground": 38.5 * ACRE, "at_edge": 2000 * POUND} | changed))


def test_all_is_well():
    found = sowing(field([60.0] * 3), known(), rest=rest())
    # By hand: 10 ÷ √(8² + 16² + 24²) = 0.334 with 1.8 promised is 0.329; × 1.96 = 0.64.
    assert str(found.say) == (
        labels.AFTER_GOES_DOWN(
            ground="24 ac",
            rate="60 lb/ac",
            low="59.4 lb/ac",
            high="60.6 lb/ac",
            target="60 lb/ac",
            verdict=labels.TARGET_ODDS(odds="999 in 1000"),
        )
    )
    assert found.verdict.word == "on target"
    assert not found.alarm
    said = "Fill the box at 32.7 ac on the acre meter; start checking it at "
    assert str(found.next).startswith(said)
    assert found.warnings == ()


def test_fills_are_told_as_the_area_meter_shows_them():
    """From 10 to 18 shown are 7.2 ac of ground; 568 lb sow 9.47 more, which it shows as 10.5."""
    meter = replace(EXACT, factor=0.9)
    found = sowing([load(10, 1000), level(18, 568)], known(meter=meter))
    assert found.until.value / ACRE == pytest.approx(568 / 60, rel=1e-3)
    assert re.match(labels.FILL_BOX_AREA.like(at="28.5 ac"), str(found.next))


def test_a_heavy_drill_moves_the_lever_first():
    found = sowing(field([67.0] * 3), known(), rest=rest(), lever=LEVER)
    assert found.alarm
    assert found.verdict.word == "heavy"
    assert str(found.next).startswith(labels.MOVE_FROM_TO(levers=labels.THE_LEVER, from_=30, to=27))
    plain = sowing(field([67.0] * 3), known())
    assert str(plain.next).startswith(labels.SET_METER_LESS)
    assert str(sowing(field([53.0] * 3), known()).next).startswith(labels.SET_METER_MORE)


def test_seed_that_will_not_suffice_comes_before_the_next_fill():
    """24 ac done of 38.5, 14.5 left ask for 870 lb; 520 in the box and 200 at the edge."""
    found = sowing(field([60.0] * 3), known(), rest=rest(at_edge=200 * POUND))
    assert found.run_out.short / POUND == pytest.approx(870 - 720, abs=1)
    said = "You will run out at about 36 ac on the acre meter, 150 lb short."
    assert str(found.next).startswith(said)


def test_what_must_stay_in_the_box_is_not_sown():
    """520 lb in the box, 20 of them below the meter: 500 ÷ 60 lb/ac are 8.33 ac."""
    found = sowing(field([60.0] * 3), known(), rest=rest(heel=20 * POUND))
    assert found.until.value / ACRE == pytest.approx(500 / 60)
    assert labels.STAYS_BOX(weight="20 lb") in [str(each) for each in found.assumed]


def test_where_it_ends_in_the_field():
    passes = Passes(width=4.572, length=402.336)
    found = sowing(field([60.0] * 3), known(), rest=rest(at_edge=200 * POUND, passes=passes))
    assert found.run_out.place.number == 80  # 36 ac ÷ 0.4545
    assert re.search(labels.PASS_ALONG.like(number=80), str(found.next))


def test_a_change_on_the_way_comes_first_of_all():
    found = sowing(
        field([60.0] * 4 + [52.0] * 4), known(), rest=rest(ground=80 * ACRE), lever=LEVER
    )
    assert found.turning is not None
    assert re.match(labels.STOP_LOOK_METERS.like(), str(found.next))
    assert found.rate.value / POUND_PER_ACRE == pytest.approx(52, abs=1)  # since the change


def test_before_the_first_reading():
    found = sowing([load(0, 1000)], known())
    assert re.match(
        labels.NO_READING_YET.like(rate="60 lb/ac", low="56.5 lb/ac", high="63.5 lb/ac"),
        str(found.say),
    )
    assert found.until.value / ACRE == pytest.approx(1000 / 60)


def test_the_largest_doubt_has_its_cure():
    found = sowing([load(0, 1000), level(8, 520)], known())
    # 3 % promised against 10 lb of 480: weights 1 ÷ 1.8² and 1 ÷ 1.25²: 67 % is the level's.
    assert str(found.cure) == (
        labels.OF_THE_DOUBT(part="67%", cause=labels.READING_BOX, cure=labels.READ_BOX_WHEN)
    )
    assert {share.name for share in found.shares} == {"calibration", "box levels"}


def test_a_load_that_was_not_written_down_is_asked_for():
    events = [load(0, 1000), level(8, 520), level(16, 545)]
    (odd, *_) = sowing(events, known(drift=0.002)).warnings
    assert str(odd) == (labels.BOX_HELD_MUCH(ground="16 ac"))
    light = [load(0, 1000), level(8, 520), level(12, 100)]
    assert re.search(labels.BOX_HELD_MUCH_LESS.like(), str(sowing(light, known()).warnings[0]))


def test_a_promise_not_kept_is_said():
    found = sowing(field([75.0] * 2), known())
    assert re.search(labels.FIRST_READING_DOES.like(), str(found.warnings[-1]))


def test_working_can_be_done_again_with_a_pencil():
    style = Style()
    found = sowing([load(0, 1000), level(8, 520, u=0.01)], known())
    written = [f"{line.sum(style)} = {style.amount(line.value)}" for line in found.working]
    assert written == ["1,000 lb − 520 lb = 480 lb", "480 lb ÷ 8 ac = 60 lb/ac"]


def test_what_is_taken_for_granted_is_said():
    said = [
        str(text) for text in sowing([load(0, 1000)], known(expected=None, drift=0.002)).assumed
    ]
    assert labels.RATE_WANDERS_OVER(drift="0.2%") in said
    assert labels.NOTHING_CAUGHT_BEFORE(off="30%") in said


@pytest.mark.parametrize(
    ("changed", "field_"),
    [
        ({"ground": 0.0}, "ground"),
        ({"at_edge": -1.0}, "at_edge"),
        ({"heel": -1.0}, "heel"),
    ],
)
def test_refuses_and_names_the_field(changed, field_):
    with pytest.raises(MeasurementError) as refusal:
        rest(**changed)
    assert refusal.value.field == field_
