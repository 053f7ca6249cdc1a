"""Numbers as people write them: separators, fractions, and dressed signs.

One rule decides between ``18,100`` and ``7,5``: a comma before exactly three
digits groups thousands, any other comma is a decimal comma. For a writer of
decimal commas ``1,234`` is one and a bit, and ``1.234`` is refused, for it
could be either. Thousands may also stand apart by a no-break space.
"""

import re

from ..quantities.phrases import Phrase, say

LARGEST = 1e15  # nothing on a farm is more, in any unit
NUMBER = r"(?:(?:\d+(?:\s+|-\s*))?\d+\s*/\s*\d+|(?:\d[\d.,\u202f]*|[.,]\d+)(?:[eE][+-]?\d+)?)"

_FRACTION = re.compile(r"(?:(\d+)(?:\s+|-\s*))?(\d+)\s*/\s*(\d+)", re.ASCII)
_EXPONENT = r"(?:[eE][+-]?\d+)?"
_POINT = re.compile(
    rf"(?=\.?\d)(?:\d+|[1-9]\d{{0,2}}(?:[,\u202f]\d{{3}})+)?(?:\.\d*)?{_EXPONENT}", re.ASCII
)
_COMMA = re.compile(
    rf"(?=,?\d)(?:\d+|[1-9]\d{{0,2}}(?:[.\u202f]\d{{3}})+)?(?:,\d+)?{_EXPONENT}", re.ASCII
)
_GROUPED_BY_COMMA, _GROUPED_BY_POINT = re.compile("[,\u202f]"), re.compile("[.\u202f]")
_APART = re.compile(r"(?<=\d)[\u00a0\u2007\u2009\u202f](?=\d{3}(?!\d))", re.ASCII)
_NUMBERS = re.compile(r"(?<![\w.,])[.,]?\d(?:[\d.,\u202f]*\d)?", re.ASCII)
_FRACTIONS = (
    "½1/2 ⅓1/3 ⅔2/3 ¼1/4 ¾3/4 ⅕1/5 ⅖2/5 ⅗3/5 ⅘4/5 ⅙1/6 ⅚5/6 ⅐1/7 ⅛1/8 ⅜3/8 ⅝5/8 ⅞7/8 ⅑1/9 ⅒1/10"
)
_SIGNS = str.maketrans(
    {"−": "-", "–": "-", "⁄": "/"}
    | dict.fromkeys("’‘′´`", "'")
    | dict.fromkeys("“”„″˝", '"')
    | {pair[0]: f" {pair[1:]} " for pair in _FRACTIONS.split()}
)


def tidy(text: str) -> str:
    """Write dressed signs plainly: ``18⅓`` as ``18 1/3``, ``7′ 11″`` as ``7' 11"``."""
    text = _APART.sub("\u202f", text.translate(_SIGNS)).replace("''", '"')
    return "".join(" " if letter.isspace() and letter != "\u202f" else letter for letter in text)


def number(text: str, decimal: str = ".") -> float | Phrase:
    """Return the value of a written number, or what is wrong with it.

    Examples
    --------
    >>> number("18 1/3") * 3, number("18,100"), number("7,5"), number("7,125", decimal=",")
    (55.0, 18100.0, 7.5, 7.125)
    """
    fraction = _FRACTION.fullmatch(text)
    value = _divide(fraction) if fraction else _read_off(text, decimal)
    if isinstance(value, float) and not value <= LARGEST:
        return say("enter a smaller number")
    return value


def last_place(text: str, decimal: str = ".") -> float:
    """Return what 1 in the last digit of a written number is worth; of a fraction, one part.

    Examples
    --------
    >>> last_place("22.6"), last_place("1,200"), last_place("8 1/4"), last_place("7,5")
    (0.1, 1.0, 0.25, 0.1)
    """
    fraction = _FRACTION.fullmatch(text)
    if fraction:
        return 1 / float(fraction[3])
    places = len(_with_sign(text, decimal, ".").partition(".")[2])
    return float(f"1e-{places}")


def rewritten(text: str, *, decimal: str, into: str) -> str:
    """Write the numbers in a text with another decimal sign, and with nothing between thousands.

    A whole number of three digits behind a point could be read otherwise in
    the other hand: what is kept has points, whoever wrote it.

    Examples
    --------
    >>> rewritten("7,125 in ± 1/16 in", decimal=",", into=".")
    '7.125 in ± 1/16 in'
    >>> rewritten("18,100 seeds/lb at 22.5 g", decimal=".", into=",")
    '18100 seeds/lb at 22,5 g'
    """
    return _NUMBERS.sub(lambda found: _with_sign(found[0], decimal, into), text)


def _with_sign(text: str, decimal: str, into: str) -> str:
    """Write one number with a decimal sign, as it stands where it is none."""
    value = _read_off(text, decimal)
    if not isinstance(value, float):
        return text
    by_comma = _GROUPED_BY_COMMA.sub("", text) if _POINT.fullmatch(text) else ""
    if by_comma and float(by_comma) == value:
        return by_comma.replace(".", into)
    return _GROUPED_BY_POINT.sub("", text).replace(",", into)


def _divide(fraction: re.Match[str]) -> float | Phrase:
    whole, above, below = (float(part or 0) for part in fraction.groups())
    if not below:
        return say("can't divide by 0")
    return whole + above / below


def _read_off(text: str, decimal: str) -> float | Phrase:
    found: dict[str, float] = {}
    if _POINT.fullmatch(text):
        found["."] = float(_GROUPED_BY_COMMA.sub("", text))
    if _COMMA.fullmatch(text):
        found[","] = float(_GROUPED_BY_POINT.sub("", text).replace(",", "."))
    if len(set(found.values())) == 1:
        return found.popitem()[1]
    if not found:
        return say("{number} can't be read as a single number", number=text)
    if decimal == "." or "," in text:
        return found[decimal]
    return say(
        "{number} could be read two ways: enter {large} or {small}",
        number=text,
        large=text.replace(".", ""),
        small=text.replace(".", ","),
    )
