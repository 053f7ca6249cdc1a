"""The document of the API, OpenAPI 3.1: made of the operations and of the types they take."""

from collections.abc import Sequence
from typing import Any

import msgspec
from msgspec import Struct

from evenstand import __version__
from evenstand.book.kinds.bodies import KINDS, Removal

from .answers import PROBLEM, Problem
from .files import BoxAsked, BoxesAsked, JobAsked, job_schema
from .operations import PART, Operation, Parameter
from .schemas import NAMES, Schema, ref, schemas
from .things import Kept, New

PLACE = "#/components/schemas/{name}"
ABOUT = (
    "Everything the pages do, for programs. Values are in SI (kg, m, m², kg/m², 1/m², m/s, s; "
    "a share of 5% is 0.05), an amount may instead be sent as its text alone, as typed, with a "
    "decimal point. Results are in the units asked for, each quantity with its 95% range and "
    "standard uncertainty; sentences are in the language that is accepted."
)
_STATUS = {
    200: "The answer.",
    201: "It is kept.",
    400: "It cannot be read.",
    401: "Sign in first.",
    403: "Not yours to ask, or sent from another site.",
    404: "There is no such thing here.",
    409: "It clashes with what is kept.",
    412: "It was changed since the ETag sent as If-Match was read.",
    503: "The file could not be used just now; nothing was saved. Try again later.",
    507: "The disk is full; nothing was saved.",
    413: "It is too large.",
    415: "It is of another content type.",
    422: "It cannot be used; errors says what is needed.",
    428: "Send the ETag of the state that this changes, as If-Match.",
}
_TEXT: dict[str, Any] = {"schema": {"type": "string"}}
_ETAG = {"ETag": {"description": "State of the thing; send it back as If-Match."} | _TEXT}
_IF_MATCH = {
    "name": "If-Match",
    "in": "header",
    "required": True,
    "description": "ETag of the state that is changed.",
} | _TEXT
PHOTO_TEXT = 700_000  # characters: a picture of the largest size, as base64


def document(operations: Sequence[Operation], *, root: str) -> dict[str, Any]:
    """Write the document.

    Parameters
    ----------
    root : str
        Path below which they lie.
    """
    types = _types(operations)
    written, components = msgspec.json.schema_components(types, ref_template=PLACE)
    described = dict(zip(types, written, strict=True))
    return {
        "openapi": "3.1.0",
        "info": {"title": "Evenstand", "version": __version__, "description": ABOUT},
        "servers": [{"url": root}],
        "paths": _paths(operations, described),
        "components": {"schemas": dict(sorted((_mended(components) | schemas()).items()))},
    }


def _types(operations: Sequence[Operation]) -> list[Any]:
    """Return every type that the operations take or give, and all bodies."""
    bodies = [kind for kind in KINDS.values() if kind is not Removal]
    used = [each for op in operations for each in (op.takes, op.gives)]
    used += [parameter.type for op in operations for parameter in op.query]
    found: list[Any] = []
    for each in (*bodies, Problem, Kept, *used):
        if not (each is None or isinstance(each, dict) or each in NAMES or each in found):
            found.append(each)
    return found


def _mended(components: dict[str, Any]) -> dict[str, Any]:
    """Say of bodies what their types cannot: closed, told apart by kind, amounts as texts."""
    for part in components.values():
        if "description" in part:
            part["description"] = " ".join(part["description"].split())
    bodies = {kind.kind: kind.__name__ for kind in KINDS.values() if kind is not Removal}
    for name in _parts_of(bodies.values(), components):
        components[name]["additionalProperties"] = False
    typed = components["Typed"]
    typed["required"] = []
    typed["anyOf"] = [{"required": ["value"]}, {"required": ["text"]}]
    for each in (JobAsked, BoxAsked, BoxesAsked):
        components[each.__name__]["properties"]["job"] |= job_schema()
    components[New.__name__] |= {"oneOf": [_of_kind(kind, name) for kind, name in bodies.items()]}
    components[Kept.__name__]["allOf"] = [
        {
            "if": {"properties": {"kind": {"const": kind}, "newer": {"const": False}}},
            "then": {"properties": {"body": ref(name)}},
        }
        for kind, name in bodies.items()
    ]
    return components


def _parts_of(names: Any, components: dict[str, Any]) -> set[str]:
    """Return bodies with all that is in them."""
    found: set[str] = set()
    todo = list(names)
    while todo:
        name = todo.pop()
        if name not in found:
            found.add(name)
            todo += _named(components[name])
    return found


def _named(schema: Any) -> list[str]:
    if isinstance(schema, dict):
        own = [schema["$ref"].rpartition("/")[2]] if "$ref" in schema else []
        return own + [name for part in schema.values() for name in _named(part)]
    return [name for part in schema for name in _named(part)] if isinstance(schema, list) else []


def _of_kind(kind: str, name: str) -> Schema:
    return {"properties": {"kind": {"const": kind}, "body": ref(name)}}


def _paths(operations: Sequence[Operation], schemas: dict[Any, Schema]) -> dict[str, Any]:
    paths: dict[str, Any] = {}
    for op in operations:
        path = PART.sub(r"{\1}", op.path)
        paths.setdefault(path, {})[op.method.lower()] = _operation(op, schemas)
    return paths


def _operation(op: Operation, schemas: dict[Any, Schema]) -> Schema:
    found: Schema = {
        "operationId": op.name,
        "summary": op.about,
        "parameters": [
            *(_in_path(name) for name in op.parts),
            *(_in_query(each, schemas[each.type]) for each in op.query),
            *([_IF_MATCH] if op.tagged and op.method in ("PUT", "DELETE") else []),
        ],
        "responses": _responses(op, schemas),
    }
    if op.takes is not None:
        content = {op.media: {"schema": _schema(op.takes, schemas)}}
        found["requestBody"] = {"required": True, "content": content}
    return found


def _in_path(name: str) -> Schema:
    schema = {"type": "string", "pattern": "^[^/]+$"}
    return {"name": name, "in": "path", "required": True, "schema": schema}


def _in_query(each: Parameter, schema: Schema) -> Schema:
    about = {"description": each.about, "schema": schema}
    return {"name": each.name, "in": "query", "required": each.needed, **about}


def _responses(op: Operation, schemas: dict[Any, Schema]) -> Schema:
    media: Schema = {}
    if op.gives is not None:
        media = {"schema": _schema(op.gives, schemas)}
    good = {"content": {op.gives_media: media}, **({"headers": _ETAG} if op.tagged else {})}
    found = {str(code): {"description": _STATUS[code]} | good for code in (op.status, *op.also)}
    bad = {"content": {PROBLEM: {"schema": ref(Problem.__name__)}}}
    refuses = sorted({401, 403, *op.refuses})
    return found | {str(code): {"description": _STATUS[code]} | bad for code in refuses}


def _schema(what: Any, schemas: dict[Any, Schema]) -> Schema:
    if isinstance(what, dict):
        return what
    if what in NAMES:
        return ref(NAMES[what])
    found: Schema = schemas[what] if isinstance(what, type) and issubclass(what, Struct) else {}
    return found
