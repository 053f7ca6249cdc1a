"""Evenstand: the right number of live seeds of every species of a mix, into every row."""

__version__ = "0.1.0"
