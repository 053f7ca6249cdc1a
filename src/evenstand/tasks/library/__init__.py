"""Evenstand for other programs.

The book as Python objects, bodies from outside held to what forms ask, results as JSON.

Open to other rooms: amounts, boxes_json, checking, order_json, seed_json, set_json,
solved_json, sow_json, stand_json.
"""
