"""A job as far as it has come.

All its steps gathered, with what the drill's past says and what was achieved on the ground.

Open to other rooms: achieved, calibration, chosen, field_ratios, gather, made_at, seeding.
"""
