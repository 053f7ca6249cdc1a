"""Sentences of the room seeding that tests look for."""

from .label import Label

AFTER_GOES_DOWN = Label(
    "After {ground}, you are at {rate} ({low} to {high}); target {target}: {verdict}."
)
AREA_METER_RIGHT = Label("the acre meter is good to ± {limits}")
AREA_METER_SHOWS = Label(
    "The acre meter reads {shown} for {known}: multiply its readings by {factor}."
)
BAG_HOLDS_WEIGHT = Label("a bag's label weight is good to ± {limits}")
BEFORE_MOVED = Label(
    "Before the lever was moved, after {ground}, you were at {rate} ({low} to {high}): {verdict}."
)
BEGIN_ONE_FILL = Label("Start: one fill will do the field.")
BOX_HELD_MUCH = Label("At {ground} the box had much more in it than expected: is a load missing?")
BOX_HELD_MUCH_LESS = Label(
    "At {ground} the box had much less in it than expected: is the level right?"
)
COUNT_BENCH_RATE = Label(
    "Plan on {ratio} ({low} to {high}) of the stationary rate, from a study; none"
    " of your own fields yet."
)
COUNT_BENCH_RATE_ONE = Label(
    "Plan on {ratio} ({low} to {high}) of the stationary rate, from one field of "
    "your own and a study. Your own data is {own} of that."
)
COUNT_BENCH_RATE_OWN = Label(
    "Plan on {ratio} ({low} to {high}) of the stationary rate, from {n} fields of"
    " your own. Your own data is {own} of that."
)
DEPTH_WHEELS_STOPS = Label("Are the depth wheels or stops set right for this ground?")
DIG_UP_MORE = Label("Dig up {n} more, in other rows.")
DOWN_PRESSURE_ENOUGH = Label("Is there enough down pressure for this ground and speed?")
DO_DEPTH_STOPS = Label("Are the depth stops on these rows set like the others?")
FIELD_GOT_WANTED = Label("The field got {rate}; the target was {wanted}.")
FIELD_GOT_WHAT = Label("The field got {ratio} of the stationary rate.")
FIELD_GOT_WITHIN = Label("The field got {rate}, within the target band around {wanted}.")
FILL_BOX_AREA = Label("Fill the box at {at} on the acre meter; start checking it at {low}.")
FILL_BOX_NOW = Label("Fill the box now.")
FIRST_READING_DOES = Label(
    "The first reading doesn't fit the prediction, {rate} ± {u}: the prediction gets less weight."
)
FOUND_ROWS_SHOULD = Label(
    "Found {found} in {n} rows; you should find {expected} ({low} to {high})."
)
GIVE_SEED_COUNT = Label("enter the seed count")
GO_COUNT_FITS = Label("Keep going: the seed count checks out.")
GO_DEPTH_FITS = Label("Keep going: the depth is right.")
HAVE_EDGE_ONE = Label(
    "{work} Stage {edge} ({bags}) at the edge of the field, with one person to pour."
)
LEAVE_LEVER_NO = Label("Leave the lever at {setting}: no other notch is clearly better.")
LEAVE_LEVER_ODDS = Label("Leave the lever at {setting}: {odds} odds the rate is right.")
LOOK_ROW_FIRST = Label(
    "Stop the drill, shut off the tractor, then check row {rows} first: it drops"
    " differently from its neighbors."
)
LEVER_NOW_AT = Label(
    "The lever is at {setting}: {rate} ({low} to {high}) expected, target {target}."
)
MAP_RIGHT_ABOUT = Label("the map is good to ± {limits}")
MORE_SEED_WENT = Label("more seed was used by {ground} than was loaded: is a load missing?")
NOTHING_CAUGHT_BEFORE = Label(
    "no catch beforehand: the rate may be {off} off (one standard deviation)"
)
NO_READING_YET = Label("No reading yet: {rate} ({low} to {high}) expected, target {target}.")
NO_CATCH_NO_READING = Label("No catch, no reading yet: {low} to {high} possible, target {target}.")
OF_THE_DOUBT = Label("{part} of the uncertainty comes from {cause}: {cure}.")
ONLY_LOADED_CHECK = Label("only {loaded} was loaded: check the level, or enter the missing load")
PASS_ALONG = Label("{words} That is in pass {number}, {along} in.")
PUT_SEED_WHERE = Label(
    "Stage the seed where the box runs low: each stop takes about {stop}, {all} in total."
)
RATE_WANDERS_OVER = Label("the rate drifts {drift} over an acre")
READ_BOX_AFTER = Label("Read the box after {ground} more, at {at} on the acre meter.")
READ_BOX_AT = Label("Read the box at")
READ_BOX_NOW = Label("Read the box now.")
READING_BOX = Label("box readings")
READ_BOX_WHEN = Label("read the box when it is nearly empty, or weigh what is left")
SEED_ENDS_ABOUT = Label(
    "You will run out at about {at} on the acre meter, {short} short. {more} more makes it safe."
)
SEED_LIES_DEEP = Label(
    "Average seed depth is {mean} ({low} to {high}); {within} of seeds are within"
    " {allowed} of the {wanted} target."
)
SEED_MAY_RUN = Label("You may run out of seed, with {odds} odds. {more} more makes it safe.")
SEED_SUFFICES_ABOUT = Label(
    "You have enough seed, with {odds} odds; about {left} will be left over."
)
SET_METER_LESS = Label("Set the meter for less seed, and read the box again after a few passes.")
SET_METER_MORE = Label("Set the meter for more seed, and read the box again after a few passes.")
SOMETHING_CHANGED_ABOUT = Label(
    "Something changed around {place} ({low} to {high}): {before} before, {after}"
    " since. {odds} odds of a real change."
)
SPEED_TOO_HIGH = Label("Are you driving too fast for this ground?")
STAYS_BOX = Label("{weight} stays in the box")
STOP_CHECK = Label("Stop, shut off the tractor, then check: {first}")
STOP_LOOK_METERS = Label(
    "Stop the drill and shut off the tractor. Then check the meters, drive and flaps,"
    " and look for bridged seed. {what}"
)
STOP_TAKES_EACH = Label("a stop takes {stop}, plus {bag} per bag per person")
TARGET_ODDS = Label("on target, {odds} odds")
UNCOVER_MORE_ROWS = Label("Uncover more rows: {odds} odds of finding this few just by chance.")
UNCOVER_MORE_ROWS_SO = Label("Uncover more rows: {odds} odds of finding this many just by chance.")
WALK_ROUND_FIELD = Label("walk the field boundary with a GPS receiver, or use a surveyed boundary")
WENT_OUT = Label(
    "{used} went out on {ground}: {rate} ({low} to {high}), {odds} odds it is within the "
    "target band."
)
WHAT_BOX_SOWS = Label("What is in the box will finish the field.")
