"""Entries read as far as what they add up to goes."""

from collections.abc import Iterable
from typing import Any

import msgspec

from .merging import Said


def said(texts: Iterable[str]) -> list[Said]:
    """Read entries as far as their sum goes."""
    return [_said(msgspec.json.decode(text)) for text in texts]


def _said(entry: dict[str, Any]) -> Said:
    changed = entry.get("changed")
    return Said(
        id=entry["id"],
        made=entry["made"],
        kind=entry["kind"],
        base=tuple(entry.get("base", ())),
        changed=None if changed is None else tuple(changed),
        body=entry["body"],
    )
