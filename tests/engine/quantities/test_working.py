"""Each line of working can be done again from what stands on the paper."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from evenstand.engine.quantities import units
from evenstand.engine.quantities.phrases import Style, say
from evenstand.engine.quantities.units import (
    CATCH,
    FIELD,
    FOOT,
    GROUND,
    INCH,
    LENGTH,
    NUMBER,
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
    Terms,
)
from evenstand.engine.quantities.working import Line, added

US, METRIC = Style(), Style("metric")
STYLES = [US, METRIC, Style(decimal=","), Style("metric", decimal=",", thousands=".")]


def line(value, terms=None):
    return Line(say("by hand"), value, terms)


def test_catch_to_rate_in_both_systems():
    # 8.8 oz on 400 ft² are 8.8 / 400 × 43,560 / 16 = 59.895 lb/ac; 249.476 g on 37.161 m².
    written = line(RATE(59.895 * POUND_PER_ACRE), CATCH(8.8 * OUNCE) / GROUND(400 * SQUARE_FOOT))
    assert written.sum(US) == "8.8 oz ÷ 400 ft² × 2,722.5"
    assert written.sum(METRIC) == "249.5 g ÷ 37.16 m² × 10"


def test_a_pencil_writes_four_digits_where_no_others_are_asked_for():
    assert US.write(line(RATE(59.8617 * POUND_PER_ACRE)).value) == "59.86 lb/ac"
    assert US.write(line(RATE(59.8617 * POUND_PER_ACRE, 2)).value) == "60 lb/ac"
    terms = CATCH(8.81234 * OUNCE, 2) / GROUND(400.123 * SQUARE_FOOT, 5)
    assert line(RATE(59.8617 * POUND_PER_ACRE), terms).sum(US) == "8.8 oz ÷ 400.12 ft² × 2,722.5"


def test_no_factor_where_units_cancel():
    written = line(LENGTH(160 * FOOT), TURNS(20) * TRAVEL(8 * FOOT))
    assert written.sum(US) == "20 turns × 8 ft/turn"
    assert written.sum(METRIC) == "20 turns × 2.438 m/turn"


def test_the_exact_factor_is_divided_by():
    # 12 in a foot; 43,560 ft² in an acre.
    written = line(LENGTH(12.5 * FOOT), ROWS(20) * SPACING(7.5 * INCH))
    assert written.sum(US) == "20 rows × 7.5 in ÷ 12"
    assert written.sum(METRIC) == "20 rows × 19.05 cm ÷ 100"
    field = line(FIELD(20_000 * SQUARE_FOOT), LENGTH(100 * FOOT) * LENGTH(200 * FOOT))
    assert field.sum(US) == "100 ft × 200 ft ÷ 43,560"


def test_a_share_is_written_as_percent():
    written = line(CATCH(7.6 * OUNCE), CATCH(8 * OUNCE) * SHARE(0.95))
    assert written.sum(US) == "8 oz × 95% ÷ 100"


def test_plus_and_minus():
    written = line(CATCH(8 * OUNCE), CATCH(9 * OUNCE) - CATCH(OUNCE))
    assert written.sum(US) == "9 oz − 1 oz"
    written = line(CATCH(13 * OUNCE), added(CATCH(n * OUNCE) for n in (9, 1, 3)))
    assert written.sum(US) == "9 oz + 1 oz + 3 oz"


def test_one_divided_by_an_amount():
    # 1,000 seeds of 25 g: 1 ÷ 25 × 453,592 = 18,144 seeds/lb.
    seeds = line(SEED_COUNT(40_000), NUMBER(1) / SEED_WEIGHT(25e-6))
    assert seeds.sum(US) == "1 ÷ 25 g per 1,000 × 453,592"
    assert evaluate(seeds.sum(US), US) == pytest.approx(18_144, abs=0.5)


def test_one_amount_alone_is_a_line_too():
    assert line(LENGTH(8 * FOOT), Terms(TRAVEL(8 * FOOT))).sum(US) == "8 ft/turn"


def test_a_line_that_only_states():
    assert line(ROWS(20)).sum(US) == ""


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
        # With three digits a load is written only as far as its scale shows it.
        lambda number, kind, digits: kind(
            number * kind.us.size, max(digits, 4) if kind is units.LOAD else digits
        ),
        numbers,
        st.sampled_from(kinds),
        st.sampled_from([3, 4, 5]),
    )


@given(
    first=amounts(KINDS),
    rest=st.lists(st.tuples(st.sampled_from("×÷"), amounts(KINDS)), max_size=4),
    kind=st.sampled_from(KINDS),
    style=st.sampled_from(STYLES),
)
def test_every_product_can_be_done_again(*, first, rest, kind, style):
    value = first.value
    for operator, amount in rest:
        value = value * amount.value if operator == "×" else value / amount.value
    written = line(kind(value), Terms(first, tuple(rest))).sum(style)
    rounding = sum(ROUNDING[amount.digits] for _, amount in (("×", first), *rest)) + ROUNDING[6]
    assert evaluate(written, style) == pytest.approx(
        value / style.unit(kind).size, rel=1.1 * rounding
    )


@given(
    first=amounts([CATCH]),
    rest=st.lists(st.tuples(st.sampled_from("+−"), amounts([CATCH])), max_size=4),
    style=st.sampled_from(STYLES),
)
def test_every_sum_can_be_done_again(*, first, rest, style):
    terms = (("+", first), *rest)
    value = sum((1 if sign == "+" else -1) * amount.value for sign, amount in terms)
    unit = style.unit(CATCH).size
    written = line(CATCH(value), Terms(first, tuple(rest))).sum(style)
    rounding = sum(ROUNDING[amount.digits] * amount.value for _, amount in terms) / unit
    assert evaluate(written, style) == pytest.approx(value / unit, abs=1.1 * rounding)
