"""The working: the lines of arithmetic behind a result, as with a pencil.

A line is a chain of amounts joined by × and ÷, or by + and −. It is written
in its reader's units; where these do not cancel by themselves the factor
between them is written too, so that anyone can do the line again from what
stands on the paper.
"""

from dataclasses import dataclass
from typing import Literal

from .phrases import Amount, Phrase, Style

Operator = Literal["×", "÷", "+", "−"]
PENCIL_DIGITS = 4
FACTOR_DIGITS = 6  # more than any term is written to


@dataclass(frozen=True, slots=True)
class Line:
    """One line of working.

    ``terms`` are joined from left to right; a × or + before the first is not
    written. Without terms the line only states its value.
    """

    say: Phrase
    value: Amount
    terms: tuple[tuple[Operator, Amount], ...] = ()
    source: str = ""

    def sum(self, style: Style) -> str:
        """Write the arithmetic in the reader's units, ready to be done again."""
        if not self.terms:
            return ""
        first, amount = self.terms[0]
        written = {"÷": "1 ÷ ", "−": "−"}.get(first, "") + style.amount(amount)
        for operator, amount in self.terms[1:]:
            written += f" {operator} {style.amount(amount)}"
        return written + self._factor(style)

    def _factor(self, style: Style) -> str:
        if self.terms[-1][0] in "+−":
            return ""
        factor = 1 / style.unit(self.value.kind).size
        for operator, amount in self.terms:
            size = style.unit(amount.kind).size
            factor = factor * size if operator == "×" else factor / size
        times, over = style.number(factor, FACTOR_DIGITS), style.number(1 / factor, FACTOR_DIGITS)
        if times == "1":
            return ""
        # Where one way round is exact, as 43,560 is, it is the shorter one.
        return f" × {times}" if len(times) <= len(over) else f" ÷ {over}"


def multiply(*amounts: Amount) -> tuple[tuple[Operator, Amount], ...]:
    """Return terms joined by ×."""
    return tuple(("×", amount) for amount in amounts)


def divide(*amounts: Amount) -> tuple[tuple[Operator, Amount], ...]:
    """Return terms that the chain before them is divided by."""
    return tuple(("÷", amount) for amount in amounts)
