"""Boxes: what each takes, why it refuses, and what cannot be a box."""

import re
from math import nan

import pytest

import labels
from evenstand.engine.boxes.box import (
    BOX_KINDS,
    Box,
    BoxSeed,
    fit,
    refusal,
    refusals,
    require_boxes,
    wanted,
)
from evenstand.engine.boxes.portion import Portion
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.units import BUSHEL, POUND


def box(kind="grain", **changed):
    return Box(**({"name": kind, "volume": 20 * BUSHEL, "seed": BOX_KINDS[kind]} | changed))


def seed(name, per_lb, **more):
    return Portion(name=name, rate=0.001, seeds_per_kg=per_lb / POUND, **more)


PEA, MILLET, CLOVER = seed("pea", 2_000), seed("millet", 82_000), seed("clover", 200_000)
BLUESTEM = seed("big bluestem", 130_000, fluffy=True)


@pytest.mark.parametrize(
    ("kind", "fits"),
    [
        ("grain", ["made for it", "made for it", "makes do", "cannot"]),
        ("small seed", ["cannot", "made for it", "made for it", "cannot"]),
        ("fluffy", ["cannot", "makes do", "makes do", "made for it"]),
    ],
)
def test_what_each_kind_of_box_takes(kind, fits):
    """Peas and cereals large box, clovers, brassicas and millets small; fluffy its own."""
    found = box(kind, agitator=kind == "fluffy")
    assert [fit(found, each) for each in (PEA, MILLET, CLOVER, BLUESTEM)] == fits


def test_fluffy_seed_needs_an_agitator_even_in_its_own_box():
    """NRCS, Five keys (2003), key 3: picker wheels and agitators."""
    bare = box("fluffy")
    assert fit(bare, BLUESTEM) == "cannot"
    assert re.search(labels.FLUFFY_BRIDGES_HAS.like(), str(refusal(bare, BLUESTEM)))
    assert refusal(box("fluffy", agitator=True), BLUESTEM) is None
    assert re.search(labels.FLUFFY_NOT_MADE.like(), str(refusal(box(agitator=True), BLUESTEM)))


def test_a_refusal_says_the_class_the_count_and_what_the_box_takes():
    said = str(refusal(box("small seed"), PEA))
    expected = "pea is large seed (2,000 seeds/lb), and small seed handles medium seed, small seed"
    assert said == expected


def test_every_refusal_is_listed_species_by_species():
    boxes = [box(), box("small seed")]
    listed = [(each.seed, each.box) for each in refusals(boxes, [PEA, CLOVER, BLUESTEM])]
    expected = [("pea", "small seed"), ("big bluestem", "grain"), ("big bluestem", "small seed")]
    assert listed == expected


def test_a_box_is_wanted_by_seed_it_is_made_for():
    assert wanted(box("small seed"), [PEA, CLOVER])
    assert not wanted(box(), [CLOVER])


def test_what_flows_out_leaves_the_dead_part():
    assert box(volume=1.0, dead=0.1).usable == pytest.approx(0.9)


@pytest.mark.parametrize(
    ("changed", "field"),
    [
        ({"volume": 0.0}, "volume of grain"),
        ({"volume": nan}, "volume of grain"),
        ({"dead": 1.0}, "dead of grain"),
        ({"dead": -0.1}, "dead of grain"),
        ({"seed": BoxSeed(frozenset())}, "takes of grain"),
        ({"least": 0.0}, "least of grain"),
        ({"most": -1.0}, "most of grain"),
        ({"least": 0.02, "most": 0.01}, "most of grain"),
    ],
)
def test_refuses_what_cannot_be_a_box(changed, field):
    with pytest.raises(MeasurementError) as refused:
        box(**changed)
    assert refused.value.field == field


def test_needs_a_box_and_names_apart():
    with pytest.raises(MeasurementError, match=labels.GIVE_LEAST_ONE.like()) as refused:
        require_boxes([])
    assert refused.value.field == "boxes"
    with pytest.raises(MeasurementError, match=labels.GIVE_EACH_BOX.like()) as refused:
        require_boxes([box(), box()])
    assert (refused.value.field, refused.value.given) == ("boxes", "grain")
