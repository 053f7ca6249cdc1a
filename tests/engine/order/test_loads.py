"""Loads of a box: published hopper, by hand, nothing lost between order and loads, refusals."""

from math import ceil, nan

import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat

import labels
from evenstand.engine.boxes.box import BOX_KINDS, Box
from evenstand.engine.boxes.filled import fill_box
from evenstand.engine.boxes.portion import Portion
from evenstand.engine.order.batches import batch_sheet
from evenstand.engine.order.loads import Passes, box_loads
from evenstand.engine.order.need import OrderJob, box_needs
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import (
    ACRE,
    BUSHEL,
    FOOT,
    HECTARE,
    KG_PER_HECTARE,
    KG_PER_HECTOLITRE,
    LITRE,
    MILE,
    POUND,
    POUND_PER_ACRE,
    POUND_PER_BUSHEL,
)
from evenstand.engine.statistics.budget import nominal


def oats(bushels=50.0, lb_per_acre=90.0, dead=0.1):
    """50 bu × 48 lb/bu, a tenth of it dead: 2,160 lb sow 24.0 ac at 90 lb/ac."""
    box = Box(name="grain", volume=bushels * BUSHEL, seed=BOX_KINDS["grain"], dead=dead)
    seed = Portion(
        name="oats",
        rate=lb_per_acre * POUND_PER_ACRE,
        seeds_per_kg=30_000.0,
        test_weight=ufloat(48, 0.5, "test weight") * POUND_PER_BUSHEL,
    )
    return fill_box(box, [seed])


def test_fifty_bushels_on_60_acres_by_hand():
    """24, 24 and 12 ac; 240 lb of heel with the first: 2,400, 2,160 and 1,080 lb.

    24 ac less 1.96 × 3.175% of it, √(3 %² + (0.5 ÷ 48)²), are 22.5 ac.
    """
    found = box_loads(oats(), OrderJob(area=60 * ACRE))
    assert [load.weight / POUND for load in found.loads] == pytest.approx([2400, 2160, 1080])
    assert [load.field.value / ACRE for load in found.loads] == pytest.approx([24, 48, 60])
    assert str(found.say) == (
        labels.LOADS_LAST_LOOK(box="grain", n=3, last="1,080 lb", low="22.5 ac")
    )


def test_published_hoppers(published):
    """lecture notes on setting drills: 300 kg at 18.15 kg/ha last 16.53 ha."""
    (row,) = published("area_per_load.csv")
    seed = Portion(
        name="soybean",
        rate=row["rate"] * KG_PER_HECTARE,
        seeds_per_kg=3030.0,
        test_weight=row["test_weight"] * KG_PER_HECTOLITRE,
    )
    volume = row["hoppers"] * row["hopper"] * LITRE
    box = fill_box(Box(name="hoppers", volume=volume, seed=BOX_KINDS["grain"]), [seed])
    found = box_loads(box, OrderJob(area=50 * HECTARE))
    assert found.per_load.value / HECTARE == pytest.approx(row["area"], abs=0.005)
    assert len(found.loads) == 4  # 50 ÷ 16.53 = 3.02


def test_overlap_takes_seed_but_no_field():
    """With 20% overlap a load of 24 ac sown is 20 ac of field."""
    found = box_loads(oats(), OrderJob(area=60 * ACRE, overlap=0.2))
    assert [load.field.value / ACRE for load in found.loads] == pytest.approx([20, 40, 60])
    first = found.loads[0]
    assert first.field.low / first.end.low == pytest.approx(1 / 1.2)
    assert f"at {first.field.low / ACRE:.3g} ac" in str(found.say)
    assert len(found.loads) == 3


def test_where_in_the_field_a_load_runs_out():
    """15 ft wide on passes of a quarter mile: 24 ac are 69,696 ft, 52 passes and 1,056 ft."""
    passes = Passes(width=15 * FOOT, length=MILE / 4)
    first = box_loads(oats(), OrderJob(area=60 * ACRE), passes=passes).loads[0]
    assert first.place.number == 53
    assert first.place.along / FOOT == pytest.approx(1056)
    assert str(first.say) == labels.LOAD_PASS_ALONG(
        n=1, weight="2,400 lb", done="24 ac", number=53, along="1,056 ft"
    )


def test_a_pass_that_ends_with_the_load_starts_the_next():
    assert Passes(width=5.0, length=100.0).place(1000.0).number == 3


