"""Writing a job file: TOML as people write it, kept safe at every step."""

import json
import os
import re
import tomllib
from collections.abc import Mapping
from pathlib import Path
from typing import Any

_MANY_CATCHES = re.compile(r"^\s*\[\[\s*catch\s*\]\]", re.MULTILINE)


def dump(file: Mapping[str, Any]) -> str:
    """Write tables as TOML that `tomllib` reads back the same.

    Parameters
    ----------
    file : mapping of str
        Tables of texts, numbers, yes-or-no, lists, and tables within.

    Examples
    --------
    >>> print(dump({"target": {"rate": "60 lb/ac"}, "catch": [{"setting": 31}]}), end="")
    [target]
    rate = "60 lb/ac"
    <BLANKLINE>
    [[catch]]
    setting = 31
    """
    return "\n".join("\n".join(lines) + "\n" for lines in _tables(file, ""))


def _tables(content: Mapping[str, Any], name: str) -> list[list[str]]:
    """Lines of each table under a name, a header first."""
    found: list[list[str]] = []
    for key, value in content.items():
        path = f"{name}.{_key(key)}" if name else _key(key)
        if isinstance(value, Mapping):
            scalars = _scalars(value)
            if scalars or not value:
                found.append([f"[{path}]", *scalars])
            found += _tables(value, path)
        elif _is_tables(value):
            for each in value:
                found.append([f"[[{path}]]", *_scalars(each)])
                found += _tables(each, path)
    return found


def _is_tables(value: Any) -> bool:
    return isinstance(value, list) and bool(value) and all(isinstance(v, Mapping) for v in value)


def _scalars(table: Mapping[str, Any]) -> list[str]:
    return [
        f"{_key(key)} = {_value(value)}"
        for key, value in table.items()
        if not isinstance(value, Mapping) and not _is_tables(value)
    ]


def _key(key: str) -> str:
    return key if re.fullmatch(r"[A-Za-z0-9_-]+", key) else _value(key)


def _value(value: Any) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, list):
        return f"[{', '.join(_value(each) for each in value)}]"
    if isinstance(value, str):
        return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")
    return repr(value)


def save(path: Path, text: str) -> None:
    """Put a text in a file's place, whole or not at all, and on the disk."""
    place = path.resolve()
    beside = place.with_name(f"{place.name}.new")
    with beside.open("w", encoding="utf-8", newline="\n") as file:
        file.write(text)
        file.flush()
        os.fsync(file.fileno())
    beside.replace(place)


class Journal:
    """A job file that is written anew after every answer.

    What a person wrote into it stays as it is as long as only catches are
    added; where more changes, the file as it was is kept beside it.
    """

    def __init__(self, path: Path, before: str = "") -> None:
        self.path, self._before = path, before
        self._old: Mapping[str, Any] = tomllib.loads(before)

    def keep(self, file: Mapping[str, Any]) -> None:
        """Write the file."""
        if self._only_more_catches(file):
            more = file.get("catch", [])[len(self._old.get("catch", [])) :]
            added = "\n" + dump({"catch": more}) if more else ""
            save(self.path, self._before.rstrip("\n") + "\n" + added)
            return
        if self._before and self._before != dump(self._old):
            old = self.path.with_name(f"{self.path.name}.old")
            if not old.exists():
                save(old, self._before)
        save(self.path, dump(file))

    def _only_more_catches(self, file: Mapping[str, Any]) -> bool:
        if not self._before:
            return False
        old, new = dict(self._old), dict(file)
        caught, catches = old.pop("catch", []), new.pop("catch", [])
        open_ended = not caught or _MANY_CATCHES.search(self._before) is not None
        return open_ended and old == new and list(caught) == list(catches)[: len(caught)]
