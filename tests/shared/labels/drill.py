"""Sentences of the room drill that tests look for."""

from .label import Label

ALL_LEVERS = Label("all {n} levers")
CLOSE_OUTLINE_LAST = Label("close the outline: its last corner must be its first")
COMING_DOWN_ABOVE = Label("coming down to it from above")
COMING_UP_BELOW = Label("coming up to it from below")
DRAW_EACH_HOLE = Label("draw each hole inside its edge")
DRAW_FEWER_CORNERS = Label("draw it with fewer corners: at most {n}")
DRAW_OUTLINE_AGAIN = Label("draw the outline again: its edge crosses itself")
GIVE_EACH_CORNER = Label("give each corner as longitude, then latitude")
GIVE_OUTLINE_FIELD = Label("give the outline of the field as a polygon")
GIVE_OUTLINE_GEOJSON = Label("give the outline as GeoJSON")
GROUND_PER_WHEEL = Label("Ground per wheel turn: tape, slip counted here and nowhere else")
LEAVE_AT = Label("Leave {levers} at {to}")
MOVE_FROM_TO = Label("Move {levers} from {from_} to {to}")
ONE_TURN_ROLLS = Label(
    "One turn rolls {ground}, known to ± {share} only: a tape along five turns knows it better. "
    "Use the tape, or roll much further."
)
OUTLINE_HOLDS_EDGE = Label("The outline holds {area}; its edge is {edge} long.")
PAST_THEN_DOWN = Label("past it, then down to it from above")
PAST_THEN_UP = Label("past it, then up to it from below")
ROW_SPACING_KNOWN = Label("row spacing known to ± {limits}")
SET_TO = Label("Set {levers} to {to}")
SWAP_THEM_LONGITUDE = Label("swap them: longitude comes first, then latitude")
THE_LEVER = Label("the lever")
