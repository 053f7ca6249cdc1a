"""Whole bags that hold enough seed, at least cost."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, gcd
from typing import Annotated

from ..quantities.errors import MeasurementError, Path, require_positive
from ..quantities.phrases import Phrase, say
from ..quantities.units import BAGS, LOAD
from ..quantities.written import inside

# Whole numbers make the search exact: a hundredth of a milligram holds every pound and kilogram.
GRAINS_PER_KG = 100_000_000
CENTS = 100
LEFT_STEP = 5_000_000  # without prices, seed left over is told apart by 50 g
MOST_SIZES = 5
MOST_BAGS = 100_000  # of one size: beyond it somebody typed the weight in another unit


@dataclass(frozen=True, slots=True, kw_only=True)
class BagSize:
    """A bag as it is sold.

    Parameters
    ----------
    weight : float
        Net seed in it. [kg]
    price : float, optional
        What the bag costs.

    Raises
    ------
    MeasurementError
        For a weight that is not above zero or a price below zero.
    """

    weight: Annotated[float, LOAD]
    price: float | None = None

    def __post_init__(self) -> None:
        require_positive(Path("bag", "size"), self.weight, "kg")
        if not self.weight * GRAINS_PER_KG >= 1:
            raise MeasurementError(
                Path("bag", "size"), self.weight, say("enter the net weight of a bag")
            )
        if self.price is not None and not self.price >= 0:
            raise MeasurementError(
                Path("bag", "price"), self.price, say("enter a price of 0 or more")
            )


@dataclass(frozen=True, slots=True)
class BagCount:
    """So many bags of one size."""

    KEYS = ("count", *inside(("size",), "weight", "price"))

    size: BagSize
    count: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Bags:
    """What to buy: how many of each size, largest first. [kg]

    ``left`` is what they hold beyond the need; ``cost`` is None without
    prices.
    """

    counts: tuple[tuple[BagSize, int], ...]
    weight: float
    left: float
    cost: float | None

    @property
    def sizes(self) -> tuple[BagCount, ...]:
        """Sizes that are bought, and how many of each."""
        return tuple(BagCount(size, n) for size, n in self.counts if n)

    @property
    def say(self) -> Phrase:
        """The bags in words."""
        parts = [
            say("{n} of {weight}", n=BAGS(float(n)), weight=LOAD(size.weight, 4))
            for size, n in self.counts
            if n
        ]
        if not parts:
            return say("no bags")
        values = {f"b{i}": part for i, part in enumerate(parts)}
        return Phrase(" + ".join(f"{{{name}}}" for name in values), values)


def buy(need: float, sizes: Sequence[BagSize]) -> Bags:
    """Find the bags that hold at least the need, at least cost.

    Among costs equal to the cent the fewest bags win. Without prices the
    least seed left over comes first, to 50 g.

    Parameters
    ----------
    need : float
        Seed to buy, 0 or more. [kg]
    sizes : sequence of BagSize, length 1 to 5
        All with a price, or none.

    Raises
    ------
    MeasurementError
        For no size, more than five, one size twice, prices for some only, a
        need below zero, or a need of more than 100,000 bags of every size.

    Notes
    -----
    Exact: every number of bags of every size is tried that could still beat
    the best so far. What is missing costs at least its part of a bag of the
    best price by weight, and fills whole steps of the sizes' common divisor.

    Examples
    --------
    Two large bags cost less than one large and what small ones would do:

    >>> sizes = [BagSize(weight=25.0, price=40.0), BagSize(weight=10.0, price=22.0)]
    >>> bought = buy(43.0, sizes)
    >>> [n for _, n in bought.counts], bought.cost, bought.left
    ([2, 0], 80.0, 7.0)
    """
    _require(need, sizes)
    ordered = sorted(sizes, key=lambda size: (Fraction(_cost(size), _grains(size)), -size.weight))
    search = _Search(ordered, step=LEFT_STEP if sizes[0].price is None else 1)
    counts = search.best(ceil(need * GRAINS_PER_KG - 0.5))
    by_size = sorted(zip(ordered, counts, strict=True), key=lambda pair: -pair[0].weight)
    weight = 0.0
    for size, n in by_size:
        weight = weight + n * size.weight
    cost = 0.0
    for size, n in by_size:
        cost = cost + n * (size.price or 0.0)
    return Bags(
        counts=tuple(by_size),
        weight=weight,
        left=max(0.0, weight - need),
        cost=None if ordered[0].price is None else cost,
    )


def _require(need: float, sizes: Sequence[BagSize]) -> None:
    if not 1 <= len(sizes) <= MOST_SIZES:
        need_words = say("enter 1 to {most} bag sizes per seed", most=MOST_SIZES)
        raise MeasurementError("bags", len(sizes), need_words)
    if len({size.weight for size in sizes}) < len(sizes):
        raise MeasurementError("bags", len(sizes), say("enter each bag size only once"))
    if len({size.price is None for size in sizes}) > 1:
        raise MeasurementError(
            Path("bag", "price"), None, say("enter a price for every bag size, or for none")
        )
    if not need >= 0:
        raise MeasurementError("need", need, say("enter 0 or more"))
    if need > MOST_BAGS * max(size.weight for size in sizes):
        need_words = say(
            "check the area and rate: together they call for more than {n} bags", n=MOST_BAGS
        )
        raise MeasurementError(Path("bag", "size"), need, need_words)


def _grains(size: BagSize) -> int:
    return round(size.weight * GRAINS_PER_KG)


def _cost(size: BagSize) -> int:
    """Cost as a whole number; without prices the weight itself is to be kept low."""
    return _grains(size) if size.price is None else round(size.price * CENTS)


class _Search:
    """Branch and bound over whole numbers of bags, best value by weight first.

    What is kept low is the cost in whole steps, then the number of bags.
    """

    def __init__(self, sizes: Sequence[BagSize], *, step: int) -> None:
        self.weights = [_grains(size) for size in sizes]
        self.costs = [_cost(size) for size in sizes]
        self.step = step
        self.divisors = [gcd(*self.weights[i:]) for i in range(len(sizes))]
        self.largest = [max(self.weights[i:]) for i in range(len(sizes))]
        self.found: tuple[int, int] | None = None
        self.counts: tuple[int, ...] = ()

    def best(self, need: int) -> tuple[int, ...]:
        """Return how many bags of each size hold the need at least cost."""
        self._try(max(0, need), cost=0, counts=())
        return self.counts

    def _try(self, missing: int, *, cost: int, counts: tuple[int, ...]) -> None:
        place = len(counts)
        if missing <= 0:
            self._keep(cost, (*counts, *([0] * (len(self.weights) - place))))
            return
        weight, price = self.weights[place], self.costs[place]
        most = -(-missing // weight)
        least = most if place == len(self.weights) - 1 else 0
        bags = _bags(counts)
        for n in range(most, least - 1, -1):
            left = missing - n * weight
            if self._dearer(cost + n * price, left, place + 1):
                return  # and fewer still cost more: what follows is no better by weight
            if self._could_win(cost + n * price, bags + n, left=left, place=place + 1):
                self._try(left, cost=cost + n * price, counts=(*counts, n))

    def _keep(self, cost: int, counts: tuple[int, ...]) -> None:
        value = (cost // self.step, _bags(counts))
        if self.found is None or value < self.found:
            self.found, self.counts = value, counts

    def _dearer(self, cost: int, left: int, place: int) -> bool:
        """Whether even broken bags at the best price left would cost more."""
        if self.found is None or left <= 0:
            return False
        limit = (self.found[0] + 1) * self.step
        return left * self.costs[place] >= (limit - cost) * self.weights[place]

    def _could_win(self, cost: int, bags: int, *, left: int, place: int) -> bool:
        """Whether the rest, at its least in every way, could beat the best so far."""
        if self.found is None:
            return True
        if left > 0:
            whole = -(-left // self.divisors[place]) * self.divisors[place]
            cost = cost - (-whole * self.costs[place] // self.weights[place])
            bags = bags - (-left // self.largest[place])
        return (cost // self.step, bags) < self.found


def _bags(counts: Sequence[int]) -> int:
    return sum(count for count in counts)
