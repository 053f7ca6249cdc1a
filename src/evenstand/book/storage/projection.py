"""What the file remembers of a thing, worked out from its entries."""

import msgspec
from msgspec import Struct

from ..kinds.bodies import links
from ..log.entries import content, read
from ..log.merging import Sum, add_up
from ..log.said import said
from .store import Row, Store


class Projected(Struct, frozen=True):
    """The row of a thing (id, kind, removed, born, entry, body, heads, clashes), and its links."""

    row: Row
    targets: frozenset[str]


def project(store: Store, about: str) -> Projected | None:
    """Work out what the entries about a thing add up to, None where none is about it."""
    rows = store.entries_about(about)
    if not rows:
        return None
    found = add_up(said(text for _, _, text in rows))
    [(place, text)] = [(place, text) for place, id, text in rows if id == found.entry]
    body, heads, clashes = _beyond(found, text)
    row = (about, found.kind, int(found.removed), found.born, place, body, heads, clashes)
    own = read(text.encode()).body if body is None else None
    return Projected(row, links(own or content(found.kind, str(body).encode(), newer=True)))


def _beyond(found: Sum, text: str) -> tuple[str | None, str | None, int]:
    """Return what the newest entry does not say itself: merged body, heads, number of clashes."""
    own = msgspec.json.decode(text)["body"]
    body = None if own == found.body else msgspec.json.encode(found.body).decode()
    heads = None if found.heads == (found.entry,) else " ".join(found.heads)
    return body, heads, len(found.clashes)
