"""What a choice of boxes gives up, and how choices are ordered by it."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Literal

from ..quantities.phrases import Phrase

Grade = Literal[0, 1, 2, 3]  # none, slight, real, grave
About = Literal["class", "depth", "sorting", "rate", "empty"]

# One of a graver grade outweighs any number of the lighter: no drill has a hundred boxes.
WEIGHTS: Mapping[Grade, int] = {0: 0, 1: 1, 2: 100, 3: 10_000}


@dataclass(frozen=True, slots=True, kw_only=True)
class Compromise:
    """One thing that is given up."""

    KEYS = ("about", "grade", "say")

    about: About
    grade: Grade
    say: Phrase


def burden(grades: Iterable[Grade]) -> int:
    """Weigh compromises: fewest grave ones first, then real ones, then slight ones.

    Examples
    --------
    >>> burden([3]) > burden([2, 2, 1]) > burden([2, 1]) > burden([])
    True
    """
    weight = 0
    for grade in grades:
        weight += WEIGHTS[grade]
    return weight
