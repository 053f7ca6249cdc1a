"""What a mix can be made from, and what makes one mix better than another."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal, TypeAlias

from evenstand.engine.mix.member import Seed
from evenstand.engine.quantities.errors import MeasurementError, require_positive
from evenstand.engine.quantities.phrases import say
from evenstand.engine.statistics.budget import nominal

from .limits import Everything, Grouped, RateWithin, Scope, Species


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """Seed of one lot that may go into the mix.

    Parameters
    ----------
    on_hand : float
        Bulk seed in the shed; it is paid for. [kg]
    bag : float, optional
        It is bought in whole bags of this size; without one, by weight. [kg]
    buy : bool
        Whether more than what is on hand can be had.

    Raises
    ------
    MeasurementError
        For seed on hand below zero or a bag that is not above zero.
    """

    seed: Seed
    on_hand: float = 0.0
    bag: float | None = None
    buy: bool = True

    def __post_init__(self) -> None:
        if not 0 <= self.on_hand < float("inf"):
            need = say("enter how much {name} you have on hand, 0 or more", name=self.seed.name)
            raise MeasurementError("on_hand", self.on_hand, need)
        if self.bag is not None:
            require_positive("bag", self.bag, "kg")

    def is_in(self, scope: Scope) -> bool:
        """Whether a limit on ``scope`` is on this seed."""
        match scope:
            case Everything():
                return True
            case Species(name):
                return self.seed.name == name
            case Grouped(group):
                return self.seed.group == group


@dataclass(frozen=True, slots=True)
class LeastCost:
    """The mix that costs least in seed to be bought."""


@dataclass(frozen=True, slots=True)
class Nearest:
    """The mix that is nearest to a wish.

    miss = Σ weight × |live seeds − wish|

    Parameters
    ----------
    wish : mapping of str to float
        Live seeds by species; 0 for those it does not name. [1/m²]
    weights : mapping of str to float
        What one live seed off the wish counts. Without a weight a miss counts
        as a share of the species' own wish, and a species that nobody wished
        for as a share of the mean wish. [m²]

    Raises
    ------
    MeasurementError
        For a wish for nothing, or a wish or weight below zero.
    """

    wish: Mapping[str, float]
    weights: Mapping[str, float] | None = None

    def __post_init__(self) -> None:
        for name, seeds in self.wish.items():
            if not 0 <= seeds < float("inf"):
                need = say("enter the live seeds you want of {name}, 0 or more", name=name)
                raise MeasurementError("wish", seeds, need)
        if not any(self.wish.values()):
            raise MeasurementError("wish", dict(self.wish), say("ask for at least one species"))
        for name, weight in (self.weights or {}).items():
            if not 0 <= weight < float("inf"):
                need = say("enter a weight of 0 or more for {name}", name=name)
                raise MeasurementError("weights", weight, need)

    def weight(self, name: str) -> float:
        """What one live seed of a species off its wish counts. [m²]"""
        if self.weights is not None and name in self.weights:
            return self.weights[name]
        wished = [seeds for seeds in self.wish.values() if seeds]
        own = self.wish.get(name, 0.0)
        return 1 / own if own else len(wished) / sum(wished)


Goal: TypeAlias = LeastCost | Nearest


def published(
    offers: Sequence[Offer], *, place: Literal["alone", "in mix"] = "in mix"
) -> tuple[RateWithin, ...]:
    """Make limits of the ranges that are printed for the species on offer.

    Where several sources print one, from the lowest of them to the highest.

    Parameters
    ----------
    place : "alone" or "in mix"
        Which ranges.
    """
    limits = {}
    for offer in offers:
        ranges = [each for each in offer.seed.published if each.place == place]
        if not ranges or offer.seed.name in limits:
            continue
        pls = {"pls": 1.0, "bulk": nominal(offer.seed.pls)}
        limits[offer.seed.name] = RateWithin(
            of=Species(offer.seed.name),
            low=min(each.low * pls[each.basis] for each in ranges),
            high=max(each.high * pls[each.basis] for each in ranges),
            source="; ".join(each.source for each in ranges),
        )
    return tuple(limits.values())
