"""What stands in a field of an entry, in words: for a history, a question, a list of changes."""

from collections.abc import Callable

import msgspec
from msgspec import Struct
from msgspec.structs import replace

from evenstand.book.kinds.bodies import KINDS, Newer
from evenstand.book.kinds.details import Detail, details
from evenstand.book.kinds.seed import Range
from evenstand.book.kinds.shape import Body, Share, Typed
from evenstand.book.log.merging import Json, Pointer, look, steps
from evenstand.engine.parsing.retold import Retold
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
    above = field.rpartition("/")[0]
    return _told(kind, field, look(body, field), names=names, beside=look(body, above))


def written(kind: str, field: Pointer, found: Json, *, names: Names) -> Value:
    """Write what was found in a field, whatever stands beside it."""
    return _told(kind, field, found, names=names, beside=None)


def _told(kind: str, field: Pointer, found: Json, *, names: Names, beside: Json) -> Value:
    known: type[Struct] | None = KINDS.get(kind)
    detail: Detail | None = None
    for step in steps(field):
        detail = _of(_detail(known, step), detail) or detail
        known = detail.part if detail else None
    return _value(found, detail, names, beside=beside)


def _of(part: Detail | None, whole: Detail | None) -> Detail | None:
    """Return a part; one end of a range measures what the range does."""
    return replace(part, measure=whole.measure) if part and whole and whole.part is Range else part


def _detail(known: type[Struct] | None, name: str) -> Detail | None:
    if known is None:
        return None
    return next((each for each in details(known) if each.name == name), None)


def _label(detail: Detail) -> Phrase:
    return detail.label or say("{name}", name=detail.name.replace("_", " "))


def _value(found: Json, detail: Detail | None, names: Names, *, beside: Json) -> Value:
    if found is None or found == "" or found == []:
        return NOTHING
    if isinstance(found, bool):
        return say("yes") if found else say("no")
    if isinstance(found, list):
        return series([_value(each, detail, names, beside=beside) for each in found])
    if isinstance(found, dict):
        return _part(found, detail, names, beside=beside)
    if isinstance(found, str):
        return names(found) or found
    kind = detail.measure if detail and isinstance(detail.measure, Kind) else None
    if detail and detail.type == Share:
        kind = SHARE
    return kind(found) if kind else f"{found:g}"


def _part(found: dict[str, Json], detail: Detail | None, names: Names, *, beside: Json) -> Value:
    """Write an amount as it was typed, and any other part by its fields."""
    if set(found) <= set(Typed.__struct_fields__) and "value" in found:
        return _amount(msgspec.convert(found, Typed), detail, beside)
    inside = {each.name: each for each in details(detail.part)} if detail and detail.part else {}
    parts = [
        say(
            "{field} {value}",
            field=_label(inside[name]) if name in inside else name,
            value=_value(each, _of(inside.get(name), detail), names, beside=found),
        )
        for name, each in found.items()
        if each not in (None, "", [])
    ]
    return series(parts) if parts else NOTHING


def _amount(typed: Typed, detail: Detail | None, beside: Json) -> Value:
    kind = _kind(typed, detail, beside)
    if kind is None:
        return typed.text or NOTHING
    return Retold(typed, kind) if typed.text else kind(typed.value)


def _kind(typed: Typed, detail: Detail | None, beside: Json) -> Kind | None:
    """Return what an amount measures; None where it is not told, or told of many seeds at once."""
    if detail is None or detail.of > 1 or detail.measure is None:
        return None
    if not isinstance(beside, dict):
        return detail.measure if isinstance(detail.measure, Kind) else None
    return detail.kind(typed.text, lambda name: str(beside.get(name, "")))
