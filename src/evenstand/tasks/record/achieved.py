"""What was achieved: pure live seed of every species that went on the ground, with its range."""

from collections.abc import Sequence

from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import DENSITY, RATE, SHARE
from evenstand.engine.statistics.budget import ranged, total
from evenstand.report.document import Cell, Section, Table, Words
from evenstand.report.pen import Pen

from ..whole_job.achieved import Achieved, Planned, achieved, basis, plans
from ..whole_job.gather import JobSoFar
from .frame import Reader
from .seed import why_not


def achieved_section(job: JobSoFar, reader: Reader) -> Section:
    """Write planned against achieved, species by species."""
    pen, title = reader.pen, say("The mix as seeded")
    planned, found = plans(job), achieved(job)
    if not found:
        return reader.section(title, Words(pen.write(why_not(job))))
    rows = [_row(each, pen) for each in planned]
    if len(found) == len(planned) > 1:
        rows.append(_together(planned, found, pen))
    table = Table(
        caption=pen.write(say("Pure live seed planned and seeded")),
        heads=(
            pen.write(say("Species")),
            pen.write(say("Box")),
            pen.write(say("PLS planned, {unit}", unit=pen.unit(RATE))),
            pen.write(say("PLS seeded, {unit}", unit=pen.unit(RATE))),
            pen.write(say("of the plan, %")),
            pen.write(say("bulk seeded, {unit}", unit=pen.unit(RATE))),
            pen.write(say("live {unit}", unit=pen.unit(DENSITY))),
        ),
        rows=tuple(rows),
        words=(1,),
    )
    return reader.section(title, Words(pen.write(basis(found)), quiet=True), table)


def _row(each: Planned, pen: Pen) -> tuple[Cell, ...]:
    done = each.achieved
    return (
        pen.cell(each.name),
        Cell(each.box),
        pen.ranged(ranged(each.pls), RATE),
        pen.ranged(ranged(done.pls) if done else None, RATE),
        pen.number(done.part if done else None, SHARE),
        pen.ranged(ranged(done.bulk) if done else None, RATE),
        pen.ranged(ranged(done.live) if done else None, DENSITY),
    )


def _together(planned: Sequence[Planned], found: Sequence[Achieved], pen: Pen) -> tuple[Cell, ...]:
    return (
        pen.cell(say("total")),
        Cell(""),
        pen.ranged(ranged(total(each.pls for each in planned)), RATE),
        pen.ranged(ranged(total(each.pls for each in found)), RATE),
        Cell(""),
        pen.ranged(ranged(total(each.bulk for each in found)), RATE),
        pen.ranged(ranged(total(each.live for each in found)), DENSITY),
    )
