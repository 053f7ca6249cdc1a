"""Sentences of the room parsing that tests look for."""

from .label import Label

ANSWER_YES_NO = Label("answer yes or no")
CANNOT_READ_ONE = Label("{number} cannot be read as one number")
CAN_MEAN_MORE = Label("{unit} can mean more than one thing: write {better}")
CAN_READ_TWO = Label("{number} can be read in two ways: write {large} or {small}")
DID_YOU_MEAN = Label("did you mean {near}?")
EMPTY_GIVE_LEAVE = Label("it is empty: give it or leave it out")
FEW_STEPS_SCALE = Label(
    "{catch} is few steps of this scale, whose rounding makes it uncertain by {rounding}: make "
    "more turns or catch more rows"
)
FRACTION_CANNOT_DIVIDED = Label("a fraction cannot be divided by 0")
GIVE_ONE_OF_CHOICES = Label("give one of {choices}")
GIVE_PLAIN_NUMBER = Label("give a plain number")
GIVE_VALUE_ABOVE_SUCH = Label("give a value above 0, such as {example}")
GIVE_WHOLE_NUMBER = Label("give a whole number from {least} up")
LESS_THAN_RARE = Label("{value} is less than {limit}, which is rare: {question}")
MISSING_GIVE = Label("it is missing: give it")
MORE_THAN_RARE = Label("{value} is more than {limit}, which is rare: {question}")
NOT_SUCH = Label("{given} is not {wanted}, such as {example}")
NOT_UNIT_KNOWN = Label("{unit} is not a unit known here; did you mean {near}?")
NOT_UNIT_KNOWN_HERE = Label("{unit} is not a unit known here: write {wanted}, such as {example}")
WANTED_SUCH = Label("{given} is {name}; {wanted} is wanted, such as {example}")
WRITE_ABOUT_ONCE = Label("write ± once, behind the value")
WRITE_NUMBER_MORE = Label("write a number of 0 or more after ±")
WRITE_NUMBER_NOT = Label("write a number that is not so large")
WRITE_ONE_NUMBER = Label("write one number with its unit, such as {example}")
WRITE_PERCENT_SIGN = Label("write it with its percent sign, such as {example}")
WRITE_SHORTER_SUCH = Label("write it shorter, such as {example}")
WRITE_SUCH = Label("write {wanted}, such as {example}")
WRITE_UNIT_AFTER = Label("write the unit after ± too, such as 1 {unit}")
WRITE_UNIT_TOO = Label("write the unit too, such as {example}")
WRITE_WITHOUT_ABOUT = Label("write it without ±: it is taken as it stands")
