"""Fields of a newer release: seen, and carried over when this release writes a newer state."""

from collections.abc import Iterator

import msgspec
from msgspec import Raw, Struct

from evenstand.engine.quantities.errors import Path

from ..kinds.details import details

_NOTHING = Raw(b"null")


def is_newer(body: bytes, known: type[Struct]) -> bool:
    """Whether a body has fields, here or in its parts, that its type does not have."""
    return next(strange(body, known), None) is not None


def strange(body: bytes, known: type[Struct]) -> Iterator[Path]:
    """Yield the paths of the fields of a body, and of its parts, that its type does not have."""
    yield from map(Path, _strange(body, known))
    fields = msgspec.json.decode(body, type=dict[str, Raw])
    for name, part, many in parts(known):
        if fields.get(name, _NOTHING) != _NOTHING:
            for each in _items(fields[name]) if many else [fields[name]]:
                yield from (Path(name, *inside) for inside in strange(bytes(each), part))


def carried(old: bytes, new: bytes, known: type[Struct]) -> bytes:
    """Write a new body with what the old one has and this release does not know."""
    fields = msgspec.json.decode(new, type=dict[str, Raw])
    before = msgspec.json.decode(old, type=dict[str, Raw])
    for name, part, many in parts(known):
        if _NOTHING not in (fields.get(name, _NOTHING), before.get(name, _NOTHING)):
            carry = _carried_items if many else carried
            fields[name] = Raw(carry(bytes(before[name]), bytes(fields[name]), part))
    return msgspec.json.encode(fields | _strange(old, known))


def _carried_items(old: bytes, new: bytes, part: type[Struct]) -> bytes:
    """Write a list so that an item which did not change keeps what is not known here."""
    before = {msgspec.json.decode(each, type=part): bytes(each) for each in _items(old)}
    after = [(bytes(each), msgspec.json.decode(each, type=part)) for each in _items(new)]
    return msgspec.json.encode(
        [Raw(carried(before[item], each, part) if item in before else each) for each, item in after]
    )


def _items(text: bytes | Raw) -> list[Raw]:
    return msgspec.json.decode(text, type=list[Raw])


def parts(known: type[Struct]) -> Iterator[tuple[str, type[Struct], bool]]:
    """Yield the fields that may hold a part with fields of its own, or many of them."""
    for each in details(known):
        if each.part is not None:
            yield each.name, each.part, each.many


def _strange(body: bytes, known: type[Struct]) -> dict[str, Raw]:
    """Return the fields of a body that its type does not have."""
    fields = msgspec.json.decode(body, type=dict[str, Raw])
    return {name: raw for name, raw in fields.items() if name not in known.__struct_fields__}
