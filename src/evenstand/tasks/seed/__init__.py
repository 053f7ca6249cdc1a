"""Seed lots as tags, forms, files and book have them.

Tag, count and germination test are read, checked and kept; names are matched to species.

Open to other rooms: bags, count_form, form, kept, lots, names, photo, picture, said, sheet,
species_seeds, species_table, sprout_form, tag.
"""
