"""The table of species is found in the package, whole."""

from evenstand.tasks.seed.species_table import species_table


def test_it_is_in_the_package():
    assert len(species_table()) == 142
    assert species_table() is species_table()
