"""The table of species that comes with the program."""

from collections.abc import Mapping
from functools import cache
from importlib.resources import files

from evenstand.engine.seed.species import SpeciesTable, load


@cache
def species_table() -> SpeciesTable:
    """Read the table from the package, once."""
    data = files("evenstand.engine") / "data"

    def text(name: str) -> str:
        return (data / f"{name}.tsv").read_text(encoding="utf-8")

    return load(
        species=text("species"),
        counts=text("seed_counts"),
        cautions=text("cautions"),
        spanish=text("species_es"),
    )


@cache
def spanish_names() -> Mapping[str, str]:
    """Return the Spanish names of species, by their English ones."""
    return {each.name: each.spanish for each in species_table() if each.spanish}
