"""Sentences of the room seeding that tests look for."""

from .label import Label

AFTER_GOES_DOWN = Label(
    "After {ground} it goes down at {rate} ({low} to {high}); {target} is wanted: {verdict}."
)
AREA_METER_RIGHT = Label("the area meter is right to ± {limits}")
AREA_METER_SHOWS = Label(
    "The area meter shows {shown} for {known}: multiply what it shows by {factor}."
)
BAG_HOLDS_WEIGHT = Label("a bag holds the weight on its label to ± {limits}")
BEGIN_ONE_FILL = Label("Begin: one fill does the field.")
BOX_HELD_MUCH = Label(
    "At {ground} the box held much more than was looked for: is a load not written down?"
)
BOX_HELD_MUCH_LESS = Label(
    "At {ground} the box held much less than was looked for: is the level right?"
)
COUNT_BENCH_RATE = Label(
    "Count with {ratio} ({low} to {high}) of the bench rate: a study's, no own field yet."
)
COUNT_BENCH_RATE_ONE = Label(
    "Count with {ratio} ({low} to {high}) of the bench rate: one own field, and a study behind "
    "it; {own} of what is known is your own."
)
COUNT_BENCH_RATE_OWN = Label(
    "Count with {ratio} ({low} to {high}) of the bench rate, from {n} own fields; {own} of what "
    "is known is your own."
)
DEPTH_WHEELS_STOPS = Label("Are the depth wheels or stops set for this ground?")
DIG_UP_MORE = Label("Dig up {n} more, in other rows.")
DOWN_PRESSURE_ENOUGH = Label("Is the down pressure enough for this ground and this speed?")
DO_DEPTH_STOPS = Label("Do the depth stops of these rows stand like the others?")
FIELD_GOT_WANTED = Label("The field got {rate}; {wanted} was wanted.")
FIELD_GOT_WHAT = Label("The field got {ratio} of what the stand promised.")
FIELD_GOT_WITHIN = Label("The field got {rate}, within the band around {wanted}.")
FILL_BOX_AREA = Label("Fill the box at {at} on the area meter; look into it from {low} on.")
FILL_BOX_NOW = Label("Fill the box now.")
FIRST_READING_DOES = Label(
    "The first reading does not fit what was promised, {rate} ± {u}: it is believed less."
)
FOUND_ROWS_SHOULD = Label(
    "{found} found in {n} rows; {expected} should lie there ({low} to {high})."
)
GO_COUNT_FITS = Label("Go on: the count fits.")
GO_DEPTH_FITS = Label("Go on: the depth fits.")
HAVE_EDGE_ONE = Label("{work} Have {edge} ({bags}) at the edge, and one person to pour.")
LEAVE_LEVER_NO = Label("Leave the lever at {setting}: no other notch is clearly better.")
LEAVE_LEVER_ODDS = Label(
    "Leave the lever at {setting}: the odds that the rate is right are {odds}."
)
LOOK_ROW_FIRST = Label("Look at row {rows} first: it drops other than its neighbours.")
MAP_RIGHT_ABOUT = Label("the map is right to ± {limits}")
MORE_SEED_WENT = Label("more seed went down by {ground} than was loaded: is a load missing?")
NOTHING_CAUGHT_BEFORE = Label(
    "nothing was caught before: the rate may be {off} off, one standard deviation"
)
NO_READING_YET = Label(
    "No reading yet: {rate} ({low} to {high}) is what was looked for, {target} is wanted."
)
OF_THE_DOUBT = Label("{part} of the doubt is {cause}: {cure}.")
ONLY_LOADED_CHECK = Label(
    "only {loaded} were loaded: check the level, or write down the missing load"
)
PASS_ALONG = Label("{words} That is in pass {number}, {along} along it.")
PUT_SEED_WHERE = Label(
    "Put the seed where the box runs low: each stop takes about {stop}, {all} together."
)
RATE_WANDERS_OVER = Label("the rate wanders by {drift} over an acre")
READING_BOX = Label("reading the box")
READ_BOX_WHEN = Label("read the box when it is nearly empty, or weigh what is left")
SEED_ENDS_ABOUT = Label(
    "The seed ends at about {at} on the area meter: {short} are short. {more} more makes it safe."
)
SEED_LIES_DEEP = Label(
    "The seed lies {mean} deep ({low} to {high}); {within} of it within {allowed} of the "
    "{wanted} wanted."
)
SEED_MAY_RUN = Label("The seed may run out: the odds are {odds}. {more} more makes it safe.")
SEED_SUFFICES_ABOUT = Label(
    "The seed suffices: about {left} will be left, and the odds are {odds}."
)
SET_METER_LESS = Label("Set the meter for less seed, and read the box again after some ground.")
SET_METER_MORE = Label("Set the meter for more seed, and read the box again after some ground.")
SOMETHING_CHANGED_ABOUT = Label(
    "Something changed at about {place} ({low} to {high}): {before} before it, {after} since. "
    "The odds of a change are {odds}."
)
SPEED_TOO_HIGH = Label("Is the speed too high for this ground?")
STAYS_BOX = Label("{weight} stays in the box")
STOP_CHECK = Label("Stop and check: {first}")
STOP_LOOK_METERS = Label("Stop and look: meters, drive, flaps, seed bridging. {what}")
STOP_TAKES_EACH = Label("a stop takes {stop}, and {bag} for each bag and person")
TARGET_ODDS = Label("on target, odds {odds}")
UNCOVER_MORE_ROWS = Label("Uncover more rows: so few would be found by chance with odds of {odds}.")
UNCOVER_MORE_ROWS_SO = Label(
    "Uncover more rows: so many would be found by chance with odds of {odds}."
)
WALK_ROUND_FIELD = Label("walk round the field with a receiver, or take its outline from a survey")
WHAT_BOX_SOWS = Label("What is in the box sows the rest.")
