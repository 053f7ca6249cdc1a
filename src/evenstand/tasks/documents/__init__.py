"""What each step shows: one document per result, from its advice down to its working.

Printed in a terminal, and nothing that a phone carries.

Open to other rooms: boxes, catch, mix, order, parts, rows, seeding, setting, solved, species,
stand, tag, turns.
"""
