"""Sentences of the room catch that tests look for."""

from .label import Label

CATCH_MORE = Label("catch {rows} more")
FIELD_DRILL_LAYS = Label(
    "In the field this drill lays down {factor} of what it drops at the stand, so look for "
    "{bench} at the stand to sow {rate}"
)
LESS_THAN = Label("less than {part} in {whole}")
RATE_THESE_ROWS = Label("Rate of these rows: catch ÷ ground")
REPEAT_MORE = Label("repeat: {catches} more")
ROWS_SPREAD_ABOUT = Label("rows spread by {cv} about their mean")
SCALE_READ = Label("scale read to {step}")
SLIP_COUNTED_HERE = Label("Slip {slip}, counted here and nowhere else")
