"""``evenstand demo``: a whole Set step on an invented drill."""

from pathlib import Path
from typing import Any

import click

from evenstand.demo.play import Stage, play
from evenstand.demo.pool import HERON
from evenstand.engine.drill import number
from evenstand.report.notebook import Lines
from evenstand.tasks.job_writer import dump, save

from .documents import set_document
from .flags import answers, example
from .output import Out
from .pages import worksheet_part
from .set_pages import catches_part, curve_part, next_part, notches_part, notes, row_part

INVENTED = (
    "All of this is invented: the drill Heron (20 rows × 7.5 in, full and half gear) of the "
    "Tamarack Flats pool, its chart, its seed, every catch. The arithmetic is the real one."
)
CAUTIONS = (
    "Chock the wheels, and put the machine on stands: hitched, and nobody under it.",
    "Keep hands, sleeves and bags away from chains, shafts and agitators that turn.",
    "Treated seed: read its label, wear gloves, do not breathe the dust.",
    "The operator's manual, the seed label and local rules come before this program.",
)


@click.command(epilog=example("evenstand demo --save heron.toml"))
@click.option("--seed", type=click.IntRange(min=0), default=2, show_default=True, help="Its luck.")
@click.option("--save", "file", type=click.Path(path_type=Path), help="Keep its job file too.")
@answers
def demo(out: Out, seed: int, file: Path | None) -> None:
    """Play a whole Set step on an invented drill.

    From the chart, which is off, to a notch that was caught and accepted.
    """
    stages = list(play(HERON, seed=seed))
    if file is not None:
        save(file, f"# Invented data.\n{dump(stages[-1].file)}")
    if out.json:
        steps = [set_document(stage.setting, out.style) for stage in stages]
        out.document({"invented": True, "steps": steps})
        return
    working = Out(json=False, style=out.style, working=True)
    before: list[list[str]] = [[], *(notes(stage.setting, out) for stage in stages)]
    pages = (_stage(stage, out, said) for stage, said in zip(stages, before, strict=False))
    out.page(_opening(out), *(part for page in pages for part in page))
    out.say("")
    out.page(*_ending(stages[-1], working))


def _opening(out: Out) -> Lines:
    return [
        *out.sheet.heading("Evenstand", "a demonstration, invented data"),
        *out.sheet.paragraph(INVENTED, indent=1),
        *out.sheet.points(CAUTIONS, sign="!"),
    ]


def _stage(stage: Stage, out: Out, said: list[str]) -> list[Lines]:
    """Say what was caught, and where to go from there."""
    found = stage.setting
    parts = []
    if found.caught:
        parts.append(out.sheet.paragraph(_caught(stage.file["catch"][-1]), indent=1))
    parts.append(next_part(found, out, said=said))
    if found.caught:
        parts.append(catches_part(found, out))
    return parts


def _caught(catch: dict[str, Any]) -> str:
    where = (
        f"The lever at {number(catch['setting'])} in gear {catch['gear']}, {catch['turns']} turns"
    )
    if "net" in catch:
        return f"→ {where}: {catch['rows_caught']} rows in one bag weigh {catch['net']}."
    return f"→ {where}: each of {catch['rows_caught']} rows apart, {', '.join(catch['weights'])}."


def _ending(stage: Stage, out: Out) -> list[Lines]:
    """Draw all that speaks for the notch that was accepted."""
    found = stage.setting
    lines = found.caught[-1].measured.working
    return [
        curve_part(found, out),
        notches_part(found, out),
        row_part(found, out),
        worksheet_part(out, lines, f"catch {len(found.caught)}"),
    ]
