"""What an entry says: one body for each kind of thing that is kept.

Each field stands with what it measures, how it is called and what it may be; amounts stay as
they were typed.

Open to other rooms: about, bodies, details, frozen, identity, machine, seed, shape, sown, work.
"""
