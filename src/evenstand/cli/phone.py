"""``evenstand phone``: what phones load, as files for any host."""

from pathlib import Path
from typing import Protocol

import click

from evenstand.engine.quantities.errors import MeasurementError

from .flags import example
from .output import Out


class WriteFolder(Protocol):
    """What writes the files; gives how many."""

    def __call__(self, target: Path, *, base: str) -> int:
        """Write them below ``target``, for a host that shows them below ``base``."""


def phone_command(write: WriteFolder) -> click.Group:
    """Make the command of what writes the folder."""

    @click.group("phone")
    def phone() -> None:
        """What a phone loads to go without a network."""

    @phone.command("build", epilog=example("evenstand phone build site --base /field/log/"))
    @click.argument("target", metavar="DIR", type=click.Path(path_type=Path))
    @click.option(
        "--base", default="/", show_default=True, help="Path below which the host shows it."
    )
    def build(target: Path, base: str) -> None:
        """Write the whole app as a folder of files, for a host with https and no program.

        A phone that opens it there keeps its book itself, and swaps it with
        others by files: there is no office behind it.
        """
        out = Out.of(json=False, units="us", working=False)
        try:
            count = write(target, base=base)
        except MeasurementError as error:
            raise out.refuse(error) from None
        out.say(f"{count} files in {target}: copy them to a host with https, below {base}")

    return phone
