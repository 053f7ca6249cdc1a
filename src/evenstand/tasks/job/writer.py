"""Writing a job file: TOML as people write it, kept safe at every step."""

import os
from collections.abc import Mapping, MutableMapping
from pathlib import Path
from typing import Any, TypeGuard

import tomlkit


def dump(file: Mapping[str, Any]) -> str:
    """Write tables as TOML.

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
    return tomlkit.dumps(file)


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

    What a person wrote into it stays as it is, with all remarks, but for what
    another answer took the place of.
    """

    def __init__(self, path: Path, before: str = "") -> None:
        whole = before.rstrip("\n") + "\n" if before else ""
        self.path, self._document = path, tomlkit.parse(whole)

    def keep(self, file: Mapping[str, Any]) -> None:
        """Write the file."""
        _follow(self._document, file)
        save(self.path, tomlkit.dumps(self._document).rstrip("\n") + "\n")


def _follow(written: MutableMapping[str, Any], said: Mapping[str, Any]) -> None:
    """Let what is written say what is said; what says it already is left alone."""
    for key in [key for key in written if said.get(key, []) == []]:
        del written[key]
    for key, value in said.items():
        here = written.get(key, [])
        if here == value:
            continue
        if value and isinstance(here, MutableMapping) and isinstance(value, Mapping):
            _follow(here, value)
        elif isinstance(here, tomlkit.items.AoT) and _tables(value):
            _follow_each(here, value)
        else:
            written[key] = value


def _tables(value: Any) -> TypeGuard[list[Mapping[str, Any]]]:
    return isinstance(value, list) and all(isinstance(each, Mapping) for each in value)


def _follow_each(written: tomlkit.items.AoT, said: list[Mapping[str, Any]]) -> None:
    """Let tables of one name say what is said; a new one stands apart by a blank line."""
    del written[len(said) :]
    for here, value in zip(written, said, strict=False):
        _follow(here, value)
    for value in said[len(written) :]:
        if not written[-1].as_string().endswith("\n\n"):
            written[-1].add(tomlkit.nl())
        written.append(tomlkit.item(value))
