"""How columns of tables are made."""

from collections.abc import Callable
from operator import attrgetter
from typing import Any

from evenstand.engine.quantities import units as u
from evenstand.engine.quantities.phrases import Phrase, say

from .model import Column, TableLine, yes

Get = Callable[[Any], Any]


def from_body(get: Get) -> Callable[[TableLine], Any]:
    """Read something of what a thing says."""
    return lambda line: get(line.body)


def ticked(get: Get) -> Callable[[TableLine], str | None]:
    """Read whether something of it is so."""
    return lambda line: yes(get(line.body))


def text(key: str, label: Phrase, name: str = "", **more: Any) -> Column:
    """Make a column of words."""
    return Column(key=key, label=label, value=from_body(attrgetter(name or key)), **more)


def amount(key: str, label: Phrase, measure: u.Kind, *, name: str = "", **more: Any) -> Column:
    """Make a column of amounts."""
    return Column(
        key=key, label=label, value=from_body(attrgetter(name or key)), measure=measure, **more
    )


def tick(key: str, label: Phrase, name: str = "", **more: Any) -> Column:
    """Make a column of yes and no."""
    return Column(key=key, label=label, value=ticked(attrgetter(name or key)), sort="yes", **more)


ID = Column(key="id", label=say("ID"), value=lambda line: line.thing.id, read=False)
NOTE = text("note", say("note"), also=("notes", "remark", "remarks"))


def nth(parts: str, i: int, get: Get) -> Callable[[TableLine], Any]:
    """Read something of the i-th part, nothing where there are fewer."""

    def value(line: TableLine) -> Any:
        some = getattr(line.body, parts)
        return get(some[i - 1]) if i <= len(some) else None

    return value


def spare(key: str, label: Phrase, value: Callable[[TableLine], Any], **more: Any) -> Column:
    """Make a column that stands only where a line has something in it."""
    return Column(key=key, label=label, value=value, spare=True, **more)
