"""A box followed over a field: computed figures, a published filling, budgets, refusals."""

from dataclasses import replace
from math import nan, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat

import labels
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import ACRE, HECTARE, POUND, POUND_PER_ACRE
from evenstand.engine.seeding.balance import follow, log_likelihood
from evenstand.engine.seeding.events import Change, Fill
from evenstand.engine.seeding.field_area import AreaMeter, unchecked_meter
from evenstand.engine.seeding.level import InBox
from evenstand.engine.seeding.steps import UNKNOWN
from evenstand.engine.statistics.budget import nominal, standard_uncertainty

from .fields import BOX, RATE, field, known, level, load


def test_how_sure_the_rate_is_after_some_fills(published):
    for row in published("field_monitor.csv"):
        acres = 8 * row["fills"]
        found = follow([level(0, 6000), level(acres, 6000 - 60 * acres)], known())
        # Printed to 0.01 %.
        assert 100 * found.rate.u / found.rate.value == pytest.approx(row["u"], abs=0.0051)


def test_levels_between_are_a_straight_line_through_all_of_them():
    """Least squares by numpy: level = start − rate × acres, the promise as one more equation."""
    np = pytest.importorskip("numpy")
    seen = [(0, 6003.0), (8, 5513.0), (16, 5031.0), (24, 4560.0), (40, 3581.0)]
    found = follow([level(a, s) for a, s in seen], known())
    x = np.array([(1.0, -a) for a, _ in seen] + [(0.0, 1.0)]) / np.array([[10.0]] * 5 + [[1.8]])
    y = np.array([s for _, s in seen] + [60.0]) / np.array([10.0] * 5 + [1.8])
    covariance = np.linalg.inv(x.T @ x)
    rate = covariance @ x.T @ y
    assert found.rate.value / POUND_PER_ACRE == pytest.approx(rate[1], rel=1e-7)
    assert found.rate.u / POUND_PER_ACRE == pytest.approx(sqrt(covariance[1, 1]), rel=1e-7)


@given(st.floats(0, 0.01), st.floats(0.001, 0.05), st.floats(0, 20))
def test_the_budget_is_the_filters_own_spread(drift, u, reading):
    meter = AreaMeter(factor=ufloat(1.01, u, "area"), known=True, say=say("x"))
    given = known(drift=drift, meter=meter, reading_u=reading, test_weight_error=0.02)
    events = [load(0, 900, u=4), level(6, 541, by_volume=True), load(6, 300, u=2), level(11, 533)]
    found = follow(events, given)
    assert standard_uncertainty(found.rate_now) == pytest.approx(found.points[-1].rate.u, rel=1e-6)
    assert sum(share.part for share in found.shares) == pytest.approx(1)


def test_a_wrong_test_weight_is_learned_from_seed_that_was_weighed():
    """Levels by volume may be 10% off; weighed loads say so after some refills."""
    wide = known(test_weight_error=0.10)
    before = follow([load(0, 1000), level(8, 572, u=3, by_volume=True)], wide)
    assert before.shares[0].name in ("test weight", "calibration")
    events = [load(0, 1000)]
    for i in (1, 2, 3, 4):
        events += [level(8 * i, 572, u=3, by_volume=True), load(8 * i, 480)]
    after = follow(events, wide)
    assert after.rate.value / POUND_PER_ACRE == pytest.approx(60, abs=0.5)
    assert after.rate.u < before.rate.u / 2


def test_refilling_to_a_mark_needs_no_test_weight():
    """Whatever the box really held at the mark, what refills it is what went down."""
    doubtful = known(test_weight_error=0.2)
    mark = level(0, 1000, by_volume=True)
    events = [mark, load(8, 500), level(8, 1000, by_volume=True)]
    found = follow(events, doubtful)
    assert found.stretches[-1].rate.value / POUND_PER_ACRE == pytest.approx(62.5)
    assert {s.name: s.part for s in found.shares}.get("test weight", 0) < 1e-9


def test_filled_to_the_mark_without_a_scale():
    """From 1000 to 520 in 8 ac, filled up unweighed, to 500 in 8 more: 980 on 16 ac are 61.25."""
    full = InBox(weight=1000 * POUND, u=1 * POUND, by_volume=False)
    events = [
        Fill(at=0.0, seed=full),
        level(8, 520, u=1),
        Fill(at=8 * ACRE, seed=full),
        level(16, 500, u=1),
    ]
    found = follow(events, known(expected=None, drift=0.02))
    assert nominal(found.used) / POUND == pytest.approx(980, abs=1)
    assert nominal(found.mean) / POUND_PER_ACRE == pytest.approx(61.25, abs=0.06)
    assert [s.rate.value / POUND_PER_ACRE for s in found.stretches] == pytest.approx([60, 62.5])


def test_a_stretch_knows_the_meter_and_the_test_weight_no_better_than_the_field_does():
    """480 lb on 8 ac; √(3² + (60 × 0.05/√3)² + (2% × 520)² + (4%/√3 × 480)²) lb, by hand."""
    doubtful = known(
        meter=unchecked_meter(), reading_u=0.05 * ACRE / sqrt(3), test_weight_error=0.02
    )
    found = follow([load(0, 1000), level(8, 520, u=3, by_volume=True)], doubtful)
    [stretch] = found.stretches
    assert stretch.rate.value / POUND_PER_ACRE == pytest.approx(60)
    assert stretch.rate.u / POUND_PER_ACRE == pytest.approx(15.592 / 8, abs=0.001)


