"""What stands in a field of an entry, in words: for a history, a question, a list of changes."""

from collections.abc import Callable

import msgspec
from msgspec import Struct

from evenstand.book.kinds.bodies import KINDS, Newer
from evenstand.book.kinds.details import Detail, details
from evenstand.book.kinds.shape import Body, Share, Typed
from evenstand.book.log.merging import Json, Pointer, look, steps
from evenstand.engine.quantities.phrases import Phrase, Value, say, series
from evenstand.engine.quantities.units import SHARE, Kind

Names = Callable[[str], str]  # the name of a thing, by its id; empty where it has none

NOTHING = say("nothing")
_BEHIND = say("{item}: {field}")


def as_json(body: Body | Newer) -> Json:
    """Return a body as the JSON of its entry, in which fields have pointers."""
    return msgspec.json.decode(msgspec.json.encode(body))


def label(kind: str, field: Pointer) -> Phrase:
    """Return what a field is called: its own label, with the names of the items it is in."""
    known: type[Struct] | None = KINDS.get(kind)
    called: list[Phrase] = []
    own: Phrase | None = None
    for step in steps(field):
        detail = _detail(known, step)
        if detail and own:
            called.remove(own)
        own = _label(detail) if detail else own
        called += [own] if detail and own else [say("{name}", name=step)] if step else []
        known = detail.part if detail else known
    if not called:
        return say("all of it")
    whole = called[0]
    for part in called[1:]:
        whole = say(_BEHIND.template, item=whole, field=part)
    return whole


def value(kind: str, field: Pointer, body: Json, *, names: Names) -> Value:
    """Return what stands in a field of a body."""
    return written(kind, field, look(body, field), names=names)


def written(kind: str, field: Pointer, found: Json, *, names: Names) -> Value:
    """Write what was found in a field."""
    known: type[Struct] | None = KINDS.get(kind)
    detail: Detail | None = None
    for step in steps(field):
        detail = _detail(known, step) or detail
        known = detail.part if detail else None
    return _value(found, detail, names)


def _detail(known: type[Struct] | None, name: str) -> Detail | None:
    if known is None:
        return None
    return next((each for each in details(known) if each.name == name), None)


def _label(detail: Detail) -> Phrase:
    return detail.label or say("{name}", name=detail.name.replace("_", " "))


def _value(found: Json, detail: Detail | None, names: Names) -> Value:
    if found is None or found == "" or found == []:
        return NOTHING
    if isinstance(found, bool):
        return say("yes") if found else say("no")
    if isinstance(found, list):
        return series([_value(each, detail, names) for each in found])
    if isinstance(found, dict):
        return _part(found, detail, names)
    if isinstance(found, str):
        return names(found) or found
    kind = detail.measure if detail and isinstance(detail.measure, Kind) else None
    if detail and detail.type == Share:
        kind = SHARE
    return kind(found) if kind else f"{found:g}"


def _part(found: dict[str, Json], detail: Detail | None, names: Names) -> Value:
    """Write an amount as it was typed, and any other part by its fields."""
    if set(found) <= set(Typed.__struct_fields__) and "value" in found:
        kind = detail.measure if detail else None
        return found.get("text") or (kind(found["value"]) if isinstance(kind, Kind) else NOTHING)
    inside = {each.name: each for each in details(detail.part)} if detail and detail.part else {}
    parts = [
        say(
            "{field} {value}",
            field=_label(inside[name]) if name in inside else name,
            value=_value(each, inside.get(name), names),
        )
        for name, each in found.items()
        if each not in (None, "", [])
    ]
    return series(parts) if parts else NOTHING
