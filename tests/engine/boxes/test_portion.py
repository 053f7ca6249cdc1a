"""What a box needs to know of its seed, and what is refused."""

from math import nan

import pytest
from uncertainties import ufloat

from evenstand.engine.boxes.portion import Carrier, Portion, rice_hulls
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.units import KG_PER_HECTARE, POUND_PER_BUSHEL


def rye(**changed):
    given = {"name": "rye", "rate": ufloat(0.005, 0.0002), "seeds_per_kg": 40_000.0} | changed
    return Portion(**given)


def test_what_is_weighed_out_is_the_value_of_the_rate():
    assert rye().weighed == 0.005
    assert rye(seeds_per_kg=ufloat(41_000, 900)).count == 41_000


def test_rice_hulls_weigh_nine_pounds_a_bushel(published):
    (row,) = published("rice_hulls.csv")
    hulls = rice_hulls(10 * KG_PER_HECTARE)
    assert hulls.test_weight == pytest.approx(row["kg_per_m3"], abs=5e-5)
    assert hulls.test_weight / POUND_PER_BUSHEL == pytest.approx(row["test_weight"])
    assert (hulls.weighed, hulls.measured) == (10 * KG_PER_HECTARE, False)


@pytest.mark.parametrize(
    ("changed", "field"),
    [
        ({"rate": 0.0}, "rate of rye"),
        ({"rate": nan}, "rate of rye"),
        ({"seeds_per_kg": -1.0}, "seeds_per_kg of rye"),
        ({"live_per_kg": -1.0}, "live_per_kg of rye"),
        ({"purity": 0.0}, "purity of rye"),
        ({"purity": 1.01}, "purity of rye"),
        ({"test_weight": 0.0}, "test_weight of rye"),
        ({"depth": (0.03, 0.01)}, "depth of rye"),
        ({"depth": (-0.01, 0.01)}, "depth of rye"),
    ],
)
def test_refuses_and_names_field_and_species(changed, field):
    with pytest.raises(MeasurementError) as refusal:
        rye(**changed)
    assert refusal.value.field == field


@pytest.mark.parametrize(
    ("changed", "field"),
    [({"rate": 0.0}, "rate of hulls"), ({"test_weight": nan}, "test_weight of hulls")],
)
def test_a_carrier_is_refused_alike(changed, field):
    with pytest.raises(MeasurementError) as refusal:
        Carrier(**({"name": "hulls", "rate": 0.001} | changed))
    assert refusal.value.field == field
