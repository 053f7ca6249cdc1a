"""What a separated sample says of a box, and the arithmetic behind it."""

from collections.abc import Sequence
from typing import Protocol

from ..quantities.phrases import Phrase, join, say
from ..quantities.units import NUMBER, SEEDS, SHARE
from ..quantities.working import Line
from ..statistics.budget import Estimate
from .filled import FilledBox
from .portion import Portion

SOURCE = "Pearson's chi-square on counts"
RUNS = {"ahead": say("ahead"), "behind": say("behind"), "as filled": say("as filled")}


class Told(Protocol):
    """What is told of one species."""

    @property
    def name(self) -> str:
        """The species."""
        ...

    @property
    def ratio(self) -> Estimate:
        """Its share of the seeds found ÷ expected."""
        ...

    @property
    def runs(self) -> str:
        """Ahead, behind or as filled."""
        ...

    @property
    def would_show(self) -> float:
        """The change of its share that would have been found."""
        ...


def headline(found: bool, species: Sequence[Told], *, box: str, seeds: int) -> Phrase:
    """Say whether the box sorts, who runs ahead, and by how much."""
    count = SEEDS(float(seeds))
    if not found:
        first = say("No sorting seen in {box}: {seeds} are mixed as filled.", box=box, seeds=count)
        rarest = max(species, key=lambda each: (each.would_show, each.name))
        text = "{name} {change} off would have shown 9 times in 10."
        shown = SHARE(rarest.would_show, 2)
        return join([first, say(text, name=rarest.name, change=shown)])
    moved = sorted(
        (each for each in species if each.runs != "as filled"),
        key=lambda each: (-abs(each.ratio.value - 1), each.name),
    )
    start = say("{box} sorts.", box=box)
    if not moved:
        return join([start, say("No one species stands out; all of them together do.")])
    return join([start, *(_moved(each) for each in moved)])


def _moved(each: Told) -> Phrase:
    return say(
        "{name} runs {runs}: {times} times its share as filled ({low} to {high}).",
        name=each.name,
        runs=RUNS[each.runs],
        times=NUMBER(each.ratio.value),
        low=NUMBER(each.ratio.low),
        high=NUMBER(each.ratio.high),
    )


def next_thing(found: bool, filled: FilledBox, species: Sequence[Told]) -> Phrase:
    """Say the one thing to do now."""
    if not found:
        return say("Go on; separate a catch again with {box} half out.", box=filled.box.name)
    stir = say("Empty the meters, stir {box}, then catch and separate again.", box=filled.box.name)
    if not any(each.runs == "ahead" for each in species):
        return stir
    return join([stir, say("What runs ahead now is missing at the end.")])


def working(
    portions: Sequence[Portion],
    counts: Sequence[int],
    *,
    expected: Sequence[float],
    statistic: float,
) -> tuple[Line, ...]:
    """Show the seeds expected of each species, and the sum of squares."""
    n = float(sum(seeds for seeds in counts))
    lines = []
    for each, seeds, share in zip(portions, counts, expected, strict=True):
        text = "{name}: expected, of {n} in all; found {seeds}"
        words = say(text, name=each.name, n=SEEDS(n), seeds=SEEDS(float(seeds)))
        terms = NUMBER(n) * SHARE(share)
        lines.append(Line(words, NUMBER(n * share), terms))
    text = "Chi-square: (found − expected)² ÷ expected, added up"
    last = Line(say(text), NUMBER(statistic), source=SOURCE)
    return (*lines, last)
