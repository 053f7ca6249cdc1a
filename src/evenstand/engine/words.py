"""Sentences and amounts that are written only when their reader is known.

The engine never formats a number: it says what happened as a `Phrase`, whose
template is looked up in the reader's language and whose amounts are written
in the reader's units.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from math import isfinite
from typing import Literal

from .units import Kind, Unit

System = Literal["us", "metric"]

SINGULAR = {
    "turns": "turn",
    "rows": "row",
    "catches": "catch",
    "seeds": "seed",
    "bags": "bag",
}


@dataclass(frozen=True, slots=True)
class Amount:
    """A number of some kind, in SI, written in the unit its reader chose.

    ``digits`` are significant digits; a whole number of things shows them all.
    """

    value: float
    kind: Kind
    digits: int = 3


@dataclass(frozen=True, slots=True)
class Phrase:
    """A sentence: a template in English and what stands in its braces."""

    template: str
    values: Mapping[str, "Value"] = field(default_factory=dict)

    def __str__(self) -> str:
        return Style().write(self)


Value = Amount | Phrase | str | int


def say(template: str, **values: Value) -> Phrase:
    """Make a phrase; its template is what translators see."""
    return Phrase(template, values)


def join(phrases: list[Phrase] | tuple[Phrase, ...]) -> Phrase:
    """Put sentences behind each other with a space between them."""
    names = [f"s{i}" for i in range(len(phrases))]
    return Phrase(" ".join(f"{{{name}}}" for name in names), dict(zip(names, phrases, strict=True)))


def _untranslated(text: str) -> str:
    return text


@dataclass(frozen=True, slots=True)
class Style:
    """How one reader wants to read: units, decimal sign, language.

    ``translate`` looks a template or a noun up in the reader's language. A
    sign of thousands that is also the decimal sign gives way to a narrow
    no-break space.
    """

    system: System = "us"
    decimal: str = "."
    thousands: str = ","
    translate: Callable[[str], str] = _untranslated

    def unit(self, kind: Kind) -> Unit:
        """Return the unit this reader reads ``kind`` in."""
        return kind.us if self.system == "us" else kind.metric

    def number(self, value: float, digits: int = 3) -> str:
        """Write a bare number to ``digits`` significant digits."""
        if not isfinite(value):
            return "∞" if value > 0 else "−∞" if value < 0 else "?"
        text = f"{abs(value):,.{decimals(value, digits)}f}"
        sign = "−" if value < 0 else ""
        whole, _, part = text.partition(".")
        apart = "\u202f" if self.thousands == self.decimal else self.thousands
        whole = whole.replace(",", apart)
        return sign + (f"{whole}{self.decimal}{part}" if part else whole)

    def amount(self, amount: Amount) -> str:
        """Write an amount with its unit, as ``60 lb/ac`` or ``1 row``."""
        unit = self.unit(amount.kind)
        text = self.number(amount.value / unit.size, amount.digits)
        if unit.symbol.startswith("$"):
            return self._money(text) + unit.symbol[1:]
        if not unit.noun:
            return f"{text} {unit.symbol}".rstrip()
        return f"{text} {self.translate(SINGULAR[unit.symbol] if text == '1' else unit.symbol)}"

    def _money(self, text: str) -> str:
        sign, digits = ("−", text[1:]) if text.startswith("−") else ("", text)
        _, point, cents = digits.rpartition(self.decimal)
        return f"{sign}${digits}" + ("0" if point and len(cents) == 1 else "")

    def write(self, text: Value) -> str:
        """Write a phrase, an amount or a plain value."""
        if isinstance(text, Phrase):
            values = {name: self.write(value) for name, value in text.values.items()}
            return self.translate(text.template).format(**values)
        return self.amount(text) if isinstance(text, Amount) else str(text)


def decimals(value: float, digits: int) -> int:
    """Decimal places that show ``value`` to ``digits`` significant digits.

    Zeros that say nothing are dropped: 60 stays ``60`` at three digits.
    """
    mantissa, _, exponent = f"{value:.{digits - 1}e}".partition("e")
    return max(0, len(mantissa.rstrip("0").partition(".")[2]) - int(exponent))
