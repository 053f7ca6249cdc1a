"""Sentences and amounts that are written only when their reader is known.

The engine never formats a number: it says what happened as a `Phrase`, whose
template is looked up in the reader's language and whose amounts are written
in the reader's units.
"""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date, datetime
from math import isfinite
from typing import Literal

from .units import LOAD, Amount, Kind, Unit

SENTENCE_DIGITS = 3
UNREADABLE = 1e-9
CENTS = 2  # decimal places of money
KITCHEN_SCALE = 5.0  # kg that one usually carries; common practice, no source
WHOLE_KILOGRAMS = 100  # from here on a farm scale shows whole ones
System = Literal["us", "metric"]
Decimal = Literal[".", ","]

SINGULAR = {
    "turns": "turn",
    "rows": "row",
    "catches": "catch",
    "seeds": "seed",
    "bags": "bag",
}
WORDED = (
    "ft/turn",
    "m/turn",
    "seeds/ft²",
    "seeds/m²",
    "seeds/lb",
    "seeds/kg",
    "plants/ft²",
    "plants/m²",
    "g per 1,000",
)
# Sources that are no titles, and so can be translated.
CITED = (
    "common practice, no source",
    "extension guides",
    "a seed seller",
    "native seed seller's guide, this or more",
    "interstate trade",
    "the label",
    "the limit you entered",
    "as you entered it",
    "rule of thumb",
    "nothing known",
    "NDSU: stand loss 10 to 20% in a good seedbed",
    "Kansas State uses 80%",
)
# What English calls after a US unit, as readers of metric units call it.
_AFTER_UNIT = (
    ("an acre meter", "a hectare meter"),
    ("acre meter", "hectare meter"),
    ("Acre meter", "Hectare meter"),
)
_OF = {
    "rate of ": "rate of {name}",
    "test weight of ": "test weight of {name}",
    "test weight in ": "test weight in {name}",
    "volume of ": "volume of {name}",
    "biomass of ": "biomass of {name}",
    "C:N of ": "C:N of {name}",
}


@dataclass(frozen=True, slots=True)
class Phrase:
    """A sentence: a template in English and what stands in its braces."""

    template: str
    values: Mapping[str, "Value"] = field(default_factory=dict)

    def __str__(self) -> str:
        return Style().write(self)


class Inline(Phrase):
    """A label as it stands in a line of words: it begins small."""

    __slots__ = ()


class Figure(str):
    """A bare number that is written already, as a setting: only its point is the reader's."""

    __slots__ = ()


class Iso(str):
    """A day or a month as ISO 8601 writes it and the book has it; the reader's way is their own."""

    __slots__ = ()


class Readable:
    """A value that knows itself how it is written for a reader."""

    __slots__ = ()
    read_by: Callable[["Style"], str]  # writes it in the reader's units, signs and language


Value = Amount | Phrase | Readable | date | str | int

DAY = "{month} {day}, {year}"
MONTH = "{month} {year}"
MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def say(template: str, **values: Value) -> Phrase:
    """Make a phrase; its template is what translators see."""
    return Phrase(template, values)


def join(phrases: list[Phrase] | tuple[Phrase, ...]) -> Phrase:
    """Put sentences behind each other with a space between them."""
    names = [f"s{i}" for i in range(len(phrases))]
    return Phrase(" ".join(f"{{{name}}}" for name in names), dict(zip(names, phrases, strict=True)))


def series(names: Iterable[Value], *, last: Literal["and", "or"] = "and") -> Phrase:
    """Put names behind each other, the last one behind *and* or *or*."""
    *first, end = names
    if not first:
        return say("{name}", name=end)
    begun = Phrase(", ".join(f"{{n{i}}}" for i in range(len(first))), _numbered(first))
    if last == "or":
        return say("{names} or {last}", names=begun, last=end)
    return say("{names} and {last}", names=begun, last=end)


def _numbered(values: list[Value]) -> dict[str, Value]:
    return {f"n{i}": value for i, value in enumerate(values)}


def _untranslated(text: str) -> str:
    return text


