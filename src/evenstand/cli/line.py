"""The command line itself: its commands, and how a slip of the pen is told."""

import sys
from typing import Any

import click

from evenstand import __version__
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import say

from .later import Laters
from .output import Out

Resolved = tuple[str | None, click.Command | None, list[str]]
INTERRUPTED = 130
# Where each command stands, and the first sentence of its help.
COMMANDS = {
    "book": ("book:book", "Export, import, check and back up your book."),
    "boxes": ("boxes:boxes", "Decide which seed goes in which box, and each box's rate."),
    "calibrate": ("set:calibrate", "Get the next lever setting."),
    "catch": ("catch:catch", "Figure the seeding rate from a catch."),
    "demo": ("demo:demo", "Walk through a demo job, from mix to lever setting."),
    "mix": ("mix:mix", "Figure a mix: rates, seeds, shares and cost."),
    "order": ("order:order", "List what to buy, mix and load for a field."),
    "people": ("people:people", "Manage who can use a book."),
    "phone": ("phone:phone", "Build the files a phone needs to work offline."),
    "record": ("record:record", "Write a job's seeding record, or check a printed one."),
    "rows": ("rows:rows", "Check how even the rows are."),
    "seeding": ("sow:seeding", "Track the rate while seeding, and what to do next."),
    "serve": ("serve:serve", "Open the book in a browser on this computer."),
    "species": ("species:species", "Look up a species."),
    "stand": ("stand:stand", "Figure the stand: plants, emergence and mix."),
    "tag": ("tag:tag", "Figure pure live seed from a seed tag."),
    "turns": ("turns:turns", "Figure how many drive-wheel turns to make."),
}

RENAMED = {"set": "calibrate", "sow": "seeding"}  # the old names go on working


class CommandLine(Laters):
    """Commands whose mistakes of typing are told like every other refusal."""

    def main(self, args: Any = None, *others: Any, **extra: Any) -> Any:
        """Run a command and leave with its code."""
        given = list(sys.argv[1:] if args is None else args)
        extra["standalone_mode"] = False
        try:
            code = super().main(given, *others, **extra)
        except click.exceptions.NoArgsIsHelpError as error:
            error.show()
            code = error.exit_code
        except click.UsageError as error:
            code = _show(error, json="--json" in given)
        except click.ClickException as error:
            error.show()
            code = error.exit_code
        except click.Abort:
            code = INTERRUPTED
        sys.exit(code if isinstance(code, int) else 0)

    def resolve_command(self, ctx: click.Context, args: list[str]) -> Resolved:
        """Find a command, also by the name that it once had."""
        name, *others = args
        if now := RENAMED.get(name):
            if "--json" not in others:
                click.echo(f'"evenstand {name}" is now "evenstand {now}".', err=True)
            return super().resolve_command(ctx, [now, *others])
        return super().resolve_command(ctx, args)


def _show(error: click.UsageError, *, json: bool) -> int:
    refused = _refused(error)
    Out.of(json=json, units="us", working=False).refuse(refused).show()
    if not json and error.ctx is not None:
        click.echo(f"{error.ctx.command_path} --help tells more.", err=True)
    return error.exit_code


def _refused(error: click.UsageError) -> MeasurementError:
    if isinstance(error, click.MissingParameter) and error.param is not None:
        return MeasurementError(error.param.opts[0], None, say("this is missing; enter it"))
    if isinstance(error, click.NoSuchOption):
        near = [each for each in error.possibilities or [] if each.startswith("--")]
        if near:
            need = say("no option by that name; did you mean {near}?", near=near[0])
            return MeasurementError(error.option_name, None, need)
        return MeasurementError(error.option_name, None, say("no option by that name"))
    field = "command line"
    if isinstance(error, click.BadParameter) and error.param is not None:
        field = error.param.opts[0]
    elif isinstance(error, click.BadOptionUsage):
        field = error.option_name
    return MeasurementError(field, None, say("{what}", what=error.message.rstrip(".")))


@click.group(
    cls=CommandLine, places=COMMANDS, context_settings={"help_option_names": ["-h", "--help"]}
)
@click.version_option(__version__, message="Evenstand %(version)s")
def commands() -> None:
    """Set a seed drill so that the right number of live seeds goes into every row.

    Amounts are written with their units, in any form: "7.5 in", "8 ft 3 in",
    "60 lb/ac", "67 kg/ha", "3 ± 2%".
    """
