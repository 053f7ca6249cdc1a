"""Seed against area while seeding.

Loads, levels and acres into the rate so far, where it changed, when the box runs out, and the
field ratio that a closed field leaves behind.

Open to other rooms: balance, behind, change_point, closing, cures, depth_check, events,
field_area, field_ratio, level, lever, plan, seeding, steps.
"""