def test_a_box_filled_half_needs_more_loads():
    """Half of 2,400 lb less 240: 960 lb sow 10.67 ac, six loads."""
    found = box_loads(oats(), OrderJob(area=60 * ACRE), full=0.5)
    assert found.per_load.value / ACRE == pytest.approx(32 / 3)
    assert len(found.loads) == 6
    assert found.loads[0].weight / POUND == pytest.approx(1200)


def test_a_field_of_whole_loads_needs_no_further_one():
    assert len(box_loads(oats(), OrderJob(area=72 * ACRE)).loads) == 3


def test_one_load_says_what_to_tip_in():
    found = box_loads(oats(), OrderJob(area=10 * ACRE))
    assert str(found.say) == labels.ONE_LOAD(box="grain", weight="1,140 lb")
    assert found.loads[0].end.value == pytest.approx(10 * ACRE)


def test_where_it_runs_out_is_as_uncertain_as_rate_and_test_weight():
    """√(3 %² + (0.5 ÷ 48 × 2400 ÷ 2160)²): what stays in grows with the weight as well."""
    found = box_loads(oats(), OrderJob(area=60 * ACRE))
    u = (0.03**2 + (0.5 / 48) ** 2) ** 0.5
    assert found.per_load.u / found.per_load.value == pytest.approx(u, rel=1e-6)
    one, two = (load.end for load in found.loads[:2])
    assert two.u == pytest.approx(2 * one.u)


@given(
    st.tuples(st.floats(2, 100), st.floats(5, 120), st.floats(0, 0.4)),
    st.tuples(st.floats(1, 300), st.floats(0, 0.3)),
)
def test_nothing_is_lost_between_order_loads_and_batches(filled, field):
    bushels, rate, dead = filled
    box = oats(bushels, rate, dead)
    job = OrderJob(area=field[0] * ACRE, overlap=field[1])
    needed = nominal(box_needs(box, job)[0].total)
    found = box_loads(box, job)
    assert found.weight == pytest.approx(needed)
    assert batch_sheet(box, found.weight, most=200.0).total == pytest.approx(needed)
    assert found.loads[-1].field.value == pytest.approx(field[0] * ACRE)
    holds = nominal(box.packed.test_weight) * bushels * BUSHEL
    assert all(load.weight <= holds * (1 + 1e-6) for load in found.loads)
    assert len(found.loads) == ceil(nominal(job.ground) / found.per_load.value - 1e-9)


def test_working_can_be_done_again_with_a_pencil():
    style = Style()
    lines = box_loads(oats(), OrderJob(area=60 * ACRE)).working
    written = [f"{line.sum(style)} = {style.amount(line.value)}" for line in lines]
    assert written == ["2,400 lb − 240 lb = 2,160 lb", "2,160 lb ÷ 90 lb/ac = 24 ac"]


@pytest.mark.parametrize(
    ("asked", "field"),
    [
        ({"full": 0.0}, "full"),
        ({"full": 1.1}, "full"),
        ({"full": nan}, "full"),
        ({"full": 0.1}, "full"),
    ],
)
def test_refuses_a_box_filled_to_nowhere(asked, field):
    with pytest.raises(MeasurementError) as refusal:
        box_loads(oats(), OrderJob(area=ACRE), **asked)
    assert refusal.value.field == field


def test_refuses_an_empty_box_an_unknown_weight_and_loads_without_number():
    spare = Box(name="spare", volume=1.0, seed=BOX_KINDS["grain"])
    with pytest.raises(MeasurementError) as refusal:
        box_loads(fill_box(spare, []), OrderJob(area=ACRE))
    assert refusal.value.field == "box"
    rye = Portion(name="rye", rate=0.005, seeds_per_kg=4e4)
    with pytest.raises(
        MeasurementError, match=labels.WEIGH_FULL_MEASURE_MIXTURE.like(names="rye")
    ) as refusal:
        box_loads(fill_box(spare, [rye]), OrderJob(area=ACRE))
    assert refusal.value.field == "test_weight of spare"
    with pytest.raises(MeasurementError, match=labels.CHECK_VOLUME_RATE.like()) as refusal:
        box_loads(oats(bushels=0.01), OrderJob(area=100 * ACRE))
    assert refusal.value.field == "volume of grain"


@pytest.mark.parametrize(
    ("passes", "field"),
    [({"width": 0.0}, "width"), ({"length": -1.0}, "length"), ({"length": nan}, "length")],
)
def test_refuses_passes_that_cannot_be(passes, field):
    with pytest.raises(MeasurementError) as refusal:
        Passes(**({"width": 5.0, "length": 400.0} | passes))
    assert refusal.value.field == field
