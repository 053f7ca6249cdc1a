"""The command line itself: its commands, and how a slip of the pen is told."""

import sys
from typing import Any

import click

from evenstand import __version__
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import say

from .book import book
from .boxes import boxes
from .catch import catch
from .demo import demo
from .mix import mix
from .order import order
from .output import Out
from .people import people
from .record import record
from .rows import rows
from .set import set_
from .sow import sow
from .species import species
from .stand import stand
from .tables import table, take_
from .tag import tag
from .turns import turns

INTERRUPTED = 130


class CommandLine(click.Group):
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


def _show(error: click.UsageError, *, json: bool) -> int:
    refused = _refused(error)
    Out.of(json=json, units="us", working=False).refuse(refused).show()
    if not json and error.ctx is not None:
        click.echo(f"{error.ctx.command_path} --help tells more.", err=True)
    return error.exit_code


def _refused(error: click.UsageError) -> MeasurementError:
    if isinstance(error, click.MissingParameter) and error.param is not None:
        return MeasurementError(error.param.opts[0], None, say("it is missing: give it"))
    if isinstance(error, click.NoSuchOption):
        near = [each for each in error.possibilities or [] if each.startswith("--")]
        if near:
            need = say("there is no such flag; did you mean {near}?", near=near[0])
            return MeasurementError(error.option_name, None, need)
        return MeasurementError(error.option_name, None, say("there is no such flag"))
    field = "command line"
    if isinstance(error, click.BadParameter) and error.param is not None:
        field = error.param.opts[0]
    elif isinstance(error, click.BadOptionUsage):
        field = error.option_name
    return MeasurementError(field, None, say("{what}", what=error.message.rstrip(".")))


@click.group(cls=CommandLine, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, message="Evenstand %(version)s")
def commands() -> None:
    """Set a seed drill so that the right number of live seeds goes into every row.

    Amounts are written with their units, in any form: "7.5 in", "8 ft 3 in",
    "60 lb/ac", "67 kg/ha", "3 ± 2 %".
    """


for _command in (table, take_):
    book.add_command(_command)
for _command in (
    tag,
    species,
    mix,
    boxes,
    order,
    turns,
    catch,
    rows,
    set_,
    sow,
    stand,
    record,
    demo,
    book,
    people,
):
    commands.add_command(_command)
