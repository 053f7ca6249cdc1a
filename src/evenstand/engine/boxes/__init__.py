"""The boxes of a drill and what goes into each.

What a box holds by volume and bulk density, which split of a mix fits which boxes, and whether
a mixture sorts itself on the way.

Open to other rooms: box, compromise, density, filled, portion, rates, sample, sorting,
sorting_trend, split.
"""
