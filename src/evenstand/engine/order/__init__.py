"""Seed to buy, to bring and to load.

Need, bags, batches, inoculant, loads and the hours they take.

Open to other rooms: bags, batches, inoculant, loads, need, purchase, work_rate.
"""
