"""Amounts as they were typed, told to a reader who may use the other system of units."""

import re
from dataclasses import dataclass
from typing import Protocol

from ..quantities.phrases import Readable, Style
from ..quantities.units import Kind
from .numerals import rewritten
from .spelling import systems

_THOUSANDS = re.compile(r"(?<![\d.,\u202f])\d{4,}(?!\d)")
DIGITS = 15  # all that a whole number has


class AsTyped(Protocol):
    """An amount in SI, what it may be off by, and the text that was typed."""

    @property
    def value(self) -> float:
        """The amount. [SI unit of its kind]"""

    @property
    def give_or_take(self) -> float:
        """What it may be off by, either way. [as the amount]"""

    @property
    def text(self) -> str:
        """What was typed, with a decimal point."""


@dataclass(frozen=True, slots=True)
class Retold(Readable):
    """An amount as it was typed, written when its reader is known."""

    typed: AsTyped
    kind: Kind

    def read_by(self, style: Style) -> str:
        """Write it as `retold` does."""
        return retold(self.typed, self.kind, style)


def retold(typed: AsTyped, kind: Kind, style: Style, *, beside: bool = True) -> str:
    """Write an amount as it was typed; one of the other system in the reader's, with it beside."""
    text = _told(typed.text, style)
    if not systems(typed.text) - {style.system} or style.unit(kind).symbol in typed.text.split():
        return text
    limits = f" ± {style.bare(kind(typed.give_or_take, 2))}" if typed.give_or_take else ""
    value = style.amount(kind(typed.value)).replace(" ", f"{limits} ", 1)
    return f"{value} ({text})" if beside else value


def _told(text: str, style: Style) -> str:
    """Write numbers with the reader's signs, percent without a space."""
    own = text if style.decimal == "." else rewritten(text, decimal=".", into=style.decimal)
    apart = _THOUSANDS.sub(lambda found: style.number(int(found[0]), DIGITS), own)
    return apart.replace(" %", "%")
