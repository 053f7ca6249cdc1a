"""Gaps in the rows: how much of the row has no plant."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum, inf, sqrt
from typing import Annotated

from ..quantities.errors import MeasurementError
from ..quantities.phrases import Phrase, say
from ..quantities.units import LENGTH, SHARE
from ..statistics.budget import Cause, Estimate, ranged, uncertain
from .place import Place
from .scatter import squares

SOURCE = "Green (2003), a fact sheet on reduced tillage"
HELD_UP = 0.1524  # 6 in: gaps from here on point to a hose or boot that held seed back [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Gaps:
    """Gaps found along rows.

    ``share`` is the part of the row that lies in gaps, with its range where
    several places were looked at [-]; ``longest`` a length [m]; ``held_up``
    how many are as long as seed held back in a hose makes them.
    """

    KEYS = ("share", "number", "longest")

    share: Annotated[Estimate, SHARE]
    row: float
    number: int
    longest: Annotated[float, LENGTH]
    held_up: int


def gaps(places: Sequence[Place]) -> Gaps:
    """Work out the part of the row that lies in gaps.

    share = Σ gaps ÷ Σ row; its range by Student's t from how places differ

    Parameters
    ----------
    places : sequence of Place
        Those with a length of row count, also where no gap was found.

    Raises
    ------
    MeasurementError
        Where no length of row was given.

    Examples
    --------
    >>> found = gaps([Place(area=0.5, plants=9, row=2.0, gaps=(0.3, 0.2))])
    >>> found.share.value, found.held_up
    (0.25, 2)
    """
    rows = [place.row for place in places if place.row is not None]
    if not rows:
        raise MeasurementError("row", None, say("enter the length of row you checked"))
    lengths = [fsum(place.gaps) for place in places if place.row is not None]
    every = [gap for place in places for gap in place.gaps]
    return Gaps(
        share=_share(lengths, rows),
        row=fsum(rows),
        number=len(every),
        longest=max(every, default=0.0),
        held_up=sum(gap >= HELD_UP for gap in every),
    )


def _share(lengths: Sequence[float], rows: Sequence[float]) -> Estimate:
    value = fsum(lengths) / fsum(rows)
    if len(rows) < 2:
        return Estimate(value, 0.0, 1.0, inf)
    u = sqrt(squares(lengths, rows)) / fsum(rows)
    share = uncertain(value, u, "gap variation from spot to spot")
    found = ranged(share, {"gap variation from spot to spot": Cause(dof=len(rows) - 1.0)})
    return Estimate(value, max(0.0, found.low), min(1.0, found.high), u, found.dof)


def gaps_sentence(found: Gaps) -> Phrase:
    """Say how much of the row lies in gaps, and what long ones point to."""
    if not found.number:
        return say("No gaps in {row} of row.", row=LENGTH(found.row))
    share, longest = SHARE(found.share.value, 2), LENGTH(found.longest)
    if not found.held_up:
        text = "Gaps make up {share} of the row; the longest is {longest}."
        return say(text, share=share, longest=longest)
    text = (
        "Gaps make up {share} of the row; the longest is {longest}. Gaps of "
        "{limit} or more point to a seed tube or boot that plugged for a while."
    )
    return say(text, share=share, longest=longest, limit=LENGTH(HELD_UP))
