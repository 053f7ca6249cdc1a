"""What each step shows: one document per result, from its advice down to its working.

A terminal shows it whole.

Open to other rooms: boxes, catch, mix, order, parts, rows, seeding, setting, solved, species,
stand, tag, turns.
"""
