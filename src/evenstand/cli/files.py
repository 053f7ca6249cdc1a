"""Job files: read, parsed, and every refusal named by file, line and key."""

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any, TypeVar

from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import say
from evenstand.tasks.job.lines import in_file, parse
from evenstand.tasks.job.tables import check_tables, in_tables

Result = TypeVar("Result")


def read_text(file: Path) -> str:
    """Read a job file.

    Raises
    ------
    MeasurementError
        Where it cannot be read, or is not text.
    """
    try:
        return file.read_text(encoding="utf-8-sig")
    except OSError as error:
        need = say("it cannot be read: {why}", why=error.strerror or str(error))
    except UnicodeDecodeError:
        need = say("this is not UTF-8 text: save it as UTF-8")
    raise MeasurementError(str(file), None, need)


def from_file(file: Path, work: Callable[[Mapping[str, Any]], Result]) -> Result:
    """Do a task with the tables of a job file.

    Parameters
    ----------
    work : callable
        From the tables as parsed to a result.

    Raises
    ------
    FileError
        For whatever is refused, with its line.
    """
    text = read_text(file)
    with in_file(text, file=file.name):
        tables = parse(text, file=file.name)
        check_tables(tables)
        with in_tables(tables):
            return work(tables)
