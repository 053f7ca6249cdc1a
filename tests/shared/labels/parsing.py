"""Sentences of the room parsing that tests look for."""

from .label import Label

ANSWER_YES_NO = Label("answer yes or no")
CANNOT_READ_ONE = Label("{number} can't be read as a single number")
CAN_MEAN_MORE = Label("{unit} can mean more than one thing: use {better}")
CAN_READ_TWO = Label("{number} could be read two ways: enter {large} or {small}")
CHART_FOR_ALL_ROWS = Label("the chart is for all rows: {open} of {rows} are open")
DATE_NOT_FUTURE = Label("enter a date that is not in the future: today is {today}")
DID_YOU_MEAN = Label("did you mean {near}?")
EMPTY_GIVE_LEAVE = Label("it is empty: fill it in or remove it")
FEW_STEPS_SCALE = Label(
    "{catch} is only a few steps on this scale, so rounding alone makes it "
    "uncertain by {rounding}: make more turns or catch more rows"
)
FRACTION_CANNOT_DIVIDED = Label("can't divide by 0")
GIVE_DATE_SUCH = Label("enter its year, month and day, such as {example}")
GIVE_ONE_OF_CHOICES = Label("choose one of {choices}")
GIVE_PLAIN_NUMBER = Label("enter just a number")
GIVE_TEST_WEIGHT_TOO = Label(
    "{given} is {name}: enter this seed's test weight too, or enter {wanted}"
)
GIVE_VALUE_ABOVE_SUCH = Label("enter a value above 0, such as {example}")
GIVE_WHOLE_NUMBER = Label("enter a whole number of {least} or more")
LEAVE_IT_BLANK_OR = Label("leave it blank, or clear {first}")
LESS_THAN_RARE = Label("{value} is below {limit}, which is unusual: {question}")
LOWER_FIRST = Label("enter two amounts, the lower first")
MISSING_GIVE = Label("this is missing; enter it")
MORE_THAN_RARE = Label("{value} is above {limit}, which is unusual: {question}")
NOT_SUCH = Label("{given} is not {wanted}, such as {example}")
NOT_UNIT_KNOWN = Label("{unit} is not a unit we know; did you mean {near}?")
NOT_UNIT_KNOWN_HERE = Label("{unit} is not a unit we know: enter {wanted}, such as {example}")
WANTED_SUCH = Label("{given} is {name}; this needs {wanted}, such as {example}")
WRITE_ABOUT_ONCE = Label("use ± only once, after the value")
WRITE_NUMBER_MORE = Label("enter 0 or more after ±")
WRITE_NUMBER_NOT = Label("enter a smaller number")
WRITE_ONE_NUMBER = Label("enter one number with its unit, such as {example}")
WRITE_PERCENT_SIGN = Label("enter it with a percent sign, such as {example}")
WRITE_SHORTER_SUCH = Label("enter something shorter, such as {example}")
WRITE_SUCH = Label("enter {wanted}, such as {example}")
WRITE_UNIT_AFTER = Label("enter the unit after ± too, such as 1 {unit}")
WRITE_UNIT_TOO = Label("enter the unit too, such as {example}")
WRITE_WITHOUT_ABOUT = Label("enter it without ±: it is used as is")
