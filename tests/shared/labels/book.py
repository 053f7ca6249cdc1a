"""Sentences of the room book that tests look for."""

from .label import Label

CHOOSE_CHANGE_OR_REMOVAL = Label("choose a change or a removal of this item")
ONLY_OWNER = Label("{name} is the only owner: make someone else an owner first")
WAIT_AND_TRY_AGAIN = Label("too many failed tries: wait {n} s, then try again")
