"""Sentences of the room stand that tests look for."""

from .label import Label

BELOW_WOULD_THINK = Label("below {high} it would think of sowing again.")
CALLS_ADEQUATE = Label("it calls {low} to {high} adequate.")
COUNTS_DIFFER_MORE = Label(
    "The counts differ more than chance alone would make them (variance ÷ mean {ratio}): the "
    "plants stand in clumps. Count longer pieces or bigger hoops, across several rows."
)
COUNTS_FIELDS = Label("from {n} counts in {fields} fields")
COUNTS_ONE_FIELD = Label("from {n} counts of one field")
COUNT_LONGER_PIECES = Label("Count longer pieces, across several rows.")
COUNT_LONGER_PIECES_ACROSS = Label("count longer pieces, across several rows")
COUNT_MORE_ABOUT = Label("count {places} more for ± {wanted}")
COUNT_MORE_FAR = Label("Count {places} more, far apart: so few say little of a field.")
COUNT_MORE_RANGE = Label("Count {places} more: the range is then ± 10 %.")
DO_NOT_JUDGE = Label(
    "Do not judge it yet: irrigated perennials not before 90 days ({source}); it may take 1 to 3 "
    "years."
)
DO_NOT_JUDGE_DRY = Label(
    "Do not judge it yet: perennials on dry land not before the end of the first growing season "
    "({source}); it may take 1 to 3 years."
)
EMERGENCE_STAND_LIVE = Label("Emergence: stand ÷ live seeds sown")
EMERGENCE_STAND_LIVE_SEEDS = Label("Emergence of {name}: stand ÷ live seeds sown")
EVERY_FURTHER_PLACE = Label("every further place narrows it")
HALF_RANGE_STUDENT = Label("Half the range: Student's t × standard uncertainty of all causes")
IT_AIMS_AT = Label("it aims at {low} to {high}.")
KEEPS_EVEN_STAND = Label("it keeps an even stand from {low} on.")
LIES_CLOSE_WHAT = Label(
    "It lies close to what was wished for: more counting will hardly change that."
)
LIVE_SEED_CAME = Label(
    "{share} of the live seed came up: 19 in 20 that it is from {low} to {high}."
)
LIVE_SEED_SOWN = Label("Live seed sown: by the seed that went out of the boxes, weighed back.")
LOOK_MORE_BEFORE = Label(
    "Look at {places} more before anything else: is seed still swelling in the ground?"
)
MORE_GAVE_FULL = Label("{low} or more gave {part} of the full yield.")
MORE_PLANTS_THAN = Label("More plants than live seeds sown: are volunteers or weeds among them?")
NOTHING_SEEN_MOST = Label("Nothing of it was seen: at most {high} came up, 19 in 20.")
NO_COUNT_YOUR = Label("No count of your own yet: {share} is usual, {low} to {high}.")
NO_GAP_ROW = Label("No gap in {row} of row.")
NO_PLANT_THERE = Label("No plant in {places}: 19 in 20 that there are less than {high}.")
NO_SPECIES_SHORT = Label(
    "No species is short: their parts are those of the seed, as far as counted."
)
ONE_COUNT_YOURS = Label("from one count of yours")
ONE_PLACE_SAYS = Label(
    "one place says nothing of how places differ: they are taken to differ as in drilled "
    "cereals, by {cv} and what chance adds"
)
ONLY_PLANTS_COUNTED = Label("Only {n} plants counted: too few to say which species is short.")
PLACE = Label("1 place")
PLACES = Label("{n} places")
PLENTY_PLANTS_WHERE = Label(
    "{name} is plenty: {seen} of the plants, where {low} to {high} was to be looked for."
)
RANGE_STAND_FACTOR = Label(
    "Range: stand ÷ and × this factor, e to the power of t × u ÷ stand, t {t}"
)
ROW_LIES_GAPS = Label("{share} of the row lies in gaps, the longest {longest}.")
ROW_LIES_GAPS_LONGEST = Label(
    "{share} of the row lies in gaps, the longest {longest}. Gaps of {limit} and more point to a "
    "hose or boot that held seed back."
)
SHORT_PLANTS_WHERE = Label(
    "{name} is short: {seen} of the plants, where {low} to {high} was to be looked for."
)
SOW_LIVE_NEXT = Label("For {wish} sow {seeds} live next time; {low} to {high} by what may come up.")
SO_FEW_PLACES = Label(
    "so few places say little of how places differ: they are taken to differ as in drilled "
    "cereals, by {cv} and what chance adds"
)
STANDARD_UNCERTAINTY_HOW = Label("Its standard uncertainty, by how the places differ")
STANDARD_UNCERTAINTY_HOW_PLACES = Label("Its standard uncertainty, by how places usually differ")
STAND_PLANTS_COUNTED = Label("Stand: plants counted ÷ ground of {n} places")
STAND_PLANTS_COUNTED_GROUND = Label("Stand of {name}: plants counted ÷ ground of {n} places")
SUCH_TABLES_ADVISE = Label(
    "Such tables advise: date, weeds, seed, money and evenness decide with them."
)
THE_STAND_IS = Label("The stand is {stand}: 19 in 20 that it is from {low} to {high}, by {places}.")
THINNER_THAN_TABLE = Label("{source} ({crop}): thinner than its table goes.")
UNCERTAINTY_PLACES_DIFFER = Label("{part} of the uncertainty is that places differ: {cure}.")
USUAL_IS_TO = Label("Usual is {low} to {high}.")
WHAT_CAME_UP = Label("what came up earlier and is written without ± is taken as known to ± {reach}")
WHAT_USUAL_COUNTS = Label("With what is usual, {mean}; the counts weigh as {n} seeds")
WRITE_STAND_DOWN = Label("Write the stand down: it is known to ± 10 %.")
