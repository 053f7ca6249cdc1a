"""Results as JSON Schema, made of their keys and types: these are always there; more may come."""

from collections.abc import Iterable, Mapping
from types import UnionType
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from uncertainties import UFloat

from evenstand.engine.calibration.choose import Candidate
from evenstand.engine.catch.target import Word
from evenstand.engine.order.purchase import Purchase
from evenstand.engine.quantities.phrases import Phrase
from evenstand.engine.quantities.units import Amount, Kind
from evenstand.engine.quantities.working import Line
from evenstand.engine.quantities.written import AS_TEXT, OR_NULL, Key
from evenstand.engine.rows.evenness import Evenness
from evenstand.engine.seed.species import Sourced, Species
from evenstand.report.json import NUMBERS, RANGE, keys
from evenstand.tasks.boxes.boxes import Boxed
from evenstand.tasks.calibration.catch import Caught
from evenstand.tasks.calibration.rows import Rows
from evenstand.tasks.calibration.setting import Setting
from evenstand.tasks.calibration.turns import Turns
from evenstand.tasks.mix.best import BestMix
from evenstand.tasks.mix.mix import Mixed
from evenstand.tasks.order.order import Ordered
from evenstand.tasks.parsing.warned import Warned
from evenstand.tasks.seed.tag import TagRead
from evenstand.tasks.seeding.seeding import SownField

from .jobs import JobStand, LineOfStep, Spine

Schema = dict[str, Any]

NAMES: Mapping[Any, str] = {
    Word: "Verdict",
    Warned: "Warning",
    Line: "WorkingLine",
    Candidate: "Notch",
    Sourced: "Published",
    Purchase: "Purchase",
    Turns: "TurnsResult",
    Caught: "CatchResult",
    Rows: "RowsResult",
    Evenness: "EvennessResult",
    Setting: "SetResult",
    TagRead: "TagResult",
    Species: "SpeciesResult",
    Mixed: "MixResult",
    BestMix: "SolvedResult",
    Boxed: "BoxesResult",
    SownField: "SowResult",
    Ordered: "OrderResult",
    JobStand: "StandResult",
    LineOfStep: "Line",
    Spine: "Spine",
}
QUANTITY = "Quantity"
PLAIN: Mapping[Any, str] = {
    bool: "boolean",
    int: "integer",
    float: "number",
    UFloat: "number",
    str: "string",
    Phrase: "string",
    Kind: "string",
    type(None): "null",
}


def schemas() -> dict[str, Schema]:
    """Describe every result that has a name."""
    parts = {part: _endless() for part in RANGE} | {"unit": {"type": "string"}}
    quantity = {"type": "object", "properties": parts, "required": list(parts)}
    return {QUANTITY: quantity, **{name: _described(of, None) for of, name in NAMES.items()}}


def ref(name: str) -> Schema:
    """Point at what is described under a name."""
    return {"$ref": f"#/components/schemas/{name}"}


def schema(of: Any, mark: Any = None) -> Schema:
    """Describe the JSON of a type, written as its mark says."""
    if get_origin(of) is Annotated:
        return schema(get_args(of)[0], of.__metadata__[0])
    if mark == OR_NULL:
        return _any([schema(of), schema(type(None))])
    if of in NAMES:
        return ref(NAMES[of])
    return _described(of, mark)


def _described(of: Any, mark: Any) -> Schema:
    origin, parts = get_origin(of), get_args(of)
    if origin in (Union, UnionType):
        return _any([schema(each, mark) for each in parts])
    if origin is Literal:
        return {"type": PLAIN[type(parts[0])], "enum": sorted(each for each in parts if each != "")}
    if origin is tuple:
        several = {"type": "array", "items": schema(parts[0], mark)}
        return {"type": "string"} if mark == AS_TEXT else several
    if origin is dict or origin is Mapping:
        return {"type": "object", "additionalProperties": schema(parts[1], mark)}
    if isinstance(mark, Kind) and of in NUMBERS:
        return ref(QUANTITY)
    if of is Amount:
        return _endless()
    return {"type": PLAIN[of]} if of in PLAIN else _object(of)


def _any(found: Iterable[Schema]) -> Schema:
    """Describe what may be of several types, each told once."""
    apart: list[Schema] = []
    for each in found:
        if each not in apart:
            apart.append(each)
    return apart[0] if len(apart) == 1 else {"anyOf": apart}


def _endless() -> Schema:
    """Describe a number that is null where it is infinite."""
    return schema(float | None)


def _object(of: Any) -> Schema:
    """Describe a result by its keys."""
    whole = _empty()
    for key, part in keys(of):
        _add(_inside(whole, key.within), _object(part) if key.added else _one(key, part))
    return whole


def _empty() -> Schema:
    return {"type": "object", "properties": {}, "required": []}


def _one(key: Key, part: Any) -> Schema:
    return {"properties": {key.name: schema(part)}, "required": [key.name] * (not key.optional)}


def _inside(whole: Schema, name: str) -> Schema:
    """Return the object in which a key stands: the whole, or one in it that is made for it."""
    if name and name not in whole["properties"]:
        _add(whole, {"properties": {name: _empty()}, "required": [name]})
    return whole["properties"][name] if name else whole


def _add(to: Schema, more: Schema) -> None:
    to["properties"] |= more["properties"]
    to["required"] += [name for name in more["required"] if name not in to["required"]]
