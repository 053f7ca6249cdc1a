"""Sentences of the room quantities that tests look for."""

from .label import Label

AND = Label("{names} and {last}")
GIVE_A_VALUE_ABOVE_UNIT = Label("enter a value above 0 {unit}")
GIVE_SHARE_BELOW = Label("enter a share from 0% to less than 100%")
GIVE_VALUE_ABOVE = Label("enter a value above 0")
HEAVY = Label("heavy")
INTERSTATE_TRADE = Label("interstate trade")
LIGHT = Label("light")
ON_TARGET = Label("on target")
OR = Label("{names} or {last}")
TURNS = Label("turns")
