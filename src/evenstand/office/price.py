"""What each limit that binds costs, and what giving way on it would buy."""

from collections.abc import Sequence
from dataclasses import dataclass

from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.quantities.units import (
    ACRE,
    COST,
    DENSITY,
    HECTARE,
    PERCENT,
    SHARE,
    SQUARE_FOOT,
    Kind,
)

from .highs import Found, Program
from .layout import Bound, Layout
from .limits import Limit, Side, SpeciesWithin
from .offer import LeastCost, Offer

PART = 0.1  # how far a limit is thought to give way, as a share of itself
STEPS: dict[Kind, float] = {DENSITY: 1 / SQUARE_FOOT, COST: 1 / ACRE}  # where that is nothing
NOTHING = 1e-6  # $/ha, or share of the wish: too little to speak of


@dataclass(frozen=True, slots=True, kw_only=True)
class LimitPrice:
    """The price of one side of a limit.

    ``limit`` is the limit, or the offer whose seed on hand runs out.
    ``per_unit`` is what giving way by one SI unit of it buys: $/m² for least
    cost, else parts of the miss; for a number of species, what one of them
    buys.
    """

    limit: Limit | Offer
    side: Side
    per_unit: float
    say: Phrase


def prices(layout: Layout, program: Program, found: Found) -> tuple[tuple[LimitPrice, ...], Found]:
    """Price every side that binds, the dearest first.

    The price is the dual of the continuous problem, the species held as they
    are found and bags taken as loose seed. A number of species has no dual:
    it is priced by solving again with one more or one fewer.

    Parameters
    ----------
    program : Program
        The one that ``found`` came from; it is left fixed.

    Returns
    -------
    tuple of LimitPrice, and the continuous problem as found
    """
    counts = [
        price
        for bound in layout.bounds
        if isinstance(bound.limit, SpeciesWithin) and _binds(layout, bound, found)
        for price in _count(layout, bound, other=_with_one_off(layout, program, bound), found=found)
    ]
    program.fix(found.values, loose=set(layout.bought.values()))
    fixed = program.solve()
    priced = [price for bound in layout.bounds for price in _dual(layout, bound, fixed)]
    ordered = sorted([*counts, *priced], key=lambda pair: -pair[0])
    return tuple(price for _, price in ordered), fixed


_Priced = Sequence[tuple[float, LimitPrice]]


def _dual(layout: Layout, bound: Bound, fixed: Found) -> _Priced:
    """Price a side by its dual. By convexity a step buys no more than that."""
    if isinstance(bound.limit, SpeciesWithin):
        return ()
    per_unit = abs(fixed.duals[bound.row] * bound.slope(fixed.values))
    step = _step(bound)
    gain = per_unit * step
    if not gain > NOTHING:
        return ()
    price = LimitPrice(
        limit=bound.limit,
        side=bound.side,
        per_unit=per_unit * _unit(layout),
        say=say(
            "{limit}: loosening it by {step} {gain}",
            limit=bound.say,
            step=bound.kind(step, 2),
            gain=_gain(layout, gain, at_most=not bound.moves),
        ),
    )
    return ((gain, price),)


def _binds(layout: Layout, bound: Bound, found: Found) -> bool:
    terms = layout.rows[bound.row].terms
    return round(sum(a * found.values[i] for i, a in terms.items())) == bound.value


def _with_one_off(layout: Layout, program: Program, bound: Bound) -> Found:
    """Solve again with one species more allowed, or one fewer asked for."""
    row = layout.rows[bound.row]
    program.bound(bound.row, row.low - 1, row.high + 1)
    found = program.solve()
    program.hold(bound.row)
    return found


def _count(layout: Layout, bound: Bound, *, other: Found, found: Found) -> _Priced:
    gain = found.objective - other.objective
    if not other.values or not gain > NOTHING:
        return ()
    one = say("one fewer species") if bound.side == "low" else say("one more species")
    text = say(
        "{limit}: {one} {gain}", limit=bound.say, one=one, gain=_gain(layout, gain, at_most=False)
    )
    price = LimitPrice(limit=bound.limit, side=bound.side, per_unit=gain * _unit(layout), say=text)
    return ((gain, price),)


def _step(bound: Bound) -> float:
    """How far the limit gives way in the sentence, in its own SI unit."""
    return PERCENT if bound.kind is SHARE else PART * bound.value or STEPS.get(bound.kind, 1.0)


def _unit(layout: Layout) -> float:
    return 1 / HECTARE if isinstance(layout.goal, LeastCost) else 1.0


def _gain(layout: Layout, gain: float, *, at_most: bool) -> Phrase:
    if isinstance(layout.goal, LeastCost):
        money = COST(gain / HECTARE)
        if at_most:
            return say("saves up to {money}", money=money)
        return say("saves about {money}", money=money)
    part = SHARE(gain, 2)
    if at_most:
        return say("brings the mix up to {part} closer to what you asked for", part=part)
    return say("brings the mix about {part} closer to what you asked for", part=part)
