"""Plants counted.

Plants per area with their range, emergence by species, gaps, what published tables advise, and
what a count says of next year's seed.

Open to other rooms: advice, emergence, gaps, learned, next_seeds, place, species, stand, surer,
tables, usual.
"""
