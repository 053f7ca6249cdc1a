"""The JSON Schema of an entry, made from the types that read it."""

import msgspec

from ..kinds.bodies import KINDS
from .entries import Envelope

PLACE = "#/$defs/{name}"


def entry_schema() -> bytes:
    """Return the schema (draft 2020-12) of an entry as this release writes it, as JSON text.

    A kind that is not named there, and fields that are not, may be written by
    a newer release: they are valid, and are carried on.
    """
    kinds = list(KINDS.values())
    (envelope, *bodies), defs = msgspec.json.schema_components(
        [Envelope, *kinds], ref_template=PLACE
    )
    for part in defs.values():
        part["description"] = " ".join(part["description"].split())
    defs["Envelope"]["properties"]["body"] = {"type": "object"}
    schema = {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "An entry of a book of Evenstand",
        **envelope,
        "allOf": [
            {
                "if": {"properties": {"kind": {"const": kind.kind}}},
                "then": {"properties": {"body": body}},
            }
            for kind, body in zip(kinds, bodies, strict=True)
        ],
        "$defs": dict(sorted(defs.items())),
    }
    return msgspec.json.format(msgspec.json.encode(schema)) + b"\n"
