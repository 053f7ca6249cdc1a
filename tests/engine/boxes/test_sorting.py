"""Sorting found in a sample: by hand, what cancels, what cannot be told."""

from dataclasses import replace
from math import exp, log, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat

import labels
from evenstand.engine.boxes.box import BOX_KINDS, Box
from evenstand.engine.boxes.filled import fill_box
from evenstand.engine.boxes.portion import Portion, rice_hulls
from evenstand.engine.boxes.sample import counted, weighed
from evenstand.engine.boxes.sorting import sorting
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import BUSHEL, POUND_PER_ACRE

# By weight 80 : 10 : 10, by seeds 32 : 4 : 44 in 80, that is 40 %, 5 % and 55 %.
RATES = {"rye": 40.0, "vetch": 5.0, "clover": 5.0}
PER_KG = {"rye": 40_000.0, "vetch": 40_000.0, "clover": 440_000.0}
AS_FILLED = {"rye": 320, "vetch": 40, "clover": 440}


def filled(carrier=None, **per_kg):
    counts = PER_KG | per_kg
    box = Box(name="grain", volume=20 * BUSHEL, seed=BOX_KINDS["grain"], carrier=carrier)
    portions = [
        Portion(
            name=name,
            rate=RATES[name] * POUND_PER_ACRE,
            seeds_per_kg=counts[name],
            live_per_kg=0.8 * counts[name],
        )
        for name in RATES
    ]
    return fill_box(box, portions)


def of(found, name):
    return next(each for each in found.species if each.name == name)


def test_a_sample_as_filled_shows_nothing():
    found = sorting(filled(), counted(AS_FILLED))
    assert not found.found
    assert found.test.statistic == pytest.approx(0, abs=1e-9)
    assert [each.expected for each in found.species] == pytest.approx([0.40, 0.05, 0.55])
    assert all(each.live.value == pytest.approx(each.wanted_live) for each in found.species)
    assert found.live.value == pytest.approx(found.wanted_live)


def test_chi_square_and_who_runs_ahead_by_hand():
    """400, 40, 360 of 800 against 320, 40, 440: 80²/320 + 80²/440 = 20 + 14.545."""
    found = sorting(filled(), counted({"rye": 400, "vetch": 40, "clover": 360}))
    assert found.found
    assert found.chance.statistic == pytest.approx(20 + 6400 / 440)
    assert found.test.statistic == pytest.approx(found.chance.statistic)
    assert [each.runs for each in found.species] == ["ahead", "as filled", "behind"]
    assert of(found, "rye").ratio.value == pytest.approx(1.25)
    assert str(found.say) == (
        " ".join(
            [
                labels.SORTS(box="grain"),
                labels.RUNS_TIMES_SHARE(
                    name="rye", runs=labels.AHEAD, times="1.25", low="1.16", high="1.34"
                ),
                labels.RUNS_TIMES_SHARE(
                    name="clover", runs=labels.BEHIND, times="0.818", low="0.755", high="0.882"
                ),
            ]
        )
    )
    assert labels.EMPTY_METERS_STIR(box="grain") in str(found.next)


def test_what_it_does_to_live_seeds_by_hand():
    """At 50 lb/ac the sample's weights are 400/40 : 40/40 : 360/440 = 10 : 1 : 0.818.

    Of 11.818 parts rye has 0.8462 and not 0.8, so 5.77% more of its live seeds.
    """
    found = sorting(filled(), counted({"rye": 400, "vetch": 40, "clover": 360}))
    rye = of(found, "rye")
    assert rye.live.value / rye.wanted_live == pytest.approx(10 / (11 + 9 / 11) / 0.8)
    clover = of(found, "clover")
    assert clover.live.value / clover.wanted_live == pytest.approx(9 / 11 / (11 + 9 / 11) / 0.1)


def test_ranges_hold_against_another_route():
    """Clopper–Pearson of 360 in 800 is 0.41514 to 0.48523 (statsmodels); ÷ 0.55."""
    clover = of(sorting(filled(), counted({"rye": 400, "vetch": 40, "clover": 360})), "clover")
    assert clover.ratio.low * 0.55 == pytest.approx(0.41514, abs=5e-6)
    assert clover.ratio.high * 0.55 == pytest.approx(0.48523, abs=5e-6)


