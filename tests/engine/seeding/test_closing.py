"""A field that is done: what was left is weighed, by hand; two fields; refusals."""

import pytest
from uncertainties import ufloat

import labels
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import ACRE, POUND, POUND_PER_ACRE
from evenstand.engine.seeding.balance import follow
from evenstand.engine.seeding.closing import close_field
from evenstand.engine.seeding.events import Level
from evenstand.engine.seeding.field_area import by_map
from evenstand.engine.seeding.level import InBox
from evenstand.engine.statistics.budget import nominal

from .fields import field, known, level, load


def closed(left=140.0, *, acres=38.0, **changed):
    """2420 lb in, 140 out, on 38 acres of the map: 2280 ÷ 38 = 60."""
    events = [load(0, 1220, u=3), load(18, 1200, u=3), level(40, left, u=1)]
    return close_field(follow(events, known()), by_map(acres * ACRE), **changed)


def test_by_hand():
    found = closed(static=ufloat(64.0, 0.64) * POUND_PER_ACRE)
    assert found.used.value / POUND == pytest.approx(2280)
    assert found.rate.value / POUND_PER_ACRE == pytest.approx(60)
    assert nominal(found.ratio) == pytest.approx(60 / 64)
    # √(3² + 3² + 1²) ÷ 2280 and 0.5 % ÷ √3, as relative variances.
    expected = ((19**0.5 / 2280) ** 2 + (0.005 / 3**0.5) ** 2) ** 0.5
    assert found.rate.u / found.rate.value == pytest.approx(expected, rel=1e-3)
    assert found.verdict.word == "on target"
    assert [share.name for share in found.shares] == ["map", "loads", "box levels"]
    assert labels.WALK_ROUND_FIELD in str(found.cure)
    assert str(found.next) == labels.FIELD_GOT_WITHIN(rate="60 lb/ac", wanted="60 lb/ac")
    assert str(closed(990.0).next) == labels.FIELD_GOT_WANTED(rate="37.6 lb/ac", wanted="60 lb/ac")
    assert labels.FIELD_GOT_WHAT(ratio="93.8%") in str(found.say)


def test_the_area_meter_is_known_from_then_on():
    """40 shown for 38 of the map."""
    assert nominal(closed().meter.factor) == pytest.approx(0.95)


def rates(found, *, acres, driven):
    assert found.ground.value / ACRE == pytest.approx(acres)
    assert found.driven.value / ACRE == pytest.approx(driven)
    assert found.rate.value / POUND_PER_ACRE == pytest.approx(2280 / acres)
    return nominal(found.ratio) * 64, nominal(found.meter.factor) * 40


def test_a_rate_is_on_the_map_whatever_the_overlap():
    """40 ac by the meter on 40 of the map: no overlap was seen, though 4 % was planned."""
    static = 64 * POUND_PER_ACRE
    events = [load(0, 1220, u=3), load(18, 1200, u=3), level(40, 140, u=1)]

    def close(acres):
        return close_field(
            follow(events, known()), by_map(acres * ACRE, overlap=0.04), static=static
        )

    assert rates(close(40), acres=40, driven=40) == pytest.approx((57, 40))
    # 40 by the meter on 39: an acre twice. On 38 the planned 4 % only, 39.52 ac.
    assert rates(close(39), acres=39, driven=40) == pytest.approx((57, 40))
    assert rates(close(38), acres=38, driven=39.52) == pytest.approx((2280 / 39.52, 39.52))
    assert "2,280 lb ÷ 39.52 ac" in [line.sum(Style()) for line in close(38).working]


def test_working_can_be_done_again_with_a_pencil():
    style = Style()
    lines = closed(static=64 * POUND_PER_ACRE).working
    written = [f"{line.sum(style)} = {style.amount(line.value)}" for line in lines]
    assert written == [
        "2,420 lb − 140 lb = 2,280 lb",
        "2,280 lb ÷ 38 ac = 60 lb/ac",
        "60 lb/ac ÷ 64 lb/ac = 0.9375",
    ]


def test_a_level_by_volume_brings_the_doubt_of_its_test_weight():
    seed = InBox(weight=140 * POUND, u=POUND, by_volume=True)
    events = [load(0, 1220), load(18, 1200), Level(at=40 * ACRE, seed=seed)]
    found = close_field(follow(events, known(test_weight_error=0.05)), by_map(38 * ACRE))
    assert {s.name: s.u for s in found.shares}["test weight"] == pytest.approx(
        0.05 * 140 * POUND / (38 * ACRE), rel=1e-9
    )


def test_no_promise_is_mixed_into_a_closed_balance():
    one = closed(left=250.0)
    two = close_field(
        follow(
            [load(0, 1220, u=3), load(18, 1200, u=3), level(40, 250, u=1)], known(expected=None)
        ),
        by_map(38 * ACRE),
    )
    assert one.rate.value == pytest.approx(two.rate.value, rel=1e-12)


def test_what_is_left_must_be_the_last_thing_read():
    with pytest.raises(MeasurementError) as refusal:
        close_field(follow([*field([60.0]), load(8, 100)], known()), by_map(8 * ACRE))
    assert refusal.value.field == "left"


def test_something_must_have_gone_down():
    with pytest.raises(MeasurementError) as refusal:
        close_field(follow([level(0, 500), level(0, 500)], known()), by_map(8 * ACRE))
    assert refusal.value.field == "left"
