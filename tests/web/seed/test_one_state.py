"""A reader of one state is told that state's limit of a test's age, and no other's."""

import re

import pytest
from msgspec.structs import replace

from evenstand.book.kinds.seed import Lot
from evenstand.engine.seed.age import LIMITS

PLACES = [limit.place for limit in LIMITS]
CHOICE = re.compile(r"<select.*?</select>", re.DOTALL)


@pytest.fixture
def pages(visitor, book, shelf):
    """A lot tested 30 months ago, in a job in Kentucky: the pages that tell of its tag."""
    lot = shelf("R-26")
    body = book.get(lot).body
    assert isinstance(body, Lot)
    book.correct(lot, replace(body, tag=replace(body.tag, tested="2024-05")))
    drill = visitor.heron(box1_name="grain", box1_volume="32 bu").rsplit("/", 1)[1]
    job = visitor.send("/jobs/new", {**visitor.JOB, "drill": drill, "field_state": "KY"})
    visitor.mix(job, (lot, "40", "bulk|lb/ac"))
    visitor.send("/seed/state", {"state": "KY", "lot": lot})
    return {"lot": f"/seed/{lot}", "list": "/seed"} | {
        step: f"{job}/{step}" for step in ("mix", "boxes", "order", "record", "calibrate")
    }


def test_only_the_limit_of_the_readers_state_is_told(visitor, pages):
    told = {}
    for name, path in pages.items():
        text = CHOICE.sub("", visitor.read(path).html)
        told[name] = [place for place in PLACES if place in text]
    assert told["lot"] == told["mix"] == told["order"] == ["Kentucky"]
    assert all(set(places) <= {"Kentucky"} for places in told.values()), told
