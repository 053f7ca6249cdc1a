"""How many seeds are in a weight by the table of species, for a lot nobody has counted."""

from ..quantities.errors import MeasurementError
from ..quantities.phrases import Phrase, say
from ..quantities.units import SEED_COUNT
from ..statistics.budget import give_or_take
from .count import TAG, Counted
from .species import Species

# How far a lot may lie from the middle of a table's sources, at least: our judgement. Lots of
# one species differ by much more where the table says so.
TABLE_LIMITS = 0.15
COUNT_YOUR_LOT = say("Count your lot: its seeds can differ much from those of the table.")


def from_species(species: Species) -> Counted:
    """Take the count from the table, with a wide range: the lot was not counted.

    The middle of the sources, within their half width and at least ± 15 %.

    Raises
    ------
    MeasurementError
        For a species whose count nobody printed.
    """
    if species.count_range is None:
        need = say(
            "count the lot or give its seeds per weight: none is printed for {name}",
            name=species.name,
        )
        raise MeasurementError("seeds_per_kg", species.name, need)
    low, high = species.count_range
    middle = (low + high) / 2
    limits = max((high - low) / 2, TABLE_LIMITS * middle)
    return Counted(
        seeds_per_kg=give_or_take(middle, limits, TAG),
        said=(_table_says(species, low, high), COUNT_YOUR_LOT),
    )


def _table_says(species: Species, low: float, high: float) -> Phrase:
    used = [count for count in species.counts if not count.doubt]
    sources = "; ".join(dict.fromkeys(count.source for count in used))
    template = "{name} has {low} to {high} ({sources})"
    if low == high:
        template = "{name} has {low} ({sources})"
    return say(
        template, name=species.name, low=SEED_COUNT(low), high=SEED_COUNT(high), sources=sources
    )
