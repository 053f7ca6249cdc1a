"""Size classes: which seed goes with which box, and where the count leaves doubt."""

from math import nan

import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat

import labels
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.units import POUND
from evenstand.engine.seed.size_class import size_class

# Seeds per pound: USDA PLANTS and 7 CFR 201.46, table 1, read. Boxes: cereals and peas in the large
# box, clovers and brassicas in the small: sellers' guides and NRCS, Five keys (2003).
COUNTS = {
    "cereal rye": (18_000, "large"),
    "field pea": (2_000, "large"),
    "hairy vetch": (16_000, "large"),
    "pearl millet": (82_000, "medium"),
    "radish": (34_000, "medium"),
    "crimson clover": (150_000, "medium"),
    "alfalfa": (199_000, "small"),
    "timothy": (1_152_000, "small"),
}


@pytest.mark.parametrize("name", COUNTS)
def test_seed_of_every_box(name):
    count, expected = COUNTS[name]
    assert size_class(count / POUND).seed_class == expected


def test_limits_stand_at_30_000_and_150_000_a_pound():
    edges = [29_999, 30_000, 150_000, 150_001]
    found = [size_class(count / POUND).seed_class for count in edges]
    assert found == ["large", "medium", "medium", "small"]


@given(st.floats(1e3, 1e8))
def test_fluff_outweighs_size(count):
    assert size_class(count, fluffy=True).seed_class == "fluffy"


def test_a_count_near_a_limit_is_said_to_be_in_doubt():
    near = size_class(ufloat(34_000, 3_000) / POUND)
    assert near.seed_class == "medium"
    assert str(near.doubt) == labels.COULD_WELL_COUNT(other="large seed")
    assert size_class(ufloat(34_000, 1_500) / POUND).doubt is None


@pytest.mark.parametrize("count", [0, -5, nan])
def test_refuses_a_count_that_is_none(count):
    with pytest.raises(MeasurementError) as refusal:
        size_class(count)
    assert refusal.value.field == "seeds_per_kg"
