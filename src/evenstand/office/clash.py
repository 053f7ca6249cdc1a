"""When no mix fits: the smallest set of limits that clash, and how far each must give way."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

from evenstand.engine.quantities.phrases import Phrase, join, say

from .highs import Program
from .layout import Bound, Layout
from .limits import Limit, Side
from .offer import Offer

SECONDS = 5.0  # for one question to the solver
MOST_QUESTIONS = 150  # asked in search of fewer sides that clash


@dataclass(frozen=True, slots=True, kw_only=True)
class Clashing:
    """One side of a limit in a clash.

    ``enough`` tells whether a mix exists once this side alone is dropped from
    all the limits; ``best`` is then the nearest value to it that can be had,
    in SI, None where that cannot be told.
    """

    limit: Limit | Offer
    side: Side
    say: Phrase
    enough: bool
    best: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Clash:
    """No mix keeps to all limits.

    Dropping any one of ``sides`` lets the others among them be kept.
    """

    sides: tuple[Clashing, ...]
    say: Phrase


def clash(layout: Layout) -> Clash:
    """Find the smallest set of sides that no mix keeps to.

    Deletion filter: let one side go; if still nothing fits, it is not needed.
    What is left in the end clashes, and without any one of it no longer does.
    First with whole numbers left open, where each question is quicker, then
    with them. Then fewer sides are looked for: a clash must hold at least one
    of all that must give way together, so the fewest that do are tried.

    Parameters
    ----------
    layout : Layout
        Of a problem that nothing fits, its ends not leaning on the limits.

    References
    ----------
    Chinneck and Dravnieks (1991), ORSA Journal on Computing 3(2), 157-168,
    the deletion filter; Ignatiev et al. (2015), Smallest MUS extraction with
    minimal hitting set dualization, CP 2015. Both not read.
    """
    open_ = Program(layout.columns, layout.rows, seconds=SECONDS, whole=False)
    kept = list(layout.bounds)
    if open_.solve().ending == "none":
        kept = _filter(open_, kept)
    whole = Program(layout.columns, layout.rows, seconds=SECONDS)
    for row in {bound.row for bound in layout.bounds} - {bound.row for bound in kept}:
        whole.let_go(row)
    kept = _smallest(whole, layout.bounds, known=_filter(whole, kept))
    for bound in layout.bounds:
        whole.hold(bound.row)
    sides = tuple(_give_way(layout, whole, bound) for bound in kept)
    return Clash(sides=sides, say=_headline(sides))


def _filter(program: Program, bounds: Sequence[Bound]) -> list[Bound]:
    kept = []
    program.aim({})  # whether anything fits is asked, not which is best
    for bound in bounds:
        program.let_go(bound.row)
        if program.solve().ending != "none":
            program.hold(bound.row)
            kept.append(bound)
    return kept


def _smallest(program: Program, bounds: Sequence[Bound], *, known: list[Bound]) -> list[Bound]:
    """Look for a clash of fewer sides than one that is known."""
    must_give: list[frozenset[int]] = []
    for _ in range(MOST_QUESTIONS // (len(bounds) + 1)):
        fewest = _hitting(must_give, most=len(known) - 1)
        if fewest is None:
            break
        for i, bound in enumerate(bounds):
            (program.hold if i in fewest else program.let_go)(bound.row)
        if program.solve().ending == "none":
            return [bounds[i] for i in fewest]
        must_give.append(_giving_way(program, bounds, fewest))
    return known


def _giving_way(program: Program, bounds: Sequence[Bound], held: Sequence[int]) -> frozenset[int]:
    """Hold all sides that can be held beside some; the others must give way."""
    left = []
    for i, bound in enumerate(bounds):
        if i not in held:
            program.hold(bound.row)
            if program.solve().ending == "none":
                program.let_go(bound.row)
                left.append(i)
    return frozenset(left)


def _hitting(sets: Sequence[frozenset[int]], *, most: int) -> tuple[int, ...] | None:
    """Find the fewest members that hit every set, None where it takes more than ``most``."""
    members = sorted(frozenset().union(*sets))
    for size in range(most + 1):
        for picked in combinations(members, size):
            if all(group.intersection(picked) for group in sets):
                return picked
    return None


def _give_way(layout: Layout, program: Program, bound: Bound) -> Clashing:
    """Drop one side from all, and see how near to it a mix can come."""
    program.let_go(bound.row)
    sign = 1.0 if bound.side == "high" else -1.0
    program.aim({i: sign * a for i, a in layout.rows[bound.row].terms.items()})
    found = program.solve()
    program.hold(bound.row)
    enough = found.ending == "best"
    direct = enough and bound.shift and not bound.moves
    best = sign * found.objective / bound.shift if direct else None
    return Clashing(
        limit=bound.limit,
        side=bound.side,
        say=_with_best(bound, best),
        enough=enough,
        best=best,
    )


def _with_best(bound: Bound, best: float | None) -> Phrase:
    if best is None:
        return bound.say
    amount = bound.kind(best)
    if bound.side == "high":
        return say("{limit} (needs at least {best})", limit=bound.say, best=amount)
    return say("{limit} (the most possible is {best})", limit=bound.say, best=amount)


def _headline(sides: Sequence[Clashing]) -> Phrase:
    if len(sides) == 1:
        head = say("No mix can meet this limit, even by itself: {limit}.", limit=sides[0].say)
    else:
        names = [f"s{i}" for i in range(len(sides))]
        values = dict(zip(names, (side.say for side in sides), strict=True))
        limits = Phrase("; ".join(f"{{{name}}}" for name in names), values)
        head = say(
            "No mix can meet these {n} limits together: {limits}. Loosen one of them.",
            n=len(sides),
            limits=limits,
        )
    if any(side.enough for side in sides):
        return head
    return join([head, say("That alone won't be enough: other limits conflict too.")])
