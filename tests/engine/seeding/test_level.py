"""Seed in a box from its level, and loads: by hand, and what is refused."""

from math import nan, sqrt

import pytest
from uncertainties import ufloat

import labels
from evenstand.engine.boxes.box import BOX_KINDS, Box
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.units import (
    BUSHEL,
    KG_PER_HECTOLITRE,
    LITRE,
    POUND,
    POUND_PER_BUSHEL,
)
from evenstand.engine.seeding.events import assumptions, bags, weighed
from evenstand.engine.seeding.level import read_level, require_room, weighed_out

from .fields import BOX, level


def test_a_published_hopper():
    """75 L of 80 kg/hL hold 60 kg: lecture notes on setting drills."""
    box = Box(name="hopper", volume=75 * LITRE, seed=BOX_KINDS["grain"])
    full = read_level(box, 1.0, test_weight=80 * KG_PER_HECTOLITRE)
    assert full.weight == pytest.approx(60)
    assert full.u == pytest.approx(0.03 / sqrt(3) * 60)
    assert full.by_volume


def test_a_third_of_a_box_by_hand():
    """12 bu of 48 lb/bu, a third full, read to ± 1%: 192 lb ± 5.76."""
    box = Box(name="grain", volume=12 * BUSHEL, seed=BOX_KINDS["grain"])
    third = read_level(box, ufloat(1 / 3, 0.01), test_weight=48 * POUND_PER_BUSHEL)
    assert third.weight / POUND == pytest.approx(192)
    assert third.u / POUND == pytest.approx(5.76)
    assert third.assumed == ()


def test_seed_let_out_and_weighed():
    assert weighed_out(BOX, 0.0).u == 0
    assert weighed_out(BOX, 100.0).u == pytest.approx(0.5 / sqrt(3))
    assert weighed_out(BOX, ufloat(100.0, 2.0)).u == 2


def test_bags_apart_average_and_a_tote_does_not():
    """Sixteen bags of 50: each ± 1%, together ± 1% ÷ 4."""
    found = bags(0.0, count=16, weight=50.0)
    assert found.weight == 800
    assert found.u == pytest.approx(0.5 * 4 / sqrt(3))
    assert weighed(0.0, 800.0, tote=True).u == pytest.approx(8 / sqrt(3))
    assert weighed(0.0, 800.0).u == pytest.approx(4 / sqrt(3))
    assert weighed(0.0, ufloat(800.0, 1.0)).u == 1


def test_what_is_taken_for_granted_is_said_once():
    events = [bags(0.0, count=2, weight=50.0), bags(5.0, count=2, weight=50.0), level(2, 5)]
    assert [str(text) for text in assumptions(events)] == [labels.BAG_HOLDS_WEIGHT(limits="1%")]


@pytest.mark.parametrize(
    ("call", "field"),
    [
        (lambda: read_level(BOX, 1.2, test_weight=700.0), "level of grain"),
        (lambda: read_level(BOX, -0.1, test_weight=700.0), "level of grain"),
        (lambda: read_level(BOX, nan, test_weight=700.0), "level of grain"),
        (lambda: read_level(BOX, 0.5, test_weight=0.0), "test_weight"),
        (lambda: weighed_out(BOX, -1.0), "level of grain"),
        (lambda: require_room(BOX, 900.0, holds=700.0, u=5.0), "load of grain"),
        (lambda: bags(0.0, count=0, weight=50.0), "count"),
        (lambda: bags(0.0, count=2, weight=nan), "weight"),
        (lambda: weighed(0.0, 0.0), "weight"),
    ],
)
def test_refuses_and_names_the_field(call, field):
    with pytest.raises(MeasurementError) as refusal:
        call()
    assert refusal.value.field == field
