"""What a list asks about all its things: one question to the file instead of one for each."""

from collections.abc import Iterable, Iterator

from ..log.entries import Entry, read
from .store import THING, Store
from .thing import Thing, thing_of

MOST_ASKED = 500  # ids in one question


class Many:
    """Looks up many things of a book."""

    def __init__(self, store: Store) -> None:
        self._store = store

    def things(self, ids: Iterable[str | None]) -> dict[str, Thing]:
        """Return things by their ids, removed ones too, in that order; the rest is left out."""
        sql = (
            f"SELECT {THING} FROM wanted "
            "JOIN thing ON thing.id = wanted.id JOIN entry ON entry.seq = thing.entry"
        )
        once = [id for id in dict.fromkeys(ids) if id]
        rows = [row for some in _parts(once) for row in self._store.ask(_wanted(some) + sql, *some)]
        found = {row[0]: thing_of(row) for row in rows}
        return {id: found[id] for id in once if id in found}

    def entries(self, ids: Iterable[str]) -> list[Entry]:
        """Return entries by their ids; what is not here is left out."""
        sql = "SELECT text FROM wanted JOIN entry ON entry.id = wanted.id"
        rows = [r for some in _parts(ids) for r in self._store.ask(_wanted(some) + sql, *some)]
        return [read(text.encode()) for (text,) in rows]

    def names(self, kind: str) -> list[tuple[str, str]]:
        """Return ids and names of the things of a kind that stand, newest first."""
        sql = (
            "SELECT thing.id, coalesce(json_extract(body, '$.name'), "
            "json_extract(text, '$.body.name'), '') FROM thing "
            "JOIN entry ON entry.seq = thing.entry WHERE thing.kind = ? AND removed = 0 "
            "ORDER BY born DESC, thing.id DESC"
        )
        return [(id, str(name)) for id, name in self._store.ask(sql, kind)]

    def tally(self, kind: str, *, of: Iterable[str]) -> dict[str, int]:
        """Count the things of a kind that stand, by the thing they name; no entry where none do."""
        sql = (
            "SELECT target, count(*) FROM wanted JOIN link ON target = wanted.id "
            "WHERE kind = ? AND removed = 0 GROUP BY target"
        )
        rows = [r for some in _parts(of) for r in self._store.ask(_wanted(some) + sql, *some, kind)]
        return dict(rows)

    def newest(self, kind: str, *, of: Iterable[str]) -> dict[str, Thing]:
        """Return the newest thing of a kind that stands, by the thing it names."""
        sql = (
            f"SELECT wanted.id, {THING} FROM wanted "
            "JOIN thing ON thing.id = (SELECT thing FROM link WHERE target = wanted.id "
            "AND kind = ? AND removed = 0 ORDER BY born DESC, thing DESC LIMIT 1) "
            "JOIN entry ON entry.seq = thing.entry"
        )
        rows = [r for some in _parts(of) for r in self._store.ask(_wanted(some) + sql, *some, kind)]
        return {row[0]: thing_of(row[1:]) for row in rows}


def _wanted(ids: tuple[str, ...]) -> str:
    return f"WITH wanted (id) AS (VALUES {', '.join(['(?)'] * len(ids))}) "


def _parts(ids: Iterable[str]) -> Iterator[tuple[str, ...]]:
    """Yield each id once, so many at a time."""
    once = list(dict.fromkeys(ids))
    for start in range(0, len(once), MOST_ASKED):
        yield tuple(once[start : start + MOST_ASKED])
