"""``evenstand demo``: from what is to grow to where the lever goes, on invented drills."""

from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import click

from evenstand.demo.jobs import NATIVE_BOX, TODAY, alder_bench, native_grass
from evenstand.demo.play import play
from evenstand.engine.drill.drill import number
from evenstand.report.document import Document, Section, Words
from evenstand.report.json import Document as Json
from evenstand.report.json import as_json
from evenstand.report.pen import Pen
from evenstand.tasks.boxes.boxes import Boxed, boxed, fill
from evenstand.tasks.boxes.job import set_box
from evenstand.tasks.boxes.said import boxes_in
from evenstand.tasks.documents.boxes import boxes_shown, filled_box, given_up
from evenstand.tasks.documents.mix import mix_shown, mix_table
from evenstand.tasks.documents.order import bags, loads, order_shown
from evenstand.tasks.documents.parts import document
from evenstand.tasks.documents.setting import (
    catches,
    curve,
    last_working,
    next_shown,
    notches,
    notes,
    rows,
)
from evenstand.tasks.job.writer import dump, save
from evenstand.tasks.mix.mix import Mixed, read_mix
from evenstand.tasks.mix.said import mix_in
from evenstand.tasks.order.order import Ordered, read_order
from evenstand.tasks.order.said import order_in
from evenstand.tasks.parsing.given import Given

from .flags import answers, example
from .output import Out

STEPS = ("mix", "boxes", "order", "set", "native")
INVENTED = (
    "All of this is made up: the drills Heron (20 rows × 7.5 in, full and half "
    "gear) and Teal (16 rows × 7.5 in, three boxes, reversed scale) of the "
    "Tamarack Flats pool, their charts, the seed, the field Alder Bench, every "
    "catch. The math is real."
)
FIELD = "Alder Bench"


@click.command(epilog=example("evenstand demo --step boxes"))
@click.option("--step", type=click.Choice(STEPS), help="Run only this step, with full output.")
@click.option("--seed", type=click.IntRange(min=0), default=2, show_default=True, help="Its luck.")
@click.option("--save", "file", type=click.Path(path_type=Path), help="Save its job file too.")
@answers
def demo(out: Out, step: str | None, *, seed: int, file: Path | None) -> None:
    """Walk through a demo job, from mix to lever setting.

    A cover crop on Alder Bench: Mix, Boxes, Order, and Calibrate from a chart that is
    off to a notch that was caught and accepted. Then native grass from three boxes.
    """
    if file is not None:
        stages = list(play(alder_bench(), seed=seed))
        save(file, f"# Invented data.\n{dump(stages[-1].file)}")
    if out.json:
        out.document({"invented": True, **_documents(step, out, seed)})
        return
    out.show(_opening(), *_shown(step, out, seed))


def _documents(step: str | None, out: Out, seed: int) -> Json:
    job, style = alder_bench().job, out.style
    written: dict[str, Callable[[], Any]] = {
        "mix": lambda: as_json(read_mix(mix_in(job), today=TODAY), style),
        "boxes": lambda: as_json(boxed(fill(boxes_in(job), today=TODAY)), style),
        "order": lambda: as_json(read_order(order_in(job), today=TODAY), style),
        "set": lambda: [as_json(s.setting, style) for s in play(alder_bench(), seed=seed)],
        "native": lambda: _native_document(out),
    }
    names = {"set": "steps"}
    return {names.get(key, key): write() for key, write in written.items() if step in (None, key)}


def _native_document(out: Out) -> Json:
    job = native_grass()
    return {
        "mix": as_json(read_mix(mix_in(job), today=TODAY), out.style),
        "boxes": as_json(boxed(fill(boxes_in(job), today=TODAY)), out.style),
        "set": as_json(set_box(job, Given({"box": NATIVE_BOX}), today=TODAY), out.style),
    }


def _shown(step: str | None, out: Out, seed: int) -> Iterator[Document]:
    """Play one step whole, or all of them short."""
    job, pen = alder_bench().job, out.pen
    if step in (None, "mix"):
        mixed = read_mix(mix_in(job), today=TODAY)
        yield mix_shown(mixed, pen) if step else _mix(mixed, pen, FIELD)
    if step in (None, "boxes"):
        filled = boxed(fill(boxes_in(job), today=TODAY))
        yield boxes_shown(filled, pen) if step else _boxes(filled, pen, FIELD)
    if step in (None, "order"):
        bought = read_order(order_in(job), today=TODAY)
        yield order_shown(bought, pen) if step else _order(bought, pen)
    if step in (None, "set"):
        yield from _set(pen, seed)
    if step in (None, "native"):
        yield from _native(pen)


def _mix(found: Mixed, pen: Pen, name: str) -> Document:
    """Show what is to grow."""
    return replace(
        document(pen, found.advice, title=f"Mix · {name}", about="step 1"),
        sections=(Section("", (mix_table(found, pen),)),),
    )


def _boxes(found: Boxed, pen: Pen, name: str) -> Document:
    """Show which seed goes where."""
    return replace(
        document(pen, found.advice, title=f"Boxes · {name}", about="step 2"),
        sections=(
            *(filled_box(filled, pen) for filled in found.boxes.used),
            *given_up(found, pen),
        ),
    )


def _order(found: Ordered, pen: Pen) -> Document:
    """Show what to buy and where each load runs out."""
    return replace(
        document(pen, found.advice, title=f"Order · {FIELD}", about="step 3"),
        sections=(bags(found, pen), *(loads(each, pen) for each in found.loads)),
    )


def _set(pen: Pen, seed: int) -> Iterator[Document]:
    """Play the Set step of the grain box, to an accepted notch, with all that speaks for it."""
    said: list[str] = []
    for stage in play(alder_bench(), seed=seed):
        found, told = stage.setting, next_shown(stage.setting, pen, said=said)
        if found.caught:
            yield Document(sections=(Section("", (Words(_caught(stage.file["catch"][-1])),)),))
            told = replace(told, sections=(catches(found, pen),))
        yield told
        said = notes(found, pen)
    shown = (curve(found, pen), notches(found, pen), *rows(found, pen), *last_working(found, pen))
    yield Document(sections=shown)


def _native(pen: Pen) -> Iterator[Document]:
    """Show native grass with Teal: what is to grow, where it goes, where the lever begins."""
    job, name = native_grass(), "native grass, Teal"
    yield _mix(read_mix(mix_in(job), today=TODAY), pen, name)
    yield _boxes(boxed(fill(boxes_in(job), today=TODAY)), pen, name)
    yield next_shown(set_box(job, Given({"box": NATIVE_BOX}), today=TODAY), pen)


def _opening() -> Document:
    return Document(
        title="Evenstand",
        about="a demonstration, invented data",
        notes=(Words(INVENTED),),
    )


def _caught(catch: dict[str, Any]) -> str:
    where = (
        f"The lever at {number(catch['setting'])} in gear {catch['gear']}, {catch['turns']} turns"
    )
    if "net" in catch:
        return f"→ {where}: {catch['rows_caught']} rows in one bag weigh {catch['net']}."
    return f"→ {where}: each of {catch['rows_caught']} rows apart, {', '.join(catch['weights'])}."
