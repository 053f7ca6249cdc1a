"""A catch as a document: its rate both ways, and what would make it more certain."""

from dataclasses import replace

from evenstand.engine.quantities.units import PERCENT, ROWS, SHARE
from evenstand.report.document import Block, Document, Section, Words
from evenstand.report.drawn import Bar, Columns, Part, Parts, Strip
from evenstand.report.pen import Pen

from ..calibration.catch import Caught
from .parts import document, rate, span, taken, working


def catch_shown(found: Caught, pen: Pen) -> Document:
    """Tell what a catch says, and what would make it more certain."""
    measured = found.measured
    rows = pen.write(ROWS(measured.rows_caught))
    times = f", {measured.repeats} times" if measured.repeats > 1 else ""
    shown: list[Block] = [_rates(found, pen), _strip(found, pen)]
    if found.bench is not None and found.bench.why is not None:
        shown.append(Words(pen.write(found.bench.why) + "."))
    return replace(
        document(pen, found.advice, title="Catch", about=f"{rows} caught{times}"),
        sections=(
            *(Section("", (block,)) for block in shown),
            _budget(found, pen),
            *taken(pen, found.assumed),
        ),
        working=working(pen, measured.working, "catch"),
    )


def _rates(found: Caught, pen: Pen) -> Columns:
    pairs = (("in the field", found.measured.field), ("stationary", found.measured.static))
    return Columns(tuple((name, rate(pen, r), span(pen, r)) for name, r in pairs), right=(1,))


def _strip(found: Caught, pen: Pen) -> Strip:
    measured, target = found.measured, found.target
    judged = measured.static if target and target.on == "static" else measured.field
    said = measured.verdict.word if measured.verdict else ""
    return Strip((Bar("catch", judged, said),), target, pen.style)


def _budget(found: Caught, pen: Pen) -> Section:
    """Tell what makes the range, each with its cure."""
    half, wanted = (pen.write(SHARE(share, 2)) for share in (found.half, found.wanted))
    cures = {cure.name: cure for cure in found.cures}
    parts = []
    for each in found.measured.shares:
        if each.part < PERCENT:
            continue
        advice = "same in every catch" if each.common else "differs each catch"
        if cure := cures.get(each.name):
            reach = pen.write(SHARE(cure.reach, 2))
            advice += f"; {pen.write(cure.say)}: then ± {reach}"
        parts.append(Part(each.name, each.part, pen.write(SHARE(each.part, 2)), advice))
    shown = (Parts(tuple(parts)),) if parts else ()
    return Section("Where the uncertainty comes from", shown, f"± {half}, goal ± {wanted}")
