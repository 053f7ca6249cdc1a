"""What is written is read back, and no text at all does anything but be read or refused."""

from decimal import Decimal
from math import inf, isfinite

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from evenstand.engine.parsing.parse import LONGEST, read
from evenstand.engine.parsing.spelling import SPELLINGS
from evenstand.engine.quantities import units
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import Amount, Kind

KINDS = [value for value in vars(units).values() if isinstance(value, Kind)]
STYLES = [
    Style(system, decimal, thousands)
    for system in ("us", "metric")
    for decimal, thousands in ((".", ","), (",", "\u202f"), (",", "\u00a0"), (",", ","))
]
kinds, styles = st.sampled_from(KINDS), st.sampled_from(STYLES)
numbers = st.floats(min_value=1e-4, max_value=1e9) | st.integers(0, 10**9).map(float)


def shown(value, digits, *, kind, unit):
    """The number to so many significant digits, all those before the point kept.

    Money has its cents at least, and no more in the three digits of a sentence; there a load is as
    a scale shows it: to 0.01 up to 5 kg, then to a pound, or to 0.1 kg up to 100 kg and a kilogram.
    """
    exact = Decimal(value)
    places = max(0, digits - 1 - exact.adjusted()) if value else 0
    if unit.symbol.startswith("$"):
        places = 2 if digits <= 3 else max(2, places)
    elif digits <= 3 and kind is units.LOAD:
        finest = 2 if abs(value) * unit.size <= 5 else int(unit.symbol == "kg" and abs(value) < 100)
        places = min(places, finest if abs(value) >= 0.005 else 0)
    return exact.quantize(Decimal(1).scaleb(-places))


@given(
    number=st.one_of(numbers, numbers.map(lambda x: -x)),
    kind=kinds,
    style=styles,
    digits=st.integers(2, 7),
)
@example(number=999.95, kind=units.RATE, style=STYLES[0], digits=3)
@example(number=1234.0, kind=units.RATE, style=STYLES[1], digits=4)
@example(number=1.0, kind=units.ROWS, style=STYLES[0], digits=3)
@example(number=41.4, kind=units.LOAD, style=STYLES[0], digits=3)
@example(number=41.44, kind=units.LOAD, style=STYLES[4], digits=3)
@example(number=141.4, kind=units.LOAD, style=STYLES[4], digits=3)
@example(number=2.345, kind=units.LOAD, style=STYLES[0], digits=3)
@example(number=101.25, kind=units.COST, style=STYLES[0], digits=2)
@example(number=-3.5, kind=units.PRICE, style=STYLES[4], digits=3)
def test_what_a_style_writes_is_read_back(*, number, kind, style, digits):
    unit = style.unit(kind)
    amount = Amount(number * unit.size, kind, digits)
    reading = read(style.amount(amount), kind, field="x", decimal=style.decimal)
    expected = float(shown(amount.value / unit.size, digits, kind=kind, unit=unit)) * unit.size
    assert reading.value == pytest.approx(expected, rel=1e-12)


def fuzzed(text, kind, **options):
    """Read a text; whatever is wrong with it may only be told as a refusal."""
    try:
        reading = read(text, kind, field="x", **options)
    except MeasurementError as error:
        return bool(str(error.need)) and error.field == "x"
    return isfinite(reading.value) and 0 <= reading.give_or_take < inf


@given(st.text(max_size=LONGEST + 5), kinds)
def test_any_text_is_read_or_refused(text, kind):
    assert fuzzed(text, kind)


PIECES = [*SPELLINGS, *"0123", "12", "100", "1000", "1e308", "1,5", *",./±-+$'\"½", "per", "ton"]
OPTIONS = [{}, {"test_weight": 770.0}, {"decimal": ","}, {"default_unit": units.RATE.us}]


@given(
    pieces=st.lists(st.sampled_from(PIECES), max_size=8),
    between=st.sampled_from(["", " "]),
    kind=kinds,
    options=st.sampled_from(OPTIONS),
)
@example(pieces=["1e308", "t", "1e308", "kg"], between=" ", kind=units.LOAD, options={})
@example(pieces=["1", "ft", "1", "lb"], between=" ", kind=units.LENGTH, options={})
def test_any_pieces_of_amounts_are_read_or_refused(*, pieces, between, kind, options):
    assert fuzzed(between.join(pieces), kind, **options)


@given(st.integers(0, 400), st.integers(0, 11), st.sampled_from("½¼¾⅛⅜⅝⅞"))
def test_feet_inches_and_eighths(feet, inches, part):
    """Eighths of an inch are exact in binary, so the sum in inches is exact too."""
    eighths = {"½": 4, "¼": 2, "¾": 6, "⅛": 1, "⅜": 3, "⅝": 5, "⅞": 7}[part]
    read_inches = read(f"{feet} ft {inches}{part} in", units.LENGTH, field="x").value / units.INCH
    assert read_inches == pytest.approx(12 * feet + inches + eighths / 8, rel=1e-14)
