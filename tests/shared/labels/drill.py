"""Sentences of the room drill that tests look for."""

from .label import Label

ALL_LEVERS = Label("all {n} levers")
COMING_DOWN_ABOVE = Label("coming down to it from above")
COMING_UP_BELOW = Label("coming up to it from below")
GROUND_PER_WHEEL = Label("Ground per wheel turn: tape, slip counted here and nowhere else")
LEAVE_AT = Label("Leave {levers} at {to}")
MOVE_FROM_TO = Label("Move {levers} from {from_} to {to}")
PAST_THEN_DOWN = Label("past it, then down to it from above")
PAST_THEN_UP = Label("past it, then up to it from below")
ROW_SPACING_KNOWN = Label("row spacing known to ± {limits}")
SET_TO = Label("Set {levers} to {to}")
THE_LEVER = Label("the lever")
