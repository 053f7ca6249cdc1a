"""The age of a test, from the end of its month, against the law of a state."""

import re

import pytest

import labels
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.seed.age import INTERSTATE, LIMITS, AgeLimit, age, limit_of, no_limit, too_old
from evenstand.engine.seed.tag import Month, Tag


def tag(year, month, **more):
    return Tag(purity=0.98, germination=0.92, tested=Month(year, month), **more)


@pytest.mark.parametrize(("today", "old"), [((2026, 8), False), ((2026, 9), True)])
def test_five_calendar_months_after_the_month_of_the_test(today, old):
    """7 CFR 201.22: tested in March, to the end of August."""
    assert (too_old(tag(2026, 3), today=Month(*today)) is not None) is old


def test_sealed_seed_may_be_24_months_old():
    """7 CFR 201.36c."""
    sealed = tag(2024, 3, hermetic=True)
    assert too_old(sealed, today=Month(2026, 3)) is None
    assert too_old(sealed, today=Month(2026, 4)) is not None


@pytest.mark.parametrize(
    ("state", "kind", "months"),
    [
        ("Kentucky", (False, True), 15),
        ("Kentucky", (False, False), 9),
        ("ky", (True, False), 36),
        ("Tennessee", (False, True), 9),
        ("tennessee", (True, False), 24),
        ("New  Hampshire", (False, False), 9),
        ("IN", (True, False), 12),
        ("interstate", (False, True), 5),
    ],
)
def test_limits_as_read(state, kind, months):
    hermetic, cool = kind
    limit = limit_of(state)
    assert limit.allowed(hermetic=hermetic, cool_season_grass=cool) == months
    assert limit.source


def test_a_state_that_was_not_read():
    assert limit_of("Ohio") is None
    assert "Ohio" in str(no_limit("Ohio"))
    assert re.search(labels.NO_AGE_LIMIT.like(), str(no_limit("Ohio")))
    assert len({limit.place for limit in LIMITS}) == len(LIMITS)


def test_a_limit_of_ones_own():
    own = AgeLimit(place="our seed office", months=12)
    text = str(too_old(tag(2025, 1), today=Month(2026, 2), limit=own))
    assert re.search(labels.GERMINATION_TEST_MONTHS.like(months=13), text)
    assert re.search(labels.GERMINATION_TEST_MONTHS.like(place="our seed office", allowed=12), text)


def test_says_how_old_and_by_what_law():
    text = str(too_old(tag(2025, 12), today=Month(2026, 11)))
    assert re.match(labels.GERMINATION_TEST_MONTHS.like(tested="Dec 2025", months=11), text)
    assert "7 CFR 201.22" in text


def test_no_date_no_age():
    assert too_old(Tag(purity=0.98, germination=0.92), today=Month(2026, 1)) is None


def test_a_test_of_this_month_is_new():
    assert age(Month(2026, 11), today=Month(2026, 11)) == 0


def test_refuses_a_test_in_the_future():
    with pytest.raises(MeasurementError) as refusal:
        too_old(tag(2026, 12), today=Month(2026, 11), limit=INTERSTATE)
    assert refusal.value.field == "tested"
    assert refusal.value.given == "2026-12"
    assert labels.GIVE_MONTH_TEST(today="Nov 2026") in str(refusal.value.need)


@pytest.mark.parametrize("changed", [{"months": 0}, {"hermetic": -1}, {"cool_season": 0}])
def test_refuses_a_limit_of_nothing(changed):
    with pytest.raises(MeasurementError) as refusal:
        AgeLimit(**({"place": "here", "months": 9} | changed))
    assert refusal.value.field == "age_limit"