@dataclass(frozen=True, slots=True)
class Style:
    """How one reader wants to read: units, decimal sign, language.

    ``translate`` looks a template, a noun or a unit with a word in it up in
    the reader's language; a value that is one of ``names``, as a species of
    the table, is written as it is called there. A sign of thousands that is also the decimal sign
    gives way to a narrow no-break space.
    """

    system: System = "us"
    decimal: Decimal = "."
    thousands: str = ","
    translate: Callable[[str], str] = _untranslated
    names: Mapping[str, str] = field(default_factory=dict)

    def unit(self, kind: Kind) -> Unit:
        """Return the unit this reader reads ``kind`` in."""
        return kind.us if self.system == "us" else kind.metric

    def symbol(self, kind: Kind) -> str:
        """Return how the unit of ``kind`` is written."""
        return self.sign(self.unit(kind).symbol)

    def sign(self, unit: str) -> str:
        """Write a unit, a word in it in the reader's language."""
        return self.translate(unit) if unit in WORDED else unit

    def number(self, value: float, digits: int = SENTENCE_DIGITS) -> str:
        """Write a bare number to ``digits`` significant digits."""
        return self._placed(value, decimals(value, digits) if isfinite(value) else 0)

    def _placed(self, value: float, places: int) -> str:
        if not isfinite(value):
            return "∞" if value > 0 else "−∞" if value < 0 else "?"
        text = f"{abs(value):,.{places}f}"
        sign = "−" if value < 0 and text.strip("0.,") else ""
        whole, _, part = text.partition(".")
        apart = "\u202f" if self.thousands == self.decimal else self.thousands
        whole = whole.replace(",", apart)
        return sign + (f"{whole}{self.decimal}{part}" if part else whole)

    def day(self, day: date) -> str:
        """Write a day as the reader's country does: ``Oct 14, 2026``."""
        month = self.translate(MONTHS[day.month - 1])
        return self.translate(DAY).format(month=month, day=day.day, year=day.year)

    def listed(self, names: str) -> str:
        """Write names that were typed with commas, each as the reader calls it."""
        parts = names.split(", ")
        return ", ".join(self.names.get(each[:1].upper() + each[1:], each) for each in parts)

    def month(self, year: int, month: int) -> str:
        """Write a month: ``Aug 2026``."""
        return self.translate(MONTH).format(month=self.translate(MONTHS[month - 1]), year=year)

    def dated(self, iso: str) -> str:
        """Write a day or a month of ISO 8601; any other text stays as it is."""
        try:
            day = date.fromisoformat(iso if len(iso) == len("2026-10-14") else f"{iso}-01")
        except ValueError:
            return iso
        return self.day(day) if len(iso) == len("2026-10-14") else self.month(day.year, day.month)

    def moment(self, at: datetime) -> str:
        """Write a day with its time: ``Oct 14, 2026 02:44``."""
        return f"{self.day(at)} {at:%H:%M}"

    def amount(self, amount: Amount) -> str:
        """Write an amount with its unit, as ``60 lb/ac``, ``5%`` or ``1 row``."""
        unit, text = self.unit(amount.kind), self.bare(amount)
        if unit.symbol.startswith("$"):
            sign, digits = ("−", text[1:]) if text.startswith("−") else ("", text)
            return f"{sign}${digits}" + self.symbol(amount.kind)[1:]
        if unit.symbol == "%":
            return f"{text}%"
        if not unit.noun:
            return f"{text} {self.symbol(amount.kind)}".rstrip()
        return f"{text} {self.translate(SINGULAR[unit.symbol] if text == '1' else unit.symbol)}"

    def bare(self, amount: Amount) -> str:
        """Write an amount without its unit, which stands elsewhere; money in whole cents.

        A load shows no more than the scale it is weighed on; what binary arithmetic
        leaves of nothing is 0.
        """
        unit, digits = self.unit(amount.kind), amount.digits or SENTENCE_DIGITS
        value = amount.value / unit.size
        if abs(value) < UNREADABLE:
            value = 0.0
        places = decimals(value, digits) if isfinite(value) else 0
        if unit.symbol.startswith("$"):
            places = max(places, CENTS) if digits > SENTENCE_DIGITS else CENTS
        elif amount.kind is LOAD and digits <= SENTENCE_DIGITS:
            places = min(places, _shown_by_a_scale(value, unit))
        return self._placed(value, places)

    def write(self, text: Value) -> str:
        """Write a phrase, an amount or a plain value."""
        if isinstance(text, Phrase):
            values = {name: self.write(value) for name, value in text.values.items()}
            written = self._worded(text.template).format(**values)
            return written[:1].lower() + written[1:] if isinstance(text, Inline) else written
        if isinstance(text, Figure):
            return text.replace(".", self.decimal)
        if isinstance(text, Amount):
            return self.amount(text)
        if isinstance(text, Readable):
            return text.read_by(self)
        if isinstance(text, datetime):
            return self.moment(text)
        if isinstance(text, date):
            return self.day(text)
        if isinstance(text, Iso):
            return self.dated(text)
        return "; ".join(self.names.get(name, name) for name in str(text).split("; "))

    def _worded(self, template: str) -> str:
        """Look a sentence up in the reader's language, things called after the reader's units."""
        said = self.translate(template)
        if self.system == "metric":
            for us, metric in _AFTER_UNIT:
                said = said.replace(us, metric)
        return said


def _shown_by_a_scale(value: float, unit: Unit) -> int:
    """Decimal places that a scale shows: one of a kitchen up to 5 kg, above it one of a farm."""
    if abs(value) * unit.size > KITCHEN_SCALE:
        return 0 if unit is LOAD.us or abs(value) >= WHOLE_KILOGRAMS else 1
    return 2 if abs(value) >= 0.005 else 0


def decimals(value: float, digits: int) -> int:
    """Decimal places that show ``value`` to ``digits`` significant digits.

    Zeros that say nothing are dropped: 60 stays ``60`` at three digits.
    """
    mantissa, _, exponent = f"{value:.{digits - 1}e}".partition("e")
    return max(0, len(mantissa.rstrip("0").partition(".")[2]) - int(exponent))


def cause(tag: str) -> Phrase:
    """Say what a share of a budget comes from.

    Parameters
    ----------
    tag : str
        Of a quantity, such as ``slip``, ``rate of grain`` or ``Oats: purity``.

    Examples
    --------
    >>> cause("rate of grain"), str(cause("Oats: purity"))
    (Phrase(template='rate of {name}', values={'name': 'grain'}), 'Oats: purity')
    """
    for begun in _OF:
        if tag.startswith(begun):
            return say(_OF[begun], name=tag.removeprefix(begun))
    owner, apart, own = tag.rpartition(": ")
    return say("{owner}: {cause}", owner=owner, cause=say(own)) if apart else say(tag)
