"""The best mix within limits as a document: what they cost, what to buy for it."""

from dataclasses import replace
from math import fsum

from evenstand.engine.order.purchase import Purchase
from evenstand.engine.quantities.units import LOAD, MONEY
from evenstand.office.solver import Solution
from evenstand.report.document import Document, Section, Words
from evenstand.report.pen import Pen

from ..mix.solving import Solved
from .mix import mix_shown
from .parts import document, number, points, table


def solved_shown(found: Solved, pen: Pen) -> Document:
    """Tell the best mix, what its limits cost, and what to buy for it."""
    mixed = mix_shown(found.mixed, pen)
    head = document(pen, found.advice, title=mixed.title, about=mixed.about)
    return replace(
        mixed,
        lead=head.lead,
        also=head.also,
        sections=(_limits(found.solution, pen), *_to_buy(found.solution, pen), *mixed.sections),
    )


def _limits(found: Solution, pen: Pen) -> Section:
    """List the limits that bind, the dearest first."""
    none = Words("None: the mix is just what you asked for.")
    prices = points(pen, (price.say for price in found.prices))
    return Section("Limits holding it back", (prices if found.prices else none,))


def _to_buy(found: Solution, pen: Pen) -> list[Section]:
    """List what to buy for the field."""
    if not found.purchases:
        return []
    unit, money = pen.style.unit(LOAD).symbol, pen.style.unit(MONEY).symbol
    costs = [each.cost for each in found.purchases]
    known = [cost for cost in costs if cost is not None]
    whole = fsum(known) if len(known) == len(costs) else None
    bought = table(
        ("", "sown", "on hand", "bought", "bags", "left", "cost"),
        ("", unit, unit, unit, "", unit, money),
        [_purchase(each, pen) for each in found.purchases],
        foot=["all together", *[""] * 5, number(pen, whole, MONEY)],
    )
    return [Section("To buy", (bought,))]


def _purchase(each: Purchase, pen: Pen) -> list[str]:
    lot = f" ({each.lot})" if each.lot else ""
    weights = (each.sown, each.on_hand, each.bought)
    return [
        f"{each.name}{lot}",
        *(number(pen, weight, LOAD) for weight in weights),
        "" if each.bags is None else f"{each.bags}",
        number(pen, each.left, LOAD),
        number(pen, each.cost, MONEY, digits=4),
    ]
