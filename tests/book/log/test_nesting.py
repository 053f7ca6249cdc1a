"""Depth of nesting, against a count that walks through what json reads."""

import json

from hypothesis import given
from hypothesis import strategies as st

from evenstand.book.log.nesting import MOST_DEEP, is_too_deep


def depth(value):
    if isinstance(value, dict):
        return 1 + max(map(depth, value.values()), default=0)
    if isinstance(value, list):
        return 1 + max(map(depth, value), default=0)
    return 0


def wrapped(value, times):
    for n in range(times):
        value = [value] if n % 2 else {"[{": value}
    return value


values = st.recursive(
    st.none() | st.integers() | st.text('[]{}"\\a'),
    lambda inner: st.lists(inner) | st.dictionaries(st.text('[{"\\'), inner),
)


@given(values, st.integers(MOST_DEEP - 6, MOST_DEEP + 2))
def test_depth_is_what_a_reader_finds(value, times):
    whole = wrapped(value, times)
    assert is_too_deep(json.dumps(whole).encode()) == (depth(whole) > MOST_DEEP)


def test_many_brackets_side_by_side_are_not_deep():
    assert not is_too_deep(b"[" + b"[]," * 1000 + b"[]]")
