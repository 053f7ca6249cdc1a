"""How many seeds are in a weight of a lot: from its tag, from a count, or from the table."""

import re
from dataclasses import replace
from math import isfinite

from evenstand.engine.parsing.parse import Reading, read
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.quantities.units import SCALE_STEP, SEED_COUNT, SEED_WEIGHT, SEEDS
from evenstand.engine.seed.coating import pure_count
from evenstand.engine.seed.count import TAG as COUNT
from evenstand.engine.seed.count import (
    Counted,
    WeighedSample,
    from_replicates,
    from_samples,
    from_species,
    printed,
    weighed,
)
from evenstand.engine.seed.species import Species
from evenstand.engine.seed.tag import Tag

from ..parsing.given import Given, listed
from ..parsing.keys import COUNTS
from ..parsing.warned import Warned

THOUSAND = 1000

_IN = re.compile(r"(.+?)\s+in\s+(.+)", re.IGNORECASE)


def count_key(given: Given) -> str | None:
    """Return how the seeds of a lot were counted; only one way can be."""
    ways = [key for key in COUNTS if key in given]
    if len(ways) > 1:
        first = given.name(ways[0])
        raise given.refuse(ways[1], say("leave it blank, or clear {first}", first=first))
    return ways[0] if ways else None


def read_count(given: Given, tag: Tag, species: Species | None) -> Counted | None:
    """Read how many seeds are in a weight, from the table where nobody wrote it."""
    key = count_key(given)
    if key is None:
        known = species is not None and species.count_range is not None
        return from_species(species) if species and known else None
    with given.pointing(seeds_per_kg=key, coated_units=key, thousand_seed_weight=key):
        return _read(given, key, tag)


def _read(given: Given, key: str, tag: Tag) -> Counted:
    match key:
        case "seeds_per_lb":
            return printed(_per_pound(given, key).quantity(COUNT))
        case "coated_per_lb":
            units = printed(_per_pound(given, key).quantity(COUNT))
            pure = pure_count(tag, coated_units=units.seeds_per_kg)
            return replace(units, seeds_per_kg=pure)
        case "tsw":
            return weighed(THOUSAND * given.quantity(key, SEED_WEIGHT, tag=COUNT))
        case "replicates":
            weights = [_weight(given, key, text) for text in listed(given.text(key))]
            return from_replicates(weights, chaffy=tag.chaffy)
        case _:
            samples = [_sample(given, text) for text in listed(given.text(key))]
            return from_samples(samples, resolution=_step(given))


def _per_pound(given: Given, key: str) -> Reading:
    text = given.text(key)
    path, unit = given.path(key), SEED_COUNT.us
    return read(text, SEED_COUNT, field=path, default_unit=unit, decimal=given.decimal)


def _weight(given: Given, key: str, text: str) -> float:
    """Read one weight of a list."""
    return given.piece(key, text).exact(key, SCALE_STEP)


def _sample(given: Given, text: str) -> WeighedSample:
    """Read a counted sample: ``560 in 20 g``."""
    parts = _IN.fullmatch(text)
    if parts is None:
        raise given.refuse("counted", say("enter a count and its weight, such as 560 in 20 g"))
    seeds = given.piece("counted", parts[1]).count("counted", SEEDS)
    return WeighedSample(seeds, _weight(given, "counted", parts[2]))


def _step(given: Given) -> float:
    """Smallest step of the scale that weighed the samples, 0 where it was not given. [kg]"""
    return given.exact("resolution", SCALE_STEP) if "resolution" in given else 0.0


def count_taken(given: Given, count: Counted | None) -> tuple[Phrase, ...]:
    """Say what a count that nobody made here is taken to be worth."""
    if count is None:
        return ()
    if count_key(given) is None:
        return count.said[:1]
    return () if isfinite(count.dof) else count.said


def count_asked(given: Given, count: Counted | None) -> tuple[Warned, ...]:
    """Ask for a count of the lot, or for more of it."""
    if count is None:
        return ()
    key = count_key(given)
    if key is None:
        return tuple(Warned(given.path("species"), said) for said in count.said[1:])
    return tuple(Warned(given.path(key), said) for said in count.said if isfinite(count.dof))
