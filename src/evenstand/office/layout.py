"""A problem as columns and rows, in kg/ha, seeds/m², $/ha and ha.

Every side of a limit is one row, so that it can bind, be let go, or clash.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from evenstand.engine.quantities.phrases import Phrase
from evenstand.engine.quantities.units import HECTARE, Kind
from evenstand.engine.statistics.budget import nominal

from .highs import Column, Row
from .limits import Limit, Scope, Side
from .offer import Goal, Offer

MOST = 1000.0  # kg/ha of one species: no drill is asked for more, and rows need some end


@dataclass(frozen=True, slots=True, kw_only=True)
class Bound:
    """One side of a limit as a row.

    A step of its value moves the row's end by ``shift`` and its terms by
    ``moves``.
    """

    row: int
    side: Side
    limit: Limit | Offer
    value: float
    kind: Kind
    say: Phrase
    shift: float = 0.0
    moves: Mapping[int, float] = field(default_factory=dict)

    def slope(self, values: Sequence[float]) -> float:
        """How far the row moves for one unit of the value, at a mix found."""
        return self.shift - sum(move * values[i] for i, move in self.moves.items())


@dataclass(slots=True)
class Layout:
    """A problem laid out: which column is what, which row is whose."""

    offers: Sequence[Offer]
    goal: Goal
    area: float
    columns: list[Column] = field(default_factory=list)
    rows: list[Row] = field(default_factory=list)
    bounds: list[Bound] = field(default_factory=list)
    bought: dict[int, int] = field(default_factory=dict)
    present: dict[str, int] = field(default_factory=dict)
    objective: int = -1

    def column(self, column: Column) -> int:
        """Add a column and return its place."""
        self.columns.append(column)
        return len(self.columns) - 1

    def row(self, row: Row) -> int:
        """Add a row and return its place."""
        self.rows.append(row)
        return len(self.rows) - 1

    def inside(self, scope: Scope) -> list[int]:
        """Return the offers that a limit is on."""
        return [i for i, offer in enumerate(self.offers) if offer.is_in(scope)]

    def seeds(self, offer: int) -> float:
        """Live seeds/m² for 1 kg/ha of bulk."""
        return self.pls(offer) * nominal(self.offers[offer].seed.seeds_per_kg) / HECTARE

    def pls(self, offer: int) -> float:
        """Pure live seed in bulk."""
        return nominal(self.offers[offer].seed.pls)

    def cost_terms(self) -> dict[int, float]:
        """What one of each column costs, $/ha."""
        terms = {}
        for i, offer in enumerate(self.offers):
            if not offer.buy:
                continue
            price = nominal(offer.seed.price or 0.0)
            if i in self.bought:
                terms[self.bought[i]] = price * (offer.bag or 1.0) / self.area
            else:
                terms[i] = price
        return terms
