"""A field being seeded.

Loads, levels, moved levers and checks as they were written down, put in order along the area
meter.

Open to other rooms: checks, closed, form, kept, on_the_way, rules, said,
seeding.
"""
