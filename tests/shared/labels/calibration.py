"""Sentences of the room calibration that tests look for."""

from .label import Label

ALL_CATCHES_SHARE = Label("All catches share one error. To make it smaller, {cure}.")
CANNOT_TOLD_YET = Label("It cannot be told yet: catch again.")
CANNOT_TOLD_YET_SURER = Label("It cannot be told yet. To be surer, {cure}.")
CATCH_AGAIN_THERE = Label("{go}, and catch again there.")
CATCH_MORE_ROWS = Label("Catch more rows, not more times: {cure}.")
CAUGHT_GEAR_SOWN = Label(
    "Caught in gear {caught}, to be sown in gear {sown}: the same turns meter {part} the seed. "
    "The turns for a piece of ground do not change, the setting does."
)
CLOSE_METER_DROP = Label("Close the meter to drop {off} less, and catch again: it is heavy.")
EDGE_ONE_MORE = Label("That is on the edge: one more catch settles it.")
GIVES = Label("{setting} gives {rate}.")
HALF = Label("half")
IN_GEAR = Label("{go}, in gear {gear}")
IS_WANTED = Label("{odds} is wanted.")
NO_NOTCH_CAN = Label("No notch can do it: none gives {rate} within {tolerance}.")
NO_NOTCH_COMES = Label(
    "no notch comes near: {setting}, the nearest, gives {low} to {high}; use another gear or "
    "check the chart"
)
NO_NOTCH_GEAR = Label("No notch in gear {gear} can do it: none gives {rate} within {tolerance}.")
OPEN_METER_DROP = Label("Open the meter to drop {off} more, and catch again: it is light.")
PUTS_WITHIN = Label("{odds} that this puts {where} within {tolerance} of {rate}.")
STAND_RATE = Label("the stand rate")
THEN_CATCH_THERE = Label("Then catch there.")
THE_FIELD = Label("the field")
TIMES = Label("{n} times")
TO_BE_SURER = Label("To be surer, {cure}.")
TURNS_CRANK = Label("Turns of the crank")
TURNS_WHEEL = Label("Turns of the wheel")
YOUR_CHART_CANNOT = Label(
    "Your chart cannot be right: it says {expected} at {setting}, the drill gave {gave} at the "
    "stand ({odds} by chance). From here on the chart counts for less."
)
