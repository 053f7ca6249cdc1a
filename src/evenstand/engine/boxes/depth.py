"""One depth for all seed that a box, or boxes with common openers, put in the ground."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated

from ..quantities.phrases import Phrase, say
from ..quantities.units import INCH, SPACING
from .compromise import Compromise, Grade
from .portion import Portion

NEAR = INCH / 4  # our judgement: a depth band moves by about this
ROUNDING = 1e-9

DepthRange = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class BoxDepth:
    """A depth for some seed. [m]

    ``missed`` says by how much a species lies too deep, or too shallow where
    below zero; ``unknown`` are those without a printed depth.
    """

    depth: Annotated[float, SPACING]
    smallest: str
    missed: tuple[tuple[str, float], ...]
    unknown: tuple[str, ...]
    say: Phrase
    grade: Grade


def common_depth(portions: Sequence[Portion]) -> BoxDepth | None:
    """Find one depth for some seed; None where no depth is printed.

    depth = the deepest of all shallow ends, but no deeper than the smallest
    seed bears and no shallower than it asks

    Returns
    -------
    BoxDepth, optional [m]

    References
    ----------
    Depth bands: USDA NRCS, Five keys to successful grass seeding (2003). That
    the smallest seed decides is common practice, no source; a seed catalogue of 2023, read,
    would sow for the middle-sized seed.
    """
    ranged = [(each, each.depth) for each in portions if each.depth is not None]
    if not ranged:
        return None
    smallest, own = max(ranged, key=lambda pair: (pair[0].count, pair[1]))
    depth = clamped(own, max(low for _, (low, _) in ranged))
    missed = tuple((each.name, by) for each, d in ranged if (by := _missed(d, depth)))
    return BoxDepth(
        depth=depth,
        smallest=smallest.name,
        missed=missed,
        unknown=tuple(each.name for each in portions if each.depth is None),
        say=_headline(smallest.name, depth, missed),
        grade=depth_grade(max((abs(by) for _, by in missed), default=0.0)),
    )


def depth_compromise(found: BoxDepth | None) -> tuple[Compromise, ...]:
    """Say what one depth gives up, if anything."""
    if found is None or not found.grade:
        return ()
    return (Compromise(about="depth", grade=found.grade, say=found.say),)


def clamped(own: DepthRange, wanted: float) -> float:
    """Bring a wanted depth into the smallest seed's own range. [m]"""
    return min(max(wanted, own[0]), own[1])


def depth_grade(missed: float) -> Grade:
    """Grade the farthest that a seed lies from its printed depths.

    Parameters
    ----------
    missed : float
        [m]
    """
    if missed <= ROUNDING:
        return 0
    return 1 if missed <= NEAR + ROUNDING else 2


def _missed(printed: DepthRange, depth: float) -> float:
    by = max(0.0, depth - printed[1]) + min(0.0, depth - printed[0])
    return by if abs(by) > ROUNDING else 0.0


def _headline(smallest: str, depth: float, missed: Sequence[tuple[str, float]]) -> Phrase:
    at = SPACING(depth)
    if not missed:
        return say("seed at {depth}: everything in this box tolerates that", depth=at)
    name, by = max(missed, key=lambda pair: abs(pair[1]))
    return say(
        "seed at {depth}, a depth {smallest} tolerates: {name} is then {by} {way}",
        depth=at,
        smallest=smallest,
        name=name,
        by=SPACING(abs(by), 2),
        way=say("too deep") if by > 0 else say("too shallow"),
    )
