"""Sentences of the room rows that tests look for."""

from .label import Label

COMPARE_ROWS = Label("compare at most {n} rows at a time")
CLEAR_ROWS_THEN = Label("clear rows {rows}, then catch again: 3 rows must run to be compared")
DOES_DRIVE_THESE = Label("Does the drive of these rows slip: chain, clutch, pin, its own wheel?")
DO_ALL_METERS = Label("Do all meters read zero together, with no slack between them?")
EVEN_MEAN_TARGET = Label(
    "Even with the mean on target, {rows} would miss ± {share}, noise taken out."
)
EVERY_ROWS = Label("every {k} rows")
GATE_SLIDE_METER = Label("Is the gate or slide of the meter shut?")
GIVE_CATCH_SEED = Label("give a catch with seed in it")
GIVE_EVERY_CATCH = Label("give every catch the same rows")
GIVE_LEAST_ROWS = Label("give at least 3 rows")
GIVE_ONE_LABEL = Label("give one label for each of the {rows} rows")
GIVE_WEIGHTS_MORE = Label("give weights of 0 or more")
GO_DRILL = Label("Go to the drill.")
GO_TO = Label("Go to {rows}.")
HOSE_KINKED_BOOT = Label("Is the hose kinked or the boot partly blocked?")
LAST_ROW_DROPS = Label(
    "The last row drops {share} {way} than the first, on a slope across the drill."
)
LEAVE_OUT_CATCH = Label("leave out a catch with no seed in it")
LEFT_HALF = Label("left half")
LEFT_RIGHT_HALF = Label("left and right half")
LESS = Label("less")
MEAN_TARGET_EVERY = Label("With the mean on target every row is within ± {share}, noise taken out.")
MORE = Label("more")
MORE_CATCHES_HARDLY = Label(
    "More catches hardly help: the rows differ by themselves. What this drill's rows differed by "
    "when all was well would help."
)
MORE_CATCHES_HARDLY_HELP = Label("More catches hardly help: the rows differ by themselves.")
NOTHING_MEND_GO = Label("Nothing to mend: go on to the setting.")
NOTHING_ONE_CATCH = Label("Nothing in one catch, seed in another: {rows}.")
NO_ROW_OUTSIDE = Label("No row is outside your limit of ± {limit}.")
NO_ROW_STANDS = Label("No row stands out and no pattern is seen.")
OUTERMOST_ROWS = Label("outermost rows")
OUTERMOST_ROWS_DROP = Label("The outermost rows drop {share} {way} than those between.")
OUTSIDE_YOUR_LIMIT = Label(
    "Outside your limit of ± {limit}: {rows}. Rows as uneven as these put one there by chance in "
    "{odds} of catches."
)
PLUGGED_NO_SEED = Label("Plugged: {rows}, no seed at all.")
REPEAT_CATCH_SO = Label("Repeat the catch: with {catches} so is one {then} off.")
ROW = Label("row {rows}")
ROWS = Label("rows {rows}")
ROWS_DIFFER_CV = Label(
    "The rows differ by {cv} (CV), no more than the catch alone may make them ({noise})."
)
ROWS_MARKED_DROP = Label("By {name}, rows marked {group} drop {share} {way} than the others.")
ROW_CATCH_ALONE = Label("A row's catch alone is taken to scatter by {noise}.")
ROW_DROPS_THAN = Label("Row {row} drops {share} {way} than the mean.")
ROW_OFF_FOUND = Label("A row {now} off is found 9 times in 10.")
ROW_PARTS_MEAN = Label("Row {row} in parts of the mean")
RUN_TIMES_LONG = Label("Run {times} times as long: a row weighs only {steps} steps of the scale.")
SHORT_PLUGGED_ROW = Label(
    "Short of a plugged row, none less than {now} off is found 9 times in 10."
)
SLOPE_ACROSS_DRILL = Label("slope across the drill")
TAKE_PLUGGED_BELOW = Label("Take as plugged: {rows}, {share} below the mean.")
TAKE_PLUGGED_MORE = Label("Take as plugged: {rows}, {share} or more below the mean.")
THEN_CATCH_ALL = Label("Then catch all rows again.")
THERE_PATTERN_DROP = Label(
    "There is a pattern of {name}: {group} drop {share} {way} than the others."
)
THREE_RANKS_EVERY = Label("three ranks, every third row")
TWO_RANKS_EVERY = Label("two ranks, every second row")
