"""Drills as forms and book have them.

A drill, its chart, its wheel, and the field it works in: outline and position.

Open to other rooms: chart_form, form, machines, outline, position, rules.
"""
