"""``evenstand set``: where the lever goes next."""

from pathlib import Path

import click

from evenstand.engine.errors import MeasurementError
from evenstand.engine.words import say
from evenstand.tasks.file_lines import in_file, parse
from evenstand.tasks.job_file import read_job
from evenstand.tasks.setting import Setting, where_next

from .documents import set_document
from .flags import answers, example
from .output import Out
from .set_pages import set_page


@click.command("set", epilog=example("evenstand set heron.toml --working"))
@click.argument("file", required=False, type=click.Path(path_type=Path))
@click.option("--continue", "go_on", is_flag=True, help="Go on with the questions of FILE.")
@answers
def set_(out: Out, file: Path | None, go_on: bool) -> None:
    """Tell where the lever goes next.

    From FILE, a TOML file with drill, chart, target and the catches so far. Without
    FILE the questions are asked one by one, and kept in a file after each answer.
    """
    if file is None or go_on:
        return
    found = from_text(read_text(file), name=file.name)
    if out.json:
        out.document(set_document(found, out.style))
    else:
        out.warnings(found.job.warnings)
        out.page(*set_page(found, out))


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
        need = say("it is not text in UTF-8: save it as that")
    raise MeasurementError(str(file), None, need)


def from_text(text: str, *, name: str) -> Setting:
    """Work out where to go next from a job file's text."""
    with in_file(text, file=name):
        return where_next(read_job(parse(text, file=name)))
