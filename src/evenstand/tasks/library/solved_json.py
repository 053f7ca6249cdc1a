"""What the solver found, as data: the keys of a mix, and what it adds to them."""

from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import LOAD
from evenstand.office.offer import Offer
from evenstand.office.solver import Purchase
from evenstand.report.json import Document, quantity, sentences

from ..mix.solving import Solved
from .seed_json import mix_document


def solved_document(found: Solved, style: Style) -> Document:
    """Write the best mix; the keys of a mix, and what the solver adds."""
    solution = found.solution
    return mix_document(found.mixed, style) | {
        "say": " ".join(sentences(found.advice, style)),
        "proven": not solution.gap,
        "gap": solution.gap,
        "limits": [
            {
                "on": "seed on hand" if isinstance(price.limit, Offer) else "limit",
                "side": price.side,
                "say": style.write(price.say),
            }
            for price in solution.prices
        ],
        "purchases": [_bought(each, style) for each in solution.purchases],
    }


def _bought(each: Purchase, style: Style) -> Document:
    weights = {"sown": each.sown, "on_hand": each.on_hand, "bought": each.bought}
    return {
        "name": each.name,
        "lot": each.lot or None,
        **{key: quantity(weight, LOAD, style) for key, weight in weights.items()},
        "bags": each.bags,
        "left": quantity(each.left, LOAD, style),
        "cost": each.cost,
    }
