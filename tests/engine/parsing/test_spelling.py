"""Every spelled unit against a unit library, and what is not a unit."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from evenstand.engine.parsing.spelling import (
    AMBIGUOUS,
    SPELLINGS,
    Measure,
    ambiguous,
    fit,
    measure,
    nearest,
)
from evenstand.engine.quantities.units import ACRE, GRAM, POUND, POUND_PER_ACRE, SQUARE_FOOT

# Spellings that pint does not read, or reads as something else, by what pint calls them.
IN_PINT = {
    name: pint_name
    for pint_name, names in {
        "millimeter": "milimetro, milimetros",
        "centimeter": "centimetro, centimetros",
        "meter": "metro, metros",
        "kilometer": "kilometro, kilometros",
        "inch": '", pulgada, pulgadas, pulg',
        "foot": "', pie, pies",
        "yard": "yarda, yardas",
        "mile": "milla, millas",
        "inch**2": "in2, sq in, pulgadas cuadradas",
        "foot**2": "ft2, sq ft, sqft, pie cuadrado, pies cuadrados",
        "yard**2": "yd2, yardas cuadradas",
        "meter**2": "m2, metro cuadrado, metros cuadrados",
        "kilometer**2": "km2",
        "43560 * foot**2": "ac, acre, acres",
        "hectare": "hectarea, hectareas",
        "milligram": "miligramo, miligramos",
        "gram": "gramme, grammes, gramo, gramos",
        "kilogram": "kgs, kilo, kilos, kilogramo, kilogramos",
        "tonne": "metric ton, metric tons, tonelada, toneladas",
        "ounce": "onza, onzas",
        "pound": "#, libra, libras",
        "2000 * pound": "short ton, short tons",
        "centimeter**3": "cm3",
        "liter": "litro, litros",
        "hectoliter": "hectolitro, hectolitros",
        "meter**3": "m3, metro cubico, metros cubicos",
        "inch**3": "in3, cu in",
        "foot**3": "ft3, cu ft, pie cubico, pies cubicos",
        "gallon": "galon, galones",
        "second": "segundo, segundos",
        "minute": "minuto, minutos",
        "hour": "hora, horas",
        "kilometer / hour": "kmh, kmph",
        "percent": "pct, per cent, por ciento",
    }.items()
    for name in names.split(", ")
}
DIMENSIONS = {
    "length": "[length]",
    "area": "[length] ** 2",
    "mass": "[mass]",
    "volume": "[length] ** 3",
    "time": "[time]",
    "length/time": "[length] / [time]",
    "share": "[]",
}
MEASURED = [name for name, found in SPELLINGS.items() if found.dimension in DIMENSIONS]


@pytest.fixture(scope="module")
def registry():
    return pytest.importorskip("pint").UnitRegistry()


@pytest.mark.parametrize("spelling", MEASURED)
def test_second_route_pint(registry, spelling):
    known = registry.parse_expression(IN_PINT.get(spelling, spelling)).to_base_units()
    found = SPELLINGS[spelling]
    assert known.check(DIMENSIONS[found.dimension]) or found.dimension == "share"
    assert found.size == pytest.approx(known.magnitude, rel=1e-12)


def test_a_spelling_stands_once():
    """The table counts 200 names and more; one name in two rows would be lost."""
    from evenstand.engine.parsing import spelling

    rows = [row for rows in spelling._TABLE.values() for row in rows]
    assert len(SPELLINGS) == sum(len(names.split(", ")) for _, names in rows)


@pytest.mark.parametrize(
    ("text", "dimension", "size"),
    [
        ("lb/ac", "mass/area", POUND_PER_ACRE),
        ("LBS. per Acre", "mass/area", POUND_PER_ACRE),
        ("lb  /  ac", "mass/area", POUND_PER_ACRE),
        ("libras por acre", "mass/area", POUND_PER_ACRE),
        ("lb ac-1", "mass/area", POUND_PER_ACRE),
        ("lb ac⁻¹", "mass/area", POUND_PER_ACRE),
        ("sq. ft.", "area", SQUARE_FOOT),
        ("ft^2", "area", SQUARE_FOOT),
        ("FT²", "area", SQUARE_FOOT),
        ("per sq ft", "1/area", 1 / SQUARE_FOOT),
        ("/ft2", "1/area", 1 / SQUARE_FOOT),
        ("seeds/lb", "seeds/mass", 1 / POUND),
        ("g/1000", "mass/seeds", GRAM / 1000),
        ("g per 1,000", "mass/seeds", GRAM / 1000),
        ("g / 1.000 semillas", "mass/seeds", GRAM / 1000),
        ("g per thousand seeds", "mass/seeds", GRAM / 1000),
        ("HECTÁREAS", "area", 10_000.0),
    ],
)
def test_forms(text, dimension, size):
    assert measure(text) == Measure(dimension, pytest.approx(size, rel=1e-15))


@pytest.mark.parametrize(
    "text", ["", "zork", "lb/zork", "lb/ac/h", "/", "2", "per", "lb per", "ft 2"]
)
def test_not_a_unit(text):
    assert measure(text) is None


@pytest.mark.parametrize("text", [*AMBIGUOUS, "T/ha", "ton per acre", "tons/ac", "Tons", "gr."])
def test_what_can_mean_two_things_is_not_read(text):
    assert measure(text) is None
    found = ambiguous(text)
    assert found is not None
    assert AMBIGUOUS[found[0]] == found[1]


def test_what_is_clear_is_not_ambiguous():
    assert [text for text in SPELLINGS if ambiguous(text)] == []


@pytest.mark.parametrize(
    ("text", "part", "near"),
    [
        ("acr", "acr", "acre"),
        ("pond/ac", "pond", "pound"),
        ("lb/arce", "arce", "acre"),
        ("bushles", "bushles", "bushels"),
    ],
)
def test_a_slip_of_the_pen_finds_its_unit(text, part, near):
    assert nearest(text) == (part, near)


@pytest.mark.parametrize("text", ["zorkmids", "lb/ac/yr", "lb/ac"])
def test_no_guess_where_nothing_is_near(text):
    assert nearest(text) is None


def test_fit():
    per_foot, per_acre = Measure("1/area", 1 / SQUARE_FOOT), Measure("1/area", 1 / ACRE)
    assert fit(per_foot, "seeds/area") == per_foot.size
    assert fit(per_foot, "plants/area") == per_foot.size
    assert fit(per_acre, "mass/area") is None
    assert fit(Measure("plants/area", 1.0), "seeds/area") is None
    assert fit(Measure("length", 0.3048), "length/turns") == 0.3048
    assert fit(Measure("length/turns", 0.3048), "length") is None
    assert fit(Measure("mass", GRAM), "mass/seeds") == pytest.approx(1e-6)
    assert fit(Measure("mass", POUND), "mass/seeds") is None


@given(st.text(max_size=30))
def test_any_text_is_a_unit_or_not(text):
    found = measure(text)
    assert found is None or found.size > 0
    nearest(text)
    ambiguous(text)
