"""How many seeds are in a weight of a lot: from its tag, from a count, or from the table."""

from dataclasses import replace
from math import isfinite

from evenstand.book.kinds.seed import Lot, SeedCount
from evenstand.engine.quantities.phrases import Phrase
from evenstand.engine.quantities.units import SCALE_STEP
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

from ..drill.machines import quantity
from ..parsing.given import Given
from ..parsing.warned import Warned
from .said import LotSaid


def read_count(said: LotSaid, tag: Tag, species: Species | None) -> Counted | None:
    """Return how many seeds are in a weight, from the table where nobody told it."""
    key = said.count_key
    if key is None:
        known = species is not None and species.count_range is not None
        return from_species(species) if species and known else None
    with said.given.pointing(seeds_per_kg=key, coated_units=key, thousand_seed_weight=key):
        return (
            _own(said.count, said.given, chaffy=tag.chaffy) if said.count else _told(said.lot, tag)
        )


def _told(lot: Lot, tag: Tag) -> Counted | None:
    """Return what the tag or the seller tells."""
    if lot.seeds_per_kg:
        return printed(quantity(lot.seeds_per_kg, COUNT))
    if lot.thousand_seed_weight:
        return weighed(quantity(lot.thousand_seed_weight, COUNT))
    if lot.coated_per_kg:
        units = printed(quantity(lot.coated_per_kg, COUNT))
        return replace(units, seeds_per_kg=pure_count(tag, coated_units=units.seeds_per_kg))
    return None


def _own(count: SeedCount, given: Given, *, chaffy: bool) -> Counted:
    """Work out a count of one's own."""
    key = "replicates" if count.way == "replicates" else "counted"
    weights = [given.plain(key, sample.weight, SCALE_STEP) for sample in count.samples]
    if count.way == "replicates":
        return from_replicates(weights, chaffy=chaffy)
    seeds = (sample.seeds for sample in count.samples)
    step = count.resolution
    return from_samples(
        [WeighedSample(*each) for each in zip(seeds, weights, strict=True)],
        resolution=given.plain("resolution", step, SCALE_STEP) if step else 0.0,
    )


def count_taken(said: LotSaid, count: Counted | None) -> tuple[Phrase, ...]:
    """Say what a count that nobody made here is taken to be worth."""
    if count is None:
        return ()
    if said.count_key is None:
        return count.said[:1]
    return () if isfinite(count.dof) else count.said


def count_asked(said: LotSaid, count: Counted | None) -> tuple[Warned, ...]:
    """Ask for a count of the lot, or for more of it."""
    if count is None:
        return ()
    if said.count_key is None:
        return tuple(Warned(said.given.path("species"), each) for each in count.said[1:])
    path = said.given.path(said.count_key)
    return tuple(Warned(path, each) for each in count.said if isfinite(count.dof))
