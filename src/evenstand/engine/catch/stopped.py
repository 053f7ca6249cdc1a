"""Rows that gave nothing, or far less than their fellows: a catch to make again.

Such a catch tells of the row, not of the lever.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated

from ..quantities.phrases import Phrase, join, say
from ..quantities.units import SHARE
from ..quantities.written import PER_CENT, put
from ..rows.catch import far_below
from ..rows.causes import CAUSES, Check
from ..rows.findings import listed
from .weighing import Catch

STEPS = 2  # of the scale that a bag must lack: rounding alone may make one


@dataclass(frozen=True, slots=True, kw_only=True)
class Stopped:
    """A bag that holds nothing, or far less than the others, and the rows it was under.

    ``rows`` are their numbers from the left, behind the drill, empty where
    they are not known; ``bag`` counts from 1. ``off`` is how far its rows are
    from the middle one. [-]
    """

    KEYS = ("rows", "bag", put("percent", "off"))

    rows: tuple[int, ...]
    bag: int
    off: Annotated[float, PER_CENT]

    @property
    def name(self) -> Phrase:
        """Its rows by number, else the bag."""
        if not self.rows:
            return say("Bag {n}", n=self.bag)
        return say("Row {rows}" if len(self.rows) == 1 else "Rows {rows}", rows=listed(self.rows))

    @property
    def gave(self) -> Phrase:
        """What it gave."""
        if self.off == -1:
            return say("gave no seed.")
        return say("gave {share} less than the others.", share=SHARE(-self.off, 2))

    @property
    def checks(self) -> tuple[Check, ...]:
        """What to look at, in order."""
        return CAUSES["nothing" if self.off == -1 else "low"]


def stopped(catch: Catch, *, resolution: float) -> tuple[Stopped, ...]:
    """Find the bags that hold nothing, or far less than the others.

    A bag's weight for each of its rows is held against the middle one of the
    bags with seed: 25% below it is too far, where the bag lacks at least two
    steps of the scale.

    Parameters
    ----------
    resolution : float
        Smallest step of the scale. [kg]

    Returns
    -------
    tuple of Stopped, the emptiest first
        Empty too where all seed is in one bag.

    References
    ----------
    The share and the steps are judgement: common practice, no source.
    """
    each = [bag.weight / bag.rows for bag in catch]
    if not any(each):
        return ()
    middle, low = far_below(each)
    found = [
        Stopped(rows=catch[i].numbers, bag=i + 1, off=each[i] / middle - 1)
        for i in sorted(low)
        if (middle - each[i]) * catch[i].rows >= STEPS * resolution
    ]
    return tuple(sorted(found, key=lambda one: one.off))


def what_stopped(found: Sequence[Stopped]) -> Phrase:
    """Say what each gave: *Row 12 gave no seed.*"""
    return join([say("{rows} {gave}", rows=one.name, gave=one.gave) for one in found])