def test_the_box_rate_carries_over():
    usual = sorting(filled(), counted(AS_FILLED))
    more = sorting(filled(), counted(AS_FILLED), rate=ufloat(55, 1.1, "box") * POUND_PER_ACRE)
    assert more.live.value == pytest.approx(1.1 * usual.live.value)
    assert more.live.u > usual.live.u


def test_a_carrier_has_no_seeds_to_count():
    carried = sorting(filled(carrier=rice_hulls(10 * POUND_PER_ACRE)), counted(AS_FILLED))
    assert not carried.found
    assert carried.live.value == pytest.approx(carried.wanted_live)


def test_a_seed_count_that_may_be_wrong_is_no_sorting():
    """Clover's count known to 20%: 18% fewer of it prove nothing."""
    sample = counted({"rye": 400, "vetch": 40, "clover": 360})
    unsure = sorting(filled(clover=ufloat(440_000, 88_000, "clover count")), sample)
    assert not unsure.found
    assert unsure.chance.p < 1e-6
    assert of(unsure, "clover").ratio.low < of(sorting(filled(), sample), "clover").ratio.low


def test_a_species_stands_out_against_its_own_uncertainty_too():
    """Clover 360 of 800 against 55% known to 5%: sd √(0.55 × 0.45 ÷ 800 + (0.55 × 0.45 × 5%)²).

    That is √(0.000309 + 0.000153) = 0.0215, z = 0.1 ÷ 0.0215 = 4.6498; by the count alone 5.69.
    """
    sample = counted({"rye": 400, "vetch": 40, "clover": 360})
    clover = of(sorting(filled(clover=ufloat(440_000, 22_000)), sample), "clover")
    # Rye's z is 4.87, so clover comes second of three by Holm: 2 × 2 Φ(−4.6498) (SciPy).
    assert clover.p == pytest.approx(2 * 2 * 1.6611e-6, rel=1e-4)


def test_chaff_in_the_bag_has_no_seeds():
    """Clover of 50% purity: 220 seeds and not 440 for 320 of rye."""
    half = [
        each if each.name != "clover" else replace(each, purity=0.5) for each in filled().portions
    ]
    box = fill_box(Box(name="grain", volume=1.0, seed=BOX_KINDS["grain"]), half)
    found = sorting(box, counted({"rye": 320, "vetch": 40, "clover": 220}))
    assert found.test.statistic == pytest.approx(0, abs=1e-9)
    assert of(found, "clover").live.value == pytest.approx(of(found, "clover").wanted_live)


def test_sorting_by_weight_is_found_though_the_count_is_unsure():
    """The same catch: counted it proves nothing at 20%, weighed it does."""
    box = filled(clover=ufloat(440_000, 88_000, "clover count"))
    by_weight = {"rye": 400 / 40_000, "vetch": 40 / 40_000, "clover": 360 / 440_000}
    assert sorting(box, weighed(by_weight, box.portions)).found
    assert not sorting(box, counted({"rye": 400, "vetch": 40, "clover": 360})).found


def test_both_ranges_are_joined_on_the_log_scale():
    """ln end = √(ln(end of the count ÷ value)² + (1.96 u)²); u of clover's share is its relative
    uncertainty times 1 − 0.55."""
    sample = counted({"rye": 400, "vetch": 40, "clover": 360})
    exact = of(sorting(filled(), sample), "clover").ratio
    wide = of(sorting(filled(clover=ufloat(440_000, 44_000)), sample), "clover").ratio
    reach = sqrt(log(exact.low / exact.value) ** 2 + (1.959964 * 0.1 * 0.45) ** 2)
    assert wide.low == pytest.approx(exact.value * exp(-reach), rel=1e-6)


@given(st.floats(0.5, 2))
def test_weighed_samples_do_not_mind_a_wrong_seed_count(factor):
    """Filled and sampled by weight: the same shares, whatever a seed weighs."""
    box = filled(clover=440_000.0 * factor)
    found = sorting(box, weighed({"rye": 0.4, "vetch": 0.05, "clover": 0.05}, box.portions))
    assert found.test.p > 0.99
    assert [each.ratio.value for each in found.species] == pytest.approx([1, 1, 1], rel=1e-3)
    exact = filled(clover=ufloat(440_000.0 * factor, 100_000, "count"))
    assert sorting(exact, weighed({"rye": 0.4, "vetch": 0.05, "clover": 0.05}, box.portions)).live.u


