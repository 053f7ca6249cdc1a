"""Where a command writes: JSON or a page, in its reader's units; refusals to standard error."""

import json
import re
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import chain
from typing import IO, TYPE_CHECKING, Any

import click

from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase, Style, System
from evenstand.engine.quantities.units import Amount

if TYPE_CHECKING:  # a help page needs none of them
    from rich.console import Console
    from rich.text import Text

    from evenstand.report.document import Document
    from evenstand.report.pen import Pen
    from evenstand.report.terminal.notebook import Sheet
    from evenstand.tasks.job.lines import FileError
    from evenstand.tasks.parsing.warned import Warned


@dataclass(frozen=True)
class Out:
    """What the flags of every command say about its output."""

    json: bool
    style: Style
    working: bool

    @classmethod
    def of(cls, *, json: bool, units: System, working: bool) -> "Out":
        """Make one of the flags."""
        return cls(json, Style(system=units), working)

    @property
    def pen(self) -> "Pen":
        """What writes for the reader."""
        from evenstand.report.pen import Pen

        return Pen(self.style)

    @property
    def console(self) -> "Console":
        """Where pages go; made anew, for standard output may have been put elsewhere."""
        from evenstand.report.terminal.notebook import console

        return console()

    @property
    def sheet(self) -> "Sheet":
        """Paper that fits the terminal."""
        from evenstand.report.terminal.notebook import sheet

        return sheet(self.console)

    def write(self, text: Phrase | Amount | str) -> str:
        """Write a sentence or an amount in the reader's units."""
        return self.style.write(text)

    def page(self, *parts: Iterable["Text"]) -> None:
        """Print lines without the blanks at their ends, a blank line between the parts."""
        paper = self.console
        shown = [list(part) for part in parts]
        for i, lines in enumerate(part for part in shown if part):
            if i:
                paper.print()
            for line in lines:
                line.rstrip()
                paper.print(line, soft_wrap=True)

    def show(self, *documents: "Document") -> None:
        """Print documents, with their working where that was asked for."""
        from evenstand.report.terminal.pages import pages

        sheet, working = self.sheet, self.working
        shown = (pages(each, sheet, working=working) for each in documents)
        self.page(*chain.from_iterable(shown))

    def document(self, document: dict[str, Any]) -> None:
        """Print JSON."""
        click.echo(json.dumps(document, ensure_ascii=False, indent=2, allow_nan=False))

    def say(self, *lines: str) -> None:
        """Print plain lines."""
        for line in lines:
            click.echo(line)

    def warnings(self, warnings: Iterable["Warned"]) -> None:
        """Ask back on standard error about what is rarely meant; the others are in the JSON."""
        from evenstand.tasks.parsing.warned import MOST, noticed

        notices = noticed(warnings)
        for notice in notices[:MOST]:
            places = ", ".join(self._named(each) for each in notice.about)
            click.echo(f"Please check {places}: {self.write(notice.say)}", err=True)
        if len(notices) > MOST and not self.json:
            click.echo(f"{len(notices) - MOST} more: use --json to read them all.", err=True)

    def _named(self, warned: "Warned") -> str:
        """Write where an input is, and of which lot or line it is."""
        about = self.write(warned.about)
        return f"{warned.field} ({about})" if about else warned.field

    def refuse(self, error: MeasurementError) -> "Refused":
        """Return what ends the program with code 2, saying why."""
        return Refused(error, self)


class Refused(click.ClickException):
    """An input was refused: said on standard error, exit code 2."""

    exit_code = 2

    def __init__(self, error: MeasurementError, out: Out) -> None:
        super().__init__(refusal_text(error, out.style))
        self.error, self.out = error, out

    def show(self, file: IO[Any] | None = None) -> None:
        """Say what was refused, as text or as JSON."""
        if self.out.json:
            from evenstand.report import json as as_json

            refusal = as_json.refusal(self.error, self.out.style)
            if found := _of_file(self.error):
                refusal |= {"file": found.file, "line": found.line}
            click.echo(json.dumps({"error": refusal}, ensure_ascii=False), err=True)
        else:
            click.echo(f"Error: {self.format_message()}", err=True)


def refusal_text(error: MeasurementError, style: Style) -> str:
    """Write a refusal in one line: where, what was given, what is wanted."""
    need = style.write(error.need)
    where = error.field
    if found := _of_file(error):
        line = "" if found.line is None else f"line {found.line}, "
        where = f"{found.file}, {line}{found.field}"
    given = "" if error.given is None else str(error.given)
    if given and not re.search(rf"(?<!\w){re.escape(given)}(?!\w)", need):
        return f"{where} is {given}: {need}"
    return f"{where}: {need}"


def _of_file(error: MeasurementError) -> "FileError | None":
    from evenstand.tasks.job.lines import FileError

    return error if isinstance(error, FileError) else None
