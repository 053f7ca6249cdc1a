"""Running out: a computed case, the odds by drawing, words, refusals."""

from math import sqrt
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat

import labels
from evenstand.engine.order.loads import Passes
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import ACRE, POUND, POUND_PER_ACRE
from evenstand.engine.seeding.field_area import Shown
from evenstand.engine.seeding.runout import next_load, run_out


def left(pounds, *, acres=30.0, rate=60.0, **more):
    return run_out(
        ufloat(pounds * POUND, 10 * POUND, "loads"),
        rate=ufloat(rate * POUND_PER_ACRE, 1.2 * POUND_PER_ACRE, "calibration"),
        ground=acres * ACRE,
        **more,
    )


def test_a_case_computed_elsewhere():
    """30 ac left, 1850 lb (u 10), 60 ± 1.2 lb/ac: 0.090, and 11.5 lb more brings 0.05."""
    found = left(1850)
    assert found.odds == pytest.approx(0.090, abs=5e-4)
    assert found.more / POUND == pytest.approx(11.5, abs=0.05)
    assert left(1850 + found.more / POUND).odds == pytest.approx(0.05, abs=1e-9)


def test_odds_by_drawing():
    rng = Random(7)
    for pounds in (1750, 1810, 1900):
        ran = sum(30 * rng.gauss(60, 1.2) > rng.gauss(pounds, 10) for _ in range(20_000)) / 20_000
        assert left(pounds).odds == pytest.approx(ran, abs=0.012)


@given(st.floats(1500, 2100), st.floats(1, 40))
def test_more_seed_is_safer_and_more_ground_is_not(pounds, acres):
    assert left(pounds + 5).odds <= left(pounds).odds
    assert left(pounds, acres=acres + 1).odds >= left(pounds, acres=acres).odds


def test_says_what_to_do():
    assert str(left(2000).say) == (labels.SEED_SUFFICES_ABOUT(left="200 lb", odds="999 in 1000"))
    assert str(left(1850).say) == (labels.SEED_MAY_RUN(odds="1 in 20", more="11 lb"))
    passes = Passes(width=4.572, length=402.336)  # 15 ft × ¼ mile: 0.4545 ac each
    short = left(1500, done=8.5 * ACRE, shown=Shown(now=8.5 * ACRE), passes=passes)
    # 1500 ÷ 60 = 25 ac, at 33.5 ac: 73.7 passes; 300 lb and 1.645 · √(36² + 10²) = 61.5 more.
    assert str(short.say) == (
        labels.PASS_ALONG(
            words=labels.SEED_ENDS_ABOUT(at="33.5 ac", short="300 lb", more="361 lb"),
            number=74,
            along="924 ft",
        )
    )
    assert short.end.value / ACRE == pytest.approx(25)


def test_working_can_be_done_again_with_a_pencil():
    style = Style()
    written = [f"{line.sum(style)} = {style.amount(line.value)}" for line in left(1850).working]
    assert written == ["30 ac × 60 lb/ac = 1,800 lb", "1,850 lb ÷ 60 lb/ac = 30.83 ac"]


def test_without_doubt_the_odds_are_all_or_nothing():
    exact = [run_out(seed, rate=2.0, ground=10.0).odds for seed in (19.0, 21.0)]
    assert exact == [1.0, 0.0]
    assert run_out(0.0, rate=2.0, ground=10.0).end.value == 0


def fill(pounds, rate, **shown):
    return next_load(pounds, rate=rate, shown=Shown(now=10 * ACRE, **shown))


def test_the_next_fill():
    found = fill(ufloat(480 * POUND, 24 * POUND), 60 * POUND_PER_ACRE)
    assert found.ground.value / ACRE == pytest.approx(8)
    assert str(found.say()) == (labels.FILL_BOX_AREA(at="18 ac", low="17.2 ac"))
    assert str(found.say(to_sow=5 * ACRE)) == labels.WHAT_BOX_SOWS
    assert str(fill(-1.0, 1.0).say()) == labels.FILL_BOX_NOW


def test_the_next_fill_is_told_as_a_meter_shows_it_that_is_off():
    """8 ac of ground are 10 on a meter whose every acre is 0.8; its doubt is that of the rate."""
    factor = ufloat(0.8, 0.04, "area")
    per_shown = ufloat(48 * POUND_PER_ACRE, 0.48 * POUND_PER_ACRE)
    found = fill(480 * POUND, per_shown / factor, factor=factor)
    assert found.ground.value / ACRE == pytest.approx(8)
    assert found.ground.u / ACRE == pytest.approx(8 * sqrt(0.01**2 + 0.05**2))
    assert found.shown.value / ACRE == pytest.approx(20)
    assert found.shown.u / ACRE == pytest.approx(10 * 0.01)


@pytest.mark.parametrize(
    ("call", "field"),
    [
        (lambda: left(100, acres=0), "ground"),
        (lambda: left(100, rate=0), "rate"),
        (lambda: left(100, sure=1.5), "sure"),
        (lambda: next_load(1.0, rate=0.0, shown=Shown()), "rate"),
    ],
)
def test_refuses_and_names_the_field(call, field):
    with pytest.raises(MeasurementError) as refusal:
        call()
    assert refusal.value.field == field
