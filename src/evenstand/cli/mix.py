"""``evenstand mix``: what the members of a mix come to on every basis."""

from pathlib import Path

import click

from evenstand.engine.seed.tag import Month
from evenstand.report.json import as_json
from evenstand.tasks.documents.mix import mix_shown
from evenstand.tasks.mix.mix import read_mix
from evenstand.tasks.mix.said import mix_in

from .clock import TODAY, this_month
from .files import from_file
from .flags import answers, example
from .output import Out


@click.command(epilog=example("evenstand mix alder-bench.toml --working"))
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--solve", is_flag=True, help="Find the best mix for the goal in FILE.")
@TODAY
@answers
def mix(out: Out, file: Path, *, solve: bool, today: str | None) -> None:
    """Figure a mix: rates, seeds, shares and cost.

    FILE is a TOML file with seed lots and a line for each species. A line has a share of
    the full rate, live seeds, live weight or bulk. With --solve it finds the rates that
    meet the goal in FILE.
    """
    month = this_month(today)
    if solve:
        _solve(out, file, month)
        return
    found = from_file(file, lambda tables: read_mix(mix_in(tables), today=month))
    if out.json:
        out.document(as_json(found, out.style))
    else:
        out.warnings(found.warnings)
        out.show(mix_shown(found, out.pen))


def _solve(out: Out, file: Path, month: Month) -> None:
    """Find the best mix; the solver is imported only now, for it is slow to load."""
    from evenstand.tasks.documents.solved import solved_shown
    from evenstand.tasks.mix.solving import solve_mix

    found = from_file(file, lambda tables: solve_mix(mix_in(tables), tables, today=month))
    if out.json:
        out.document(as_json(found.best, out.style))
    else:
        out.warnings(found.mixed.warnings)
        out.show(solved_shown(found, out.pen))
