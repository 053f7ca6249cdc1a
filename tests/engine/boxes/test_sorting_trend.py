"""Samples as a box empties: what changes, what stays, refusals."""

import re

import pytest

import labels
from evenstand.engine.boxes.box import BOX_KINDS, Box
from evenstand.engine.boxes.filled import fill_box
from evenstand.engine.boxes.portion import Portion
from evenstand.engine.boxes.sample import counted
from evenstand.engine.boxes.sorting_trend import sorting_trend
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.units import BUSHEL

# By weight 80 : 20, by seeds 50 : 50.
RYE = Portion(name="rye", rate=0.008, seeds_per_kg=40_000.0)
RADISH = Portion(name="radish", rate=0.002, seeds_per_kg=160_000.0)
BOX = fill_box(Box(name="grain", volume=20 * BUSHEL, seed=BOX_KINDS["grain"]), [RYE, RADISH])


def samples(*pairs):
    return [counted({"rye": rye, "radish": 200 - rye}, out=out) for out, rye in pairs]


def test_the_small_seed_comes_first_and_is_missing_at_the_end():
    """Radish 140, 100, 60 of 200 at 0, half and all but nothing out.

    Among themselves: 100 expected each of three, 40² ÷ 100 four times = 64. Trend: x̄ = ½,
    lean −40 × ½ × 2 = −40, spread 200 × (¼ + ¼) = 100: from full to empty −40% of the seeds.
    """
    found = sorting_trend(BOX, samples((0.0, 60), (0.5, 100), (1.0, 140)))
    assert found.found
    assert (found.test.statistic, found.test.dof) == (pytest.approx(64), 2)
    radish = next(each for each in found.species if each.name == "radish")
    assert radish.change.value == pytest.approx(-0.4)
    assert radish.change.u == pytest.approx(0.05)  # √(¼ ÷ 100)
    assert radish.shares == pytest.approx((0.7, 0.5, 0.3))
    assert labels.FROM_TO_OF(name="radish", way=labels.FALLS, first="70%", last="30%") in str(
        found.say
    )
    assert labels.FROM_TO_OF(name="rye", way=labels.RISES, first="30%", last="70%") in str(
        found.say
    )
    assert str(found.next).startswith(labels.FILL_ONLY_PART(box="grain"))
    assert [each.found for each in found.samples] == [True, False, True]


def test_samples_may_be_given_in_any_order():
    pairs = [(0.0, 60), (0.5, 100), (1.0, 140)]
    there, back = sorting_trend(BOX, samples(*pairs)), sorting_trend(BOX, samples(*pairs[::-1]))
    assert str(there.say) == str(back.say)
    assert [each.change for each in there.species] == [each.change for each in back.species]


def test_a_box_that_stays_mixed():
    found = sorting_trend(BOX, samples((0.0, 103), (0.5, 98), (0.9, 100)))
    assert not found.found
    assert str(found.say) == labels.WHAT_DROPS_DOES(box="grain")
    assert str(found.next) == labels.GO_STAYS_MIXED(box="grain")


def test_alike_all_along_but_not_as_filled_points_at_the_seed_counts():
    found = sorting_trend(BOX, samples((0.0, 140), (0.5, 142), (0.9, 139)))
    assert not found.found
    assert re.search(labels.DROPS_SAME_MIXTURE.like(), str(found.next))


def test_a_change_without_direction_is_said():
    """Up in the middle and back: the lean of the first half cancels that of the second."""
    found = sorting_trend(BOX, samples((0.0, 90), (0.5, 130), (1.0, 90)))
    assert found.found
    assert not any(each.sure for each in found.species)
    assert re.search(labels.WHAT_DROPS_CHANGES.like(), str(found.say))


def test_at_one_level_of_the_box_there_is_no_trend():
    found = sorting_trend(BOX, samples((0.3, 60), (0.3, 140)))
    assert [each.change.value for each in found.species] == [0, 0]
    assert found.found


def test_needs_two_samples():
    with pytest.raises(MeasurementError, match=labels.GIVE_TWO_SAMPLES.like()) as refusal:
        sorting_trend(BOX, samples((0.0, 100)))
    assert refusal.value.field == "sample"
