"""What to do with the boxes, the one next thing first."""

from collections.abc import Sequence

from evenstand.engine.box_rates import BoxRates
from evenstand.engine.filled_box import FilledBox
from evenstand.engine.sorting import Sorting
from evenstand.engine.sorting_trend import SortingTrend
from evenstand.engine.units import DENSITY, RATE
from evenstand.engine.words import Amount, Phrase, say


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
    reached : BoxRates, optional
    sampled, trends : sequence of Sorting, of SortingTrend
    """
    if trends:
        return (trends[-1].next, *(each.say for each in trends))
    if sampled:
        return (sampled[-1].next, *(each.say for each in sampled))
    if reached is not None:
        return (reached.say, _live(reached))
    return (_set_to(used), way)


def _live(reached: BoxRates) -> Phrase:
    """Say how many live seeds that is."""
    return say(
        "That is {live} in all, live, {low} to {high}, for {wanted} wanted.",
        live=Amount(reached.live.value, DENSITY),
        low=Amount(reached.live.low, DENSITY),
        high=Amount(reached.live.high, DENSITY),
        wanted=Amount(reached.wanted_live, DENSITY),
    )


def _set_to(used: Sequence[FilledBox]) -> Phrase:
    parts = {
        f"b{i}": say("{box} to {rate}", box=filled.box.name, rate=Amount(filled.rate, RATE))
        for i, filled in enumerate(used)
    }
    *first, last = (f"{{{name}}}" for name in parts)
    listed = Phrase(f"{', '.join(first)} and {last}" if first else last, parts)
    return say("Set {boxes}, bulk.", boxes=listed)
