"""A seed lot and its species.

What its tag, a count and a germination test say, how old they are, how much of a lot is live,
and what the table of species knows.

Open to other rooms: age, coating, count, germination, lot, pls, replicates, result, retest,
size_class, species, species_names, tag, working.
"""
