"""Which column of a file says what: by its heading, or as its reader chose."""

import re
import unicodedata
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from evenstand.engine.parsing.spelling import fit, measure
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Style, say

from .grid import Cell, Grid, letter
from .model import Column, Table

LOOKED = 20  # rows in which the headings may stand
_IN_BRACKETS = re.compile(r"(.*?)\s*(?:\[([^\[\]]+)\]|\(([^()]+)\))\s*")
_LAST = re.compile(r"(.+)(?:,\s*|[\s_])([^\s,_]+)")
_APART = re.compile(r"[\W_]+")


@dataclass(frozen=True, slots=True)
class Matched:
    """A column of a file, and what it says.

    ``unit`` is that of numbers without one, ``strange`` a written one that
    does not fit; ``limits`` tells that it is what stands behind ±. Without a
    ``column`` it is left out.
    """

    index: int
    heading: str
    column: Column | None = None
    unit: str = ""
    limits: bool = False
    strange: str = ""

    @property
    def named(self) -> str:
        """The column as its reader finds it."""
        return f"{letter(self.index)} ({self.heading})" if self.heading else letter(self.index)


@dataclass(frozen=True, slots=True)
class Choices:
    """What the reader chose: keys and units by the index of a column; an empty key leaves it out.

    ``head`` is the number of the row of headings.
    """

    keys: Mapping[int, str] = field(default_factory=dict)
    units: Mapping[int, str] = field(default_factory=dict)


def headings(grid: Grid, table: Table, style: Style) -> int:
    """Return which row has the headings: of the first ones, that with the most known."""
    names = _names(table, style)
    known = [
        sum(_known(cell, names) for cell in row if isinstance(cell, str))
        for row in grid.rows[:LOOKED]
    ]
    return known.index(max(known)) if known else 0


def match(
    grid: Grid, table: Table, style: Style, *, choices: Choices | None = None
) -> list[Matched]:
    """Match the columns of a file with those of a table.

    Parameters
    ----------
    style : Style
        Of the reader: headings may be in that language.
    choices : Choices, optional
        What goes before the headings.
    """
    chosen, names = choices or Choices(), _names(table, style)
    row = grid.rows[headings(grid, table, style)] if grid.rows else ()
    width = max((len(each) for each in grid.rows), default=0)
    return [
        _matched(i, row[i] if i < len(row) else None, names=names, chosen=chosen)
        for i in range(width)
    ]


def choices_by_name(grid: Grid, pairs: Iterable[str]) -> Choices:
    """Read what a column says from ``C=price`` or ``Cost per lb=price``.

    Raises
    ------
    MeasurementError
        For a column that there is not, or a pair that is none.
    """
    width = max((len(row) for row in grid.rows), default=0)
    known = {letter(i).casefold(): i for i in range(width)}
    for row in reversed(grid.rows[:LOOKED]):
        known |= {_fold(cell): i for i, cell in enumerate(row) if isinstance(cell, str)}
    keys = {}
    for pair in pairs:
        name, sign, key = pair.rpartition("=")
        if not sign or _fold(name) not in known:
            need = say(
                "match a column by its letter or heading, then = and its field name: C=price"
            )
            raise MeasurementError("--column", pair, need)
        keys[known[_fold(name)]] = key.strip()
    return Choices(keys)


def _matched(i: int, cell: Cell, *, names: Mapping[str, Column], chosen: Choices) -> Matched:
    heading = "" if cell is None else str(cell).strip()
    label, unit = _taken_apart(heading, names)
    limits = "±" in heading or _fold(label).endswith(" limits")
    column = names.get(_plain(label))
    if i in chosen.keys:
        column = names.get(_fold(chosen.keys[i]))
    unit = chosen.units.get(i, "") or unit
    if column is None or column.measure is None:
        return Matched(i, heading, column)
    if not _fits(unit, column):
        return Matched(i, heading, column, limits=limits, strange=unit)
    return Matched(i, heading, column, unit, limits)


def _known(cell: str, names: Mapping[str, Column]) -> bool:
    return _plain(_taken_apart(cell.strip(), names)[0]) in names


def _taken_apart(heading: str, names: Mapping[str, Column]) -> tuple[str, str]:
    """Take a heading apart into its label and its unit: ``area [ac]``, ``area_ac``, ``acres``."""
    if (found := _IN_BRACKETS.fullmatch(heading)) and _plain(found[1]) in names:
        return found[1], (found[2] or found[3]).strip()
    found = _LAST.fullmatch(heading)
    behind = found if found and measure(found[2]) and _plain(found[1]) in names else None
    if _fold(heading) in names and not (behind and not _fold(behind[2])):  # "germ %" is "germ" too
        return heading, heading if measure(heading) else ""
    if behind:
        return behind[1], behind[2]
    return heading, ""


def _fits(unit: str, column: Column) -> bool:
    found = measure(unit) if unit else None
    return bool(found and column.measure and fit(found, column.measure.dimension) is not None)


def _names(table: Table, style: Style) -> dict[str, Column]:
    """Return columns by all that they may be called."""
    found: dict[str, Column] = {}
    for column in table.columns:
        for name in _called(column, style):
            found.setdefault(_fold(name), column)
    return found


def _called(column: Column, style: Style) -> Iterator[str]:
    yield column.key
    yield column.name
    yield str(column.label)
    yield style.write(column.label)
    yield from column.also


def _plain(label: str) -> str:
    """Write a label as all spell it, also that of what stands behind ±."""
    return _fold(label).removesuffix(" limits")


def _fold(text: str) -> str:
    """Write a heading as all spell it: small letters, no accents, one space between words."""
    plain = "".join(
        sign for sign in unicodedata.normalize("NFKD", text) if not unicodedata.combining(sign)
    )
    return " ".join(_APART.sub(" ", plain.casefold()).split())
