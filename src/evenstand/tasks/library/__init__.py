"""Evenstand for other programs.

The book as Python objects, bodies from outside held to what forms ask, results as JSON.

Open to other rooms: admitting, amounts, checking.
"""
