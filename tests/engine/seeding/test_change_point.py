"""A change part-way through a field: found, placed, and not seen where there is none."""

import re
from dataclasses import replace
from random import Random

import pytest
from uncertainties import ufloat

import labels
from evenstand.engine.quantities.units import ACRE, POUND_PER_ACRE
from evenstand.engine.seeding.balance import follow
from evenstand.engine.seeding.change_point import find_turning
from evenstand.engine.seeding.events import Change
from evenstand.engine.statistics.cusum import cusum

from .fields import field, known, level


def scattered(rates, *, seed):
    """The same fields with levels read 10 lb off, one standard deviation."""
    rng, events = Random(seed), []
    for event in field(rates):
        if hasattr(event, "seed"):
            pounds = event.seed.weight / 0.45359237
            events.append(level(event.at / ACRE, pounds + rng.gauss(0, 10)))
        else:
            events.append(event)
    return events


def test_a_drop_by_a_tenth_half_way_is_found_where_it_was():
    found = find_turning(follow(scattered([60.0] * 4 + [54.0] * 4, seed=3), known()))
    assert found is not None
    assert found.place.low < 32 * ACRE < found.place.high
    assert found.place.value / ACRE == pytest.approx(32, abs=4)
    assert found.before.value / POUND_PER_ACRE == pytest.approx(60, abs=1)
    assert found.after.value / POUND_PER_ACRE == pytest.approx(54, abs=1.5)
    assert found.odds > 0.9
    assert found.by_chance == pytest.approx(0.05, abs=0.01)  # 8 readings, 168 to a false alarm
    assert re.match(labels.SOMETHING_CHANGED_ABOUT.like(place="32 ac"), str(found.say))


def test_the_place_is_the_likeliest_by_least_squares():
    """Another route: two lines that meet, every acre tried, by numpy."""
    np = pytest.importorskip("numpy")
    rates = [60.0] * 3 + [50.0] * 5
    found = find_turning(follow(scattered(rates, seed=11), known()))
    used, at, before = [], [], 1000.0
    for event in scattered(rates, seed=11):
        if hasattr(event, "seed"):
            used.append(before - event.seed.weight / 0.45359237)
            at.append(event.at / ACRE)
        elif event.at:
            before = 1000.0
    whole, ends = np.cumsum(used), np.array(at)
    squares = []
    for c in np.arange(4, 60, 0.5):
        x = np.column_stack([np.minimum(ends, c), np.maximum(0, ends - c)])
        squares.append(np.linalg.lstsq(x, whole, rcond=None)[1][0])
    best = np.arange(4, 60, 0.5)[int(np.argmin(squares))]
    assert found.place.low < best * ACRE < found.place.high
    assert found.place.value / ACRE == pytest.approx(best, abs=4)


@pytest.mark.simulated
def test_sound_fields_are_left_alone():
    rng = Random(17)
    alarms = [
        find_turning(follow(scattered([60 + rng.gauss(0, 1.8)] * 8, seed=100 + i), known()))
        for i in range(60)
    ]
    assert sum(found is not None for found in alarms) <= 1


def test_a_lever_that_was_moved_is_no_change():
    """The lever brings 60 to 66 at 32 ac, and nobody is alarmed."""
    events = scattered([60.0] * 4 + [66.0] * 4, seed=5)
    moved = [e for e in events if e.at <= 32 * ACRE]
    moved += [Change(at=32 * ACRE, factor=ufloat(1.1, 0.02), setting=33.0)]
    moved += [e for e in events if e.at > 32 * ACRE]
    assert find_turning(follow(events, known())) is not None
    assert find_turning(follow(moved, known())) is None


def test_one_odd_reading_signals_and_is_no_change():
    """A level misread by 60 lb, and all as before: the sums signal, the places do not agree."""
    events = field([60.0] * 8)
    odd = [
        level(32, 460) if hasattr(event, "seed") and event.at == 32 * ACRE else event
        for event in events
    ]
    found = follow(odd, known())
    assert cusum(found.innovations).side is not None
    assert find_turning(found) is None


def test_the_place_counts_from_where_the_field_was_begun():
    events = scattered([60.0] * 4 + [52.0] * 4, seed=3)
    later = [replace(event, at=event.at + 100 * ACRE) for event in events]
    one, two = (find_turning(follow(each, known())) for each in (events, later))
    assert two.place.value == pytest.approx(one.place.value, rel=1e-6)
    assert two.shown == pytest.approx(one.shown + 100 * ACRE)
    assert two.before.value == pytest.approx(one.before.value, rel=1e-6)
