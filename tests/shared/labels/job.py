"""Sentences of the room job that tests look for."""

from .label import Label

GIVE_CRANK_RATIO = Label("enter how many crank turns make one wheel turn")
NOT_KNOWN_HERE_DID = Label("{name} is not known here; did you mean {near}?")
TOLERANCE = Label("tolerance {tolerance}")
