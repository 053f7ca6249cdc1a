"""The fear of sorting: ratios of size by hand, levels, and the cures."""

from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

import labels
from evenstand.engine.boxes.compromise import burden
from evenstand.engine.boxes.portion import Portion
from evenstand.engine.boxes.sorting_risk import (
    FALLS_FROM,
    cures,
    diameter_ratio,
    level,
    risks,
    sorting_compromises,
)
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.units import POUND


def seed(name, per_lb, **more):
    return Portion(name=name, rate=0.001, seeds_per_kg=per_lb / POUND, **more)


PEA, RYE, VETCH = seed("pea", 2_000), seed("rye", 18_000), seed("vetch", 16_000)
CLOVER, TEFF = seed("clover", 200_000), seed("teff", 1_300_000)


@given(st.floats(0.5, 100))
def test_sizes_are_cube_roots_of_weights(ratio):
    assert diameter_ratio(ratio * ratio * ratio) == pytest.approx(ratio, rel=1e-12)


def test_a_ball_falls_through_three_that_touch():
    """Centres at 2/√3 of a radius from the middle: 2/√3 − 1 is left for the small one."""
    assert pytest.approx(1 / (2 / sqrt(3) - 1)) == FALLS_FROM
    assert pytest.approx(6.464, abs=0.0005) == FALLS_FROM


@pytest.mark.parametrize(
    ("seeds", "ratio", "expected"),
    [
        ([RYE, VETCH], 1.04, "little"),  # (18/16)^⅓
        ([RYE, PEA], 2.08, "much"),  # 9^⅓
        ([RYE, CLOVER], 2.23, "much"),  # 11.1^⅓
        ([CLOVER, seed("radish", 34_000)], 1.81, "some"),  # 5.88^⅓
        ([PEA, RYE, TEFF], 8.66, "falls through"),  # 650^⅓
    ],
)
def test_levels(seeds, ratio, expected):
    worst = risks(seeds)[0]
    assert worst.ratio == pytest.approx(ratio, abs=0.005)
    assert worst.level == expected


def test_each_seed_is_held_against_the_largest_worst_first():
    found = risks([RYE, TEFF, PEA])
    assert [(each.small, each.large) for each in found] == [("teff", "pea"), ("rye", "pea")]
    said = [str(each.say) for each in sorting_compromises(found)]
    assert said == [
        labels.FALLS_THROUGH_TIMES(small="teff", large="pea", ratio="8.7"),
        labels.LIKELY_SINK_UNDER(small="rye", large="pea", ratio="2.1"),
    ]


def test_near_sizes_need_no_cure_and_give_nothing_up():
    found = risks([RYE, VETCH])
    assert (cures(found[0]), sorting_compromises(found)) == ((), ())
    assert str(found[0].say) == labels.NEAR_SIZE_SHOULD(small="rye", large="vetch")
    assert (risks([RYE]), risks([])) == ((), ())


def test_cures_begin_with_another_box():
    worst = risks([RYE, CLOVER])[0]
    said = [str(each) for each in cures(worst, elsewhere=["small seed"])]
    assert said[0] == labels.PUT_IN(small="clover", box="small seed")
    assert "partway" in said[1]
    assert labels.MIX_CARRIER_SUCH in said[2]
    assert len(cures(worst)) == 3


def test_fluffy_and_smooth_of_one_size_may_sort():
    (found,) = risks([seed("switchgrass", 390_000), seed("bluestem", 380_000, fluffy=True)])
    assert found.level == "some"
    assert str(found.say) == labels.MAY_SORT_ONE(small="switchgrass", large="bluestem")
    assert [level(1.0, mixed=mixed) for mixed in (False, True)] == ["little", "some"]


def test_graver_fears_weigh_more():
    pairs = ([RYE, seed("radish", 40_000)], [RYE, CLOVER], [PEA, TEFF])
    weights = [burden([c.grade for c in sorting_compromises(risks(pair))]) for pair in pairs]
    assert weights == sorted(set(weights))


def test_refuses_a_ratio_of_nothing():
    with pytest.raises(MeasurementError) as refusal:
        diameter_ratio(0.0)
    assert refusal.value.field == "counts_ratio"
