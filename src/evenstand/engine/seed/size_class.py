"""Size class of a seed: which kind of box it runs from."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from ..quantities.errors import require_positive
from ..quantities.phrases import Phrase, say
from ..quantities.units import POUND, SEED_COUNT
from ..statistics.budget import Quantity, nominal, standard_uncertainty

SeedClass = Literal["large", "medium", "small", "fluffy"]

# Our own limits, derived from the counts of seeds that go in one box in practice: peas, cereals
# and vetch below the first; clovers, brassicas and timothy above the second.
LARGE_BELOW = 30_000 / POUND
SMALL_ABOVE = 150_000 / POUND

CLASS_WORDS: Mapping[SeedClass, Phrase] = {
    "large": say("large seed"),
    "medium": say("medium seed"),
    "small": say("small seed"),
    "fluffy": say("fluffy seed"),
}


@dataclass(frozen=True, slots=True)
class Sized:
    """The class of a seed, why, and the class it could as well be."""

    seed_class: SeedClass
    why: Phrase
    doubt: Phrase | None = None


def size_class(seeds_per_kg: Quantity, *, fluffy: bool = False) -> Sized:
    """Tell which class a seed belongs to; chaff and hairs outweigh size.

    large below 30,000 seeds per pound, small above 150,000, medium between

    Parameters
    ----------
    seeds_per_kg : Quantity
        Seeds in a weight, of pure seed. [1/kg]
    fluffy : bool
        Whether hairs, awns or chaff keep it from flowing freely.

    Returns
    -------
    Sized
        With a doubt where the count's 95% range reaches into another class.

    Raises
    ------
    MeasurementError
        For a count that is not above zero.

    References
    ----------
    Three kinds of seed, each with its own box: USDA NRCS, Five keys to
    successful grass seeding (2003), key 3. The limits are ours. Chaffy kinds:
    7 CFR 201.60.

    Examples
    --------
    >>> from evenstand.engine.quantities.units import POUND
    >>> [size_class(n / POUND).seed_class for n in (2_000, 34_000, 200_000)]
    ['large', 'medium', 'small']
    """
    value, reach = nominal(seeds_per_kg), 2 * standard_uncertainty(seeds_per_kg)
    require_positive("seeds_per_kg", value, "seeds/kg")
    if fluffy:
        return Sized("fluffy", say("hairs, awns or chaff keep it from flowing"))
    found = _by_count(value)
    others = {_by_count(value - reach), _by_count(value + reach)} - {found}
    doubt = None
    if others:
        words = CLASS_WORDS[sorted(others)[0]]
        doubt = say("it could just as well be {other}: count the lot", other=words)
    return Sized(found, say("{count}", count=SEED_COUNT(value)), doubt)


def _by_count(seeds_per_kg: float) -> SeedClass:
    if seeds_per_kg < LARGE_BELOW:
        return "large"
    return "small" if seeds_per_kg > SMALL_ABOVE else "medium"
