"""Which seed goes in which box: trade practice, brute force, refusals."""

import re
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import labels
from evenstand.engine.boxes.box import BOX_KINDS, Box, fit
from evenstand.engine.boxes.compromise import burden
from evenstand.engine.boxes.portion import Portion, rice_hulls
from evenstand.engine.boxes.sorting_risk import diameter_ratio
from evenstand.engine.boxes.split import split_as, splits
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.units import BUSHEL, INCH, POUND, POUND_PER_ACRE


def box(name, kind=None, **more):
    given = {"volume": 10 * BUSHEL, "seed": BOX_KINDS[kind or name], "agitator": name == "fluffy"}
    return Box(name=name, **(given | more))


def seed(name, per_lb, lb_per_acre=5.0, **more):
    given = {"rate": lb_per_acre * POUND_PER_ACRE, "seeds_per_kg": per_lb / POUND}
    return Portion(name=name, **(given | more))


GRAIN, SMALL, FLUFFY = box("grain"), box("small seed"), box("fluffy")
RYE, PEA, CLOVER = seed("rye", 18_000), seed("pea", 2_000), seed("clover", 200_000)
BLUESTEM = seed("big bluestem", 130_000, fluffy=True, native=True)


def where(split):
    return {each.name: filled.box.name for filled in split.boxes for each in filled.portions}


def test_cereal_in_the_large_box_clover_in_the_small():
    """Clovers, brassicas and millets small box, cereals and peas large: sellers' guide, 2015."""
    radish = seed("radish", 34_000)
    best = splits([RYE, CLOVER, radish, PEA], [GRAIN, SMALL]).best[0]
    assert where(best) == {
        "rye": "grain",
        "pea": "grain",
        "clover": "small seed",
        "radish": "small seed",
    }


def test_every_kind_of_seed_has_its_box():
    """USDA NRCS, Five keys (2003): fluffy, smooth small and smooth large, a box each."""
    found = splits([RYE, CLOVER, BLUESTEM], [GRAIN, SMALL, FLUFFY])
    assert where(found.best[0]) == {
        "rye": "grain",
        "clover": "small seed",
        "big bluestem": "fluffy",
    }
    assert found.best[0].compromises == ()
    assert str(found.say) == (
        " ".join(
            [
                labels.IN(box="grain", names="rye"),
                labels.IN(box="small seed", names="clover"),
                labels.IN(box="fluffy", names="big bluestem"),
                labels.NOTHING_GIVEN_UP,
            ]
        )
    )
    assert found.best[0].box_of("clover") == "small seed"


def test_natives_are_ordered_apart():
    """USDA NRCS Georgia, switchgrass sheet (2005): order species separately, not pre-mixed."""
    advice = [str(each) for each in splits([RYE, BLUESTEM], [GRAIN, FLUFFY]).best[0].advice]
    assert advice[0] == (
        labels.ORDER_SEED_EACH(source="USDA NRCS Georgia, plant sheet on switchgrass, 2005")
    )


def test_one_box_takes_what_it_can_and_says_what_that_costs():
    best = splits([RYE, CLOVER], [GRAIN]).best[0]
    assert [(c.about, c.grade) for c in best.compromises] == [("class", 2), ("sorting", 2)]
    assert re.match(
        " ".join(
            [labels.IN.like(box="grain", names="rye, clover"), labels.GIVEN_UP_WAYS.like(count=2)]
        ),
        str(best.say),
    )


def test_a_box_left_empty_is_said():
    best = splits([RYE, PEA], [GRAIN, box("spare", "grain")], placed={"rye": "grain"}).best
    assert where(best[0]) == {"rye": "grain", "pea": "spare"}
    kept = split_as([RYE, PEA], [GRAIN, box("spare", "grain")], {"rye": "grain", "pea": "grain"})
    assert labels.STAYS_EMPTY(box="spare") in [str(c.say) for c in kept.compromises]


def test_no_way_is_said_with_the_reason_and_the_remedy():
    found = splits([RYE, BLUESTEM], [GRAIN, SMALL])
    assert (found.best, found.feasible) == ((), 0)
    assert str(found.say).startswith(labels.NO_BOX_DRILL(names="big bluestem"))
    assert re.search(labels.FLUFFY_BRIDGES_HAS.like(), str(found.say))
    assert {(each.seed, each.box) for each in found.refusals} == {
        *{("rye", "small seed"), ("big bluestem", "grain"), ("big bluestem", "small seed")}
    }


def test_openers_that_boxes_share_have_one_depth():
    deep, shallow = (0.75 * INCH, 1.5 * INCH), (0.25 * INCH, 0.5 * INCH)
    seeds = [seed("rye", 18_000, depth=deep), seed("clover", 200_000, depth=shallow)]
    apart = splits(seeds, [GRAIN, SMALL]).best[0]
    assert apart.compromises == ()
    shared = [box("grain", own_depth=False), box("small seed", own_depth=False)]
    (given_up,) = splits(seeds, shared).best[0].compromises
    assert given_up.about == "depth"


def test_more_ways_than_can_be_walked_keep_a_class_together():
    many = [seed(f"forb {i}", 160_000 * (i + 1)) for i in range(13)]
    found = splits([*many, RYE], [GRAIN, SMALL, box("other", "small seed")])
    assert found.together == (tuple(each.name for each in many),)
    assert len(set(where(found.best[0]).values())) == 2
    assert found.feasible == 3


def test_counts_every_way():
    """Rye one way; clover in grain, small seed or fluffy."""
    assert splits([RYE, CLOVER], [GRAIN, SMALL, FLUFFY]).feasible == 3
    assert splits([RYE, CLOVER], [GRAIN, SMALL, FLUFFY], placed={"clover": "fluffy"}).feasible == 1


