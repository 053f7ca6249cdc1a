"""The fear that seed sorts itself in a box, from how far the sizes are apart, and its cures."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import sqrt
from typing import Literal

from ..quantities.errors import require_positive
from ..quantities.phrases import Phrase, say
from ..quantities.units import NUMBER
from ..quantities.written import put
from ..statistics.elementary import exp, log
from .compromise import Compromise, Grade
from .portion import Portion

Level = Literal["little", "some", "much", "falls through"]

# Sizes across, large ÷ small. The first is a rule of powder handling, common practice, no source;
# the second is our judgement; the third is geometry: the ball that passes between three touching
# balls has 2 ÷ √3 − 1 of their diameter.
SOME_FROM = 1.3
MUCH_FROM = 2.0
FALLS_FROM = 1 / (2 / sqrt(3) - 1)

GRADES: Mapping[Level, Grade] = {"little": 0, "some": 1, "much": 2, "falls through": 3}


@dataclass(frozen=True, slots=True, kw_only=True)
class Risk:
    """How likely a seed is to sort from the largest in its box.

    ``ratio`` is that of the sizes across.
    """

    KEYS = ("level", put("size_ratio", "ratio"), "small", "large", "say")

    level: Level
    ratio: float
    small: str
    large: str
    say: Phrase


def diameter_ratio(counts_ratio: float) -> float:
    """Turn a ratio of seeds per weight into a ratio of sizes across: its cube root.

    Parameters
    ----------
    counts_ratio : float
        Seeds per weight of the small seed ÷ of the large. [-]

    Notes
    -----
    Seeds of one shape and one density of kernel are taken.

    Examples
    --------
    >>> print(f"{diameter_ratio(8.0):.6f}")
    2.000000
    """
    require_positive("counts_ratio", counts_ratio)
    return exp(log(counts_ratio) / 3)


def level(ratio: float, *, mixed: bool) -> Level:
    """Tell how much a mixture is feared to sort.

    Parameters
    ----------
    ratio : float
        Largest ÷ smallest size across. [-]
    mixed : bool
        Whether fluffy and smooth seed lie together: chaff holds its own and
        lets smooth seed through.
    """
    if ratio >= FALLS_FROM:
        return "falls through"
    if ratio >= MUCH_FROM:
        return "much"
    return "some" if mixed or ratio >= SOME_FROM else "little"


def risks(portions: Sequence[Portion]) -> tuple[Risk, ...]:
    """Tell which seed may sort from the largest in the same box, worst first.

    Returns
    -------
    tuple of Risk
        One for every species but the largest.

    References
    ----------
    In buckets of mixed cover-crop seed the small seed sinks: more of it the
    deeper one scoops (study on scooping seed for cone planters, abstract
    read). Small dense seed drops to the bottom: a seed catalogue of 2023, read.
    """
    if not portions:
        return ()
    large = largest(portions)
    others = [each for each in portions if each is not large]
    found = [_risk(each, large) for each in others]
    return tuple(sorted(found, key=lambda each: (-GRADES[each.level], -each.ratio, each.small)))


def largest(portions: Sequence[Portion]) -> Portion:
    """Find the seed of which fewest make a weight."""
    return min(portions, key=lambda each: (each.count, each.name))


def pair_level(small: Portion, large: Portion) -> tuple[Level, float]:
    """Tell how much one seed is feared to sort from a larger, and the ratio of sizes."""
    ratio = diameter_ratio(small.count / large.count)
    return level(ratio, mixed=small.fluffy != large.fluffy), ratio


def _risk(small: Portion, large: Portion) -> Risk:
    found, ratio = pair_level(small, large)
    said = _headline(found, ratio, (small.name, large.name))
    return Risk(level=found, ratio=ratio, small=small.name, large=large.name, say=said)


def sorting_compromises(feared: Sequence[Risk]) -> tuple[Compromise, ...]:
    """Say what lying together gives up, seed by seed."""
    return tuple(
        Compromise(about="sorting", grade=GRADES[each.level], say=each.say)
        for each in feared
        if each.level != "little"
    )


_TEXTS: Mapping[Level, str] = {
    "little": "{small} and {large} are close in size and should stay mixed",
    "some": "{small} may separate from {large}, which is {ratio} times as wide",
    "much": "{small} will likely settle under {large}, which is {ratio} times as wide",
    "falls through": "{small} falls through {large}, which is {ratio} times as wide",
}


def _headline(found: Level, ratio: float, names: tuple[str, str]) -> Phrase:
    small, large = names
    if found == "some" and ratio < SOME_FROM:
        return say(
            "{small} may separate from {large}: one is fluffy, one is slick",
            small=small,
            large=large,
        )
    return say(_TEXTS[found], small=small, large=large, ratio=NUMBER(ratio, 2))


def cures(worst: Risk, *, elsewhere: Sequence[str] = ()) -> tuple[Phrase, ...]:
    """Say what helps against sorting, the surest first.

    Parameters
    ----------
    worst : Risk
        The worst in the box.
    elsewhere : sequence of str
        Other boxes that could take that seed.

    References
    ----------
    Part-fill at each refill, or stop and remix: a seed catalogue of 2023,
    read. Hulls keep sizes mixed: St. John et al., USDA NRCS Plant Materials
    Technical Note 7 (2012), cited.
    """
    if worst.level == "little":
        return ()
    moved = [say("put {small} in {box}", small=worst.small, box=name) for name in elsewhere]
    return (
        *moved,
        say("fill the box only partway and top it up often, or stop the drill and stir it"),
        say("mix in a carrier such as rice hulls to keep sizes from separating"),
        say("sort a catch by species at the start, and again when the box is half empty"),
    )
