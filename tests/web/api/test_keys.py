"""Keys of results stay: programs read them by name. More may come, none goes or moves."""

from pathlib import Path

import pytest

pytest.importorskip("flask", reason="the pages need Flask")

KEPT = Path(__file__).with_name("keys.txt")


def paths(schema, at):
    """Yield every key that is always there, by the path that leads to it."""
    if "items" in schema:
        yield from paths(schema["items"], at + "[]")
    for each in schema.get("anyOf", ()):
        yield from paths(each, at)
    for name in schema.get("required", ()):
        yield f"{at}.{name}"
        yield from paths(schema["properties"][name], f"{at}.{name}")


def test_no_key_goes():
    """What was there when a line was written down; add lines for what is new."""
    from evenstand.web.api.schemas import schemas

    there = {path for name, schema in schemas().items() for path in paths(schema, name)}
    kept = set(KEPT.read_text(encoding="utf-8").split())
    assert sorted(kept - there) == []
    assert sorted(there - kept) == [], "write new keys down, so that they stay"
