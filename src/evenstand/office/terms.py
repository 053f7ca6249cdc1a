"""The left side of a row: what a limit adds up."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from evenstand.engine.quantities.units import HECTARE

from .layout import Layout
from .limits import (
    CostWithin,
    Limit,
    RateWithin,
    Scope,
    SeedShareWithin,
    SeedsWithin,
    SpeciesWithin,
    WeightShareWithin,
    WeightWithin,
)


@dataclass(frozen=True, slots=True)
class Terms:
    """Left side of a row: fixed terms, what a unit of the value adds, how far it moves the end."""

    fixed: Mapping[int, float]
    moves: Mapping[int, float] = field(default_factory=dict)
    shift: float = 0.0


def terms_of(layout: Layout, limit: Limit) -> Terms:
    """Return what one limit adds up, its columns in place."""
    match limit:
        case SeedsWithin(of=of):
            return Terms({i: layout.seeds(i) for i in layout.inside(of)}, shift=1.0)
        case WeightWithin(of=of):
            return Terms(dict.fromkeys(layout.inside(of), 1.0), shift=HECTARE)
        case SeedShareWithin(of=of):
            return _share(layout, of, layout.seeds)
        case WeightShareWithin(of=of):
            return _share(layout, of, lambda _: 1.0)
        case CostWithin():
            return Terms(layout.cost_terms(), shift=HECTARE)
        case SpeciesWithin(of=of):
            names = sorted({layout.offers[i].seed.name for i in layout.inside(of)})
            return Terms({layout.present[name]: 1.0 for name in names}, shift=1.0)
        case RateWithin():
            return _rate(layout, limit)


def _rate(layout: Layout, limit: RateWithin) -> Terms:
    """Rate against its end, or against 0 where the species is not sown."""
    name = limit.of.name
    rate = {i: layout.pls(i) for i in layout.inside(limit.of)}
    if name in layout.present:
        return Terms(rate, moves={layout.present[name]: -HECTARE})
    return Terms(rate, shift=HECTARE)


def _share(layout: Layout, of: Scope, measure: Callable[[int], float]) -> Terms:
    """Part − share × whole, against 0."""
    return Terms(
        {i: measure(i) for i in layout.inside(of)},
        moves={i: -measure(i) for i in range(len(layout.offers))},
    )
