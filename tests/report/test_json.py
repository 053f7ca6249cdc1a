"""Results as JSON: what ``KEYS`` and the marks on a result's types do."""

import importlib
import inspect
import pkgutil
from collections.abc import Mapping
from dataclasses import dataclass, make_dataclass
from math import inf
from typing import Annotated

import pytest
from uncertainties import ufloat

import evenstand
from evenstand.engine.quantities.phrases import Phrase, Style, say
from evenstand.engine.quantities.units import (
    ACRE,
    CATCH,
    FOOT,
    LENGTH,
    POUND,
    RATE,
    SHARE,
    Amount,
    Kind,
)
from evenstand.engine.quantities.written import (
    AS_TEXT,
    HELD,
    OF_HOLDER,
    ONCE,
    OR_NULL,
    PER_CENT,
    Bare,
    inside,
    put,
)
from evenstand.engine.statistics.budget import Estimate, Quantity
from evenstand.report.json import as_json, keys

US, METRIC = Style(), Style(system="metric")


@dataclass
class Leg:
    KEYS = ("long", put("row", optional=True))

    long: Annotated[float, LENGTH]
    row: int | None = None


@dataclass
class Printed:
    KEYS = ("most", put("unit", HELD))

    most: Annotated[float, OF_HOLDER]


def written(kind, value, *keys, style=US):
    """Write a result with one part of a type."""

    whole = make_dataclass("Whole", [("part", kind)], namespace={"KEYS": keys or ("part",)})
    return as_json(whole(value), style)


@pytest.mark.parametrize(
    ("style", "value", "unit"), [(US, 3.0, "ft"), (METRIC, 3 * FOOT, "m")], ids=["us", "metric"]
)
def test_an_amount_is_in_its_readers_unit(style, value, unit):
    found = written(Annotated[float, LENGTH], 3 * FOOT, style=style)
    assert found == {"part": {"value": value, "low": value, "high": value, "u": 0.0, "unit": unit}}


def test_what_is_uncertain_has_its_range():
    # 95 % of a normal distribution lies within 1.96 standard deviations.
    found = written(Annotated[Quantity, LENGTH], ufloat(10.0, 0.1), style=METRIC)["part"]
    assert (found["value"], found["u"]) == (10.0, 0.1)
    assert (found["low"], found["high"]) == pytest.approx((9.804, 10.196), abs=0.0005)


def test_what_has_no_end_is_null():
    found = written(Annotated[Estimate, RATE], Estimate(1.0, 0.5, inf, 0.1))["part"]
    assert found["high"] is None
    assert written(Annotated[float, PER_CENT], inf) == {"part": None}


@pytest.mark.parametrize(
    ("kind", "value", "said"),
    [
        (Annotated[float, PER_CENT], -0.25, -25.0),
        (Annotated[Quantity, Bare(CATCH)] | None, ufloat(POUND, 1.0), 16.0),
        (Quantity, ufloat(0.5, 0.1), 0.5),
        (Amount, Amount(2 * FOOT, LENGTH), 2.0),
        (Kind, RATE, "lb/ac"),
        (Phrase, say("go {far}", far=Amount(FOOT, LENGTH)), "go 1 ft"),
        (Annotated[str, OR_NULL], "", None),
        (Annotated[int, OR_NULL], 3, 3),
        (Annotated[tuple[Phrase, ...], AS_TEXT], (say("One."), say("Two.")), "One. Two."),
        (Annotated[tuple[Phrase, ...], ONCE], (say("b"), say("a"), say("b")), ["b", "a"]),
        (tuple[Phrase, ...], (say("b"), say("b")), ["b", "b"]),
        (Mapping[str, tuple[str, ...]], {"a": ("b",)}, {"a": ["b"]}),
        (float | None, None, None),
        (bool, True, True),
    ],
)
def test_a_part_is_written_as_its_type_says(kind, value, said):
    assert written(kind, value) == {"part": said}


def test_the_kind_of_a_holder_is_that_of_what_it_holds():
    found = written(Annotated[Printed, SHARE] | None, Printed(0.5))
    assert found == {"part": {"most": 50.0, "unit": "%"}}
    assert written(Annotated[Printed, RATE], Printed(POUND / ACRE)) == {
        "part": {"most": 1.0, "unit": "lb/ac"}
    }


def test_a_path_leads_into_parts_and_takes_that_of_each_of_several():
    legs = (Leg(FOOT, row=1), Leg(2 * FOOT))
    found = written(tuple[Leg, ...], legs, *inside(("part",), "long", "row"))
    assert [each["value"] for each in found["long"]] == [1.0, 2.0]
    assert found["row"] == [1, None]


def test_a_path_through_nothing_is_nothing():
    assert written(Leg | None, None, put("far", "part", "long")) == {"far": None}


def test_keys_stand_where_they_are_put():
    leg, rows = Leg(FOOT), put("row", "part", "row", within="all")
    assert written(Leg, leg, rows, put("last", "part", "row")) == {
        "all": {"row": None},
        "last": None,
    }
    part = put("part", added=True)
    assert list(written(Leg, leg, part)) == ["long"], "a part lends its keys"
    beside = written(Leg, Leg(FOOT, row=2), put("row", "part", "long"), part)
    assert list(beside) == ["row", "long"]


def results():
    """Yield every class of the product that names its keys."""
    for module in pkgutil.walk_packages(evenstand.__path__, "evenstand."):
        if module.name.rpartition(".")[2] != "__main__":
            there = vars(importlib.import_module(module.name)).values()
            classes = (each for each in there if inspect.isclass(each))
            yield from (each for each in classes if "KEYS" in vars(each))


def test_every_key_of_every_result_leads_to_a_part_and_stands_there_once():
    found = set(results())
    assert {"Caught", "Evenness", "Boxed", "Printed"} <= {each.__name__ for each in found}
    for each in found:
        places = [(key.within, key.name) for key, _ in keys(each)]
        assert len(set(places)) == len(places), each
