"""A separated sample: counts, weights turned into counts, refusals."""

from math import nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

import labels
from evenstand.engine.boxes.portion import Portion
from evenstand.engine.boxes.sample import counted, weighed
from evenstand.engine.quantities.errors import MeasurementError

RYE = Portion(name="rye", rate=0.004, seeds_per_kg=40_000.0)
CLOVER = Portion(name="clover", rate=0.001, seeds_per_kg=440_000.0)


def test_weights_become_whole_seeds_by_hand():
    """10 g of rye at 40 a gram are 400; 0.5 g of clover at 440 a gram 220."""
    sample = weighed({"rye": 0.010, "clover": 0.0005}, [RYE, CLOVER], out=0.5)
    assert sample.counts == {"rye": 400, "clover": 220}
    assert (sample.seeds, sample.out, sample.weighed) == (620, 0.5, True)


@given(st.integers(0, 10_000))
def test_counts_weighed_exactly_come_back(seeds):
    assert weighed({"rye": seeds / 40_000.0}, [RYE]).counts["rye"] == seeds


def test_counts_come_in_the_order_of_the_box():
    sample = counted({"clover": 3, "rye": 7})
    assert sample.of([RYE, CLOVER]) == [7, 3]
    assert not sample.weighed


@pytest.mark.parametrize("count", [-1, 2.5, nan, 1e9])
def test_a_count_is_a_whole_number(count):
    with pytest.raises(MeasurementError, match=labels.GIVE_HOW_MANY.like()) as refusal:
        counted({"rye": count})
    assert refusal.value.field == "sample of rye"


@pytest.mark.parametrize("out", [-0.1, 1.1, nan])
def test_what_is_out_is_a_share(out):
    with pytest.raises(MeasurementError, match=labels.GIVE_SHARE_BOX.like()) as refusal:
        counted({"rye": 1}, out=out)
    assert refusal.value.field == "out"


def test_every_species_of_the_box_must_be_looked_for():
    with pytest.raises(MeasurementError, match=labels.GIVE_HOW_MANY_FOUND.like()) as refusal:
        counted({"rye": 3}).of([RYE, CLOVER])
    assert refusal.value.field == "sample of clover"


def test_no_other_species_can_be_in_it():
    with pytest.raises(MeasurementError, match="rye, clover") as refusal:
        counted({"rye": 3, "clover": 1, "vetch": 2}).of([RYE, CLOVER])
    assert (refusal.value.field, refusal.value.given) == ("sample", "vetch")
    with pytest.raises(MeasurementError, match="rye") as refusal:
        weighed({"vetch": 0.1}, [RYE])
    assert refusal.value.field == "sample"


@pytest.mark.parametrize("weight", [-0.001, nan])
def test_a_weight_below_zero_is_refused(weight):
    with pytest.raises(MeasurementError) as refusal:
        weighed({"rye": weight}, [RYE])
    assert refusal.value.field == "sample of rye"
