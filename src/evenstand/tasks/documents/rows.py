"""Rows side by side as a document."""

from dataclasses import replace

from evenstand.engine.drill.safety import REACH
from evenstand.engine.quantities.units import CATCHES
from evenstand.engine.rows.evenness import Evenness
from evenstand.engine.rows.findings import Finding
from evenstand.report.document import Block, Document, Section, Words
from evenstand.report.drawn import RowMarks
from evenstand.report.pen import Pen

from ..calibration.rows import Rows
from .parts import document, listed, points, taken, working

SIGNS = "● row   ✕ odd row   ░ what catching and weighing alone do"


def rows_shown(found: Rows, pen: Pen) -> Document:
    """Tell how even the rows are, and what to check."""
    even = found.even
    times = pen.write(CATCHES(even.scatter.catches))
    return replace(
        document(pen, (even.next, even.say), title="Rows", about=f"{len(even.rows)} rows, {times}"),
        sections=(
            Section("", marks(even)),
            *listed(pen, "", (REACH,) if even.findings else (), alert=True),
            *(_checks(finding, pen) for finding in even.findings),
            Section("", (Words(pen.write(even.surer)),)),
            *taken(pen, found.assumed),
        ),
        working=working(pen, even.working, "rows"),
    )


def marks(even: Evenness) -> tuple[Block, ...]:
    """Draw the rows side by side."""
    noise = (even.rows[0].high - even.rows[0].low) / 2
    odd = frozenset(each.row for each in even.odd_rows)
    return RowMarks(tuple(row.off for row in even.rows), odd, noise), Words(SIGNS, quiet=True)


def _checks(finding: Finding, pen: Pen) -> Section:
    said = Words(f"{pen.write(finding.say)} Check, in this order:")
    return Section("", (said, points(pen, (each.say for each in finding.checks))))
