"""What goes down on the way as documents, one for each box."""

from collections.abc import Sequence
from dataclasses import replace

from evenstand.engine.quantities.units import FIELD, RATE
from evenstand.engine.seeding.balance import Stretch
from evenstand.report.document import Document, Section
from evenstand.report.pen import Pen

from ..seeding.seeding import SownBox, SownField
from .parts import document, number, points, rate, table, taken, working


def sow_shown(found: SownField, pen: Pen) -> list[Document]:
    """Tell each box along the acres, and what to do next."""
    return [_box(each, pen) for each in found.boxes]


def _box(each: SownBox, pen: Pen) -> Document:
    now = each.closed.rate if each.closed else each.found.rate
    title = f"Sow: {each.name}" if each.name else "Sow"
    lines = each.closed.working if each.closed else each.found.working
    return replace(
        document(pen, each.advice, title=title, about=rate(pen, now)),
        sections=(
            Section("", (points(pen, each.found.warnings),)),
            *_stretches(each.found.balance.stretches, pen),
            *taken(pen, each.found.assumed),
        ),
        working=working(pen, lines, "sow"),
    )


def _stretches(stretches: Sequence[Stretch], pen: Pen) -> list[Section]:
    """List what each stretch got by itself."""
    if not stretches:
        return []
    field, unit = (pen.style.unit(kind).symbol for kind in (FIELD, RATE))
    rows = [
        [
            *(number(pen, x, FIELD) for x in (each.start, each.end)),
            *(number(pen, x, RATE) for x in (each.rate.value, each.rate.low, each.rate.high)),
        ]
        for each in stretches
    ]
    heads = ["from", "to", "rate", "from", "to"]
    return [Section("Rate between readings", (table(heads, [field] * 2 + [unit] * 3, rows),))]
