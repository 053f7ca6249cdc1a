"""How all that goes into the boxes is sold, and what of it is on hand."""

from collections.abc import Iterator

from evenstand.engine.order.bags import BagSize
from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import LOAD
from evenstand.engine.statistics.budget import nominal

from ..boxes.boxes import Boxes
from ..mix.members import Sowing
from ..parsing.warned import Warned
from ..seed.bags import bags_sold
from ..seed.lots import ShelfLot


def sold(boxes: Boxes) -> Iterator[tuple[str, tuple[BagSize, ...], float]]:
    """Name, bag sizes and seed on hand of all that goes into the boxes. [kg]"""
    for each in boxes.tipped:
        if each.lot is not None:
            yield each.portion.name, each.lot.bags, each.lot.on_hand
    in_boxes = {f.box.carrier.name for f in boxes.used if f.box.carrier is not None}
    for member in boxes.mixed.members:
        if member.of.name in in_boxes and member.lot is None:
            yield member.of.name, _carrier_bags(member), _on_hand(member)


def _carrier_bags(member: Sowing) -> tuple[BagSize, ...]:
    price = member.of.price
    sizes, by_weight = member.said.member.bags, None if price is None else nominal(price)
    return bags_sold(member.given, sizes, price=by_weight)


def _on_hand(member: Sowing) -> float:
    there = member.said.member.on_hand
    return member.given.plain("on_hand", there, LOAD, zero=True) if there else 0.0


def bagless(boxes: Boxes) -> list[Warned]:
    """Ask for bag sizes where whole bags cannot be counted."""
    missing = {name for name, bags, _ in sold(boxes) if not bags}
    text = (
        "Enter the bag sizes and prices. Without them, the order is the exact amount you need,"
        " and its cost is unknown."
    )
    return [
        Warned(member.given.path("bags"), say(text), name)
        for member, name in _members(boxes)
        if name in missing
    ]


def _members(boxes: Boxes) -> Iterator[tuple[ShelfLot | Sowing, str]]:
    for each in boxes.tipped:
        if each.lot is not None:
            yield each.lot, each.portion.name
    for member in boxes.mixed.members:
        if member.lot is None:
            yield member, member.of.name
