"""What a tag must add up to, how surely it is known, and what is refused."""

from math import nan, sqrt

import pytest

import labels
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.seed.replicates import Dish
from evenstand.engine.seed.retest import HomeTest
from evenstand.engine.seed.tag import Month, Noxious, Tag
from evenstand.engine.statistics.budget import nominal, standard_uncertainty


def tag(**changed):
    return Tag(**({"purity": 0.98, "germination": 0.92} | changed))


def test_a_whole_tag_adds_up():
    whole = tag(inert=0.012, other_crop=0.005, weed=0.003, hard=0.05, dormant=0.01)
    assert whole.total == pytest.approx(0.98)


def test_rounded_parts_add_up():
    """Printed to two decimals of a per cent, four parts may be 0.02% off."""
    tag(purity=0.9805, inert=0.0120, other_crop=0.0050, weed=0.0023)


def test_rounding_goes_no_further_than_it_can():
    """Each of four parts may be 0.01% off, so 100.04% passes and 100.06% does not."""
    whole = {"inert": 0.0100, "other_crop": 0.0050, "weed": 0.0050}
    tag(purity=0.9804, **whole)
    tag(purity=0.9796, **whole)
    for purity in (0.9806, 0.9794):
        with pytest.raises(MeasurementError):
            tag(purity=purity, **whole)


def test_live_seed_rounded_to_more_than_all_of_it():
    """92.1 + 5.2 + 2.74 = 100.04%."""
    known = tag(germination=0.921, hard=0.052, dormant=0.0274)
    assert standard_uncertainty(known.viable) == pytest.approx(
        standard_uncertainty(tag(germination=1.0).sprouting)
    )


def test_a_coating_may_be_all_the_inert_matter_and_its_rounding():
    assert tag().coating == 0
    tag(purity=0.66, coating=0.3404)
    with pytest.raises(MeasurementError):
        tag(purity=0.66, coating=0.3406)


def test_a_weed_looked_for_and_not_found():
    assert Noxious("dodder", 0).per_kg == 0


def test_a_part_left_out_is_not_missed():
    tag(purity=0.80, weed=0.01)


def test_purity_is_as_sure_as_the_tolerance_says():
    """0.82 points at 98% by 7 CFR 201.60, chaffy 0.95; two tests, one in twenty one-sided."""
    assert standard_uncertainty(tag().pure) == pytest.approx(0.0082 / 1.645 / sqrt(2))
    assert standard_uncertainty(tag(chaffy=True).pure) == pytest.approx(0.0095 / 1.645 / sqrt(2))


def test_germination_is_less_sure_than_the_draw_alone():
    """Binomial: √(0.92 × 0.08 ÷ 400) = 1.36 points; the AOSA tolerance of 5 ÷ 1.645 √2 = 2.15."""
    u = standard_uncertainty(tag().sprouting)
    assert u > sqrt(0.92 * 0.08 / 400)
    assert u == pytest.approx(0.05 / 1.645 / sqrt(2), abs=0.004)


def test_more_seeds_tested_are_surer():
    few, many = (standard_uncertainty(tag(seeds_tested=n).sprouting) for n in (200, 800))
    assert few > standard_uncertainty(tag().sprouting) > many


def test_a_tag_of_100_percent_is_still_uncertain():
    assert standard_uncertainty(tag(germination=1.0).sprouting) > 0


def test_what_comes_of_one_tag_stays_correlated():
    known = tag(hard=0.03)
    assert standard_uncertainty(known.pure - known.pure) == 0
    assert nominal(known.viable) == pytest.approx(0.95)


def test_without_hard_seed_both_ways_are_one():
    known = tag()
    assert standard_uncertainty(known.viable - known.sprouting) == 0


def test_a_home_test_is_in_it():
    """Between the two results, and surer than the tag alone."""
    known = tag(home_test=HomeTest(dishes=(Dish(180, 200),)))
    assert 0.90 < nominal(known.sprouting) < 0.92
    assert standard_uncertainty(known.sprouting) < standard_uncertainty(tag().sprouting)
    assert standard_uncertainty(known.viable - known.sprouting) == 0


