"""Stamps: their order, their text, and clocks that are wrong."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from evenstand.book.errors import BookError
from evenstand.book.log.stamp import MOST_AHEAD, Stamp, follow, is_ahead, read_stamp, tick

NOON = 1_795_608_000_000  # 2026-11-25 12:00 UTC: 20,782 days × 86,400,000 ms + 12 h
YEAR = 365 * 24 * 3600 * 1000

times = st.integers(0, 200 * YEAR)
devices = st.from_regex(r"[a-z0-9][a-z0-9-]{0,8}", fullmatch=True)
stamps = st.builds(Stamp, times, st.integers(0, 0xFFFF), devices)


def test_a_stamp_reads_as_a_time():
    assert str(Stamp(NOON + 7, 255, "shed-2")) == "2026-11-25T12:00:00.007Z-00ff-shed-2"


@given(stamps)
def test_a_stamp_is_read_back(stamp):
    assert read_stamp(str(stamp)) == stamp


@given(stamps, stamps)
def test_stamps_sort_as_their_texts_do(one, other):
    assert (one < other) == (str(one) < str(other))


def test_now_is_the_time_where_nothing_is_later():
    assert tick(Stamp(NOON - 1, 3, "b"), now=NOON, device="a") == Stamp(NOON, 0, "a")
    assert tick(None, now=NOON, device="a") == Stamp(NOON, 0, "a")


def test_two_in_one_millisecond_are_counted():
    assert tick(Stamp(NOON, 3, "b"), now=NOON, device="a") == Stamp(NOON, 4, "a")


def test_a_clock_put_back_does_not_go_back():
    assert tick(Stamp(NOON, 0, "a"), now=NOON - 60_000, device="a") == Stamp(NOON, 1, "a")


def test_a_full_counter_goes_over_to_the_next_millisecond():
    assert Stamp(NOON, 0xFFFF, "a").next("b") == Stamp(NOON + 1, 0, "b")


def test_a_time_far_ahead_does_not_move_the_clock():
    far = Stamp(NOON + MOST_AHEAD + 1, 0, "b")
    assert tick(far, now=NOON, device="a") == Stamp(NOON, 0, "a")
    assert follow(Stamp(NOON, 1, "a"), far, now=NOON) == Stamp(NOON, 1, "a")
    assert follow(None, far, now=NOON) is None
    assert follow(far, Stamp(NOON, 1, "a"), now=NOON) == Stamp(NOON, 1, "a")


def test_a_time_within_a_day_moves_the_clock():
    near = Stamp(NOON + MOST_AHEAD, 0, "b")
    assert follow(Stamp(NOON, 1, "a"), near, now=NOON) == near
    assert follow(near, Stamp(NOON, 1, "a"), now=NOON) == near


@given(st.none() | stamps, times, stamps)
def test_a_change_is_later_than_what_it_changes_whatever_any_clock_says(last, now, behind):
    made = tick(last, now=now, device="a", behind=behind)
    assert made > behind
    assert made.ms >= now


@given(stamps, times)
def test_a_stamp_made_is_later_than_the_last_unless_that_is_a_wrong_clocks(last, now):
    assert tick(last, now=now, device="a") > last or is_ahead(last, now=now)


@pytest.mark.parametrize(
    ("parts", "field"),
    [
        ((-1, 0, "a"), "clock"),
        ((10**15, 0, "a"), "clock"),
        ((0, 0x10000, "a"), "counter"),
        ((0, -1, "a"), "counter"),
        ((0, 0, ""), "device"),
        ((0, 0, "The Shed"), "device"),
        ((0, 0, "a" * 41), "device"),
    ],
)
def test_a_stamp_that_cannot_be_is_refused(parts, field):
    with pytest.raises(BookError) as refused:
        Stamp(*parts)
    assert refused.value.field == field


@pytest.mark.parametrize(
    "text",
    [
        "",
        "2026-11-25",
        "2026-13-25T12:00:00.007Z-00ff-shed",
        "2026-11-25T12:00:00.007Z-00FF-shed",
        "2026-11-25T24:00:00.000Z-00ff-shed",  # some Pythons read it as the next day
        "2026-11-25T12:00:60.007Z-00ff-shed",
    ],
)
def test_a_text_that_is_no_stamp_is_refused(text):
    with pytest.raises(BookError, match="2026-11-25T01:00") as refused:
        read_stamp(text)
    assert refused.value.field == "made"
