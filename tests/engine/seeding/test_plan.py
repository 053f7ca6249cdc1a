"""The day at the drill: stops, seed at the edge and hands, by hand; refusals."""

import re

import pytest

import labels
from evenstand.engine.order.loads import Loads, PlannedLoad
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import ACRE, FOOT, MILE_PER_HOUR, MINUTE, POUND
from evenstand.engine.seeding.plan import plan_sowing
from evenstand.engine.statistics.budget import Estimate


def box(*pounds, acres=10.0):
    per_load = Estimate(acres * ACRE, 9 * ACRE, 11 * ACRE, 0.5 * ACRE)
    loads = tuple(
        PlannedLoad(
            number=i, weight=p * POUND, end=per_load, field=per_load, place=None, say=say("x")
        )
        for i, p in enumerate(pounds, start=1)
    )
    return Loads(box="grain", loads=loads, per_load=per_load, say=say("x"), working=())


def plan(*boxes, ground=38.5, **changed):
    given = {"speed": 5 * MILE_PER_HOUR, "width": 15 * FOOT, "bag": 50 * POUND}
    return plan_sowing(boxes, ground * ACRE, **(given | changed))


def test_by_hand():
    """2310 lb + 5% in 49 bags. At three stops 1800 lb: 36 bags, 5 + 12 min alone, 5 + 6 by two."""
    alone = plan(box(510, 600, 600, 600))
    assert alone.stop == pytest.approx(17 * MINUTE)
    assert alone.edge / POUND == pytest.approx(2425.5)
    assert alone.bags == 49
    assert alone.work.stops == 3
    assert plan(box(510, 600, 600, 600), people=2).stop == pytest.approx(11 * MINUTE)
    assert re.search(labels.HAVE_EDGE_ONE.like(bags="49 bags"), str(alone.say))
    assert str(alone.next).endswith(labels.PUT_SEED_WHERE(stop="17 min", all="51 min"))


def test_several_boxes_stop_at_the_soonest_and_carry_all_their_bags():
    """At three stops 1800 lb from one box and 90 from the other: 38 bags, 12 min 40 s each."""
    both = plan(box(600, 600, 600, 600), box(100, 90, acres=30))
    assert both.work.stops == 3
    assert both.stop == pytest.approx((5 + 38 / 3) * MINUTE)


def test_a_stop_that_somebody_has_timed_is_not_reckoned():
    timed = plan(box(510, 600, 600, 600), refill=9 * MINUTE)
    assert (timed.stop, timed.work.refilling) == (9 * MINUTE, 27 * MINUTE)
    assert not any("each bag" in str(text) for text in timed.assumed)


def test_one_fill_needs_no_stop():
    small = plan(box(600), ground=8)
    assert str(small.next) == labels.BEGIN_ONE_FILL
    assert any(
        re.search(labels.STOP_TAKES_EACH.like(stop="5 min"), str(text)) for text in small.assumed
    )


@pytest.mark.parametrize(
    ("changed", "field"),
    [({"bag": 0.0}, "bag"), ({"people": 0}, "people"), ({"ground": 0}, "ground")],
)
def test_refuses_and_names_the_field(changed, field):
    with pytest.raises(MeasurementError) as refusal:
        plan(box(600), **changed)
    assert refusal.value.field == field
