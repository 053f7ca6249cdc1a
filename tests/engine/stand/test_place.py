"""Ground of counted places: stand counts of extension pages, with their slips."""

from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.units import ACRE, FOOT, INCH, METRE, SQUARE_FOOT
from evenstand.engine.stand.place import Place, frame_area, hoop_area, row_area
from evenstand.engine.stand.stand import stand
from evenstand.engine.statistics.budget import nominal

LENGTHS = st.floats(0.01, 10)


def one(area, plants):
    return stand([Place(area=area, plants=int(plants))]).range.value


def hoop(row):
    if row["across"]:
        return hoop_area(diameter=row["across"] * INCH)
    return hoop_area(around=row["around"] * INCH)


ANSWERS = {
    "density": lambda row: one(ground(row, row["length"] * FOOT), row["plants"]) * SQUARE_FOOT,
    "row": lambda row: SQUARE_FOOT / ground(row, INCH),
    "thousandth": lambda row: ACRE / 1000 / ground(row, FOOT),
    "per_foot": lambda row: row["plants"] / ACRE * ground(row, FOOT),
    "hoops": lambda row: ACRE / hoop(row),
    "per_acre": lambda row: one(hoop(row), row["plants"]) * ACRE,
    "area_m2": hoop,
    "area_ft2": lambda row: hoop(row) / SQUARE_FOOT,
}


def ground(row, length):
    return row_area(length, spacing=row["spacing"] * INCH)


def test_published_stand_counts(published):
    for row in published("stand_counts.csv"):
        found = ANSWERS[row["what"]](row)
        assert found == pytest.approx(row["printed"], abs=row["within"]), row["source"]
        assert found == pytest.approx(row["exact"], rel=2e-4), row["source"]


def test_a_hoop_by_its_hose_is_the_same_hoop():
    """A hoop of 1 m across is π m around: 0.7854 m²."""
    assert hoop_area(diameter=METRE) == pytest.approx(0.7854, abs=5e-5)
    assert hoop_area(around=pi) == pytest.approx(0.7854, abs=5e-5)


def test_a_frame():
    assert frame_area(0.5, b=0.25) == 0.125


@given(LENGTHS, st.floats(0.1, 10))
def test_ground_grows_with_the_square_of_a_hoop_and_with_the_length_of_a_row(size, factor):
    assert hoop_area(diameter=size * factor) == pytest.approx(
        nominal(hoop_area(diameter=size)) * factor * factor
    )
    assert row_area(size * factor, spacing=0.2) == pytest.approx(
        factor * row_area(size, spacing=0.2)
    )


def test_species_add_up():
    assert Place(area=1.0, plants={"rye": 5, "vetch": 2}).total == 7
    assert Place(area=1.0, plants=3).counts == {"": 3}


@pytest.mark.parametrize(
    ("call", "field"),
    [
        (lambda: Place(area=0.0, plants=1), "area"),
        (lambda: Place(area=float("nan"), plants=1), "area"),
        (lambda: Place(area=1.0, plants=-1), "plants"),
        (lambda: Place(area=1.0, plants=1.5), "plants"),
        (lambda: Place(area=1.0, plants={"rye": -2}), "plants of rye"),
        (lambda: Place(area=1.0, plants={}), "plants"),
        (lambda: Place(area=1.0, plants=1, row=0.0), "row"),
        (lambda: Place(area=1.0, plants=1, gaps=(0.1,)), "gaps"),
        (lambda: Place(area=1.0, plants=1, row=1.0, gaps=(0.6, 0.6)), "gaps"),
        (lambda: Place(area=1.0, plants=1, row=1.0, gaps=(-0.1,)), "gaps"),
        (lambda: Place(area=1.0, plants=1, row=1.0, gaps=(float("inf"),)), "gaps"),
        (lambda: row_area(0.0, spacing=0.2), "length"),
        (lambda: row_area(1.0, spacing=0.0), "spacing"),
        (lambda: hoop_area(), "diameter"),
        (lambda: hoop_area(diameter=1.0, around=3.0), "diameter"),
        (lambda: hoop_area(diameter=0.0), "diameter"),
        (lambda: hoop_area(around=-1.0), "around"),
        (lambda: frame_area(1.0, b=0.0), "side"),
        (lambda: frame_area(float("nan"), b=1.0), "side"),
    ],
)
def test_what_cannot_be_is_refused_under_its_field(call, field):
    with pytest.raises(MeasurementError) as refused:
        call()
    assert refused.value.field == field
