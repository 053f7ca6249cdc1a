"""How numbers, amounts and sentences are written, for every reader."""

import re
from decimal import Decimal
from math import inf, nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

import labels
from evenstand.engine.quantities import units
from evenstand.engine.quantities.phrases import (
    SINGULAR,
    WORDED,
    Amount,
    Figure,
    Phrase,
    Style,
    cause,
    decimals,
    join,
    say,
    series,
)
from evenstand.engine.quantities.units import (
    CATCH,
    DENSITY,
    HECTARE,
    MONEY,
    OUNCE,
    POUND,
    POUND_PER_ACRE,
    PRICE,
    RATE,
    ROWS,
    SEED_COUNT,
    SEED_WEIGHT,
    SHARE,
    TURNS,
    Kind,
)

NOUNS = [kind.us.symbol for kind in vars(units).values() if isinstance(kind, Kind) and kind.us.noun]
SPANISH = {
    "Sow {rate}.": "Siembre {rate}.",
    "turns": "vueltas",
    "turn": "vuelta",
    "catch again": "repita",
}


def spanish(text):
    return SPANISH.get(text, text)


@pytest.mark.parametrize(
    ("value", "digits", "text"),
    [
        (0, 3, "0"),
        (-0.0, 3, "0"),
        (0.0004, 3, "0.0004"),
        (-0.0004, 3, "−0.0004"),
        (0.00044449, 3, "0.000444"),
        (1e-9, 3, "0.000000001"),
        (0.0625, 3, "0.0625"),
        (0.99996, 3, "1"),
        (1, 3, "1"),
        (8.0, 3, "8"),
        (8.5, 3, "8.5"),
        (8.254, 3, "8.25"),
        (9.996, 3, "10"),
        (60.04, 3, "60"),
        (99.94, 3, "99.9"),
        (99.96, 3, "100"),
        (999.4, 3, "999"),
        (999.95, 3, "1,000"),
        (1000, 3, "1,000"),
        (1234.5678, 3, "1,235"),
        (1234.5678, 6, "1,234.57"),
        (18_123, 3, "18,123"),
        (43_560, 3, "43,560"),
        (1e7, 3, "10,000,000"),
        (-1234.5, 5, "−1,234.5"),
        (5e-324, 3, "0." + 323 * "0" + "494"),  # the float next to 0 is 4.94e-324
        (inf, 3, "∞"),
        (-inf, 3, "−∞"),
        (nan, 3, "?"),
    ],
)
def test_number(value, digits, text):
    assert Style().number(value, digits) == text


@pytest.mark.parametrize(
    ("style", "text"),
    [
        (Style(), "18,123.5"),
        (Style(decimal=",", thousands="."), "18.123,5"),
        (Style(decimal=",", thousands=" "), "18 123,5"),
        (Style(decimal=","), "18\u202f123,5"),
    ],
)
def test_a_sign_never_means_two_things(style, text):
    assert style.number(18_123.5, 6) == text


@pytest.mark.parametrize("value", [2.8e-17, -2.8e-17, 9e-10])
def test_what_is_too_small_to_read_is_written_as_none(value):
    """0.1 + 0.2 − 0.3 and the like: what binary arithmetic leaves of nothing."""
    assert Style().amount(units.FIELD(value)) == "0 ac"


@given(st.floats(1e-12, 1e12), st.integers(1, 8))
def test_significant_digits_by_decimal_arithmetic(value, digits):
    """Rounded half to even at the last digit shown; never a whole digit less."""
    exact = Decimal(value)
    places = max(0, digits - 1 - exact.adjusted())
    expected = exact.quantize(Decimal(1).scaleb(-places))
    text = Style(thousands="").number(value, digits)
    assert Decimal(text) == expected
    assert text == text.rstrip("0") or "." not in text


@given(st.floats(1e-300, 1e300), st.integers(1, 8))
def test_no_more_decimals_than_are_needed(value, digits):
    places = decimals(value, digits)
    assert places == 0 or f"{value:.{places}f}"[-1] != "0"


@pytest.mark.parametrize(
    ("amount", "us", "metric"),
    [
        (Amount(60 * POUND_PER_ACRE, RATE), "60 lb/ac", "67.3 kg/ha"),
        (Amount(0.0067, RATE), "59.8 lb/ac", "67 kg/ha"),
        (Amount(OUNCE, CATCH), "1 oz", "28.3 g"),
        (Amount(236.8, DENSITY), "22 seeds/ft²", "237 seeds/m²"),
        (Amount(25e-6, SEED_WEIGHT), "25 g per 1,000", "25 g per 1,000"),
        (Amount(0.05, SHARE), "5%", "5%"),
        (Amount(1, ROWS), "1 row", "1 row"),
        (Amount(20, TURNS), "20 turns", "20 turns"),
        (Amount(0, TURNS), "0 turns", "0 turns"),
        (Amount(0.5, units.NUMBER), "0.5", "0.5"),
        (Amount(180, MONEY), "$180.00", "$180.00"),
        (Amount(-3.5, MONEY), "−$3.50", "−$3.50"),
        (Amount(1234.5, MONEY, 6), "$1,234.50", "$1,234.50"),
        (Amount(3.5 / POUND, PRICE), "$3.50/lb", "$7.72/kg"),
        (Amount(40 / HECTARE, units.COST), "$16.19/ac", "$40.00/ha"),
    ],
)
def test_amount(amount, us, metric):
    assert Style().amount(amount) == us
    assert Style("metric").amount(amount) == metric


