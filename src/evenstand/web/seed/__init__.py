"""Pages of seed lots.

A lot with its tag, photos, counts and germination tests.

Open to other rooms: photos, seed, tests.
"""
