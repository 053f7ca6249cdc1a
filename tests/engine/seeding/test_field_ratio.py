"""The field ratio: the published study, shrinkage by hand and by simulation, words, refusals."""

import re
from dataclasses import replace
from itertools import pairwise
from math import sqrt
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat

import labels
from evenstand.engine.catch.target import Target, bench_target
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.units import POUND_PER_ACRE
from evenstand.engine.seeding.field_ratio import (
    STUDY,
    PastField,
    closed_ratio,
    from_study,
    learn_ratio,
)
from evenstand.engine.statistics.budget import nominal, standard_uncertainty


def past(ratio=0.93, *, u=0.01, seed_class="large", soil="firm"):
    return PastField(ratio=ufloat(ratio, u), seed_class=seed_class, soil=soil)


def test_it_starts_from_the_published_study(published):
    rows = published("field_ratios.csv")
    assert [row["ratio"] for row in rows] == list(STUDY)
    mean, u = from_study(slip_counted=False)
    assert mean == pytest.approx(0.918)  # the article's own mean, 91.8 %
    # By hand: squares about .918 add up to .00988; √(.00988 ÷ 4 · 6 ÷ 5).
    assert u == pytest.approx(sqrt(0.00988 / 4 * 6 / 5))
    assert from_study(slip_counted=True)[0] == pytest.approx(0.918 / 0.94)


def test_without_own_fields_it_is_the_study_s():
    none = learn_ratio([], seed_class="large")
    assert none.ratio.value == pytest.approx(0.918 / 0.94)
    assert (none.own, none.fields) == (0, 0)
    assert str(none.say) == (labels.COUNT_BENCH_RATE(ratio="97.7%", low="82.5%", high="113%"))


def test_one_field_moves_it_a_little_and_twenty_replace_it():
    one, three, twenty = (
        learn_ratio([past(0.90)] * n, seed_class="large", soil="firm") for n in (1, 3, 20)
    )
    assert 0.977 > one.ratio.value > three.ratio.value > twenty.ratio.value
    assert twenty.ratio.value == pytest.approx(0.90, abs=0.004)
    assert 0.3 < one.own < three.own < twenty.own < 1
    assert one.ratio.u > twenty.ratio.u
    assert re.search(labels.COUNT_BENCH_RATE_ONE.like(), str(one.say))
    assert re.search(labels.COUNT_BENCH_RATE_OWN.like(n=20), str(twenty.say))


def test_one_field_by_hand():
    """No class or soil apart would do it alone: prior variance of that kind ÷ (it + field)."""
    mean, u = from_study(slip_counted=True)
    drill = u * u - 0.03**2 - 0.02**2
    kind = drill + 0.03**2 + 0.02**2  # drill, class and soil of the field that was seen
    weight = kind / (kind + 0.02**2 + 0.01**2)
    one = learn_ratio([past(0.90)], seed_class="large", soil="firm")
    assert one.ratio.value == pytest.approx(mean + weight * (0.90 - mean))
    # Of another class only the drill and the soil are shared.
    other = learn_ratio([past(0.90)], seed_class="small", soil="firm")
    shared = drill + 0.02**2
    assert other.ratio.value == pytest.approx(
        mean + shared / (kind + 0.02**2 + 0.01**2) * (0.90 - mean)
    )


def test_boxes_of_one_field_count_as_one():
    """The same ratio twice, each with half the weight, moves the mean as far as it does once."""
    one = learn_ratio([past(0.85)], seed_class="large")
    boxes = [replace(past(0.85), boxes=2)] * 2
    two = learn_ratio(boxes, seed_class="large")
    assert two.ratio.value == pytest.approx(one.ratio.value, rel=1e-12)
    assert two.fields == 1
    assert learn_ratio([past(0.85)] * 2, seed_class="large").ratio.value < two.ratio.value


def test_other_seed_and_other_soil_count_less():
    fields = [past(0.90)] * 4
    same, soil, seed = (
        learn_ratio(fields, seed_class=c, soil=s).ratio.value
        for c, s in (("large", "firm"), ("large", "wet"), ("small", "wet"))
    )
    assert same < soil < seed


@given(st.permutations([past(0.9), past(0.95, soil="wet"), past(0.97, seed_class="small")]))
def test_the_order_of_fields_does_not_matter(fields):
    found = learn_ratio(fields, seed_class="large", soil="firm")
    base = learn_ratio(sorted(fields, key=repr), seed_class="large", soil="firm")
    assert found.ratio.value == pytest.approx(base.ratio.value, rel=1e-9)
    assert found.ratio.u == pytest.approx(base.ratio.u, rel=1e-6)


@pytest.mark.simulated
@pytest.mark.parametrize("own", [1, 5, 20])
def test_drills_whose_ratio_is_known_are_found_again(own):
    """Ranges for the next field hold what they say, and the error is as large as said."""
    rng, inside, drills, squares, said = Random(31 + own), 0, 600, [], []
    start, u = from_study(slip_counted=True)
    for _ in range(drills):
        drill = rng.gauss(start, sqrt(u * u - 0.03**2 - 0.02**2))
        kinds = {c: rng.gauss(0, 0.03) for c in ("large", "small")}
        fields = []
        for _ in range(own):
            c = rng.choice(("large", "small"))
            fields.append(
                past(rng.gauss(drill + kinds[c], sqrt(0.02**2 + 0.01**2)), seed_class=c, soil="")
            )
        told = learn_ratio(fields, seed_class="large")
        real = rng.gauss(drill + kinds["large"], 0.02)
        inside += told.ratio.low <= real <= told.ratio.high
        squares.append((told.ratio.value - real) ** 2)
        said.append(told.ratio.u**2)
    assert inside / drills == pytest.approx(0.955, abs=0.03)
    assert sqrt(sum(squares) / sum(said)) == pytest.approx(1, abs=0.1)


def test_it_sets_the_bench_target_of_the_next_job():
    learned = learn_ratio([past(0.90)] * 20, seed_class="large", soil="firm")
    bench = bench_target(Target(rate=60 * POUND_PER_ACRE), slip=0.0, field_ratio=learned.quantity)
    assert bench.rate == pytest.approx(60 * POUND_PER_ACRE / learned.ratio.value)
    assert re.search(labels.FIELD_DRILL_LAYS.like(), str(bench.why))


def test_a_closed_field_gives_its_ratio():
    ratio = closed_ratio(ufloat(57.0, 0.3), static=ufloat(60.0, 0.6))
    assert nominal(ratio) == pytest.approx(0.95)
    assert standard_uncertainty(ratio) == pytest.approx(0.95 * sqrt((0.3 / 57) ** 2 + 0.01**2))


def test_the_ranges_narrow():
    us = [
        learn_ratio([past(0.93)] * n, seed_class="large", soil="firm").ratio.u
        for n in (0, 1, 5, 20)
    ]
    assert all(a > b for a, b in pairwise(us))


@pytest.mark.parametrize(
    ("call", "field"),
    [
        (lambda: past(0.3), "ratio"),
        (lambda: past(2.0), "ratio"),
        (lambda: closed_ratio(0.0, static=1.0), "field"),
        (lambda: closed_ratio(1.0, static=0.0), "static"),
    ],
)
def test_refuses_and_names_the_field(call, field):
    with pytest.raises(MeasurementError) as refusal:
        call()
    assert refusal.value.field == field
