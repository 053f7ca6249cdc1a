"""What tests of frozen records share: the book of the demo, to be written in."""

import pytest

from evenstand.book.opening import open_book
from evenstand.demo.book import fill


@pytest.fixture
def book():
    with open_book(":memory:", device="shed", who="Ada") as opened:
        fill(opened)
        yield opened
