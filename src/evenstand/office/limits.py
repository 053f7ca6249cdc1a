"""Limits that a mix must keep to, each with its words.

A limit has a low side, a high side, or both. Each side stands for itself: it
may bind, and it may clash with others.
"""

from dataclasses import dataclass
from typing import Literal, TypeAlias

from evenstand.engine.mix.member import Group
from evenstand.engine.quantities.errors import MeasurementError, Path
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.quantities.units import COST, DENSITY, NUMBER, RATE, SHARE, Kind

Side = Literal["low", "high"]


@dataclass(frozen=True, slots=True)
class Everything:
    """All seed of the mix."""


@dataclass(frozen=True, slots=True)
class Species:
    """All lots of one species."""

    name: str


@dataclass(frozen=True, slots=True)
class Grouped:
    """All species of one group."""

    group: Group


Scope: TypeAlias = Everything | Species | Grouped
ALL = Everything()


@dataclass(frozen=True, slots=True, kw_only=True)
class SeedsWithin:
    """Live seeds per ground.

    Parameters
    ----------
    low, high : float, optional
        [1/m²]
    of : Everything, Species or Grouped
    """

    low: float | None = None
    high: float | None = None
    of: Scope = ALL

    def __post_init__(self) -> None:
        _check(self, "seeds")


@dataclass(frozen=True, slots=True, kw_only=True)
class WeightWithin:
    """Bulk seed per ground.

    Parameters
    ----------
    low, high : float, optional
        [kg/m²]
    of : Everything, Species or Grouped
    """

    low: float | None = None
    high: float | None = None
    of: Scope = ALL

    def __post_init__(self) -> None:
        _check(self, "weight")


@dataclass(frozen=True, slots=True, kw_only=True)
class SeedShareWithin:
    """Part of all live seeds.

    Parameters
    ----------
    low, high : float, optional
        [-]
    """

    of: Species | Grouped
    low: float | None = None
    high: float | None = None

    def __post_init__(self) -> None:
        _check(self, "seed share", most=1.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class WeightShareWithin:
    """Part of the bulk weight.

    Parameters
    ----------
    low, high : float, optional
        [-]
    """

    of: Species | Grouped
    low: float | None = None
    high: float | None = None

    def __post_init__(self) -> None:
        _check(self, "weight share", most=1.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class RateWithin:
    """Pure live seed per ground of a species, where it is sown at all.

    Parameters
    ----------
    low, high : float, optional
        [kg/m²]
    source : str
        Who prints the range.
    """

    of: Species
    low: float | None = None
    high: float | None = None
    source: str = ""

    def __post_init__(self) -> None:
        _check(self, "rate")


@dataclass(frozen=True, slots=True, kw_only=True)
class SpeciesWithin:
    """Number of species sown."""

    low: int | None = None
    high: int | None = None
    of: Everything | Grouped = ALL

    def __post_init__(self) -> None:
        _check(self, "species")


@dataclass(frozen=True, slots=True, kw_only=True)
class CostWithin:
    """Money per ground, for seed that must be bought.

    Parameters
    ----------
    high : float
        [$/m²]
    """

    high: float

    @property
    def low(self) -> None:
        """There is no least cost."""

    def __post_init__(self) -> None:
        _check(self, "cost")


Limit: TypeAlias = (
    SeedsWithin
    | WeightWithin
    | SeedShareWithin
    | WeightShareWithin
    | RateWithin
    | SpeciesWithin
    | CostWithin
)


def _check(limit: Limit, name: str, most: float | None = None) -> None:
    """Refuse a limit that no mix could ever keep to."""
    if limit.low is None and limit.high is None:
        need = say("enter a minimum, a maximum, or both")
        raise MeasurementError(Path(name, "low"), None, need)
    for side, value in (("low", limit.low), ("high", limit.high)):
        if value is not None and not 0 <= value < float("inf"):
            raise MeasurementError(Path(name, side), value, say("enter 0 or more"))
        if value is not None and most is not None and value > most:
            raise MeasurementError(Path(name, side), value, say("enter a share of 100% or less"))
    if limit.low is not None and limit.high is not None and limit.low > limit.high:
        need = say("enter a minimum that is not above the maximum")
        raise MeasurementError(Path(name, "low"), limit.low, need)


KINDS: dict[type[Limit], Kind] = {
    SeedsWithin: DENSITY,
    WeightWithin: RATE,
    SeedShareWithin: SHARE,
    WeightShareWithin: SHARE,
    RateWithin: RATE,
    SpeciesWithin: NUMBER,
    CostWithin: COST,
}

_MEASURES: dict[type[Limit], str] = {
    SeedsWithin: "{bound}, live, {scope}",
    WeightWithin: "{bound} of bulk seed {scope}",
    SeedShareWithin: "{bound} of the seeds {scope}",
    WeightShareWithin: "{bound} of the weight {scope}",
    RateWithin: "{bound} of pure live seed {scope}, if it is in the mix",
    SpeciesWithin: "{bound} species {scope}",
    CostWithin: "a cost of {bound}",
}

PLURALS: dict[Group, str] = {
    "grass": "grasses",
    "legume": "legumes",
    "broadleaf": "broadleaf species",
    "brassica": "brassicas",
}


def in_words(limit: Limit, side: Side) -> Phrase:
    """Say one side of a limit, as in ``at least 20 seeds/ft², live, of legumes``.

    Parameters
    ----------
    side : "low" or "high"
    """
    value = limit.low if side == "low" else limit.high
    if value is None:
        raise MeasurementError(
            side, None, say("choose the side this limit has: minimum or maximum")
        )
    shown = KINDS[type(limit)](value, 4)
    bound = (
        say("at least {value}", value=shown)
        if side == "low"
        else say("at most {value}", value=shown)
    )
    scope = ALL if isinstance(limit, CostWithin) else limit.of
    return say(_MEASURES[type(limit)], bound=bound, scope=scope_in_words(scope))


def scope_in_words(scope: Scope) -> Phrase:
    """Say what a limit is on: ``in all``, ``of oats``, ``of legumes``."""
    match scope:
        case Everything():
            return say("in all")
        case Species(name):
            return say("of {name}", name=name)
        case Grouped(group):
            return say("of {group}", group=say(PLURALS[group]))