def test_alternatives_come_in_order():
    found = splits([RYE, CLOVER], [GRAIN, SMALL, FLUFFY])
    weights = [burden([c.grade for c in each.compromises]) for each in found.best]
    assert len(weights) == 3
    assert weights == sorted(weights)


seeds = st.lists(
    st.tuples(
        st.sampled_from([2e3, 1.8e4, 3.4e4, 8.2e4, 2e5, 1.3e6]),
        st.booleans(),
        st.sampled_from([None, (0.0, 0.006), (0.006, 0.013), (0.02, 0.04)]),
        st.sampled_from([1.0, 12.0]),
    ),
    min_size=1,
    max_size=5,
)
drills = st.lists(
    st.tuples(
        st.sampled_from(["grain", "small seed", "fluffy"]),
        st.booleans(),
        st.sampled_from([None, 3]),
    ),
    min_size=1,
    max_size=3,
)


@given(seeds, drills)
def test_against_every_assignment_by_brute_force(given_seeds, given_boxes):
    """Every way weighed through its own sentences, not through the search's short cuts."""
    portions = [
        seed(f"s{i}", per_lb * (1 + i / 1000), rate, fluffy=fluffy, depth=depth)
        for i, (per_lb, fluffy, depth, rate) in enumerate(given_seeds)
    ]
    boxes = [
        box(f"b{i}", kind, own_depth=own, agitator=True, least=least and least * POUND_PER_ACRE)
        for i, (kind, own, least) in enumerate(given_boxes)
    ]
    ways = []
    for way in product(boxes, repeat=len(portions)):
        pairs = list(zip(portions, way, strict=True))
        if all(fit(b, each) != "cannot" for each, b in pairs):
            ways.append(split_as(portions, boxes, {each.name: b.name for each, b in pairs}))
    found = splits(portions, boxes, keep=1)
    assert found.feasible == len(ways)
    if ways:
        assert weight(found.best[0]) == pytest.approx(min(map(weight, ways)))


deep = st.sampled_from([(0.0, 0.003), (0.01, 0.02), (0.015, 0.016), (0.03, 0.05)])


@settings(max_examples=30)
@given(
    st.lists(st.tuples(deep, st.sampled_from([3.5e4, 4.5e4])), min_size=2, max_size=5),
    st.lists(st.tuples(st.booleans(), st.booleans()), min_size=2, max_size=3),
)
def test_depths_carriers_and_least_rates_against_brute_force(given_seeds, given_boxes):
    """Seeds near in size, so that depth decides, and what a box can meter."""
    portions = [
        seed(f"s{i}", per_lb + i, 2.0, depth=depth) for i, (depth, per_lb) in enumerate(given_seeds)
    ]
    boxes = [
        box(
            f"b{i}",
            "grain",
            own_depth=own,
            least=6.5 * POUND_PER_ACRE,
            carrier=rice_hulls(3 * POUND_PER_ACRE) if carried else None,
        )
        for i, (own, carried) in enumerate(given_boxes)
    ]
    ways = [
        split_as(portions, boxes, {p.name: b.name for p, b in zip(portions, way, strict=True)})
        for way in product(boxes, repeat=len(portions))
    ]
    best = splits(portions, boxes, keep=1).best[0]
    assert weight(best) == pytest.approx(min(map(weight, ways)))


def weight(split):
    """Burden of the compromises said, then the logarithm of the sizes' ratios."""
    from math import log

    ratios = [
        max(p.count for p in filled.portions) / min(p.count for p in filled.portions)
        for filled in split.boxes
        if filled.portions
    ]
    assert all(diameter_ratio(ratio) >= 1 for ratio in ratios)
    return burden([c.grade for c in split.compromises]), sum(log(ratio) for ratio in ratios)


@pytest.mark.parametrize(
    ("placed", "field", "words"),
    [
        ({"pea": "small seed"}, "box of pea", "put it in grain"),
        ({"big bluestem": "grain"}, "box of big bluestem", "no box on this drill can handle it"),
        ({"pea": "attic"}, "box of pea", labels.GIVE_BOX_DRILL(names="grain, small seed")),
        ({"oats": "grain"}, "boxes", "choose a species in the mix"),
    ],
)
def test_a_place_that_cannot_be_is_refused_with_its_remedy(placed, field, words):
    with pytest.raises(MeasurementError, match=words) as refusal:
        splits([PEA, CLOVER, BLUESTEM], [GRAIN, SMALL], placed=placed)
    assert refusal.value.field == field


def test_refuses_no_box_no_seed_and_two_of_one_name():
    with pytest.raises(MeasurementError, match=labels.GIVE_LEAST_ONE.like()) as refusal:
        splits([RYE], [])
    assert refusal.value.field == "boxes"
    with pytest.raises(MeasurementError, match=labels.GIVE_LEAST_ONE_SPECIES.like()) as refusal:
        splits([], [GRAIN])
    assert refusal.value.field == "mix"
    with pytest.raises(MeasurementError, match=labels.ADD_LOTS_ONE.like()) as refusal:
        splits([RYE, RYE], [GRAIN])
    assert (refusal.value.field, refusal.value.given) == ("mix", "rye")


def test_the_users_own_way_must_place_every_species():
    with pytest.raises(
        MeasurementError, match=labels.GIVE_BOX_GOES.like(names="grain, small seed")
    ) as refusal:
        split_as([RYE, CLOVER], [GRAIN, SMALL], {"rye": "grain"})
    assert refusal.value.field == "box of clover"
    with pytest.raises(MeasurementError, match=labels.GIVE_ONE.like(names="rye")) as refusal:
        split_as([RYE], [GRAIN], {"rye": "grain"}).box_of("oats")
    assert refusal.value.field == "seed"
