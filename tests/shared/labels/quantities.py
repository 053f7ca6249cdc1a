"""Sentences of the room quantities that tests look for."""

from .label import Label

AND = Label("{names} and {last}")
GIVE_A_VALUE_ABOVE_UNIT = Label("give a value above 0 {unit}")
GIVE_SHARE_BELOW = Label("give a share from 0 % to below 100 %")
GIVE_VALUE_ABOVE = Label("give a value above 0")
OR = Label("{names} or {last}")
