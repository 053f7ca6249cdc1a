"""Where in a TOML text a key stands, so that an error can name its line."""

import re
import tomllib
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from typing import Any

from evenstand.engine.quantities.errors import MeasurementError, Path
from evenstand.engine.quantities.phrases import say

from .tables import InTables

_HEADER = re.compile(r"\s*\[(\[?)\s*([A-Za-z_][\w.\-]*)\s*\]?\]?\s*(?:#.*)?$")
_KEY = re.compile(r"\s*([\w.\-]+)\s*=")
_AT = re.compile(r"\s*\(at (?:line (\d+), column (\d+)|end of document)\)")


class FileError(MeasurementError):
    """An input in a file cannot be used; ``line`` counts from 1 where it is known."""

    def __init__(self, refused: MeasurementError, *, file: str, line: int | None) -> None:
        super().__init__(refused.path, refused.given, refused.need)
        self.file, self.line = file, line


def parse(text: str, *, file: str) -> Mapping[str, Any]:
    """Parse TOML; what is not TOML is refused with its line and key.

    Raises
    ------
    FileError
        Its need names the column too.
    """
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        at = _AT.search(str(error))
        line = int(at[1]) if at and at[1] else len(text.splitlines())
        need = say(
            "{line} is not TOML, at column {column}: {message}. Put an amount "
            "with its unit in double quotes",
            line=_line(text, line),
            column=int(at[2]) if at and at[2] else 1,
            message=_AT.sub("", str(error)),
        )
        refused = MeasurementError(_path_at(text, line), _line(text, line), need)
        raise FileError(refused, file=file, line=line) from None


@contextmanager
def in_file(text: str, *, file: str) -> Iterator[None]:
    """Let what is refused inside name the file and its line."""
    try:
        yield
    except FileError:
        raise
    except MeasurementError as refused:
        line = locate(text, refused.path, refused.given)
        raise FileError(refused, file=file, line=line) from None


def locate(text: str, path: Path, given: object = None) -> int | None:
    r"""Find the line of a path into its tables.

    Parameters
    ----------
    given : object
        What was refused: in a list of many lines, its own line is found by it.

    Returns
    -------
    int or None
        The key's line; where the key is not there, that of its table.

    Examples
    --------
    >>> text = '[target]\nrate = "8 ft"\n[[catch]]\nnet = 1\n[[catch]]\nnet = 2'
    >>> locate(text, InTables("target", "rate")), locate(text, InTables("catch", 2, "net"))
    (2, 6)
    """
    if not isinstance(path, InTables):
        return None
    table, number, key = path.table, path.number or 1, next(iter(path.inside), None)
    header, inside = None, []
    for line, name, count, its_key in _walk(text):
        if (name, count) == (table, number):
            header = header or line
            inside.append((line, its_key))
    if header is None:
        return _inline(text, table)
    starts = [i for i, (_, its_key) in enumerate(inside) if its_key == key]
    return _within(text, inside[starts[0] :], given) if starts and key else header


def _walk(text: str) -> Iterator[tuple[int, str, int, str | None]]:
    """Each line with its table, which of that name it is, and its key."""
    table, counts = "", {"": 1}
    for line, content in enumerate(text.splitlines(), 1):
        header = _HEADER.match(content)
        if header:
            table = header[2]
            counts[table] = counts.get(table, 0) + 1 if header[1] else 1
        key = _KEY.match(content)
        yield line, table, counts[table], key[1] if key and not header else None


def _within(text: str, lines: list[tuple[int, str | None]], given: object) -> int:
    """Find a refused value in a list that goes over several lines."""
    content = text.splitlines()
    for line, key in lines:
        if key and line != lines[0][0]:
            break
        if isinstance(given, str) and given and given in content[line - 1]:
            return line
    return lines[0][0]


def _inline(text: str, table: str) -> int | None:
    """Find a table that was written as a key: ``scale = {low = 0, …}``."""
    last = table.rpartition(".")[2]
    return next((line for line, _, _, key in _walk(text) if key in (table, last)), None)


def _line(text: str, line: int) -> str:
    lines = text.splitlines()
    return lines[line - 1].strip() if 0 < line <= len(lines) else ""


def _path_at(text: str, wanted: int) -> Path:
    """Return the path of the key that a line holds, as far as it can be told."""
    for line, table, count, key in _walk(text):
        if line == wanted:
            start = _line(text, line)
            name = key or ("" if start.startswith("[") else start.partition(" ")[0])
            at = InTables(*table.split("."), *([count] if count > 1 else []))
            return at.part(*filter(None, [name])) if table else Path(name)
    return Path("file")
