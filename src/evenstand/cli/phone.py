"""``evenstand phone``: what phones load, as files for any host."""

from pathlib import Path

import click

from evenstand.engine.quantities.errors import MeasurementError

from .flags import example
from .office import Office
from .output import Out


@click.group("phone")
def phone() -> None:
    """Build the files a phone needs to work offline."""


@phone.command("build", epilog=example("evenstand phone build site --base /field/log/"))
@click.argument("target", metavar="DIR", type=click.Path(path_type=Path))
@click.option("--base", default="/", show_default=True, help="URL path where the host serves it.")
@click.pass_obj
def build(office: Office, target: Path, base: str) -> None:
    """Write the whole app as a folder of files, for any host with https.

    A phone that opens it there has a book of its own, and swaps it with
    others by files. It needs no office computer.
    """
    out = Out.of(json=False, units="us", working=False)
    try:
        count = office.write_folder(target, base=base)
    except MeasurementError as error:
        raise out.refuse(error) from None
    out.say(f"{count} files in {target}: copy them to a host with https, below {base}")
