"""What a mixture weighs: volumes added by hand, limits, and what is assumed."""

import re
from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat

import labels
from evenstand.engine.boxes.density import lacking, measured_weight, mixture
from evenstand.engine.boxes.portion import Carrier, rice_hulls
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.units import POUND, POUND_PER_ACRE, POUND_PER_BUSHEL
from evenstand.engine.statistics.budget import standard_uncertainty

weights = st.lists(st.tuples(st.floats(0.001, 10), st.floats(50, 1200)), min_size=1, max_size=6)


def part(*, name="seed", rate=1.0, test_weight=800.0, measured=True):
    return Carrier(name=name, rate=rate, test_weight=test_weight, measured=measured)


def test_hulls_and_seed_by_hand():
    """10 lb of hulls fill 10/9 bu, 30 lb of seed at 60 lb/bu half a bushel.

    40 lb in 1.6111 bu are 24.83 lb/bu.
    """
    seed = part(rate=30 * POUND_PER_ACRE, test_weight=60 * POUND_PER_BUSHEL)
    packed = mixture([seed, rice_hulls(10 * POUND_PER_ACRE)])
    assert packed.test_weight.nominal_value / POUND_PER_BUSHEL == pytest.approx(24.83, abs=0.005)
    assert not packed.measured


@given(weights)
def test_lies_between_the_lightest_and_the_heaviest(pairs):
    parts = [part(name=str(i), rate=w, test_weight=d) for i, (w, d) in enumerate(pairs)]
    packed = mixture(parts).test_weight.nominal_value
    dense = [d for _, d in pairs]
    assert min(dense) * (1 - 1e-9) <= packed <= max(dense) * (1 + 1e-9)


@given(weights, st.floats(0.1, 10))
def test_more_of_everything_changes_nothing(pairs, factor):
    def packed(times):
        parts = [part(name=str(i), rate=w * times, test_weight=d) for i, (w, d) in enumerate(pairs)]
        return mixture(parts).test_weight.nominal_value

    assert packed(factor) == pytest.approx(packed(1.0))


def test_one_measured_part_alone_is_measured_and_known_to_2_percent():
    packed = mixture([part()])
    assert packed.measured
    assert packed.assumed == ()
    assert standard_uncertainty(packed.test_weight) == pytest.approx(800 * 0.02 / sqrt(3))


def test_a_printed_bushel_is_taken_within_15_percent_and_said():
    packed = mixture([part(measured=False)])
    assert standard_uncertainty(packed.test_weight) == pytest.approx(800 * 0.15 / sqrt(3))
    assert re.search(labels.PRINTED_BUSHEL_NOT.like(names="seed"), str(packed.assumed[0]))
    assert not packed.measured


def test_an_uncertainty_that_was_given_is_kept():
    assert standard_uncertainty(mixture([part(test_weight=ufloat(800, 5))]).test_weight) == (
        pytest.approx(5)
    )
    assert standard_uncertainty(measured_weight(ufloat(700, 3)).test_weight) == pytest.approx(3)


def test_gaps_filled_by_small_seed_are_said():
    said = [str(each) for each in mixture([part(), part(name="other")]).assumed]
    assert said == [labels.SMALL_SEED_TAKEN]


def test_the_working_names_every_part():
    (line,) = mixture([part(name="rye", test_weight=56 * POUND_PER_BUSHEL)]).working
    assert str(line.say) == labels.WHAT_FILLS_MEASURE(parts="rye 56 lb/bu")


def test_a_missing_weight_is_asked_for():
    blank = part(name="radish", test_weight=None)
    assert lacking([part(), blank]) == ("radish",)
    with pytest.raises(MeasurementError, match=labels.WEIGH_FULL_MEASURE.like()) as refusal:
        mixture([part(), blank])
    assert refusal.value.field == "test_weight of radish"


def test_a_measured_mixture_must_weigh_something():
    with pytest.raises(MeasurementError) as refusal:
        measured_weight(0.0)
    assert refusal.value.field == "test_weight"
    assert measured_weight(10 * POUND).measured
