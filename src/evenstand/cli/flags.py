"""Flags that several commands share, and what was written behind them."""

from collections.abc import Callable
from functools import wraps
from typing import Any

import click

from evenstand.engine.quantities.errors import MeasurementError
from evenstand.tasks.parsing.given import Given, Written

from .output import Out

Command = Callable[..., None]

OUTPUT = (
    click.option("--json", "as_json", is_flag=True, help="Write JSON for programs."),
    click.option(
        "--units",
        type=click.Choice(["us", "metric"]),
        default="us",
        show_default=True,
        help="Units of the answer. You can type any units.",
    ),
    click.option("--working", is_flag=True, help="Show the math, line by line."),
)
DRILL = (
    click.option("--rows", metavar="N", required=True, help="Rows of the drill."),
    click.option("--spacing", metavar="LENGTH", required=True, help="Row spacing: 7.5 in."),
    click.option("--blocked", metavar="N", help="Rows shut off between seeding rows."),
    click.option("--blocked-end", metavar="N", help="Rows shut off at one end of the drill."),
)
WHEEL = (
    click.option(
        "--rolled", metavar="LENGTH", help="Distance per wheel turn, rolled (includes slip)."
    ),
    click.option("--taped", metavar="LENGTH", help="Tape around the tire (does not include slip)."),
    click.option("--slip", metavar="SHARE", help="Slip, with --taped: 3 ± 2%."),
)


def together(*options: Callable[[Command], Command]) -> Callable[[Command], Command]:
    """Put options on a command, shown in the order they stand."""

    def decorate(command: Command) -> Command:
        for option in reversed(options):
            command = option(command)
        return command

    return decorate


def answers(command: Callable[..., None]) -> Command:
    """Hand a command its `Out`, and end with what was refused."""

    @wraps(command)
    def run(*, as_json: bool, units: Any, working: bool, **flags: Any) -> None:
        out = Out.of(json=as_json, units=units, working=working)
        try:
            command(out, **flags)
        except MeasurementError as error:
            raise out.refuse(error) from None

    return together(*OUTPUT)(run)


def written(flags: dict[str, Any]) -> Given:
    """Return what was written behind flags, under the flags' own names."""
    texts = {key: text for key, text in flags.items() if isinstance(text, str)}
    return Given(texts, Flag)


class Flag(Written):
    """Where an input stands on the command line: ``--rows-caught``."""

    __slots__ = ()

    def __str__(self) -> str:
        return "--" + super().__str__().replace("_", "-")


def example(*lines: str) -> str:
    """Write an example under a command's help, its lines joined as a shell joins them."""
    return "\b\nExample:\n  " + " \\\n    ".join(lines)