def test_a_comma_writer_has_cents_too():
    assert Style(decimal=",").amount(Amount(3.5, MONEY)) == "$3,50"


def test_every_counted_thing_has_a_singular():
    assert set(SINGULAR) == set(NOUNS)


def test_a_phrase_waits_for_its_reader():
    phrase = say("Sow {rate}.", rate=Amount(60 * POUND_PER_ACRE, RATE))
    assert str(phrase) == "Sow 60 lb/ac."
    assert Style("metric", decimal=",").write(phrase) == "Sow 67,3 kg/ha."
    assert Style("metric", translate=spanish).write(phrase) == "Siembre 67.3 kg/ha."


def test_nouns_and_phrases_inside_are_translated():
    inside = say("{next}: {n}, {count} {name}", next=say("catch again"), n=Amount(2, TURNS))
    phrase = Phrase(inside.template, {**inside.values, "count": 3, "name": "{Heron}"})
    assert Style(translate=spanish).write(phrase) == "repita: 2 vueltas, 3 {Heron}"
    assert Style(translate=spanish).amount(Amount(1, TURNS)) == "1 vuelta"


def test_join():
    assert str(join([say("One."), say("Two {n}.", n=2)])) == "One. Two 2."
    assert str(join(())) == ""


@pytest.mark.parametrize(
    ("names", "last", "text"),
    [
        (["rye"], "and", "rye"),
        (["rye", "oats"], "and", labels.AND(names="rye", last="oats")),
        (["rye", "oats"], "or", labels.OR(names="rye", last="oats")),
        (["rye", "oats", "peas"], "or", labels.OR(names="rye, oats", last="peas")),
    ],
)
def test_a_series_ends_with_a_word_that_can_be_translated(names, last, text):
    said = series(names, last=last)
    assert str(said) == text
    spanish = Style(translate=lambda text: text.replace(" and ", " y ").replace(" or ", " o "))
    assert spanish.write(said) == text.replace(" and ", " y ").replace(" or ", " o ")


def test_a_series_can_hold_phrases_and_amounts():
    said = series([say("{box} to {rate}", box="grain", rate=Amount(0.0067, RATE)), "fluffy"])
    assert Style(system="metric").write(said) == labels.AND(
        names=labels.TO(box="grain", rate="67 kg/ha"), last="fluffy"
    )


def test_a_figure_has_the_decimal_sign_of_its_reader():
    said = say("set to {setting}", setting=Figure("30.5"))
    assert Style().write(said) == "set to 30.5"
    assert Style(decimal=",").write(said) == "set to 30,5"


def test_a_unit_with_a_word_in_it_is_translated():
    spanish = Style(translate={"seeds/lb": "semillas/lb"}.get)
    assert spanish.write(Amount(18_000 / POUND, SEED_COUNT)) == "18,000 semillas/lb"
    kinds = [kind for kind in vars(units).values() if isinstance(kind, Kind)]
    symbols = {unit.symbol for kind in kinds for unit in (kind.us, kind.metric) if not unit.noun}
    assert {each for each in symbols if re.search("turn|seed|plant|1,000", each)} == set(WORDED)


@pytest.mark.parametrize(
    ("tag", "template", "values"),
    [
        ("slip", "slip", {}),
        ("rate of grain", "rate of {name}", {"name": "grain"}),
        ("C:N of Oats", "C:N of {name}", {"name": "Oats"}),
        ("rate spread", "rate spread", {}),
    ],
)
def test_a_name_in_a_tag_is_a_value(tag, template, values):
    assert cause(tag).template == template
    assert dict(cause(tag).values) == values
    assert str(cause(tag)) == tag


def test_an_owner_stands_before_its_cause():
    said = cause("Oats, Cereal rye: purity")
    assert str(said) == "Oats, Cereal rye: purity"
    assert said.values["owner"] == "Oats, Cereal rye"
    assert said.values["cause"].template == "purity"


@pytest.mark.parametrize(
    ("iso", "said"),
    [
        ("2026-10-14", "Oct 14, 2026"),
        ("2026-08", "Aug 2026"),
        ("2026-13", "2026-13"),
        ("last fall", "last fall"),
        ("", ""),
    ],
)
def test_what_is_saved_as_a_day_or_a_month_is_written_as_its_reader_does(iso, said):
    assert Style().dated(iso) == said


def test_names_typed_with_commas_are_written_each_as_the_reader_calls_it():
    names = {"Oats": "Avena", "Hairy vetch": "Veza vellosa"}
    assert Style(names=names).listed("oats, Hairy vetch, my own") == "Avena, Veza vellosa, my own"
