"""Turns, catches and rows of a job.

They are read from form, file or book, and lead to a setting.

Open to other rooms: catch, form, from_book, now, row_by_row, rows, setting, shut, stand_rate,
turning, turns.
"""
