"""The batch sheet: by hand, nothing lost, order of layers, refusals."""

from math import nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

import labels
from evenstand.engine.boxes.box import BOX_KINDS, Box
from evenstand.engine.boxes.filled import fill_box
from evenstand.engine.boxes.portion import Portion, rice_hulls
from evenstand.engine.order.batches import batch_sheet
from evenstand.engine.order.inoculant import Inoculant, inoculate
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import ACRE, BUSHEL, OUNCE, POUND, POUND_PER_ACRE

POUNDS = {"rye": 30.0, "vetch": 10.0, "radish": 0.5}
PER_KG = {"rye": 40_000.0, "vetch": 35_000.0, "radish": 75_000.0}


def filled(pounds=None, carrier=None):
    pounds = pounds or POUNDS
    box = Box(name="grain", volume=20 * BUSHEL, seed=BOX_KINDS["grain"], carrier=carrier)
    portions = [
        Portion(
            name=name,
            rate=rate * POUND_PER_ACRE,
            seeds_per_kg=PER_KG.get(name, 40_000.0),
            legume=name == "vetch",
        )
        for name, rate in pounds.items()
    ]
    return fill_box(box, portions)


def test_by_hand():
    """1,620 lb in a mixer of 600: three batches of 540, 400 of rye, 133.3 vetch, 6.67 radish."""
    sheet = batch_sheet(filled(), 1620 * POUND, most=600 * POUND)
    assert (sheet.batches, sheet.weight / POUND) == (3, pytest.approx(540))
    layers = [(layer.name, layer.weight / POUND) for layer in sheet.layers]
    assert [name for name, _ in layers] == ["rye", "vetch", "radish"]
    assert [weight for _, weight in layers] == pytest.approx([400, 400 / 3, 20 / 3])
    assert sheet.ground / ACRE == pytest.approx(540 / 40.5)
    assert str(sheet.say) == labels.BATCHES_EACH(box="grain", batches=3, weight="540 lb")


@given(
    st.lists(st.floats(0.1, 80), min_size=1, max_size=6), st.floats(1, 3000), st.floats(20, 2000)
)
def test_nothing_is_lost(pounds, total, most):
    """Layers make the batch, batches the total, and none is more than the mixer takes."""
    box = filled({f"s{i}": rate for i, rate in enumerate(pounds)}, rice_hulls(1e-4))
    sheet = batch_sheet(box, total, most=most)
    assert sum(layer.weight for layer in sheet.layers) == pytest.approx(sheet.weight)
    assert sheet.total == pytest.approx(total)
    assert sheet.weight <= most * (1 + 1e-6)
    for layer in sheet.layers:
        share = box.shares[layer.name]
        assert sheet.batches * layer.weight == pytest.approx(share * total)


def test_a_total_of_whole_batches_makes_no_further_one():
    assert batch_sheet(filled(), 3 * 0.1, most=0.1).batches == 3


def test_heaviest_at_the_bottom_little_is_mixed_first():
    sheet = batch_sheet(filled(), 540 * POUND, most=600 * POUND)
    assert [layer.premix for layer in sheet.layers] == [False, False, True]
    said = [str(step) for step in sheet.steps]
    assert said[0] == labels.MIX_BUCKETFUL_FIRST(name="radish", most="rye")
    assert labels.SPREAD_LAYERS_EACH in said[1]
    assert str(sheet.say) == labels.ONE_BATCH(box="grain", weight="540 lb")


def test_seed_that_may_sort_is_refilled_part_way():
    steps = batch_sheet(filled({"rye": 30.0, "pea": 40.0}), 100.0, most=500.0).steps
    assert "part-way" not in str(steps[-1])
    pea = Portion(name="pea", rate=0.004, seeds_per_kg=4_000.0)
    rye = Portion(name="rye", rate=0.003, seeds_per_kg=40_000.0)
    box = fill_box(Box(name="grain", volume=1.0, seed=BOX_KINDS["grain"]), [pea, rye])
    last = str(batch_sheet(box, 100.0, most=500.0).steps[-1])
    assert last == labels.FILL_ONLY_PART_WAY(box="grain")


def test_one_seed_needs_no_mixing():
    (step,) = batch_sheet(filled({"rye": 60.0}), 100.0, most=50.0).steps
    assert str(step) == labels.NOTHING_MIX_FILL(box="grain")


def test_inoculant_goes_on_its_seed_in_every_batch():
    """400 lb of vetch at 2 oz for 25 lb are 32 oz, 10.7 in each of three."""
    vetch = filled().portions[1]
    label = Inoculant(name="pea and vetch", amount=2 * OUNCE, seed=25 * POUND)
    done = inoculate(vetch, 400 * POUND, inoculant=label)
    steps = batch_sheet(filled(), 1620 * POUND, most=600 * POUND, inoculants=[done]).steps
    assert str(steps[0]) == labels.MOISTEN_TURN_INOCULANT(
        seed="vetch", amount="10.7 oz", batch=labels.EACH_BATCH
    )


def test_working_divides_the_total():
    line = batch_sheet(filled(), 1620 * POUND, most=600 * POUND).working[0]
    style = Style()
    assert f"{line.sum(style)} = {style.amount(line.value)}" == "1,620 lb ÷ 3 = 540 lb"


@pytest.mark.parametrize(
    ("total", "most", "field"),
    [
        (0.0, 100.0, "total"),
        (nan, 100.0, "total"),
        (100.0, 0.0, "most"),
        (1e6, 0.001, "most"),
    ],
)
def test_refuses_what_cannot_be_divided(total, most, field):
    with pytest.raises(MeasurementError) as refusal:
        batch_sheet(filled(), total, most=most)
    assert refusal.value.field == field


def test_an_empty_box_has_no_batches():
    empty = fill_box(Box(name="spare", volume=1.0, seed=BOX_KINDS["grain"]), [])
    with pytest.raises(MeasurementError, match=labels.GIVE_BOX_SEED.like()) as refusal:
        batch_sheet(empty, 10.0, most=5.0)
    assert (refusal.value.field, refusal.value.given) == ("box", "spare")
