"""Sow as a page of a notebook: each box along the acres, and what to do next."""

from collections.abc import Iterator

from evenstand.engine.quantities.units import FIELD, RATE
from evenstand.engine.seeding.balance import Stretch
from evenstand.report.notebook import Lines
from evenstand.report.table import table
from evenstand.tasks.seeding.seeding import SownBox, SownField

from .output import Out
from .pages import rate_text, tag, taken, worksheet_part


def sow_page(found: SownField, out: Out) -> Iterator[Lines]:
    """Write every box."""
    for each in found.boxes:
        yield from _box(each, out)


def _box(each: SownBox, out: Out) -> Iterator[Lines]:
    now = each.closed.rate if each.closed else each.found.rate
    title = f"Sow: {each.name}" if each.name else "Sow"
    yield [*out.sheet.heading(title, rate_text(now, out)), *tag(out, each.advice)]
    yield out.sheet.points([out.write(text) for text in each.found.warnings])
    yield _stretches(each.found.balance.stretches, out)
    yield taken(out, each.found.assumed)
    working = each.closed.working if each.closed else each.found.working
    yield worksheet_part(out, working, "sow")


def _stretches(stretches: tuple[Stretch, ...], out: Out) -> Lines:
    """List what each stretch got by itself."""
    if not stretches:
        return []
    field, rate = out.style.unit(FIELD), out.style.unit(RATE)
    heads = [["from", "to", "rate", "from", "to"], [field.symbol] * 2 + [rate.symbol] * 3]
    rows = [
        [
            *(out.style.number(x / field.size) for x in (each.start, each.end)),
            *(
                out.style.number(x / rate.size)
                for x in (each.rate.value, each.rate.low, each.rate.high)
            ),
        ]
        for each in stretches
    ]
    return [*out.sheet.heading("Stretch by stretch"), *table(out.sheet, heads, rows)]
