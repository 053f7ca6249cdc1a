"""Inoculant by the label: published procedure, time limits, refusals."""

import re
from math import nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

import labels
from evenstand.engine.boxes.portion import Portion
from evenstand.engine.order.inoculant import RULES, Inoculant, inoculate
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import HOUR, OUNCE, POUND

VETCH = Portion(name="vetch", rate=0.001, seeds_per_kg=35_000.0, legume=True)
# Mississippi State Extension, Inoculation procedure for 25 pounds of legume seed, read: about 2
# ounces, a third of a bag, in the slurry.
LABEL = Inoculant(name="pea and vetch", amount=2 * OUNCE, seed=25 * POUND, pack=6 * OUNCE)


def test_three_times_the_published_seed_takes_a_whole_bag():
    done = inoculate(VETCH, 75 * POUND, inoculant=LABEL)
    assert done.amount / OUNCE == pytest.approx(6)
    assert (done.packs, done.times, done.warnings) == (1, 1, ())
    assert str(done.say) == labels.INOCULANT_PACK(name="vetch", amount="6 oz", packs=1)


@given(st.floats(0.1, 5000))
def test_packs_are_enough_and_not_one_too_many(weight):
    done = inoculate(VETCH, weight, inoculant=LABEL)
    assert (done.packs - 1) * LABEL.pack - 1e-6 <= done.amount <= done.packs * LABEL.pack + 1e-6


def test_seed_that_would_lie_too_long_is_done_in_parts():
    """100 h of sowing at 48 h each are three parts."""
    done = inoculate(VETCH, 150 * POUND, inoculant=LABEL, hours=100 * HOUR)
    assert done.times == 3
    assert done.each_time / OUNCE == pytest.approx(4)
    assert re.search(labels.SOWING_TAKES_LONGER.like(limit="48 h"), str(done.warnings[0]))
    assert str(done.say).endswith("12 oz of inoculant, 2 packages, 4 oz in each of 3 batches")
    assert inoculate(VETCH, 1.0, inoculant=LABEL, hours=48 * HOUR).times == 1


def test_batches_of_the_mixer_are_kept():
    assert inoculate(VETCH, 150 * POUND, inoculant=LABEL, hours=60 * HOUR, times=5).times == 5


def test_treated_seed_is_warned_of():
    treated = Portion(name="pea", rate=0.01, seeds_per_kg=4000.0, legume=True, treated=True)
    assert "treated" in str(inoculate(treated, 10.0, inoculant=LABEL).warnings[0])


def test_rules_stand_behind_the_label_and_name_their_source():
    said = [str(rule) for rule in RULES]
    assert said[0].startswith(labels.LABEL_DECIDES_RATE)
    assert said[1] == (
        labels.SOW_WITHIN_HOURS(
            hours="48 h", source="Erdman, USDA bulletin on legume inoculation, 1967"
        )
    )


def test_without_a_pack_size_no_packs_are_counted():
    loose = Inoculant(name="clover", amount=0.1, seed=25.0)
    done = inoculate(VETCH, 50.0, inoculant=loose)
    assert (done.packs, str(done.say)) == (
        None,
        labels.OF_INOCULANT(name="vetch", amount="7.05 oz"),
    )


def test_a_label_with_hours_of_its_own_is_told():
    quick = Inoculant(name="clover", amount=0.1, seed=25.0, sow_within=24 * 3600)
    assert re.search(
        labels.SOW_WITHIN.like(hours="24 h") + "$", str(inoculate(VETCH, 50.0, inoculant=quick).say)
    )


def test_working_is_the_rule_of_three():
    (line,) = inoculate(VETCH, 75 * POUND, inoculant=LABEL).working
    style = Style()
    assert f"{line.sum(style)} = {style.amount(line.value)}" == "75 lb × 2 oz ÷ 25 lb = 6 oz"


@pytest.mark.parametrize(
    ("changed", "field"),
    [
        ({"amount": 0.0}, "inoculant"),
        ({"amount": nan}, "inoculant"),
        ({"seed": 0.0}, "inoculant seed"),
        ({"pack": 0.0}, "inoculant pack"),
        ({"sow_within": 0.0}, "sow_within"),
    ],
)
def test_refuses_a_label_that_cannot_be(changed, field):
    with pytest.raises(MeasurementError) as refusal:
        Inoculant(**({"name": "x", "amount": 0.1, "seed": 25.0} | changed))
    assert refusal.value.field == field


def test_only_legumes_are_inoculated():
    rye = Portion(name="rye", rate=0.01, seeds_per_kg=40_000.0)
    with pytest.raises(MeasurementError, match=labels.INOCULATE_LEGUMES_ONLY.like()) as refusal:
        inoculate(rye, 10.0, inoculant=LABEL)
    assert refusal.value.field == "inoculant of rye"


def test_refuses_no_seed_and_no_time():
    with pytest.raises(MeasurementError) as refusal:
        inoculate(VETCH, 0.0, inoculant=LABEL)
    assert refusal.value.field == "weight of vetch"
    with pytest.raises(MeasurementError) as refusal:
        inoculate(VETCH, 1.0, inoculant=LABEL, times=0)
    assert refusal.value.field == "times"
