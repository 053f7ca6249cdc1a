"""Numbers as people write them."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

import labels
from evenstand.engine.parsing.numerals import number, rewritten, tidy
from evenstand.engine.quantities.phrases import Phrase


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("60", 60),
        ("0.5", 0.5),
        (".5", 0.5),
        ("5.", 5),
        ("18,100", 18_100),
        ("1,234,567", 1_234_567),
        ("1,234.5", 1234.5),
        ("7,5", 7.5),
        ("7,25", 7.25),
        (",5", 0.5),
        ("0,125", 0.125),
        ("1234,567", 1234.567),
        ("12,3456", 12.3456),
        ("1.234,5", 1234.5),
        ("1.234.567", 1_234_567),
        ("1.234", 1.234),
        ("18\u202f100", 18_100),
        ("18\u202f100,5", 18_100.5),
        ("1e-05", 1e-5),
        ("1.5E3", 1500),
        ("1/20", 0.05),
        ("18 1/3", 55 / 3),
        ("18-1/3", 55 / 3),
        ("20/8", 2.5),
        ("007", 7),
    ],
)
def test_read(text, value):
    assert number(text) == pytest.approx(value, rel=1e-15)


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("1,234", 1.234),
        ("18,100", 18.1),
        ("7,5", 7.5),
        ("7.5", 7.5),
        ("1,234,567", 1_234_567),
        ("1.234,5", 1234.5),
        ("1,234.5", 1234.5),
        ("0.125", 0.125),
        ("1234.567", 1234.567),
    ],
)
def test_read_from_a_writer_of_decimal_commas(text, value):
    assert number(text, decimal=",") == pytest.approx(value, rel=1e-15)


@pytest.mark.parametrize(
    ("text", "decimal", "says"),
    [
        ("1.234", ",", labels.CAN_READ_TWO(number="1.234", large=1234, small="1,234")),
        ("18.100", ",", labels.CAN_READ_TWO(number="18.100", large=18100, small="18,100")),
        ("1,2,3", ".", labels.CANNOT_READ_ONE(number="1,2,3")),
        ("1,23,456", ".", labels.CANNOT_READ_ONE(number="1,23,456")),
        ("1.2.3", ".", labels.CANNOT_READ_ONE(number="1.2.3")),
        ("8,", ".", labels.CANNOT_READ_ONE(number="8,")),
        (".", ".", labels.CANNOT_READ_ONE(number=".")),
        ("", ".", labels.CANNOT_READ_ONE(number="")),
        ("١٢", ".", labels.CANNOT_READ_ONE(number="١٢")),
        ("1/0", ".", labels.FRACTION_CANNOT_DIVIDED),
        ("18 1/0", ".", labels.FRACTION_CANNOT_DIVIDED),
        ("2e15", ".", labels.WRITE_NUMBER_NOT),
        ("1e999", ".", labels.WRITE_NUMBER_NOT),
        ("9" * 400, ".", labels.WRITE_NUMBER_NOT),
        ("9" * 400 + "/" + "9" * 400, ".", labels.WRITE_NUMBER_NOT),
    ],
)
def test_refuse(text, decimal, says):
    refusal = number(text, decimal)
    assert isinstance(refusal, Phrase)
    assert str(refusal) == says


@pytest.mark.parametrize(
    ("text", "plain"),
    [
        ("18⅓", "18 1/3 "),
        ("⅛ oz", " 1/8  oz"),
        ("18 1⁄3", "18 1/3"),
        ("7′ 11″", "7' 11\""),
        ("7’ 11”", "7' 11\""),
        ("7' 11''", "7' 11\""),
        ("−5", "-5"),
        ("18\u00a0100\u00a0lb", "18\u202f100 lb"),
        ("60\u00a0lb", "60 lb"),
        ("60\u2009lb/ac", "60 lb/ac"),
        ("60\tlb\n", "60 lb "),
    ],
)
def test_tidy(text, plain):
    assert tidy(text) == plain


@pytest.mark.parametrize("sign", "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒")
def test_each_fraction_is_what_unicode_says(sign):
    unicodedata = pytest.importorskip("unicodedata")
    assert number(tidy(sign).strip()) == pytest.approx(unicodedata.numeric(sign), rel=1e-15)


@given(st.integers(0, 10**6), st.integers(0, 999), st.integers(1, 999))
def test_mixed_fractions_are_exact_arithmetic(whole, above, below):
    value = number(f"{whole} {above}/{below}")
    assert value == pytest.approx(float(whole + Fraction(above, below)), rel=1e-15)


@given(st.integers(0, 10**12), st.integers(0, 6))
def test_grouping_does_not_change_a_number(digits, places):
    """Both writers group thousands their own way and mean the same number."""
    value = digits / 10**places
    written = f"{value:,.{places}f}"
    if places != 3 or value >= 1000:
        swapped = written.translate(str.maketrans(",.", ".,"))
        if not (places == 0 and 1000 <= value < 1_000_000):
            assert number(swapped, ",") == value
    assert number(written) == value


@given(st.text("0123456789.,\u202f/ -eE", max_size=20), st.sampled_from(".,"))
def test_anything_like_a_number_is_read_or_refused(text, decimal):
    value = number(text, decimal)
    assert isinstance(value, Phrase) or value >= 0


@pytest.mark.parametrize(
    ("text", "hands", "written"),
    [
        ("7,125 in ± 1/16 in", ",.", "7.125 in ± 1/16 in"),
        ("18.100,5 g", ",.", "18100.5 g"),
        ("7.125 in", ".,", "7,125 in"),
        ("18,100 seeds/lb", ".,", "18100 seeds/lb"),
        ("7,5 in", ".,", "7,5 in"),
        ("3.1, 3.2, 3.0 oz", ".,", "3,1, 3,2, 3,0 oz"),
        ("1/20 ac", ".,", "1/20 ac"),
        ("2 1/2 in", ",.", "2 1/2 in"),
        ("1.2.3 g", ".,", "1.2.3 g"),
    ],
)
def test_a_number_is_written_in_another_hand(text, hands, written):
    assert rewritten(text, decimal=hands[0], into=hands[1]) == written


@given(text=st.from_regex(r"[0-9]{1,5}([.,][0-9]{1,4})?", fullmatch=True), comma=st.booleans())
def test_what_is_rewritten_is_read_as_the_same_number(text, comma):
    decimal, other = (",", ".") if comma else (".", ",")
    value = number(text, decimal)
    if not isinstance(value, Phrase):
        assert number(rewritten(text, decimal=decimal, into=other), other) == value
