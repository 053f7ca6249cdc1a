"""Target, verdict, bench target and odds in words."""

import re
from math import inf, nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

import labels
from evenstand.engine.catch.target import Target, bench_target, judge, odds_in_words
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.statistics.budget import Estimate

HUNDRED = Target(rate=100.0, tolerance=0.05)


def normal(value, u):
    return Estimate(value, 0, 0, u, inf)


def test_odds_of_a_normal_by_the_table():
    # One sd to each edge: 68.27 %. At the edge with a small sd: one half.
    assert judge(normal(100, 5), HUNDRED).odds_within == pytest.approx(0.6827, abs=5e-5)
    assert judge(normal(95, 0.01), HUNDRED).odds_within == pytest.approx(0.5, abs=1e-6)
    # 1.6449 sd leave 5 % on each side: 90 %.
    assert judge(normal(100, 5 / 1.6449), HUNDRED).odds_within == pytest.approx(0.9, abs=1e-4)


@pytest.mark.parametrize(
    ("value", "u", "word"),
    [
        (100, 3.03, "on target"),
        (100, 3.05, "cannot tell yet"),
        (90, 3.9, "light"),
        (110, 3.9, "heavy"),
        (95, 1, "cannot tell yet"),
    ],
)
def test_a_verdict_needs_nine_in_ten(value, u, word):
    assert judge(normal(value, u), HUNDRED).word == word


@pytest.mark.parametrize(
    ("odds", "said"),
    [
        (1.0, "999 in 1000"),
        (0.95, "19 in 20"),
        (0.93, "9 in 10"),
        (0.9, "9 in 10"),
        (0.899, "6 in 7"),
        (0.75, "3 in 4"),
        (0.5, labels.EVEN),
        (0.003, labels.LESS_THAN(part=1, whole=100)),
    ],
)
def test_odds_as_people_say_them(odds, said):
    assert str(odds_in_words(odds)) == said


@given(st.floats(0.01, 1))
def test_odds_are_never_rounded_up(odds):
    said = str(odds_in_words(odds))
    part, whole = ("1", "2") if said == labels.EVEN else said.split(" in ")
    assert int(part) / int(whole) <= odds + 1e-9


def test_bench_target_by_hand():
    # 54 in the field at slip 4 % and ratio 0.9375 needs 54 / 0.9 = 60 at the stand.
    bench = bench_target(Target(rate=54.0), slip=0.04, field_ratio=0.9375)
    assert bench.rate == pytest.approx(60)
    assert re.search(labels.FIELD_DRILL_LAYS.like(), str(bench.why))


def test_a_static_target_is_left_alone_and_so_is_one_without_slip_or_ratio():
    assert bench_target(Target(rate=54.0, on="static"), slip=0.04, field_ratio=0.9).rate == 54
    assert bench_target(Target(rate=54.0), slip=0.0, field_ratio=1.0).why is None


@pytest.mark.parametrize(
    ("make", "field"),
    [
        (lambda: Target(rate=0.0), "target"),
        (lambda: Target(rate=nan), "target"),
        (lambda: Target(rate=1.0, tolerance=0.0), "tolerance"),
        (lambda: Target(rate=1.0, tolerance=0.6), "tolerance"),
        (lambda: bench_target(HUNDRED, slip=0.0, field_ratio=0.0), "field_ratio"),
    ],
)
def test_refuses_and_names_the_field(make, field):
    with pytest.raises(MeasurementError) as refusal:
        make()
    assert refusal.value.field == field
