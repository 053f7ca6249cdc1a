"""Writes what is found into a document, in its reader's words and units."""

import re
from collections.abc import Iterable
from dataclasses import dataclass

from evenstand.engine.parsing.retold import AsTyped, retold
from evenstand.engine.quantities.phrases import Style, Value, say
from evenstand.engine.quantities.units import Amount, Kind
from evenstand.engine.quantities.working import Line
from evenstand.engine.statistics.budget import Estimate, Quantity, nominal

from .document import Cell, Fact, Facts, Work, WorkLine
from .json import quantity

NO_BREAK = "\N{NO-BREAK SPACE}"
_BEHIND_NUMBER = re.compile(r"(?<=\d) (?=[^\d\s])")  # no line ends between a number and its unit
Written = Value | Cell | None


@dataclass(frozen=True)
class Pen:
    """Writes for one reader."""

    style: Style

    def write(self, value: Value) -> str:
        """Write a sentence, an amount or a plain text."""
        return _BEHIND_NUMBER.sub(NO_BREAK, self.style.write(value))

    def typed(self, amount: AsTyped, kind: Kind) -> str:
        """Write an amount as it was typed, also in the reader's units."""
        return self.write(retold(amount, kind, self.style))

    def bare(self, value: float, kind: Kind, digits: int = 3) -> str:
        """Write a number without its unit, which its column names."""
        return self.style.bare(kind(value, digits))

    def unit(self, kind: Kind) -> str:
        """Write the unit that a column is in."""
        return self.style.symbol(kind)

    def cell(self, value: Written) -> Cell:
        """Write what stands in a table; a dash where it is not known."""
        if value is None:
            return Cell("–")
        return value if isinstance(value, Cell) else Cell(self.write(value))

    def number(self, value: Quantity | Estimate | None, kind: Kind, digits: int = 3) -> Cell:
        """Write a number whose unit its column names."""
        if value is None:
            return Cell("–")
        told = value.value if isinstance(value, Estimate) else nominal(value)
        return Cell(self.bare(told, kind, digits), quantity(value, kind, self.style))

    def ranged(self, found: Estimate | None, kind: Kind) -> Cell:
        """Write a number with its range, whose unit its column names."""
        if found is None:
            return Cell("–")
        if not found.u:
            return self.number(found, kind)
        low, high = self.bare(max(found.low, 0.0), kind), self.bare(found.high, kind)
        text = self.write(
            say("{value} ({low} to {high})", value=self.bare(found.value, kind), low=low, high=high)
        )
        return Cell(text, quantity(found, kind, self.style))

    def amount(self, value: Quantity | Estimate, kind: Kind, digits: int = 3) -> Cell:
        """Write an amount with its unit, and its range where it has one."""
        found = quantity(value, kind, self.style)
        told = value.value if isinstance(value, Estimate) else nominal(value)
        text = self.write(kind(told, digits))
        if isinstance(value, Estimate) and value.u:
            low, high = self.bare(max(value.low, 0.0), kind), self.bare(value.high, kind)
            text = self.write(say("{value} ({low} to {high})", value=text, low=low, high=high))
        return Cell(text, found)

    def fact(self, name: Value, value: Written) -> Fact:
        """Write a fact; where nothing is known it says so."""
        if value is None or value == "":
            return Fact(self.write(name), Cell(self.write(say("not recorded"))), missing=True)
        return Fact(self.write(name), self.cell(value))

    def facts(self, facts: Iterable[tuple[Value, Written]]) -> Facts:
        """Write facts."""
        return Facts(tuple(self.fact(name, value) for name, value in facts))

    def work(self, lines: Iterable[Line]) -> Work:
        """Write lines of arithmetic as with a pencil."""
        lines = tuple(lines)
        written = tuple(
            WorkLine(self.write(line.say), line.sum(self.style), self._value(line.value))
            for line in lines
        )
        sources = "; ".join(dict.fromkeys(line.source for line in lines if line.source))
        after = self.write(say("Sources: {sources}", sources=sources)) if sources else ""
        return Work(written, after)

    def _value(self, amount: Amount) -> Cell:
        return Cell(self.write(amount), quantity(amount.value, amount.kind, self.style))
