"""One depth for a box: the smallest seed decides, the others are said to miss."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

import labels
from evenstand.engine.boxes.depth import common_depth, depth_compromise, depth_grade
from evenstand.engine.boxes.portion import Portion
from evenstand.engine.quantities.units import INCH

ranges = st.tuples(st.floats(0, 0.05), st.floats(0, 0.05)).map(sorted).map(tuple)


def seed(name, count, depth):
    inches = depth and (depth[0] * INCH, depth[1] * INCH)
    return Portion(name=name, rate=0.001, seeds_per_kg=count, depth=inches)


def test_ranges_that_meet_give_nothing_up():
    """Rye 3/4 to 1 1/2 in and vetch 1/2 to 1 1/2 in: 3/4 in is the shallow end of both."""
    found = common_depth([seed("rye", 4e4, (0.75, 1.5)), seed("vetch", 3.5e4, (0.5, 1.5))])
    assert found.depth == pytest.approx(0.75 * INCH)
    assert (found.missed, found.grade, depth_compromise(found)) == ((), 0, ())
    assert str(found.say) == labels.SOW_ALL_BEARS(depth="0.75 in")


def test_the_smallest_seed_decides():
    """Clover bears 1/2 in, pea asks for 1 1/2: it lies an inch too shallow."""
    found = common_depth([seed("pea", 4e3, (1.5, 3.0)), seed("clover", 3e5, (0.25, 0.5))])
    assert found.depth == pytest.approx(0.5 * INCH)
    assert found.missed == (("pea", pytest.approx(-1.0 * INCH)),)
    (given_up,) = depth_compromise(found)
    assert (given_up.about, given_up.grade) == ("depth", 2)
    assert str(given_up.say) == (
        labels.SOW_BEARS_THEN(
            depth="0.5 in", smallest="clover", name="pea", by="1 in", way=labels.TOO_SHALLOW
        )
    )


def test_a_large_seed_can_lie_too_deep():
    found = common_depth([seed("surface", 1e4, (0.0, 0.25)), seed("small", 1e5, (0.5, 1.0))])
    assert found.missed == (("surface", pytest.approx(0.25 * INCH)),)
    assert labels.TOO_DEEP in str(found.say)
    assert found.grade == 1


def test_a_quarter_inch_is_slight_more_is_real():
    assert [depth_grade(x * INCH) for x in (0, 0.25, 0.26)] == [0, 1, 2]


def test_without_a_printed_depth_nothing_is_told():
    assert common_depth([seed("a", 1e4, None)]) is None
    assert depth_compromise(None) == ()
    assert common_depth([seed("a", 1e4, None), seed("b", 1e4, (0, 1))]).unknown == ("a",)


@given(st.lists(st.tuples(st.floats(1e3, 1e6), ranges), min_size=1, max_size=6))
def test_the_smallest_seed_always_lies_in_its_own_range(seeds):
    portions = [
        Portion(name=str(i), rate=0.001, seeds_per_kg=count, depth=depth)
        for i, (count, depth) in enumerate(seeds)
    ]
    found = common_depth(portions)
    low, high = next(each.depth for each in portions if each.name == found.smallest)
    assert low <= found.depth <= high
    assert found.smallest not in dict(found.missed)