def test_a_home_test_joins_the_total_by_its_own_total():
    home = HomeTest(dishes=(Dish(170, 200),), hard=10)
    known = tag(germination=0.85, hard=0.05, home_test=home)
    assert nominal(known.sprouting) == pytest.approx(0.85)
    assert nominal(known.viable) == pytest.approx(0.90)


def test_months_count_from_the_end():
    assert Month(2026, 3).until(Month(2026, 3)) == 0
    assert Month(2025, 11).until(Month(2026, 2)) == 3
    assert str(Month(2026, 3)) == "2026-03"


@pytest.mark.parametrize(
    ("changed", "field", "says"),
    [
        ({"purity": 1.2}, "purity", labels.GIVE_WHAT_TAG),
        ({"purity": 98.0}, "purity", labels.GIVE_WHAT_TAG),
        ({"purity": 0.0}, "purity", labels.GIVE_WHAT_TAG),
        ({"purity": nan}, "purity", labels.GIVE_WHAT_TAG),
        ({"germination": 1.01}, "germination", labels.GIVE_WHAT_TAG),
        ({"germination": -0.1}, "germination", labels.GIVE_WHAT_TAG),
        ({"hard": -0.1}, "hard", labels.GIVE_WHAT_TAG_SAYS),
        ({"dormant": nan}, "dormant", labels.GIVE_WHAT_TAG_SAYS),
        ({"inert": 1.1}, "inert", labels.GIVE_WHAT_TAG_SAYS),
        ({"other_crop": -1}, "other_crop", labels.GIVE_WHAT_TAG_SAYS),
        ({"weed": 2}, "weed", labels.GIVE_WHAT_TAG_SAYS),
        ({"coating": -0.1}, "coating", labels.GIVE_WHAT_TAG_SAYS),
        ({"hard": 0.09}, "germination", labels.GERMINATION_HARD_DORMANT(total="101%")),
        ({"hard": 0.05, "dormant": 0.04}, "germination", "leave hard seed blank"),
        ({"total_viable": True, "hard": 0.05}, "hard", labels.LEAVE_OUT_TOTAL),
        ({"total_viable": True, "dormant": 0.05}, "dormant", labels.LEAVE_OUT_TOTAL),
        ({"weed": 0.03}, "purity", labels.PURE_SEED_OTHER(whole="101%")),
        (
            {"inert": 0.01, "other_crop": 0.0, "weed": 0.0},
            "purity",
            labels.PURE_SEED_OTHER(whole="99%"),
        ),
        ({"coating": 0.34}, "coating", labels.COATING_PART_INERT(room="2%")),
        ({"coating": 0.02, "inert": 0.015}, "coating", labels.COATING_PART_INERT(room="1.5%")),
        ({"seeds_tested": 0}, "seeds_tested", "above 0"),
        ({"net_weight": 0}, "net_weight", labels.GIVE_A_VALUE_ABOVE_UNIT(unit="kg")),
        (
            {"hard": 0.05, "home_test": HomeTest(dishes=(Dish(90, 100),))},
            "home_hard",
            labels.COUNT_FIRM_SEEDS,
        ),
        (
            {"total_viable": True, "home_test": HomeTest(dishes=(Dish(90, 100),))},
            "home_hard",
            labels.COUNT_FIRM_SEEDS,
        ),
    ],
)
def test_refuses_names_the_field_and_says_what_to_do(changed, field, says):
    with pytest.raises(MeasurementError) as refusal:
        tag(**changed)
    assert refusal.value.field == field
    assert says in str(refusal.value.need)


@pytest.mark.parametrize("month", [0, 13])
def test_refuses_a_month_that_is_none(month):
    with pytest.raises(MeasurementError) as refusal:
        Month(2026, month)
    assert refusal.value.field == "tested"


def test_refuses_fewer_than_no_weeds():
    with pytest.raises(MeasurementError) as refusal:
        Noxious("dodder", -1)
    assert refusal.value.field == "noxious"
