"""Seed needed: by hand, what adds up, how sure, refusals."""

from math import nan

import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat

from evenstand.engine.boxes.box import BOX_KINDS, Box
from evenstand.engine.boxes.filled import fill_box
from evenstand.engine.boxes.portion import Portion, rice_hulls
from evenstand.engine.order.need import OrderJob, box_needs, enough_at, together
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import ACRE, BUSHEL, POUND, POUND_PER_ACRE, POUND_PER_BUSHEL
from evenstand.engine.statistics.budget import Estimate, nominal


def filled(dead=0.05, carrier=None):
    box = Box(name="grain", volume=20 * BUSHEL, seed=BOX_KINDS["grain"], dead=dead, carrier=carrier)
    rates = {"rye": 30.0, "vetch": 10.0}
    return fill_box(
        box,
        [
            Portion(
                name=name,
                rate=rate * POUND_PER_ACRE,
                seeds_per_kg=40_000.0,
                test_weight=ufloat(50, 0.5, name) * POUND_PER_BUSHEL,
                measured=True,
            )
            for name, rate in rates.items()
        ],
    )


def pounds(quantity):
    return nominal(quantity) / POUND


def test_by_hand():
    """38.5 ac × 30 lb = 1,155 lb; 4% overlap 46.2; heel ¾ of 50 lb; catches ¾ of 4 lb."""
    job = OrderJob(area=38.5 * ACRE, overlap=0.04, catches={"grain": 4 * POUND})
    rye, vetch = box_needs(filled(), job)
    parts = [pounds(part) for part in (rye.field, rye.overlap, rye.heel, rye.catches)]
    assert parts == pytest.approx([1155, 46.2, 37.5, 3])
    assert pounds(rye.total) == pytest.approx(1241.7)
    assert pounds(vetch.total) == pytest.approx(1241.7 / 3)


def test_a_heel_that_was_weighed_stands_for_the_dead_part():
    job = OrderJob(area=ACRE, heels={"grain": 8 * POUND})
    assert pounds(box_needs(filled(), job)[0].heel) == pytest.approx(6)


@given(st.floats(0.1, 500), st.floats(0, 0.3), st.floats(0, 50))
def test_species_of_a_box_are_needed_in_their_proportion(acres, overlap, caught):
    job = OrderJob(area=acres * ACRE, overlap=overlap, catches={"grain": caught})
    rye, vetch = box_needs(filled(), job)
    assert nominal(rye.total) == pytest.approx(3 * nominal(vetch.total))
    whole = acres * 40 * (1 + overlap) * POUND + 50 * POUND + caught
    assert nominal(rye.total) + nominal(vetch.total) == pytest.approx(whole)


def test_the_rate_of_the_box_makes_it_uncertain_area_and_overlap_too():
    job = OrderJob(area=ufloat(40, 0.4, "area") * ACRE, overlap=ufloat(0.04, 0.02, "overlap"))
    (rye, _) = box_needs(filled(dead=0.0), job)
    parts = {share.name: share.u / POUND for share in rye.shares}
    # 1,248 lb: 3 % of them, 1 % of them, and 0.02 × 1,200.
    assert parts == pytest.approx({"rate of grain": 37.44, "area": 12.48, "overlap": 24.0})


def test_carrier_is_needed_too():
    needs = box_needs(filled(carrier=rice_hulls(10 * POUND_PER_ACRE)), OrderJob(area=10 * ACRE))
    assert [need.name for need in needs] == ["rye", "vetch", "rice hulls"]
    assert pounds(needs[-1].field) == pytest.approx(100)


def test_one_carrier_of_two_boxes_is_added_up():
    one, other = (box_needs(filled(), OrderJob(area=acres * ACRE))[0] for acres in (10, 5))
    (both,) = together([one, other])
    assert pounds(both.total) == pytest.approx(pounds(one.total) + pounds(other.total))
    assert both.box == "grain, grain"
    assert len(both.working) == 4


def test_working_can_be_done_again_with_a_pencil():
    job = OrderJob(area=38.5 * ACRE, overlap=0.04, catches={"grain": 4 * POUND})
    style = Style()
    written = [
        (line.sum(style), style.amount(line.value)) for line in box_needs(filled(), job)[0].working
    ]
    assert written == [
        ("30 lb/ac × 38.5 ac", "1,155 lb"),
        ("1,155 lb + 46.2 lb + 37.5 lb + 3 lb", "1,242 lb"),
    ]


def test_enough_at_nine_in_ten_is_1_2816_standard_deviations_more():
    assert enough_at(Estimate(100, 94, 106, 3), 0.9) == pytest.approx(100 + 3 * 1.281552)
    assert enough_at(Estimate(100, 94, 106, 3), 0.5) == pytest.approx(100)


@given(st.floats(0.001, 40), st.floats(0.5, 0.999))
def test_odds_of_what_is_enough_are_the_odds_asked(u, odds):
    need = Estimate(100.0, 0.0, 0.0, u)
    assert need.below(enough_at(need, odds)) == pytest.approx(odds, abs=1e-9)


@pytest.mark.parametrize("odds", [0.49, 1.0, nan])
def test_odds_are_from_even_to_sure(odds):
    with pytest.raises(MeasurementError) as refusal:
        enough_at(Estimate(100, 94, 106, 3), odds)
    assert refusal.value.field == "odds"


@pytest.mark.parametrize(
    ("changed", "field"),
    [
        ({"area": -1.0}, "area"),
        ({"area": 0.0}, "area"),
        ({"area": nan}, "area"),
        ({"overlap": -0.01}, "overlap"),
        ({"overlap": 1.0}, "overlap"),
        ({"rate_spread": 1.5}, "rate_spread"),
        ({"catches": {"grain": -1.0}}, "catches of grain"),
        ({"heels": {"grain": -1.0}}, "heel of grain"),
    ],
)
def test_refuses_a_job_that_cannot_be(changed, field):
    with pytest.raises(MeasurementError) as refusal:
        OrderJob(**({"area": 100.0} | changed))
    assert refusal.value.field == field
