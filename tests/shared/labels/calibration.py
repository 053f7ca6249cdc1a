"""Sentences of the room calibration that tests look for."""

from .label import Label

ALL_CATCHES_SHARE = Label("Every catch shares one built-in error. To shrink it, {cure}.")
BAG_EMPTY = Label("no heavier than the tare: the bag has no seed in it")
BY_ITSELF = Label("Catch {n} by itself would not settle it; everything known together does.")
CANNOT_TOLD_YET = Label("Too soon to tell: catch again.")
CANNOT_TOLD_YET_SURER = Label("Too soon to tell. To be more certain, {cure}.")
CATCH_AGAIN_THERE = Label("{go}, and catch again there.")
CATCH_MORE_ROWS = Label("Catch more rows, not the same rows again: {cure}.")
CAUGHT_GEAR_SOWN = Label(
    "Caught in {caught} gear, to be seeded in {sown} gear: the same turns will "
    "meter {part} the seed. The number of turns stays the same; the setting "
    "changes."
)
CHART_ALONE = Label("The chart alone: {hope}")
CLOSE_METER_DROP = Label("Running heavy: close the meter to drop {off} less, and catch again.")
DRIVE_IN_GEAR = Label("Put the drive in {gear} gear. {go}")
EDGE_ONE_MORE = Label("That is right at the edge: one more catch will settle it.")
GIVES = Label("{setting} drops {rate}.")
GIVE_ONE_POINT = Label("enter at least one setting and its rate")
GIVE_ROWS_CAUGHT = Label("enter how many rows dropped into the bag")
GIVE_SEED_WEIGHED = Label("enter what the seed weighed")
GIVE_TURNS_MADE = Label("enter how many turns you made")
GIVE_WEIGHT_ABOVE = Label("enter a weight above 0")
HALF = Label("half")
IN_GEAR = Label("{go}, in {gear} gear")
IS_WANTED = Label("The goal is {odds} odds.")
LEAVE_LEVER = Label("Leave the lever at {setting}.")
NO_NOTCH_CAN = Label("No notch will do it: none drops {rate} within {tolerance}.")
NO_NOTCH_COMES = Label(
    "no notch comes close: the nearest, {setting}, drops {low} to {high}; use "
    "another gear or check the chart"
)
NO_NOTCH_GEAR = Label("No notch in {gear} gear will do it: none drops {rate} within {tolerance}.")
ONE_OF_THREE_GROUNDS = Label("enter the turns, the distance or the area, only one of them")
OPEN_METER_DROP = Label("Running light: open the meter to drop {off} more, and catch again.")
PUTS_WITHIN = Label("{odds} odds this puts {where} within {tolerance} of {rate}.")
RATES_GO_UP = Label("enter rates that go up as the meter opens; does the scale read backward?")
STAND_RATE = Label("the stationary rate")
THEN_CATCH_THERE = Label("Then make a catch there.")
THE_FIELD = Label("the field")
TIMES = Label("{n} times")
TO_BE_SURER = Label("To be more certain, {cure}.")
TURNS_CRANK = Label("Crank turns")
TURNS_WHEEL = Label("Wheel turns")
WHEEL_UNMEASURED = Label(
    "this drill's wheel has not been measured yet: enter it on the drill's page"
)
YOUR_CHART_CANNOT = Label(
    "Your chart can't be right: it says {expected} at {setting}, but the drill "
    "dropped {gave} stationary ({odds} odds by chance). From here on, the chart "
    "counts less."
)
