"""A catch: seed collected from the rows over a set number of turns.

Its rate with a budget, the verdict against a target, and what would make it more certain.

Open to other rooms: rate, stopped, surer, target, weighing.
"""
