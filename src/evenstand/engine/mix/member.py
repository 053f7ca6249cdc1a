"""Who is in a mix: seed or a carrier, and the rate it was given by."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal, TypeAlias

from ..quantities.errors import MeasurementError, Path, require_positive
from ..quantities.phrases import say
from ..statistics.budget import Cause, Quantity, nominal

Group = Literal["grass", "legume", "broadleaf", "brassica"]
Season = Literal["cool", "warm"]


@dataclass(frozen=True, slots=True)
class OfFull:
    """A share of the full rate, the rate of the species sown alone; 1 is all of it."""

    share: float


@dataclass(frozen=True, slots=True)
class LiveSeeds:
    """Live seeds per ground, 1/m²."""

    seeds: Quantity


@dataclass(frozen=True, slots=True)
class PlsRate:
    """Weight of pure live seed per ground, kg/m²."""

    rate: Quantity


@dataclass(frozen=True, slots=True)
class BulkRate:
    """Weight per ground as it comes out of the bag, kg/m²."""

    rate: Quantity


@dataclass(frozen=True, slots=True)
class Rest:
    """What the other members leave of the whole."""


Rate: TypeAlias = LiveSeeds | PlsRate | BulkRate
Given: TypeAlias = OfFull | Rate | Rest
Whole: TypeAlias = OfFull | Rate

ALL_OF_IT = OfFull(1.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Published:
    """A range of rates that somebody prints for a species.

    Parameters
    ----------
    low, high : float
        Of bulk or of pure live seed, as ``basis`` says. [kg/m²]
    place : "alone" or "in mix"
        What it is printed for.
    basis : "pls" or "bulk"

    Raises
    ------
    MeasurementError
        For ends below zero or the wrong way round.
    """

    low: float
    high: float
    place: Literal["alone", "in mix"] = "alone"
    basis: Literal["pls", "bulk"] = "pls"
    source: str = ""

    def __post_init__(self) -> None:
        if not 0 <= self.low <= self.high:
            need = say("enter the lower rate of the range first, both 0 or more")
            raise MeasurementError("published", (self.low, self.high), need)


@dataclass(frozen=True, slots=True, kw_only=True)
class Depth:
    """How deep a species may lie, as somebody prints it.

    Parameters
    ----------
    low, high : float
        Shallowest and deepest, 0 on the surface. [m]

    Raises
    ------
    MeasurementError
        For ends above the ground or the wrong way round.
    """

    low: float
    high: float
    source: str = ""

    def __post_init__(self) -> None:
        if not 0 <= self.low <= self.high:
            need = say("enter the shallower depth first, both 0 or more")
            raise MeasurementError("depth", (self.low, self.high), need)


@dataclass(frozen=True, slots=True, kw_only=True)
class Seed:
    """Seed of one lot, as far as a mix needs to know it.

    Parameters
    ----------
    name : str
        The species.
    pls : Quantity
        Pure live seed in what comes out of the bag. [-]
    seeds_per_kg : Quantity
        Of pure seed. [1/kg]
    lot : str
        Which lot, where a species comes from more than one.
    price : Quantity, optional
        Of bulk seed. [$/kg]
    group : "grass", "legume", "broadleaf" or "brassica", optional
    season : "cool" or "warm", optional
    full : LiveSeeds, PlsRate or BulkRate, optional
        Rate of the species sown alone.
    causes : mapping of str to Cause
        What is known of each tag of ``pls`` and ``seeds_per_kg``.

    Raises
    ------
    MeasurementError
        For no name, no live seed, more than 100% of it, a count, price or
        full rate that cannot be.
    """

    name: str
    pls: Quantity
    seeds_per_kg: Quantity
    lot: str = ""
    price: Quantity | None = None
    group: Group | None = None
    season: Season | None = None
    full: Rate | None = None
    published: tuple[Published, ...] = ()
    depth: Depth | None = None
    causes: Mapping[str, Cause] = field(default_factory=dict)

    def __post_init__(self) -> None:
        if not self.name:
            raise MeasurementError("species", self.name, say("enter the name of the species"))
        if not 0 < nominal(self.pls) <= 1:
            need = say(
                "{name}: enter the live seed from its tag, above 0% to 100%; if "
                "it has none, it can only be a carrier",
                name=self.name,
            )
            raise MeasurementError("pls", self.pls, need)
        require_positive("seeds_per_kg", nominal(self.seeds_per_kg), "seeds/kg")
        _check_price(self.price)
        if self.full is not None:
            require_positive(Path("full", "rate"), nominal(size(self.full)))


@dataclass(frozen=True, slots=True, kw_only=True)
class Carrier:
    """What is mixed in to make seed flow, with no live seed of its own.

    Parameters
    ----------
    price : Quantity, optional
        [$/kg]

    Raises
    ------
    MeasurementError
        For no name or a price below zero.
    """

    name: str
    price: Quantity | None = None

    def __post_init__(self) -> None:
        if not self.name:
            raise MeasurementError("carrier", self.name, say("enter the name of the carrier"))
        _check_price(self.price)


def _check_price(price: Quantity | None) -> None:
    if price is not None and not nominal(price) >= 0:
        raise MeasurementError("price", price, say("enter a price of 0 or more"))


@dataclass(frozen=True, slots=True)
class Member:
    """One line of a mix: what it is, and what its rate was given by."""

    of: Seed | Carrier
    given: Given

    @property
    def name(self) -> str:
        """Name of the species or the carrier."""
        return self.of.name


def size(rate: Whole) -> Quantity:
    """Return the bare number of a rate or a share."""
    match rate:
        case OfFull(share):
            return share
        case LiveSeeds(seeds):
            return seeds
        case PlsRate(weight) | BulkRate(weight):
            return weight


def times(rate: Rate, factor: Quantity) -> Rate:
    """Return the same kind of rate, ``factor`` times as much."""
    match rate:
        case LiveSeeds(seeds):
            return LiveSeeds(seeds * factor)
        case PlsRate(weight):
            return PlsRate(weight * factor)
        case BulkRate(weight):
            return BulkRate(weight * factor)
