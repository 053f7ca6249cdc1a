"""Sentences of the room statistics that tests look for."""

from .label import Label

COUNT_MORE_SEEDS = Label("count more seeds of each kind")
GIVE_LEAST_TWO = Label("enter at least two samples, none empty")
