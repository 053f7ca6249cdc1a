"""The working: the lines of arithmetic behind a result, as with a pencil.

A line is a chain of amounts joined by × and ÷, or by + and −. It is written
in its reader's units; where these do not cancel by themselves the factor
between them is written too, so that anyone can do the line again from what
stands on the paper.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import reduce

from .phrases import Phrase, Style
from .units import Amount, Terms
from .written import put

PRACTICE = "common practice, no source"
PENCIL_DIGITS = 4
FACTOR_DIGITS = 6  # more than any term is written to


@dataclass(frozen=True, slots=True)
class Line:
    """One line of working: what it says, what it comes to, and how.

    Its amounts are written to four digits where they ask for no others.
    Without terms the line only states its value.
    """

    KEYS = ("say", "sum", "value", put("unit", "value", "kind"), "source")

    say: Phrase
    result: Amount
    terms: Terms | None = None
    source: str = ""

    @property
    def value(self) -> Amount:
        """What the line comes to, as a pencil writes it."""
        return _pencilled(self.result)

    def sum(self, style: Style) -> str:
        """Write the arithmetic in the reader's units, ready to be done again."""
        if self.terms is None:
            return ""
        written = style.amount(_pencilled(self.terms.first))
        for operator, amount in self.terms.rest:
            written += f" {operator} {style.amount(_pencilled(amount))}"
        return written + _factor(self.terms, self.result, style)


def added(amounts: Iterable[Amount]) -> Terms:
    """Join amounts by +."""
    first, *rest = amounts
    return reduce(Terms.__add__, rest, Terms(first))


def _pencilled(amount: Amount) -> Amount:
    return amount if amount.digits else amount.kind(amount.value, PENCIL_DIGITS)


def _factor(terms: Terms, result: Amount, style: Style) -> str:
    """Return what units that do not cancel by themselves leave to multiply or divide by."""
    if terms.rest and terms.rest[-1][0] in "+−":
        return ""
    factor = 1 / style.unit(result.kind).size * style.unit(terms.first.kind).size
    for operator, amount in terms.rest:
        size = style.unit(amount.kind).size
        factor = factor * size if operator == "×" else factor / size
    times, over = style.number(factor, FACTOR_DIGITS), style.number(1 / factor, FACTOR_DIGITS)
    if times == "1":
        return ""
    # Where one way round is exact, as 43,560 is, it is the shorter one.
    return f" × {times}" if len(times) <= len(over) else f" ÷ {over}"
