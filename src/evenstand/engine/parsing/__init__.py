"""Text that people type, read into numbers.

Numerals, fractions, units and how they are spelled, and whether a number is one that somebody
can have meant.

Open to other rooms: numerals, parse, plausible, retold, spelling.
"""
