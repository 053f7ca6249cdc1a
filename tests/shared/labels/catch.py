"""Sentences of the room catch that tests look for."""

from .label import Label

CATCH_MORE = Label("catch another {rows}")
CRANK_INSTEAD = Label("make {turns} of the crank instead")
EVEN = Label("50-50")
FIELD_DRILL_LAYS = Label(
    "In the field this drill puts down {factor} of what it drops stationary, so "
    "aim for {bench} stationary to seed {rate}"
)
GIVE_OPEN_ROWS = Label("enter no more than the drill's {rows} open rows")
LESS_THAN = Label("less than {part} in {whole}")
PERCENT_UP_TO_HALF = Label("enter a percent such as 5%, up to 50%")
RATE_THESE_ROWS = Label("Rate of these rows: catch ÷ area")
REPEAT_MORE = Label("make another {catches}")
ROWS_SPREAD_ABOUT = Label("rows vary by {cv} around their average")
ROW_NUMBER = Label("Row {rows}")
SCALE_READ = Label("scale reads to {step}")
SCALE_TYPED = Label("scale read to {step}, as you typed it")
SLIP_COUNTED_HERE = Label("Slip {slip}, counted here only")
