"""Unit sizes against NIST, against each other by their definitions, and kinds of amount."""

from fractions import Fraction

import pytest

from evenstand.engine.parsing.spelling import NAMES, USUAL
from evenstand.engine.quantities import units
from evenstand.engine.quantities.units import Kind

EXACT = 1e-15
KINDS = [value for value in vars(units).values() if isinstance(value, Kind)]


def test_published_sizes(published):
    for row in published("unit_factors.csv"):
        assert getattr(units, row["constant"]) == pytest.approx(row["size"], rel=EXACT)


def decimal(name):
    """A constant as the decimal it is written as, for exact arithmetic."""
    return Fraction(str(getattr(units, name)))


@pytest.mark.parametrize(
    ("name", "definition"),
    [
        ("FOOT", 12 * decimal("INCH")),
        ("YARD", 3 * decimal("FOOT")),
        ("MILE", 5280 * decimal("FOOT")),
        ("SQUARE_INCH", decimal("INCH") ** 2),
        ("SQUARE_FOOT", decimal("FOOT") ** 2),
        ("SQUARE_YARD", decimal("YARD") ** 2),
        ("ACRE", 43_560 * decimal("FOOT") ** 2),
        ("CUBIC_INCH", decimal("INCH") ** 3),
        ("CUBIC_FOOT", decimal("FOOT") ** 3),
        ("GALLON", 231 * decimal("INCH") ** 3),
        ("BUSHEL", Fraction("2150.42") * decimal("INCH") ** 3),
        ("OUNCE", decimal("POUND") / 16),
        ("HUNDREDWEIGHT", 100 * decimal("POUND")),
        ("SHORT_TON", 2000 * decimal("POUND")),
    ],
)
def test_definitions_hold_exactly(name, definition):
    assert decimal(name) == definition


def test_rates_and_test_weights():
    # From the exact sizes above: 0.45359237 / 4046.8564224 × 10,000 and
    # 0.45359237 / 35.23907016688 × 100, by long division.
    to_kg_per_ha = units.POUND_PER_ACRE / units.KG_PER_HECTARE
    assert to_kg_per_ha == pytest.approx(1.1208511562, abs=5e-11)
    assert 1 / to_kg_per_ha == pytest.approx(0.8921791216, abs=5e-11)
    to_kg_per_hl = units.POUND_PER_BUSHEL / units.KG_PER_HECTOLITRE
    assert to_kg_per_hl == pytest.approx(1.2871859781, abs=5e-11)


def test_miles_per_hour_times_feet():
    """mph × ft = 5280 / 43,560 ac/h = 1 / 8.25 ac/h."""
    width_and_speed = units.MILE_PER_HOUR * units.FOOT
    assert width_and_speed / (units.ACRE / units.HOUR) == pytest.approx(1 / 8.25, rel=EXACT)


def test_the_two_acres_hardly_differ():
    # SP 811 prints the acre of the US survey foot, 1200/3937 m, as 4.046 873 E+03 m².
    survey = 43_560 * Fraction(1200, 3937) ** 2
    assert float(survey) == pytest.approx(4046.873, abs=5e-4)
    assert float(survey) / units.ACRE - 1 == pytest.approx(4.0e-6, abs=5e-8)


def test_second_route_pint():
    pint = pytest.importorskip("pint")
    registry = pint.UnitRegistry()

    def size(text):
        return registry.parse_expression(text).to_base_units().magnitude

    for name, text in {
        "POUND_PER_ACRE": "pound / (43560 * foot**2)",
        "KG_PER_HECTARE": "kilogram / hectare",
        "POUND_PER_BUSHEL": "pound / bushel",
        "KG_PER_HECTOLITRE": "kilogram / hectoliter",
        "MILE_PER_HOUR": "mile / hour",
        "KM_PER_HOUR": "kilometer / hour",
        "TONNE": "tonne",
        "MILLIGRAM": "milligram",
        "MILLILITRE": "milliliter",
        "MINUTE": "minute",
        "SQUARE_KILOMETRE": "kilometer**2",
    }.items():
        assert getattr(units, name) == pytest.approx(size(text), rel=1e-12), name


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.name)
def test_every_kind_can_be_asked_for(kind):
    """Its dimension has a name, its units a size, and its usual amount stands under its name."""
    assert kind.dimension in NAMES
    assert kind.us.size > 0
    assert kind.metric.size > 0
    assert USUAL.get(kind.name, 1.0) > 0


def test_no_usual_amount_for_a_kind_that_is_not_there():
    assert set(USUAL) <= {kind.name for kind in KINDS}
