"""Columns made of the fields of what is kept: what each measures stands there, and its label.

A key is what the field is called in the form that reads it.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from datetime import date
from operator import attrgetter
from typing import Any

from msgspec import Struct

from evenstand.book.kinds.details import Detail, detail
from evenstand.book.kinds.shape import Count, Id, Month, Share, Some, Typed
from evenstand.engine.quantities import units as u
from evenstand.engine.quantities.phrases import Inline, Phrase, say

from .model import Column, Sort, TableLine, yes

Find = Callable[[TableLine], Any]

# The weight of a thousand seeds, which is kept for all of them together.
THOUSAND = u.Kind("seed weight", "mass/seeds", *[u.Unit("g per 1,000", u.GRAM)] * 2)
SORTS: tuple[tuple[Any, Sort], ...] = (
    *((bool, "yes"), (Month, "month")),
    *((Count, "number"), (Some, "number"), (float, "number")),
)


@dataclass(frozen=True, slots=True)
class Fields:
    """The fields that columns are made of.

    ``find`` finds what they are of by the line of a table, None where the line has none; ``line``
    stands before the name of each key: ``scale_``. ``spare`` columns stand only where a line has
    something in them; what is ``sure`` to be there is asked for all that it needs.
    """

    known: type[Struct]
    find: Find = attrgetter("body")
    line: str = ""
    spare: bool = False
    sure: bool = True

    def columns(self, *names: str, **headings: Phrase) -> Iterator[Column]:
        """Make columns: of ``names`` under the fields' own labels, then under ``headings``."""
        yield from map(self.column, names)
        for name, heading in headings.items():
            yield self.column(name, heading)

    def column(self, name: str, heading: Phrase | None = None, **more: Any) -> Column:
        """Make a column, with what else is to be said of it."""
        of = detail(self.known, name)
        column = Column(
            key=self.line + (of.unless or of.key),
            label=heading or Inline(of.label.template if of.label else name),
            value=lambda line: _cell(getattr(self.find(line), name, None), of, line),
            measure=_measure(of),
            sort=next((sort for known, sort in SORTS if known == of.type), "text"),
            needed=of.needed and self.sure and not self.spare,
            spare=self.spare,
        )
        return replace(column, **more)


def _measure(of: Detail) -> u.Kind | None:
    if of.type == Share:
        return u.SHARE
    if of.part is not Typed or not isinstance(of.measure, u.Kind):
        return None
    if of.measure is u.SEED_WEIGHT:
        return THOUSAND
    return u.NUMBER if of.measure is u.TURNS else of.measure  # the heading says turns


def _cell(value: Any, of: Detail, line: TableLine) -> Any:
    """Write what stands in a field; 0 is left out where it says that nothing was entered."""
    if of.type == Id:
        return line.names(value)
    if of.type is bool:
        return yes(value) if not of.unless else None if value is not False else "yes"
    if of.type == Month and value:
        return date.fromisoformat(f"{value}-01")
    return None if value == of.default == 0 else value


def nth(parts: str, i: int) -> Find:
    """Find the i-th of some parts, ``body.bags``, None where there are fewer."""
    several = attrgetter(parts)
    return lambda line: next(iter(several(line)[i - 1 : i]), None)


ID = Column(key="id", label=say("ID"), value=attrgetter("thing.id"))
NOTES = ("notes", "remark", "remarks")
