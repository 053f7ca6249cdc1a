"""``evenstand demo``: from what is to grow to where the lever goes, on invented drills."""

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import click

from evenstand.demo.jobs import NATIVE_BOX, TODAY, alder_bench, native_grass
from evenstand.demo.play import Stage, play
from evenstand.engine.drill.drill import number
from evenstand.report.json import Document
from evenstand.report.notebook import Lines
from evenstand.tasks.boxes.boxes import boxed, fill
from evenstand.tasks.boxes.job import set_box
from evenstand.tasks.job.writer import dump, save
from evenstand.tasks.library.boxes_json import boxes_document
from evenstand.tasks.library.order_json import order_document
from evenstand.tasks.library.seed_json import mix_document
from evenstand.tasks.library.set_json import set_document
from evenstand.tasks.mix.mix import read_mix
from evenstand.tasks.order.order import read_order

from .box_pages import boxes_page
from .demo_pages import boxes_short, mix_short, order_short
from .flags import answers, example
from .mix_pages import mix_page
from .order_pages import order_page
from .output import Out
from .pages import worksheet_part
from .set_pages import catches_part, curve_part, next_part, notches_part, notes, row_part

STEPS = ("mix", "boxes", "order", "set", "native")
INVENTED = (
    "All of this is invented: the drills Heron (20 rows × 7.5 in, full and half gear) and Teal "
    "(16 rows × 7.5 in, three boxes, scale reversed) of the Tamarack Flats pool, their charts, "
    "the seed, the field Alder Bench, every catch. The arithmetic is the real one."
)
CAUTIONS = (
    "Chock the wheels, and put the machine on stands: hitched, and nobody under it.",
    "Keep hands, sleeves and bags away from chains, shafts and agitators that turn.",
    "Treated seed: read its label, wear gloves, do not breathe the dust.",
    "The operator's manual, the seed label and local rules come before this program.",
)
FIELD = "Alder Bench"


@click.command(epilog=example("evenstand demo --step boxes"))
@click.option("--step", type=click.Choice(STEPS), help="Play this step alone, with all it says.")
@click.option("--seed", type=click.IntRange(min=0), default=2, show_default=True, help="Its luck.")
@click.option("--save", "file", type=click.Path(path_type=Path), help="Keep its job file too.")
@answers
def demo(out: Out, step: str | None, *, seed: int, file: Path | None) -> None:
    """Play a job from its mix to the lever, on invented drills.

    A cover crop on Alder Bench: Mix, Boxes, Order, and a Set from a chart that is off to a
    notch that was caught and accepted. Then native grass from three boxes.
    """
    if file is not None:
        stages = list(play(alder_bench(), seed=seed))
        save(file, f"# Invented data.\n{dump(stages[-1].file)}")
    if out.json:
        out.document({"invented": True, **_documents(step, out, seed)})
        return
    out.page(_opening(out), *_pages(step, out, seed))


def _documents(step: str | None, out: Out, seed: int) -> Document:
    job, style = alder_bench().job, out.style
    written: dict[str, Callable[[], Any]] = {
        "mix": lambda: mix_document(read_mix(job, today=TODAY), style),
        "boxes": lambda: boxes_document(boxed(fill(job, today=TODAY)), style),
        "order": lambda: order_document(read_order(job, today=TODAY), style),
        "set": lambda: [set_document(s.setting, style) for s in play(alder_bench(), seed=seed)],
        "native": lambda: _native_document(out),
    }
    names = {"set": "steps"}
    return {names.get(key, key): write() for key, write in written.items() if step in (None, key)}


def _native_document(out: Out) -> Document:
    job = native_grass()
    return {
        "mix": mix_document(read_mix(job, today=TODAY), out.style),
        "boxes": boxes_document(boxed(fill(job, today=TODAY)), out.style),
        "set": set_document(set_box(job, NATIVE_BOX, today=TODAY), out.style),
    }


def _pages(step: str | None, out: Out, seed: int) -> Iterator[Lines]:
    """Play one step whole, or all of them short."""
    job = alder_bench().job
    if step in (None, "mix"):
        mixed = read_mix(job, today=TODAY)
        yield from mix_page(mixed, out) if step else mix_short(mixed, out, name=FIELD)
    if step in (None, "boxes"):
        filled = boxed(fill(job, today=TODAY))
        yield from boxes_page(filled, out) if step else boxes_short(filled, out, name=FIELD)
    if step in (None, "order"):
        bought = read_order(job, today=TODAY)
        yield from order_page(bought, out) if step else order_short(bought, out, name=FIELD)
    if step in (None, "set"):
        yield from _set(out, seed)
    if step in (None, "native"):
        yield from _native(out)


def _set(out: Out, seed: int) -> Iterator[Lines]:
    """Play the Set step of the grain box, to an accepted notch."""
    stages = list(play(alder_bench(), seed=seed))
    working = Out(json=False, style=out.style, working=True)
    before: list[list[str]] = [[], *(notes(stage.setting, out) for stage in stages)]
    for stage, said in zip(stages, before, strict=False):
        yield from _stage(stage, out, said)
    yield from _ending(stages[-1], working)


def _native(out: Out) -> Iterator[Lines]:
    """Show native grass with Teal: what is to grow, where it goes, where the lever begins."""
    job, name = native_grass(), "native grass, Teal"
    yield from mix_short(read_mix(job, today=TODAY), out, name=name)
    yield from boxes_short(boxed(fill(job, today=TODAY)), out, name=name)
    yield next_part(set_box(job, NATIVE_BOX, today=TODAY), out)


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
