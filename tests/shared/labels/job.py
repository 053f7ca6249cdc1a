"""Sentences of the room job that tests look for."""

from .label import Label

NOT_KNOWN_HERE_DID = Label("{name} is not known here; did you mean {near}?")
TOLERANCE = Label("tolerance {tolerance}")