def test_a_species_that_is_not_there_is_told():
    found = sorting(filled(), counted({"rye": 360, "vetch": 0, "clover": 440}))
    vetch = of(found, "vetch")
    assert (vetch.runs, vetch.ratio.value, vetch.ratio.low) == ("behind", 0.0, 0.0)
    # Clopper–Pearson of none in 800: 3.6804 could still hide (statsmodels), of 40 expected.
    assert vetch.ratio.high == pytest.approx(3.6804 / 40, abs=5e-6)
    assert vetch.live.value == 0
    assert vetch.live.low == 0
    assert vetch.live.high > 0


def test_small_classes_are_pooled_and_named():
    """Of 40 seeds 16, 2 and 22 are expected: vetch's 2 take rye's 16."""
    found = sorting(filled(), counted({"rye": 16, "vetch": 2, "clover": 22}))
    assert found.pooled == ("rye", "vetch")
    assert found.test.dof == 1


def test_what_would_have_shown_is_said():
    """Vetch, 5% of 800: sd of its share √(0.05 × 0.95 ÷ 800) = 0.0077, 15.4% of it.

    (1.960 + 1.2816) × 15.4% = 50%.
    """
    found = sorting(filled(), counted(AS_FILLED))
    assert of(found, "vetch").would_show == pytest.approx(0.4996, abs=5e-4)
    assert str(found.say) == (
        " ".join(
            [
                labels.NO_SORTING_SEEN(box="grain", seeds="800 seeds"),
                labels.OFF_WOULD_HAVE(name="vetch", change="50%"),
            ]
        )
    )
    assert str(found.next) == labels.GO_SEPARATE_CATCH(box="grain")


@given(st.integers(2, 20))
def test_more_seeds_make_it_surer(times):
    sample = {"rye": 33, "vetch": 4, "clover": 43}
    few, many = (
        sorting(filled(), counted({name: k * n for name, k in sample.items()})) for n in (1, times)
    )
    assert of(many, "rye").ratio.value == pytest.approx(of(few, "rye").ratio.value)
    assert of(many, "rye").ratio.high < of(few, "rye").ratio.high
    assert of(many, "rye").would_show < of(few, "rye").would_show


def test_working_shows_what_was_expected():
    lines = sorting(filled(), counted({"rye": 400, "vetch": 40, "clover": 360})).working
    style = Style()
    first = f"{lines[0].say} | {lines[0].sum(style)} | {style.amount(lines[0].value)}"
    expected = "rye: expected, of 800 seeds in all; found 400 seeds | 800 × 40% ÷ 100 | 320"
    assert first == expected
    assert style.amount(lines[-1].value) == "34.55"


def test_what_was_taken_for_granted_is_said():
    said = [str(each) for each in sorting(filled(), counted(AS_FILLED)).assumed]
    assert said[0].startswith(labels.SAMPLE_FAIR_PART)
    assert said[1] == labels.SEEDS_PER_WEIGHT


def test_refuses_a_box_of_one_species_and_an_empty_sample():
    alone = fill_box(
        Box(name="small", volume=1.0, seed=BOX_KINDS["grain"]),
        [Portion(name="rye", rate=0.004, seeds_per_kg=4e4)],
    )
    with pytest.raises(MeasurementError, match=labels.SAMPLE_BOX_TWO.like(box="small")) as refusal:
        sorting(alone, counted({"rye": 100}))
    assert refusal.value.field == "sample"
    with pytest.raises(MeasurementError, match=labels.COUNT_LEAST_ONE.like()) as refusal:
        sorting(filled(), counted({"rye": 0, "vetch": 0, "clover": 0}))
    assert refusal.value.field == "sample"
    with pytest.raises(MeasurementError, match=labels.COUNT_MORE_SEEDS.like()) as refusal:
        sorting(filled(), counted({"rye": 2, "vetch": 0, "clover": 2}))
    assert refusal.value.field == "counts"
