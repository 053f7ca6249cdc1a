"""What a problem must have before it can be laid out."""

from collections.abc import Sequence

from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import say

from .limits import CostWithin, Limit, Species, SpeciesWithin
from .offer import Goal, LeastCost, Nearest, Offer


def check(
    offers: Sequence[Offer], limits: Sequence[Limit], goal: Goal, *, area: float | None
) -> None:
    """Refuse a problem that cannot be laid out, naming the field.

    Raises
    ------
    MeasurementError
        For no offer, an area, price or species that is missing, or a limit on
        nothing that is offered.
    """
    if not offers:
        raise MeasurementError("offers", (), say("offer at least one species"))
    _check_area(offers, area)
    _check_prices(offers, limits, goal)
    names = {offer.seed.name for offer in offers}
    if isinstance(goal, Nearest):
        for name in (*goal.wish, *(goal.weights or {})):
            if name not in names:
                raise MeasurementError("wish", name, say("offer {name} or leave it out", name=name))
    for number, limit in enumerate(limits, start=1):
        _check_scope(offers, limit, f"limits[{number}]")


def _check_area(offers: Sequence[Offer], area: float | None) -> None:
    if area is not None and not 0 < area < float("inf"):
        raise MeasurementError("area", area, say("give an area above 0"))
    weighed = [o.seed.name for o in offers if o.on_hand or o.bag or not o.buy]
    if area is None and weighed:
        need = say(
            "give the area to be sown: {name} comes in bags or from the shed", name=weighed[0]
        )
        raise MeasurementError("area", None, need)


def _check_prices(offers: Sequence[Offer], limits: Sequence[Limit], goal: Goal) -> None:
    priced = isinstance(goal, LeastCost) or any(isinstance(limit, CostWithin) for limit in limits)
    for offer in offers:
        if priced and offer.buy and offer.seed.price is None:
            need = say(
                "give the price of {name}, or offer only what is on hand of it",
                name=offer.seed.name,
            )
            raise MeasurementError("price", None, need)


def _check_scope(offers: Sequence[Offer], limit: Limit, name: str) -> None:
    if isinstance(limit, CostWithin):
        return
    inside = {offer.seed.name for offer in offers if offer.is_in(limit.of)}
    if not inside and (limit.low or isinstance(limit.of, Species)):
        need = say("offer seed that this limit is on, or leave it out")
        raise MeasurementError(f"{name}.of", limit.of, need)
    if isinstance(limit, SpeciesWithin) and (limit.low or 0) > len(inside):
        need = say("only {n} are offered: offer more species, or ask for fewer", n=len(inside))
        raise MeasurementError(f"{name}.low", limit.low, need)
