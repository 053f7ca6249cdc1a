"""Time at the drill: published capacities and hours, stops by hand, refusals."""

from math import nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

import labels
from evenstand.engine.order.work_rate import refill_cap, theoretical, work_rate
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import ACRE, FOOT, HECTARE, HOUR, MILE_PER_HOUR, MINUTE


def drill(ground=120.0, **changed):
    given = {"speed": 5 * MILE_PER_HOUR, "width": 15 * FOOT, "efficiency": 0.63}
    return work_rate(ground * ACRE, **(given | changed))


def test_published_field_capacities(published):
    """Iowa State A3-24, printed to 0.1 ac/h."""
    for row in published("field_capacity.csv"):
        found = drill(
            speed=row["speed"] * MILE_PER_HOUR,
            width=row["width"] * FOOT,
            efficiency=row["efficiency"] / 100,
        )
        assert found.effective / ACRE * HOUR == pytest.approx(row["capacity"], abs=0.05)


def test_published_hours_of_a_filling(published):
    """lecture notes on setting drills: 16.53 ha at 3.6 ha/h last 4.59 h."""
    (row,) = published("area_per_load.csv")
    speed = row["work_rate"] * HECTARE / HOUR / 10.0
    found = work_rate(
        100 * HECTARE,
        speed=speed,
        width=10.0,
        efficiency=0.7,
        per_load=row["whole"] / row["rate"] * HECTARE,
    )
    assert found.every / HOUR == pytest.approx(row["hours"], abs=0.005)


def test_stops_and_what_refilling_leaves_by_hand():
    """24 ac at 15 × 5 ÷ 8.25 = 9.091 ac/h: 2.64 h; 2.64 ÷ (2.64 + ⅓) = 88.8%."""
    found = drill(per_load=24 * ACRE, refill=20 * MINUTE)
    assert found.moving / ACRE * HOUR == pytest.approx(9.0909, abs=5e-5)
    assert found.every / HOUR == pytest.approx(2.64)
    assert found.cap == pytest.approx(0.8879, abs=5e-5)
    assert found.stops == 4  # five fills of 24 ac sow 120 ac, the first before the start
    assert found.refilling == pytest.approx(80 * MINUTE)
    assert found.hours / HOUR == pytest.approx(120 / (75 / 8.25 * 0.63))
    assert str(found.say) == (labels.ABOUT_DRILL_STOPS(time="21 h", stops=4, every="2.6 h"))


@given(st.floats(1, 15), st.floats(3, 60))
def test_acres_an_hour_are_mph_times_feet_by_8_25(mph, feet):
    found = theoretical(speed=mph * MILE_PER_HOUR, width=feet * FOOT)
    assert found / ACRE * HOUR == pytest.approx(mph * feet / 8.25)


@given(st.floats(1, 500), st.floats(1, 100))
def test_fills_are_enough_and_not_one_too_many(ground, per_load):
    stops = drill(ground, per_load=per_load * ACRE).stops
    assert stops * per_load <= ground * (1 + 1e-6) <= (stops + 1) * per_load * (1 + 1e-5)


@pytest.mark.parametrize(
    ("per_load", "words"),
    [
        (None, labels.ABOUT_DRILL(time="21 h")),
        (120 * ACRE, labels.ABOUT_DRILL_WITHOUT(time="21 h")),
        (90 * ACRE, labels.ABOUT_DRILL_ONE(time="21 h", every="9.9 h")),
        (4 * ACRE, labels.ABOUT_DRILL_STOPS(time="21 h", stops=29, every="26 min")),
    ],
)
def test_says_how_long_and_how_often(per_load, words):
    assert str(drill(per_load=per_load).say) == words


def test_an_efficiency_out_of_the_usual_is_warned_of():
    (warning,) = drill(efficiency=0.95).warnings
    assert labels.EFFICIENCY_OUTSIDE_USUAL(given="95%", low="55%", high="80%") in str(warning)
    assert drill().warnings == ()


def test_an_efficiency_nobody_gave_is_said():
    taken = drill(efficiency=None)
    assert taken.effective / taken.moving == pytest.approx(0.70)
    assert str(taken.assumed[0]).startswith(labels.FIELD_EFFICIENCY_TAKEN(share="70%"))
    assert drill().assumed == ()


def test_stops_that_take_longer_than_the_efficiency_allows_are_warned_of():
    """13.2 h of moving and 29 stops of half an hour are 27.7 h, more than 21."""
    (warning,) = drill(per_load=4 * ACRE, refill=30 * MINUTE).warnings
    assert str(warning).startswith(labels.MOVING_REFILLING_ALONE(least="28 h"))


def test_working_can_be_done_again_with_a_pencil():
    style = Style()
    written = [f"{line.sum(style)} = {style.amount(line.value)}" for line in drill().working]
    assert written == [
        "5 mph × 15 ft × 63% ÷ 825 = 5.727 ac/h",
        "120 ac ÷ 5.727 ac/h = 20.95 h",
    ]


@pytest.mark.parametrize(
    ("changed", "field"),
    [
        ({"ground": -1.0}, "ground"),
        ({"speed": 0.0}, "speed"),
        ({"width": nan}, "width"),
        ({"efficiency": 0.0}, "efficiency"),
        ({"efficiency": 70.0}, "efficiency"),
        ({"per_load": 0.0}, "per_load"),
        ({"per_load": 1.0, "refill": 0.0}, "refill"),
    ],
)
def test_refuses_and_names_the_field(changed, field):
    with pytest.raises(MeasurementError) as refusal:
        drill(**changed)
    assert refusal.value.field == field


def test_no_time_between_stops_is_refused():
    with pytest.raises(MeasurementError) as refusal:
        refill_cap(0.0, 60.0)
    assert refusal.value.field == "every"
