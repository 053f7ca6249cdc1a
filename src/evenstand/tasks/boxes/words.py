"""What to do with the boxes, the one next thing first."""

from collections.abc import Sequence

from evenstand.engine.boxes.filled import FilledBox
from evenstand.engine.boxes.rates import BoxRates
from evenstand.engine.boxes.sorting import Sorting
from evenstand.engine.boxes.sorting_trend import SortingTrend
from evenstand.engine.quantities.phrases import Phrase, say, series
from evenstand.engine.quantities.units import DENSITY, RATE
from evenstand.engine.statistics.budget import Estimate, ranged, total


def advise(
    used: Sequence[FilledBox],
    way: Phrase,
    reached: BoxRates | None,
    *,
    sampled: Sequence[Sorting],
    trends: Sequence[SortingTrend],
) -> tuple[Phrase, ...]:
    """Say what to do now: with a sample what it asks for, else what to set each box to.

    Parameters
    ----------
    used : sequence of FilledBox
        Boxes with seed in them.
    way : Phrase
        Which seed goes in which box.
    sampled, trends : sequence of Sorting, of SortingTrend
    """
    if trends:
        return (trends[-1].next, *(each.say for each in trends))
    if sampled:
        return (sampled[-1].next, *(each.say for each in sampled))
    if reached is not None:
        return (reached.say, _live(reached))
    return (_set_to(used), way)


def rate_range(filled: FilledBox) -> Estimate:
    """Tell how far the rate of a box is open as long as tags and counts are.

    Σ bulk rates of what is in it, each as uncertain as what it was worked out from

    Parameters
    ----------
    filled : FilledBox
        With seed in it.

    Returns
    -------
    Estimate [kg/m²]
    """
    rate = total(portion.rate for portion in filled.portions)
    if filled.box.carrier is not None:
        rate = rate + filled.box.carrier.rate
    return ranged(rate)


def _live(reached: BoxRates) -> Phrase:
    """Say how many live seeds that is."""
    return say(
        "That makes {live} live seeds, {low} to {high}; target {wanted}.",
        live=DENSITY(reached.live.value),
        low=DENSITY(reached.live.low),
        high=DENSITY(reached.live.high),
        wanted=DENSITY(reached.wanted_live),
    )


def _set_to(used: Sequence[FilledBox]) -> Phrase:
    parts = [say("{box} to {rate}", box=filled.box.name, rate=RATE(filled.rate)) for filled in used]
    return say("Set {boxes}, bulk seed.", boxes=series(parts))