def test_a_published_filling_comes_out_even(published):
    """lecture notes on setting drills: 300 kg at 18.15 kg/ha are 16.53 ha."""
    (row,) = published("area_per_load.csv")
    rate = row["rate"] / HECTARE
    given = known(target=known().target.__class__(rate=rate), expected=None)
    events = [load(0, row["whole"] / POUND), level(row["area"] * HECTARE / ACRE, 0.0, u=0.0)]
    found = follow(events, given)
    # Area printed to 0.01 of 16.53 ha: 0.03 %.
    assert nominal(found.mean) == pytest.approx(rate, rel=3e-4)


def test_without_a_promise_the_readings_speak():
    found = follow(field([63.0] * 3), known(expected=None))
    assert found.rate.value / POUND_PER_ACRE == pytest.approx(63, abs=0.05)
    nothing = follow([load(0, 1000)], known(expected=None))
    assert nothing.rate.u == pytest.approx(UNKNOWN * RATE)
    assert nothing.mean is None


def test_a_first_reading_far_off_is_believed_and_not_halved():
    """A quarter too much, 3% promised: only a loosened promise lets the range hold it."""
    found = follow(field([75.0] * 2), known())
    assert found.loosened
    assert found.rate.low < 75 * POUND_PER_ACRE < found.rate.high
    assert not follow(field([61.0] * 2), known()).loosened


def test_an_area_meter_off_moves_ground_and_widens_the_rate():
    meter = AreaMeter(factor=ufloat(0.95, 0.02, "area"), known=True, say=say("x"))
    off, exact = follow(field([57.0] * 4), known(meter=meter)), follow(field([57.0] * 4), known())
    assert nominal(off.ground) / ACRE == pytest.approx(0.95 * 32, rel=0.01)
    assert off.rate.u > exact.rate.u
    assert nominal(off.mean) == pytest.approx(60 * POUND_PER_ACRE, rel=0.003)


def test_the_doubt_of_an_area_meter_never_averages_away():
    """Nothing promised, ± 2% of area: however many fills, √(2 %² + what the levels leave)."""
    meter = AreaMeter(factor=ufloat(1.0, 0.02, "area"), known=True, say=say("x"))
    off = follow(field([60.0] * 6), known(expected=None, meter=meter)).rate
    exact = follow(field([60.0] * 6), known(expected=None)).rate
    expected = sqrt(0.02**2 + (exact.u / exact.value) ** 2)
    assert off.u / off.value == pytest.approx(expected, rel=0.02)


def test_a_meter_that_was_not_set_back_tells_the_same():
    """It showed 100 ac when the field was begun."""
    events = field([61.0, 62.0, 58.0])
    later = [replace(event, at=event.at + 100 * ACRE) for event in events]
    one, two = follow(events, known()), follow(later, known())
    assert two.rate.value == pytest.approx(one.rate.value, rel=1e-9)
    assert nominal(two.ground) == pytest.approx(24 * ACRE)
    assert nominal(two.mean) == pytest.approx(nominal(one.mean), rel=1e-9)
    assert [s.end for s in two.stretches] == pytest.approx([s.end for s in one.stretches])


def test_a_lever_moved_starts_the_readings_anew():
    events = [
        load(0, 1000),
        level(8, 520),
        Change(at=8 * ACRE, factor=ufloat(1.1, 0.02), setting=33.0),
        level(12, 256),
    ]
    found = follow(events, known())
    assert len(found.innovations) == 1
    assert found.rate.value / POUND_PER_ACRE == pytest.approx(66, abs=0.3)
    assert "the lever change" in {s.name for s in found.shares}


@given(st.floats(0.2, 5))
def test_it_knows_no_units(times):
    """Seed and rate both scaled: the same odds, the same relative range."""
    one = follow(field([61.0, 62.0, 58.0]), known())
    scaled = [level(8, 512 * times, u=10 * times) if i else load(0, 1000 * times) for i in range(2)]
    two = follow(
        scaled,
        known(
            target=known().target.__class__(rate=RATE * times),
            expected=ufloat(RATE * times, 0.03 * RATE * times, "calibration"),
        ),
    )
    base = follow([load(0, 1000), level(8, 512)], known())
    assert two.rate.u / two.rate.value == pytest.approx(base.rate.u / base.rate.value, rel=1e-6)
    assert one.points[-1].ground == pytest.approx(24 * ACRE)


def test_the_density_of_the_readings_is_the_same_without_causes():
    events = field([61.0, 62.0, 58.0])
    found = follow(events, known())
    assert log_likelihood(events, known(), jumps=()) == pytest.approx(
        found.log_likelihood, rel=1e-9
    )


@pytest.mark.parametrize(
    ("events", "field_"),
    [
        ([], "events"),
        ([Change(at=0.0, factor=1.1, setting=33.0)], "events"),
        ([load(8, 500), level(4, 100)], "at"),
        ([load(nan, 500)], "at"),
        ([load(-1, 500)], "at"),
        ([load(0, 500), load(20, 500)], "loads"),
        ([load(0, 500), level(2, 900)], "level"),
        ([load(0, 500), level(0.5, 640)], "level"),
    ],
)
def test_refuses_what_cannot_be(events, field_):
    with pytest.raises(MeasurementError) as refusal:
        follow(events, known())
    assert refusal.value.field == field_


def test_a_load_must_fit_into_the_box():
    follow([load(0, 500)], known(), box=BOX, holds=500 * POUND)
    with pytest.raises(MeasurementError) as refusal:
        follow([load(0, 500), load(1, 500)], known(), box=BOX, holds=700 * POUND)
    assert refusal.value.field == "load of grain"


def test_words_of_a_refusal_say_what_to_do():
    with pytest.raises(MeasurementError, match=labels.ONLY_LOADED_CHECK.like(loaded="500 lb")):
        follow([load(0, 500), level(2, 900)], known())
    with pytest.raises(MeasurementError, match=labels.MORE_SEED_WENT.like(ground="20 ac")):
        follow([load(0, 500), load(20, 500)], known())
