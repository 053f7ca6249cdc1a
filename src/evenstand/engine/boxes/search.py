"""Search of every way to share seed out among boxes.

A set of species is a whole number whose bits say who is in it. What a set
means to a box is worked out once for each of them, by joining one species to
a smaller set; then all ways to part the whole are walked, leaving out those
that are already worse than enough others.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from ..statistics.elementary import log
from .box import Box, fit, wanted
from .compromise import burden
from .depth import DepthRange, clamped, depth_grade
from .filled import outside
from .portion import Portion
from .sorting_risk import GRADES, pair_level

Block = tuple[int, ...]  # species that are moved together, by their place
Ways = tuple[tuple[int, ...], ...]


class Score(NamedTuple):
    """Burden of compromises, then how far sizes are apart; less is better."""

    burden: int
    strain: float


NOTHING = Score(0, 0.0)


@dataclass(frozen=True, slots=True)
class _Facts:
    """What matters of a set of species, so that two sets can be joined."""

    least: float  # seeds per weight, from the largest seed to the smallest
    most: float
    rate: float
    deciding: tuple[float, DepthRange] | None  # of the smallest seed with a depth
    shallow_ends: float
    deep_ends: float

    def join(self, other: "_Facts") -> "_Facts":
        known = [facts.deciding for facts in (self, other) if facts.deciding]
        return _Facts(
            least=min(self.least, other.least),
            most=max(self.most, other.most),
            rate=self.rate + other.rate,
            deciding=max(known) if known else None,
            shallow_ends=max(self.shallow_ends, other.shallow_ends),
            deep_ends=min(self.deep_ends, other.deep_ends),
        )

    def depth(self) -> int:
        """Burden of one depth for all of them."""
        if self.deciding is None:
            return 0
        depth = clamped(self.deciding[1], self.shallow_ends)
        return burden([depth_grade(max(self.shallow_ends - depth, depth - self.deep_ends))])

    def strain(self) -> float:
        """How far apart the sizes are, on the log scale."""
        return log(self.most / self.least)


def _of_one(portion: Portion) -> _Facts:
    low, high = portion.depth or (0.0, float("inf"))
    return _Facts(
        least=portion.count,
        most=portion.count,
        rate=portion.weighed,
        deciding=(portion.count, portion.depth) if portion.depth else None,
        shallow_ends=low,
        deep_ends=high,
    )


@dataclass(frozen=True, slots=True)
class _Table:
    """For one box: the sets it can take, their scores, and what each block weighs amiss."""

    allowed: int
    scores: dict[int, Score]
    misfits: Sequence[int]


def allowed_boxes(
    portions: Sequence[Portion], boxes: Sequence[Box], placed: Sequence[int | None]
) -> list[tuple[int, ...]]:
    """Boxes, by place, that each species may go in; a placed one only where it is placed."""
    return [
        tuple(i for i, box in enumerate(boxes) if fit(box, each) != "cannot" and pin in (None, i))
        for each, pin in zip(portions, placed, strict=True)
    ]


def best_ways(
    portions: Sequence[Portion],
    boxes: Sequence[Box],
    *,
    blocks: Sequence[Block],
    allowed: Sequence[tuple[int, ...]],
    keep: int,
) -> Ways:
    """Find the ways with the lightest burden, best first.

    Parameters
    ----------
    blocks : sequence of Block
        Species that move together.
    allowed : sequence of tuple of int
        Boxes that each species may go in, at least one for each.
    keep : int
        How many ways are wanted.

    Returns
    -------
    tuple of tuple of int
        For each way the box of each species, by place.
    """
    together = [[portions[i] for i in block] for block in blocks]
    facts, sorting = _every_set(together), _sorting(portions, blocks)
    tables = [
        _table(
            box,
            together,
            can=_mask(all(place in allowed[i] for i in block) for block in blocks),
            facts=facts,
            sorting=sorting,
        )
        for place, box in enumerate(boxes)
    ]
    shared = [place for place, box in enumerate(boxes) if not box.own_depth]
    depths = [each.depth() if each else 0 for each in facts]
    search = _Walk(
        tables=tables,
        depths=depths,
        least=_by_set([min(table.misfits[i] for table in tables) for i in range(len(blocks))]),
        shared=shared,
        keep=keep,
    )
    search.walk(len(facts) - 1)
    return tuple(_as_places(masks, blocks) for _, masks in search.found)


def _every_set(blocks: Sequence[Sequence[Portion]]) -> list[_Facts | None]:
    singles = []
    for block in blocks:
        facts = _of_one(block[0])
        for portion in block[1:]:
            facts = facts.join(_of_one(portion))
        singles.append(facts)
    sets: list[_Facts | None] = [None]
    for mask in range(1, 1 << len(blocks)):
        single = singles[(mask & -mask).bit_length() - 1]
        rest = sets[mask & (mask - 1)]
        sets.append(single if rest is None else rest.join(single))
    return sets


def _sorting(portions: Sequence[Portion], blocks: Sequence[Block]) -> list[int]:
    """Burden of lying together, for every set: each seed against the largest in it."""
    sizes = [(each.count, each.name) for each in portions]
    weights = [
        [
            burden([GRADES[pair_level(small, large)[0]]]) if small is not large else 0
            for small in portions
        ]
        for large in portions
    ]
    burdens = [0]
    inside: list[tuple[int, ...]] = [()]
    for mask in range(1, 1 << len(blocks)):
        block = blocks[(mask & -mask).bit_length() - 1]
        inside.append(inside[mask & (mask - 1)] + block)
        largest = weights[min(inside[mask], key=sizes.__getitem__)]
        weight = 0
        for i in inside[mask]:
            weight += largest[i]
        burdens.append(weight)
    return burdens


def _by_set(singles: Sequence[int]) -> list[int]:
    """Add up what single species weigh, for every set of them."""
    sums = [0]
    for single in singles:
        sums += [weight + single for weight in sums]
    return sums


def _mask(inside: Iterable[bool]) -> int:
    """Write who is in a set as its bits."""
    mask = 0
    for i, is_in in enumerate(inside):
        mask |= is_in << i
    return mask


def _table(
    box: Box,
    blocks: Sequence[Sequence[Portion]],
    *,
    can: int,
    facts: Sequence[_Facts | None],
    sorting: Sequence[int],
) -> _Table:
    misfits = [burden([2 for part in block if fit(box, part) == "makes do"]) for block in blocks]
    missed = wanted(box, [part for block in blocks for part in block])
    scores = {0: Score(burden([1]) if missed else 0, 0.0)}
    for mask, amiss in enumerate(_by_set(misfits)):
        here = facts[mask]
        if here is not None and not mask & ~can:
            scores[mask] = _score(box, here, amiss + sorting[mask])
    return _Table(can, scores, misfits)


def _score(box: Box, facts: _Facts, amiss: int) -> Score:
    rate = facts.rate + (box.carrier.rate if box.carrier else 0.0)
    beyond = burden([3]) if outside(box, rate) else 0
    depth = facts.depth() if box.own_depth else 0
    return Score(amiss + beyond + depth, facts.strain())


@dataclass(frozen=True, slots=True)
class _Walk:
    """All ways to part the whole set, cut off where they cannot be among the best.

    ``depths`` is the burden of one depth, by set, and ``least`` what a set
    weighs at the very least, each species in the box it suits best; ``shared`` the
    boxes whose seed shares the openers; ``found`` the best ways so far.
    """

    tables: Sequence[_Table]
    depths: Sequence[int]
    least: Sequence[int]
    shared: Sequence[int]
    keep: int
    found: list[tuple[Score, tuple[int, ...]]] = field(default_factory=list)

    def walk(self, left: int, *, sofar: Score = NOTHING, masks: tuple[int, ...] = ()) -> None:
        """Share what is left out among the boxes that are not filled yet."""
        if len(masks) == len(self.tables):
            self._keep(Score(sofar.burden + self._shared_depth(masks), sofar.strain), masks)
            return
        scores = self.tables[len(masks)].scores
        for mask in self._takes(len(masks), left):
            part = scores[mask]
            rest = left & ~mask
            score = Score(sofar.burden + part.burden, sofar.strain + part.strain)
            if not self._hopeless(Score(score.burden + self.least[rest], score.strain)):
                self.walk(rest, sofar=score, masks=(*masks, mask))

    def _hopeless(self, score: Score) -> bool:
        return len(self.found) == self.keep and score >= self.found[-1][0]

    def _keep(self, score: Score, masks: tuple[int, ...]) -> None:
        if not self._hopeless(score):
            self.found.append((score, masks))
            self.found.sort(key=lambda way: way[0])
            del self.found[self.keep :]

    def _shared_depth(self, masks: Sequence[int]) -> int:
        together = 0
        for place in self.shared:
            together |= masks[place]
        return self.depths[together]

    def _takes(self, place: int, left: int) -> Iterator[int]:
        """Sets that this box may take so that later boxes can take what is left."""
        later = 0
        for table in self.tables[place + 1 :]:
            later |= table.allowed
        must, can = left & ~later, left & self.tables[place].allowed
        if must & ~can:
            return
        free = can & ~must
        mask = free
        while mask:
            yield mask | must
            mask = (mask - 1) & free
        yield must


def _as_places(masks: Sequence[int], blocks: Sequence[Block]) -> tuple[int, ...]:
    places = {
        i: place
        for place, mask in enumerate(masks)
        for b, block in enumerate(blocks)
        if mask >> b & 1
        for i in block
    }
    return tuple(places[i] for i in sorted(places))
