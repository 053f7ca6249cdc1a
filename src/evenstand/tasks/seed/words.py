"""What a tag says of the seed in the bag, the one next thing first."""

from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.quantities.units import DENSITY, RATE, SHARE
from evenstand.engine.seed.result import TagResult, WantedRate
from evenstand.engine.statistics.budget import Estimate


def advise(result: TagResult, wanted: WantedRate | None) -> tuple[Phrase, ...]:
    """Say what to sow, or what the bag holds, and how far that is known."""
    return (_first(result, wanted), *_range(result.pls), *_seeds(result), *_other_way(result))


def _first(result: TagResult, wanted: WantedRate | None) -> Phrase:
    pls = SHARE(result.pls.value)
    if wanted is None or result.bulk_rate is None or result.pls_rate is None:
        more = SHARE(1 / result.pls.value - 1)
        text = (
            "{pls} of this bag is pure live seed: weigh in {more} more than the live seed you want."
        )
        return say(text, pls=pls, more=more)
    bulk, live = RATE(result.bulk_rate.value), RATE(result.pls_rate.value)
    if wanted.basis == "pls":
        return say(
            "Seed {bulk} from this bag to get {live} of pure live seed.", bulk=bulk, live=live
        )
    return say("{bulk} from this bag puts down {live} of pure live seed.", bulk=bulk, live=live)


def _range(pls: Estimate) -> tuple[Phrase, ...]:
    text = "Pure live seed {pls}; tags like this run {low} to {high}."
    low, high = SHARE(pls.low), SHARE(pls.high)
    return (say(text, pls=SHARE(pls.value), low=low, high=high),)


def _seeds(result: TagResult) -> tuple[Phrase, ...]:
    if result.seeds_per_area is None:
        return ()
    return (say("That's {seeds} live.", seeds=DENSITY(result.seeds_per_area.value)),)


def _other_way(result: TagResult) -> tuple[Phrase, ...]:
    other = result.pls_other_way
    if other is None or other.value == result.pls.value:
        return ()
    text = "Counting hard and dormant seed, it would be {other}."
    if result.count_hard:
        text = "Without hard and dormant seed, it would be {other}."
    return (say(text, other=SHARE(other.value)),)
