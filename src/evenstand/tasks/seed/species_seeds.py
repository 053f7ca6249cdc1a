"""Seeds in a weight of a species that is only named, by the table of species."""

from math import sqrt

from evenstand.engine.statistics.budget import Quantity, uncertain

from .species_table import species_table


def seeds_per_kg(name: str) -> Quantity | None:
    """Return what the sources print, their range as limits; None for a name of none. [1/kg]

    Parameters
    ----------
    name : str
        A common name in English or Spanish, or the scientific one.
    """
    asked = name.strip().casefold()
    for species in species_table():
        names = (species.name, species.scientific, species.spanish, *species.also)
        if asked and asked in (each.casefold() for each in names) and species.count_range:
            low, high = species.count_range
            return uncertain((low + high) / 2, (high - low) / 2 / sqrt(3), "seed count")
    return None
