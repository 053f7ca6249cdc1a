"""Offers, limits and a goal laid out as columns and rows."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from math import ceil

from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import HECTARE, LOAD

from .highs import INFINITY, Column, Row
from .layout import MOST, Bound, Layout
from .limits import (
    KINDS,
    CostWithin,
    Limit,
    RateWithin,
    Scope,
    SeedShareWithin,
    SeedsWithin,
    Side,
    Species,
    SpeciesWithin,
    WeightShareWithin,
    WeightWithin,
    in_words,
)
from .offer import Goal, LeastCost, Nearest, Offer


def lay_out(
    offers: Sequence[Offer],
    limits: Sequence[Limit],
    goal: Goal,
    *,
    area: float | None,
    least_seeds: float,
    tight: bool,
) -> Layout:
    """Turn a problem into columns and rows.

    Parameters
    ----------
    area : float or None
        Ground to be sown, m².
    least_seeds : float
        Live seeds from which a species counts as sown, 1/m².
    tight : bool
        Whether the ends of the columns may lean on the limits; not where
        limits will be let go.
    """
    layout = Layout(offers, goal, (area or HECTARE) / HECTARE)
    for _ in offers:
        layout.column(Column(MOST))
    _stock(layout)
    counted = any(isinstance(limit, SpeciesWithin) for limit in limits)
    if counted or any(isinstance(limit, RateWithin) and limit.low for limit in limits):
        _presence_columns(layout)
    for limit in limits:
        for side in ("low", "high"):
            if getattr(limit, side) is not None:
                _side(layout, limit, side)
    _presence_rows(layout, least_seeds if counted else 0.0, tight=tight)
    _aim(layout)
    aims = {i: column.cost for i, column in enumerate(layout.columns) if column.cost}
    layout.objective = layout.row(Row(aims))
    return layout


def _stock(layout: Layout) -> None:
    """Tie what is sown to what is on hand and what is bought."""
    for i, offer in enumerate(layout.offers):
        terms = {i: layout.area}
        if offer.buy and (offer.on_hand or offer.bag):
            size = offer.bag or 1.0
            most = float(ceil(MOST * layout.area / size))
            layout.bought[i] = layout.column(Column(most, whole=offer.bag is not None))
            layout.row(Row({**terms, layout.bought[i]: -size}, high=offer.on_hand))
        elif not offer.buy:
            row = layout.row(Row(terms, high=offer.on_hand))
            text = say(
                "only {on_hand} of {name} on hand, and none for sale",
                on_hand=LOAD(offer.on_hand),
                name=offer.seed.name,
            )
            layout.bounds.append(
                Bound(
                    row=row,
                    side="high",
                    limit=offer,
                    value=offer.on_hand,
                    kind=LOAD,
                    say=text,
                    shift=1.0,
                )
            )


def _presence_columns(layout: Layout) -> None:
    for offer in layout.offers:
        if offer.seed.name not in layout.present:
            layout.present[offer.seed.name] = layout.column(Column(1.0, whole=True))


def _presence_rows(layout: Layout, least_seeds: float, *, tight: bool) -> None:
    """Sown, then at least so many seeds; not sown, then nothing."""
    ends = _ends(layout) if tight else {}
    for name, present in layout.present.items():
        lots = layout.inside(Species(name))
        end = min(MOST, sum(ends.get(i, MOST) for i in lots))
        layout.row(Row({**dict.fromkeys(lots, 1.0), present: -end}, high=0.0))
        if least_seeds:
            terms = {i: layout.seeds(i) for i in lots}
            layout.row(Row({**terms, present: -least_seeds}, low=0.0))


def _ends(layout: Layout) -> dict[int, float]:
    """How much of each offer its limits can ever let in, kg/ha."""
    ends: dict[int, float] = {}
    for bound in layout.bounds:
        row = layout.rows[bound.row]
        if row.high == INFINITY or any(a < 0 for a in row.terms.values()):
            continue
        for column, a in row.terms.items():
            if a > 0 and column < len(layout.offers):
                ends[column] = min(ends.get(column, MOST), row.high / a)
    return ends


def _side(layout: Layout, limit: Limit, side: Side) -> None:
    value = float(getattr(limit, side))
    parts = terms_of(layout, limit)
    terms = dict(parts.fixed)
    for column, move in parts.moves.items():
        terms[column] = terms.get(column, 0.0) + move * value
    end = parts.shift * value
    row = Row(terms, low=end) if side == "low" else Row(terms, high=end)
    layout.bounds.append(
        Bound(
            row=layout.row(row),
            side=side,
            limit=limit,
            value=value,
            kind=KINDS[type(limit)],
            say=in_words(limit, side),
            shift=parts.shift,
            moves=parts.moves,
        )
    )


def _aim(layout: Layout) -> None:
    """Set what is to be least."""
    if isinstance(layout.goal, LeastCost):
        for column, cost in layout.cost_terms().items():
            layout.columns[column] = _costing(layout.columns[column], cost)
        return
    for name in dict.fromkeys(offer.seed.name for offer in layout.offers):
        _miss(layout, layout.goal, name)


def _miss(layout: Layout, goal: Nearest, name: str) -> None:
    """Lay out: live seeds + short − over = wish, both counted by the weight of the species."""
    wish, weight = goal.wish.get(name, 0.0), goal.weight(name)
    short, over = (layout.column(Column(INFINITY, weight)) for _ in range(2))
    seeds = {i: layout.seeds(i) for i in layout.inside(Species(name))}
    layout.row(Row({**seeds, short: 1.0, over: -1.0}, low=wish, high=wish))


def _costing(column: Column, cost: float) -> Column:
    return Column(column.high, cost, column.whole)


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
