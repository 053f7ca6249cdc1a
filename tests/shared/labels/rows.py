"""Sentences of the room rows that tests look for."""

from .label import Label

COMPARE_ROWS = Label("compare at most {n} rows at a time")
CLEAR_ROWS_THEN = Label(
    "stop the drive, unplug rows {rows}, then catch again: at least 3 rows must be "
    "running to compare"
)
DOES_DRIVE_THESE = Label("Is the drive on these rows slipping: chain, clutch, pin, its own wheel?")
DO_ALL_METERS = Label("Do all meters read zero together, with no play between them?")
EVEN_MEAN_TARGET = Label(
    "Even with the average on target, {rows} would miss ± {share}, noise removed."
)
EVERY_ROWS = Label("every {k} rows")
GATE_SLIDE_METER = Label("Is the meter's gate or slide shut?")
GIVE_CATCH_SEED = Label("enter a catch with seed in it")
GIVE_EVERY_CATCH = Label("use the same rows in every catch")
GIVE_LEAST_ROWS = Label("enter at least 3 rows")
GIVE_ONE_LABEL = Label("enter one label for each of the {rows} rows")
GIVE_WEIGHTS_MORE = Label("enter weights of 0 or more")
GO_DRILL = Label("Go check the drill.")
GO_TO = Label("Go check {rows}.")
HOSE_KINKED_BOOT = Label("Is the seed tube kinked or the boot partly plugged?")
LAST_ROW_DROPS = Label(
    "The last row drops {share} {way} than the first, in a steady slope across the drill."
)
LEAVE_OUT_CATCH = Label("leave out catches with no seed")
LEFT_HALF = Label("left half")
LEFT_RIGHT_HALF = Label("left and right half")
LESS = Label("less")
MEAN_TARGET_EVERY = Label(
    "With the average on target, every row is within ± {share}, noise removed."
)
MORE = Label("more")
MORE_CATCHES_HARDLY = Label(
    "More catches won't help much: the rows really do differ. It would help to "
    "know how much this drill's rows vary when all is well."
)
MORE_CATCHES_HARDLY_HELP = Label("More catches won't help much: the rows really do differ.")
NOTHING_MEND_GO = Label("Nothing to fix: go on to the setting.")
NOTHING_ONE_CATCH = Label("No seed in one catch, seed in another: {rows}.")
NO_ROW_OUTSIDE = Label("No row is outside your ± {limit} limit.")
NO_ROW_STANDS = Label("No single row is off, and no pattern shows.")
OUTERMOST_ROWS = Label("outermost rows")
OUTERMOST_ROWS_DROP = Label("The outside rows drop {share} {way} than the ones between.")
OUTSIDE_YOUR_LIMIT = Label(
    "Outside your ± {limit} limit: {rows}. With rows this uneven, one ends up "
    "there by chance in {odds} of catches."
)
PLUGGED_NO_SEED = Label("Plugged: {rows}, no seed at all.")
REPEAT_CATCH_SO = Label("Repeat the catch: {catches} would also find a row {then} off.")
ROW = Label("row {rows}")
ROWS = Label("rows {rows}")
ROWS_DIFFER_CV = Label("Rows vary by {cv} (CV), no more than catching alone can cause ({noise}).")
ROWS_MARKED_DROP = Label("By {name}, rows marked {group} drop {share} {way} than the rest.")
ROW_CATCH_ALONE = Label("Catching alone is assumed to make one row vary by {noise}.")
ROW_DROPS_THAN = Label("Row {row} drops {share} {way} than average.")
ROW_OFF_FOUND = Label("A row {now} off is found 9 times in 10.")
ROW_PARTS_MEAN = Label("Row {row} as a share of the average")
RUN_TIMES_LONG = Label(
    "Make the run {times} times as long: a row weighs only {steps} steps on the scale."
)
SHORT_PLUGGED_ROW = Label(
    "Apart from a plugged row, nothing under {now} off is found 9 times in 10."
)
SLOPE_ACROSS_DRILL = Label("slope across the drill")
TAKE_PLUGGED_BELOW = Label("Treat as plugged: {rows}, {share} below average.")
TAKE_PLUGGED_MORE = Label("Treat as plugged: {rows}, {share} or more below average.")
THEN_CATCH_ALL = Label("Then catch all the rows again.")
THERE_PATTERN_DROP = Label(
    "The rows follow a pattern, {name}: {group} drop {share} {way} than the rest."
)
THREE_RANKS_EVERY = Label("three ranks, every third row")
TWO_RANKS_EVERY = Label("two ranks, every other row")
