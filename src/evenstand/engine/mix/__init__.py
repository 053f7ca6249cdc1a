"""A mix and its species.

Shares, live seeds and weights of each species, worked into one another, with depth, cost and
C:N, and what there is to say about them.

Open to other rooms: advice, carbon, depth, member, mix, totals, words.
"""
