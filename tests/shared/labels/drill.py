"""Sentences of the room drill that tests look for."""

from .label import Label

ABOVE_LOW_END = Label("enter a number above the low end of the scale")
ALL_LEVERS = Label("all {n} levers")
CLOSE_OUTLINE_LAST = Label("close the boundary: its last corner must match the first")
COMING_DOWN_ABOVE = Label("coming down to it from above")
COMING_UP_BELOW = Label("coming up to it from below")
DRAW_EACH_HOLE = Label("draw each hole inside its edge")
DRAW_FEWER_CORNERS = Label("draw it with fewer corners: at most {n}")
DRAW_OUTLINE_AGAIN = Label("draw the boundary again: its edge crosses itself")
GIVE_A_NOTCH = Label("enter a notch on the lever")
GIVE_EACH_CORNER = Label("enter each corner as longitude, then latitude")
GIVE_NUMBER_RANGE = Label("enter a number from {low} to {high}")
GIVE_OUTLINE_FIELD = Label("enter the field boundary as a polygon")
GIVE_OUTLINE_GEOJSON = Label("enter the boundary as GeoJSON")
GROUND_PER_WHEEL = Label("Distance per wheel turn, taped: slip counted here only")
LEAVE_AT = Label("Leave {levers} at {to}")
MOVE_FROM_TO = Label("Move {levers} from {from_} to {to}")
NO_MORE_THAN = Label("enter no more than {n}")
ONE_TURN_ROLLS = Label(
    "One turn rolls {ground}, good to only ± {share}. A tape over five turns is "
    "better. Use the tape, or roll much farther."
)
ON_LINE = Label("line {n}: {need}")
OUTLINE_HOLDS_EDGE = Label("The boundary encloses {area}; its edge is {edge} long.")
PAST_THEN_DOWN = Label("go past it, then come down to it")
PAST_THEN_UP = Label("go past it, then come up to it")
ROLLED_OR_TAPED = Label("enter the rolled distance or the tape, not both")
ROW_SPACING_KNOWN = Label("row spacing good to ± {limits}")
SETTING_ONCE = Label("enter each setting only once")
SET_TO = Label("Set {levers} to {to}")
STOP_KEY_OUT = Label(
    "Stop the drill, shut off the tractor, take the key out and wait until nothing moves. "
    "Only then open a lid or a guard."
)
SWAP_THEM_LONGITUDE = Label("swap them: longitude comes first, then latitude")
THE_LEVER = Label("the lever")
