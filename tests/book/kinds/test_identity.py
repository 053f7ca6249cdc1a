"""Identifiers against the standard's own example, and by the standard library's reading."""

import re
from uuid import RFC_4122, UUID

from hypothesis import given
from hypothesis import strategies as st

from evenstand.book.kinds.identity import ID, uuid7


def test_the_standards_own_example():
    """RFC 9562 (2024), appendix A.6: unix_ts_ms, rand_a and rand_b as printed there."""
    random = (0xCC3 << 68 | 0x18C4DC0C0C07398F).to_bytes(10, "big")
    assert uuid7(0x017F22E279B0, random) == "017f22e2-79b0-7cc3-98c4-dc0c0c07398f"


@given(st.integers(0, 2**48 - 1), st.binary(min_size=10, max_size=10))
def test_version_variant_and_time_stand_where_they_should(ms, random):
    made = UUID(uuid7(ms, random))
    assert (made.version, made.variant, made.int >> 80) == (7, RFC_4122, ms)


@given(st.integers(0, 2**48 - 1), st.binary(min_size=10, max_size=10))
def test_an_identifier_is_known_as_one(ms, random):
    assert re.fullmatch(ID, uuid7(ms, random))


@given(st.integers(0, 2**48 - 2), st.binary(min_size=10, max_size=10))
def test_a_later_one_sorts_later(ms, random):
    assert uuid7(ms, random) < uuid7(ms + 1, bytes(10))
