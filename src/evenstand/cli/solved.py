"""``evenstand mix --solve``: the best mix within limits, what they cost, what to buy."""

from collections.abc import Iterator
from math import fsum

from evenstand.engine.quantities.units import LOAD, MONEY
from evenstand.office.solver import Purchase, Solution
from evenstand.report.notebook import Lines
from evenstand.report.table import table
from evenstand.tasks.mix.solving import Solved

from .mix_pages import mix_heading, mix_parts, notes_part, number
from .output import Out
from .pages import tag


def solved_page(found: Solved, out: Out) -> Iterator[Lines]:
    """Write the best mix, what its limits cost, and what to buy for it."""
    heading = mix_heading(found.mixed, out)
    yield [*heading, *tag(out, found.advice), *notes_part(found.mixed, out)]
    yield limits_part(found.solution, out)
    yield purchases_part(found.solution, out)
    yield from mix_parts(found.mixed, out)


def limits_part(found: Solution, out: Out) -> Lines:
    """List the limits that bind, the dearest first."""
    lines = out.sheet.heading("Limits that bind")
    if not found.prices:
        return [*lines, *out.sheet.paragraph("None: the mix is as it is wished for.", indent=1)]
    return [*lines, *out.sheet.points([out.write(price.say) for price in found.prices])]


def purchases_part(found: Solution, out: Out) -> Lines:
    """List what to buy for the field."""
    if not found.purchases:
        return []
    unit, money = out.style.unit(LOAD).symbol, out.style.unit(MONEY).symbol
    heads = [
        ("", "sown", "on hand", "bought", "bags", "left", "cost"),
        ("", unit, unit, unit, "", unit, money),
    ]
    rows = [_purchase(each, out) for each in found.purchases]
    costs = [each.cost for each in found.purchases]
    known = [cost for cost in costs if cost is not None]
    whole = fsum(known) if len(known) == len(costs) else None
    foot = ["all together", *[""] * 5, number(whole, MONEY, out)]
    return [*out.sheet.heading("To buy"), *table(out.sheet, heads, rows, foot=foot)]


def _purchase(each: Purchase, out: Out) -> list[str]:
    lot = f" ({each.lot})" if each.lot else ""
    weights = (each.sown, each.on_hand, each.bought)
    return [
        f"{each.name}{lot}",
        *(number(weight, LOAD, out) for weight in weights),
        "" if each.bags is None else f"{each.bags}",
        number(each.left, LOAD, out),
        number(each.cost, MONEY, out, digits=4),
    ]
