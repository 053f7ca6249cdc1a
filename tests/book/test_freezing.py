"""What a record rests on is seen as it is made, and shown again as it stood."""

import hashlib

import pytest
from msgspec.structs import replace

from evenstand.book.errors import BookError
from evenstand.book.freezing import as_it_stood, fingerprint, rested_on
from evenstand.book.storage.thing import things_made


@pytest.fixture
def book(opened):
    return opened()


def test_it_is_seen_what_a_result_is_made_of(book, samples):
    heron, lot = book.add(samples.heron).about, book.add(samples.oats).about
    book.add(samples.alder_bench)
    with things_made() as made:
        book.get(heron)
        book.things("lot")
    assert made == {heron, lot}
    book.get(heron)
    assert len(made) == 2


def test_the_book_is_shown_as_it_stood(book, samples):
    lot = book.add(samples.oats).about
    entries = rested_on(book, [lot])
    sha256 = fingerprint(entries)
    book.correct(lot, replace(samples.oats, name="another"))
    book.add(samples.heron)
    with as_it_stood(book, [each.id for each in entries], sha256=sha256) as before:
        assert before.get(lot).body == samples.oats
        assert before.things("drill") == []


def test_the_fingerprint_is_that_of_the_sorted_hashes(book, samples):
    """By hand, from the texts alone."""
    entries = [book.add(samples.oats), book.add(samples.heron)]
    lines = sorted(hashlib.sha256(entry.text.encode()).hexdigest() + "\n" for entry in entries)
    expected = hashlib.sha256("".join(lines).encode()).hexdigest()
    assert fingerprint(entries) == fingerprint(entries[::-1]) == expected


def test_what_is_missing_here_is_not_shown_half(book, opened, samples):
    entries = [book.add(samples.oats), book.add(samples.heron)]
    other = opened(device="phone")
    other.merge(entries[:1])
    with pytest.raises(BookError) as refused:
        as_it_stood(other, [each.id for each in entries], sha256=fingerprint(entries))
    assert refused.value.field == "record"
