"""Structs of the book read from inputs and written back, by what stands beside their fields."""

from typing import Annotated, ClassVar, Literal

import pytest

from evenstand.book.kinds.bodies import KINDS
from evenstand.book.kinds.details import (
    AS_IT_STANDS,
    BY_SIGN,
    OR_ZERO,
    By,
    Key,
    Unless,
    Within,
    details,
)
from evenstand.book.kinds.shape import Body, Count, Day, Id, Name, Part, Share, Text, Typed
from evenstand.engine.quantities import units as u
from evenstand.engine.quantities.phrases import say
from evenstand.tasks.parsing.given import Given
from evenstand.tasks.parsing.structs import keys, numbered, read, texts
from evenstand.tasks.parsing.writing import RefusalsError, Writing

PART = Within(0.5, 1, say("give half or more"))


class Hopper(Part, frozen=True):
    name: Name
    least: Annotated[Typed | None, u.RATE] = None


class Shed(Body, frozen=True):
    kind: ClassVar = "shed"
    job: Id
    wide: Annotated[Typed, u.LENGTH]
    left: Annotated[Typed | None, u.LOAD, OR_ZERO] = None
    price: Annotated[Typed | None, u.PRICE, AS_IT_STANDS] = None
    basis: Literal["live seeds", "pls"] = "pls"
    rate: Annotated[Typed | None, By("basis")] = None
    ratio: Annotated[Typed | None, BY_SIGN] = None
    bulk: Annotated[Typed | None, u.RATE] = None
    test_weight: Annotated[Typed | None, u.TEST_WEIGHT] = None
    thousand: Annotated[Typed | None, u.SEED_WEIGHT, Key("tsw")] = None
    sure: Annotated[Share | None, PART] = None
    bins: Annotated[Count, u.BAGS] = 0
    open: Annotated[bool, Unless("shut")] = True
    dry: bool | None = None
    day: Day | None = None
    hoppers: tuple[Hopper, ...] = ()
    note: Text = ""


WRITTEN = {
    "wide": "10 ft",
    "left": "0 lb",
    "price": "2 $/lb",
    "basis": "live seeds",
    "rate": "30 seeds/ft²",
    "ratio": "90%",
    "bulk": "1 bu/ac",
    "test_weight": "60 lb/bu",
    "tsw": "30 g per 1,000",
    "sure": "80%",
    "bins": "3",
    "shut": "yes",
    "dry": "no",
    "day": "2026-03-15",
    "note": "by the road",
}


def form(**changed):
    given = {key: text for key, text in (WRITTEN | changed).items() if text}
    return Writing(Given(given))


def shed(**changed):
    asked = form(**changed)
    found = read(asked, Shed, job="1")
    asked.done()
    return found


def refused(**changed):
    with pytest.raises(RefusalsError) as caught:
        shed(**changed)
    return {each.field: str(each.need) for each in caught.value.each}


def test_each_field_is_read_as_what_it_says():
    found = shed()
    assert found.wide.value == pytest.approx(3.048)  # 10 × 0.3048 m
    assert found.left.value == 0
    assert found.rate.value == pytest.approx(30 / 0.09290304)  # of a square foot
    assert found.ratio.value == pytest.approx(0.9)
    assert found.bulk.value == pytest.approx(60 * 0.45359237 / 4046.8564224)  # a bushel of 60 lb
    assert found.thousand.value == pytest.approx(0.030)  # a thousand of them, in kg
    assert (found.sure, found.bins, found.open, found.dry) == (0.8, 3, False, False)
    assert (found.day, found.note) == ("2026-03-15", "by the road")


def test_what_was_written_comes_back():
    assert texts(shed()) == WRITTEN


def test_what_was_left_empty_is_as_the_struct_has_it():
    said = shed(**dict.fromkeys(WRITTEN, "") | {"wide": "10 ft"})
    assert said == Shed(job="1", wide=said.wide)
    assert {key for key, text in texts(said).items() if text} == {"wide", "basis"}


@pytest.mark.parametrize(
    ("field", "text", "need"),
    [
        ("wide", "", "missing"),
        ("wide", "0 ft", "above 0"),
        ("left", "-1 lb", "0 or more"),
        ("price", "2 ± 1 $/lb", "without ±"),
        ("bulk", "1 lb/ft", "is not a rate by weight"),
        ("rate", "30 lb/ac", "needs a number of seeds per area"),
        ("sure", "40%", "half or more"),
        ("bins", "1.5", "whole number"),
        ("dry", "perhaps", "yes or no"),
        ("shut", "perhaps", "yes or no"),
        ("day", "yesterday", "year, month and day"),
    ],
)
def test_what_a_field_cannot_be_is_refused_under_its_input(field, text, need):
    said = refused(**{field: text})
    assert set(said) == {field}
    assert need in said[field]


def test_all_refusals_are_told_in_the_order_of_the_fields():
    assert list(refused(wide="", sure="40%", left="-1 lb")) == ["wide", "left", "sure"]


def test_a_field_may_be_read_in_another_way_and_in_its_turn():
    asked = form(wide="")
    told = []

    def note():
        told.extend(asked._refused)
        return "other"

    assert read(asked, Shed, job="1", note=note).note == "other"
    assert [each.field for each in told] == ["wide"]


def test_lines_have_numbers():
    given = Given({"hopper2_name": "front", "hopper3_least": "2 lb/ac"})
    assert keys(Hopper) == ("name", "least")
    assert numbered(given, "hopper", keys(Hopper), most=6) == [2, 3]
    front = read(Writing(given), Hopper, line="hopper2_")
    assert texts(front, line="hopper2_") == {"hopper2_name": "front"}


def test_a_word_is_one_of_those_of_its_field():
    assert "choose one of" in refused(basis="acres", rate="")["basis"]


@pytest.mark.parametrize("kind", KINDS.values())
def test_no_two_fields_of_a_body_are_one_input(kind):
    names = [each.unless or each.key for each in details(kind)]
    assert len(set(names)) == len(names)
