"""A box with seed in it: published loads of a hopper, rate to set, what is given up."""

import pytest
from uncertainties import ufloat

import labels
from evenstand.engine.boxes.box import BOX_KINDS, Box
from evenstand.engine.boxes.filled import fill_box, outside
from evenstand.engine.boxes.portion import Portion, rice_hulls
from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import (
    ACRE,
    BUSHEL,
    GRAM,
    HECTARE,
    KG_PER_HECTARE,
    KG_PER_HECTOLITRE,
    LITRE,
    POUND,
    POUND_PER_ACRE,
    POUND_PER_BUSHEL,
)
from evenstand.engine.statistics.budget import nominal


def box(**changed):
    given = {"name": "grain", "volume": 20 * BUSHEL, "seed": BOX_KINDS["grain"]}
    return Box(**(given | changed))


def seed(name, lb_per_acre, per_lb=18_000, **more):
    given = {"rate": lb_per_acre * POUND_PER_ACRE, "seeds_per_kg": per_lb / POUND}
    return Portion(name=name, **(given | more))


def test_published_hopper(published):
    """lecture notes on setting drills: 18.15 kg/ha, 60 kg in each of five, 16.53 ha."""
    (row,) = published("area_per_load.csv")
    soybean = Portion(
        name="soybean",
        rate=row["seeds"] / HECTARE * row["thousand_seed_weight"] * GRAM / 1000,
        seeds_per_kg=1000 / (row["thousand_seed_weight"] * GRAM),
        test_weight=row["test_weight"] * KG_PER_HECTOLITRE,
        measured=True,
    )
    one = fill_box(box(volume=row["hopper"] * LITRE), [soybean])
    assert one.rate / KG_PER_HECTARE == pytest.approx(row["rate"])
    assert nominal(one.holds) == pytest.approx(row["holds"])
    whole = fill_box(box(volume=row["hoppers"] * row["hopper"] * LITRE), [soybean])
    assert nominal(whole.holds) == pytest.approx(row["whole"])
    assert whole.per_load.value / HECTARE == pytest.approx(row["area"], abs=0.005)


def test_fifty_bushels_with_a_tenth_dead_sow_24_acres():
    """By hand: 50 bu × 48 lb/bu × 0.9 = 2,160 lb, at 90 lb/ac 24.0 ac."""
    oats = seed("oats", 90, test_weight=48 * POUND_PER_BUSHEL, measured=True)
    filled = fill_box(box(volume=50 * BUSHEL, dead=0.1), [oats])
    assert nominal(filled.holds) / POUND == pytest.approx(2160)
    assert filled.per_load.value / ACRE == pytest.approx(24.0)
    assert nominal(filled.heel) / POUND == pytest.approx(240)


def test_range_of_a_load_widens_with_a_printed_bushel():
    known, printed = (
        fill_box(box(), [seed("rye", 60, test_weight=720.0, measured=m)]).per_load
        for m in (True, False)
    )
    assert known.value == pytest.approx(printed.value)
    assert known.high - known.low < (printed.high - printed.low) / 5


def test_the_box_rate_adds_up_and_shares_are_by_weight():
    carried = fill_box(
        box(carrier=rice_hulls(10 * POUND_PER_ACRE)), [seed("rye", 30), seed("vetch", 10)]
    )
    assert carried.rate / POUND_PER_ACRE == pytest.approx(50)
    assert carried.shares == pytest.approx({"rye": 0.6, "vetch": 0.2, "rice hulls": 0.2})


def test_an_empty_box_takes_no_carrier():
    empty = fill_box(box(carrier=rice_hulls(1e-4)), [])
    assert (empty.rate, empty.filling, empty.packed, empty.working) == (0, (), None, ())
    assert empty.missing is None


def test_without_a_test_weight_nobody_knows_what_it_holds():
    filled = fill_box(box(), [seed("rye", 30, test_weight=720.0), seed("radish", 2)])
    assert (filled.holds, filled.per_load, filled.heel) == (None, None, 0.0)
    assert str(filled.missing) == (labels.WEIGH_FULL_MEASURE_MIXTURE(names="radish", box="grain"))
    assert len(filled.working) == 1


def test_a_mixture_that_was_weighed_needs_no_parts():
    filled = fill_box(box(), [seed("rye", 30), seed("radish", 2)], mixed_weight=ufloat(700, 7))
    assert filled.packed.measured
    assert nominal(filled.holds) == pytest.approx(700 * 20 * BUSHEL)


def test_working_can_be_done_again_with_a_pencil():
    filled = fill_box(
        box(dead=0.1), [seed("rye", 60, test_weight=56 * POUND_PER_BUSHEL, measured=True)]
    )
    style = Style()
    written = [(line.sum(style), style.amount(line.value)) for line in filled.working]
    assert written == [
        ("60 lb/ac", "60 lb/ac"),
        ("", "56 lb/bu"),
        ("18 bu × 56 lb/bu", "1,008 lb"),
        ("1,008 lb ÷ 60 lb/ac", "16.8 ac"),
    ]


def test_seed_a_box_only_makes_do_with_is_given_up():
    (given_up,) = fill_box(box(), [seed("clover", 5, per_lb=200_000)]).compromises
    assert (given_up.about, given_up.grade) == ("class", 2)
    assert str(given_up.say) == labels.NOT_MADE(seed="clover", class_="small seed", box="grain")


@pytest.mark.parametrize(
    ("limits", "words"),
    [
        (
            {"least": 70 * POUND_PER_ACRE},
            labels.LESS_THAN_CAN(rate="60 lb/ac", limit="70 lb/ac", box="grain"),
        ),
        (
            {"most": 50 * POUND_PER_ACRE},
            labels.MORE_THAN_CAN(rate="60 lb/ac", limit="50 lb/ac", box="grain"),
        ),
    ],
)
def test_a_rate_the_box_cannot_meter(limits, words):
    (given_up,) = fill_box(box(**limits), [seed("rye", 60)]).compromises
    assert (given_up.about, given_up.grade) == ("rate", 3)
    assert str(given_up.say).startswith(words)


def test_an_empty_box_is_within_its_limits():
    assert not outside(box(least=0.01), 0.0)
    assert [outside(box(least=0.01, most=0.02), r) for r in (0.005, 0.015, 0.03)] == [
        *(True, False, True)
    ]


def test_depth_counts_here_only_where_the_box_has_its_own():
    seeds = [seed("rye", 30, depth=(0.02, 0.04)), seed("vetch", 10, 19_000, depth=(0.005, 0.01))]
    about = [[c.about for c in fill_box(box(own_depth=own), seeds).compromises] for own in (1, 0)]
    assert about == [["depth"], []]
