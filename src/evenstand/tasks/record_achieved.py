"""What was achieved: pure live seed of every species that went on the ground, with its range."""

from collections.abc import Iterator
from dataclasses import dataclass

from evenstand.engine.budget import Estimate, Quantity, budget, estimate, nominal
from evenstand.engine.units import DENSITY, RATE, SHARE
from evenstand.engine.words import Phrase, say
from evenstand.report.document import Cell, Section, Table, Words
from evenstand.report.pen import Pen

from .portions import Tipped
from .record_frame import Reader
from .record_gather import JobSoFar
from .record_seed import NOT_WRITTEN

WEIGHED = say("By weight: seed that went out of each box, over the ground that was sown.")
BY_SETTING = say(
    "By the setting of each box and its catches: what went out was not weighed, or the ground not "
    "written down."
)
BY_BOTH = say("By weight where a box was weighed back, by its setting where not.")


def ranged(found: Quantity) -> Estimate:
    """Put the 95 % range around what was worked out."""
    return estimate(found, budget(found, {}))


@dataclass(frozen=True, kw_only=True)
class Achieved:
    """One species on the ground: bulk and pure live seed [kg/m²], live seeds [1/m²].

    ``part`` is what was laid down of what was planned [-]; ``weighed`` tells
    whether the box was weighed back.
    """

    name: str
    box: str
    planned: Quantity
    bulk: Quantity
    pls: Quantity
    live: Quantity
    part: float
    weighed: bool


def achieved(job: JobSoFar) -> tuple[Achieved, ...]:
    """Return every species of the mix whose box has laid down a known rate.

    A box is taken to be mixed well: each species is its part of the weight.
    """
    return tuple(_of_boxes(job))


def _of_boxes(job: JobSoFar) -> Iterator[Achieved]:
    if job.boxes is None:
        return
    tipped = {each.portion.name: each for each in job.boxes.tipped}
    for filled in job.boxes.used:
        rate, weighed = job.achieved(filled.box.name)
        if rate is None:
            continue
        for portion in filled.portions:
            bulk = rate * filled.shares[portion.name]
            pls = _pls(tipped[portion.name])
            yield Achieved(
                name=portion.name,
                box=filled.box.name,
                planned=portion.weighed * pls,
                bulk=bulk,
                pls=bulk * pls,
                live=bulk * portion.live_per_kg,
                part=nominal(bulk) / portion.weighed,
                weighed=weighed,
            )


def _pls(tipped: Tipped) -> Quantity:
    return tipped.lot.pls if tipped.lot else 1.0


def basis(found: tuple[Achieved, ...]) -> Phrase:
    """Say how the rates were found."""
    weighed = {each.weighed for each in found}
    return BY_BOTH if len(weighed) > 1 else WEIGHED if True in weighed else BY_SETTING


def achieved_section(job: JobSoFar, reader: Reader) -> Section:
    """Write planned against achieved, species by species."""
    pen, title, found = reader.pen, say("The mix as achieved"), achieved(job)
    if not found:
        return reader.section(title, Words(pen.write(NOT_WRITTEN)))
    total = say("together")
    rows = [_row(each, pen) for each in found]
    if len(found) > 1:
        rows.append(
            (
                pen.cell(total),
                pen.cell(""),
                pen.ranged(ranged(_sum(each.planned for each in found)), RATE),
                pen.ranged(ranged(_sum(each.pls for each in found)), RATE),
                pen.cell(""),
                pen.ranged(ranged(_sum(each.bulk for each in found)), RATE),
                pen.ranged(ranged(_sum(each.live for each in found)), DENSITY),
            )
        )
    table = Table(
        caption=pen.write(say("Pure live seed planned and achieved")),
        heads=(
            pen.write(say("Species")),
            pen.write(say("Box")),
            pen.write(say("PLS planned, {unit}", unit=pen.unit(RATE))),
            pen.write(say("PLS achieved, {unit}", unit=pen.unit(RATE))),
            pen.write(say("of the plan, %")),
            pen.write(say("bulk achieved, {unit}", unit=pen.unit(RATE))),
            pen.write(say("live {unit}", unit=pen.unit(DENSITY))),
        ),
        rows=tuple(rows),
        words=(1,),
    )
    return reader.section(title, Words(pen.write(basis(found)), quiet=True), table)


def _row(each: Achieved, pen: Pen) -> tuple[Cell, ...]:
    return (
        pen.cell(each.name),
        Cell(each.box),
        pen.ranged(ranged(each.planned), RATE),
        pen.ranged(ranged(each.pls), RATE),
        pen.number(each.part, SHARE),
        pen.ranged(ranged(each.bulk), RATE),
        pen.ranged(ranged(each.live), DENSITY),
    )


def _sum(parts: Iterator[Quantity]) -> Quantity:
    total: Quantity = 0.0
    for part in parts:
        total = total + part
    return total
