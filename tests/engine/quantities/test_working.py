"""Each line of working can be done again from what stands on the paper."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from evenstand.engine.quantities import units
from evenstand.engine.quantities.phrases import Amount, Style, say
from evenstand.engine.quantities.units import (
    CATCH,
    FIELD,
    FOOT,
    GROUND,
    INCH,
    LENGTH,
    OUNCE,
    POUND_PER_ACRE,
    RATE,
    ROWS,
    SEED_COUNT,
    SEED_WEIGHT,
    SHARE,
    SPACING,
    SQUARE_FOOT,
    TRAVEL,
    TURNS,
    Kind,
)
from evenstand.engine.quantities.working import Line, divide, multiply

US, METRIC = Style(), Style("metric")
STYLES = [US, METRIC, Style(decimal=","), Style("metric", decimal=",", thousands=".")]


def line(value, *terms):
    return Line(say("by hand"), value, terms)


def test_catch_to_rate_in_both_systems():
    # 8.8 oz on 400 ft² are 8.8 / 400 × 43,560 / 16 = 59.895 lb/ac.
    rate = 59.895 * POUND_PER_ACRE
    terms = *multiply(Amount(8.8 * OUNCE, CATCH)), *divide(Amount(400 * SQUARE_FOOT, GROUND))
    written = line(Amount(rate, RATE), *terms)
    assert written.sum(US) == "8.8 oz ÷ 400 ft² × 2,722.5"
    assert written.sum(METRIC) == "249 g ÷ 37.2 m² × 10"


def test_no_factor_where_units_cancel():
    terms = multiply(Amount(20, TURNS), Amount(8 * FOOT, TRAVEL))
    assert line(Amount(160 * FOOT, LENGTH), *terms).sum(US) == "20 turns × 8 ft/turn"
    assert line(Amount(160 * FOOT, LENGTH), *terms).sum(METRIC) == "20 turns × 2.44 m/turn"


def test_the_exact_factor_is_divided_by():
    # 12 in a foot; 43,560 ft² in an acre.
    terms = multiply(Amount(20, ROWS), Amount(7.5 * INCH, SPACING))
    assert line(Amount(12.5 * FOOT, LENGTH), *terms).sum(US) == "20 rows × 7.5 in ÷ 12"
    assert line(Amount(12.5 * FOOT, LENGTH), *terms).sum(METRIC) == "20 rows × 19.1 cm ÷ 100"
    sides = multiply(Amount(100 * FOOT, LENGTH), Amount(200 * FOOT, LENGTH))
    field = line(Amount(20_000 * SQUARE_FOOT, FIELD), *sides)
    assert field.sum(US) == "100 ft × 200 ft ÷ 43,560"


def test_a_share_is_written_as_percent():
    terms = multiply(Amount(8 * OUNCE, CATCH), Amount(0.95, SHARE))
    assert line(Amount(7.6 * OUNCE, CATCH), *terms).sum(US) == "8 oz × 95 % ÷ 100"


def test_plus_and_minus():
    terms = (("+", Amount(9 * OUNCE, CATCH)), ("−", Amount(OUNCE, CATCH)))
    assert line(Amount(8 * OUNCE, CATCH), *terms).sum(US) == "9 oz − 1 oz"
    terms = (("−", Amount(OUNCE, CATCH)), ("+", Amount(9 * OUNCE, CATCH)))
    assert line(Amount(8 * OUNCE, CATCH), *terms).sum(US) == "−1 oz + 9 oz"


def test_a_chain_may_begin_with_a_division():
    # 1,000 seeds of 25 g: 1 ÷ 25 × 453,592 = 18,144 seeds/lb.
    seeds = line(Amount(40_000, SEED_COUNT), *divide(Amount(25e-6, SEED_WEIGHT)))
    assert seeds.sum(US) == "1 ÷ 25 g per 1,000 × 453,592"
    assert evaluate(seeds.sum(US), US) == pytest.approx(18_144, abs=0.5)


def test_a_line_that_only_states():
    assert line(Amount(20, ROWS)).sum(US) == ""


def plain(style, text):
    """The numeral at the front of a written amount, as a float."""
    number = re.match(rf"−?[\d{re.escape(style.decimal + style.thousands)}\u202f]+", text)[0]
    for apart in {style.thousands, "\u202f"} - {style.decimal}:
        number = number.replace(apart, "")
    return float(number.replace(style.decimal, ".").replace("−", "-"))


def evaluate(written, style):
    """Do a line again with what is printed, from left to right."""
    first, *rest = re.split(r" ([×÷+−]) ", written)
    result = plain(style, first)
    for operator, text in zip(rest[::2], rest[1::2], strict=True):
        number = plain(style, text)
        result = {
            "×": result * number,
            "÷": result / number,
            "+": result + number,
            "−": result - number,
        }[operator]
    return result


KINDS = [
    kind for kind in vars(units).values() if isinstance(kind, Kind) and "$" not in kind.us.symbol
]
ROUNDING = {2: 0.05, 3: 0.005, 4: 0.0005, 5: 0.00005, 6: 0.000005}  # largest relative error


def amounts(kinds):
    """Amounts of an ordinary size in their reader's unit, and some that round badly."""
    numbers = st.floats(0.05, 5000) | st.sampled_from([1.0, 0.99951, 9.9996, 43_560.0])
    return st.builds(
        lambda number, kind, digits: Amount(number * kind.us.size, kind, digits),
        numbers,
        st.sampled_from(kinds),
        st.sampled_from([3, 4, 5]),
    )


@given(
    terms=st.lists(st.tuples(st.sampled_from("×÷"), amounts(KINDS)), min_size=1, max_size=5),
    kind=st.sampled_from(KINDS),
    style=st.sampled_from(STYLES),
)
def test_every_product_can_be_done_again(*, terms, kind, style):
    value = 1.0
    for operator, amount in terms:
        value = value * amount.value if operator == "×" else value / amount.value
    written = line(Amount(value, kind), *terms).sum(style)
    rounding = sum(ROUNDING[amount.digits] for _, amount in terms) + ROUNDING[6]
    assert evaluate(written, style) == pytest.approx(
        value / style.unit(kind).size, rel=1.1 * rounding
    )


@given(
    terms=st.lists(st.tuples(st.sampled_from("+−"), amounts([CATCH])), min_size=1, max_size=5),
    style=st.sampled_from(STYLES),
)
def test_every_sum_can_be_done_again(*, terms, style):
    value = sum((1 if sign == "+" else -1) * amount.value for sign, amount in terms)
    unit = style.unit(CATCH).size
    written = line(Amount(value, CATCH), *terms).sum(style)
    rounding = sum(ROUNDING[amount.digits] * amount.value for _, amount in terms) / unit
    assert evaluate(written, style) == pytest.approx(value / unit, abs=1.1 * rounding)
