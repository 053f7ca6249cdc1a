"""Sentences of the room stand that tests look for."""

from .label import Label

AT_MOST_SPOTS = Label("enter at most {n} spots at once")
BELOW_WOULD_THINK = Label("below {high} it suggests considering a reseed.")
CALLS_ADEQUATE = Label("it calls {low} to {high} adequate.")
COUNTS_DIFFER_MORE = Label(
    "The counts vary more than chance explains (variance ÷ average {ratio}): "
    "plants are clumped. Count longer strips or bigger hoops, across several "
    "rows."
)
COUNTS_FIELDS = Label("from {n} counts in {fields} fields")
COUNTS_ONE_FIELD = Label("from {n} counts of one field")
COUNT_LONGER_PIECES = Label("Count longer strips across several rows.")
COUNT_LONGER_PIECES_ACROSS = Label("count longer strips across several rows")
COUNT_MORE_ABOUT = Label("count another {places} to reach ± {wanted}")
COUNT_MORE_FAR = Label(
    "Count another {places}, well spread out: this few say little about a field."
)
COUNT_MORE_RANGE = Label("Count another {places} to get the range to ± 10%.")
COUNT_ONE_SPOT = Label("count the plants in at least one spot")
DO_NOT_JUDGE = Label(
    "Too early to judge: wait 90 days for irrigated perennials ({source}). They "
    "may take 1 to 3 years."
)
DO_NOT_JUDGE_DRY = Label(
    "Too early to judge: wait until the end of the first growing season for "
    "dryland perennials ({source}). They may take 1 to 3 years."
)
EARLIER_SPOTS_APART = Label("the earlier spots count {names} separately: count those here too")
EARLIER_SPOTS_TOGETHER = Label(
    "the earlier spots do not separate species: count all plants together"
)
EMERGENCE_STAND_LIVE = Label("Emergence: stand ÷ live seeds planted")
EMERGENCE_STAND_LIVE_SEEDS = Label("Emergence of {name}: stand ÷ live seeds planted")
EVERY_FURTHER_PLACE = Label("each extra spot narrows it")
HALF_RANGE_STUDENT = Label("Half the range: Student's t × standard uncertainty of all causes")
IT_AIMS_AT = Label("it aims for {low} to {high}.")
KEEPS_EVEN_STAND = Label("it says to keep an even stand of {low} or more.")
LENGTH_COVERS_GAPS = Label("enter the length of row, at least as long as all its gaps together")
LIES_CLOSE_WHAT = Label("It is close to your goal: more counting will hardly change that.")
LINE_FOR_EACH_SPOT = Label("enter a line for each of the {n} spots, 0 if it has no gap")
LIVE_SEED_AS_ENTERED = Label("Live seed planted: as entered here.")
LIVE_SEED_AS_PLANNED = Label(
    "Live seed planted: as planned in the mix; no seeding is recorded yet."
)
LIVE_SEED_CAME = Label(
    "{share} of the live seed came up, with 19 in 20 odds of being between {low} and {high}."
)
LIVE_SEED_SOWN = Label("Live seed planted: from the seed used from the boxes, weighed back.")
LOOK_MORE_BEFORE = Label(
    "Check another {places} before anything else: is seed in the ground still swelling?"
)
MORE_GAVE_FULL = Label("{low} or more gave {part} of full yield.")
MORE_PLANTS_THAN = Label(
    "More plants than live seeds planted: are volunteers or weeds in the count?"
)
NOTHING_SEEN_MOST = Label("No plants found: at most {high} came up, with 19 in 20 odds.")
NOT_AFTER_FIRST_COUNT = Label("choose a date no later than the first plant count, {day}")
NOT_BEFORE_SEEDING = Label("enter a date that is not before seeding, {day}")
NO_COUNT_YOUR = Label("No counts of your own yet: {share} is typical, {low} to {high}.")
NO_GAP_ROW = Label("No gaps in {row} of row.")
NO_PLANT_THERE = Label("No plants in {places}: 19 in 20 odds the stand is below {high}.")
NO_SPECIES_SHORT = Label(
    "No species is short: plants match the seed proportions, as far as you counted."
)
ODDS_MEETS_GOAL = Label("{odds} odds the stand meets your goal of {wish}. {more}")
ONE_COUNT_YOURS = Label("from one count of your own")
ONE_PLACE_SAYS = Label(
    "one spot says nothing about how spots differ: we assume drilled cereals, "
    "varying by {cv} plus chance"
)
ONLY_PLANTS_COUNTED = Label("Only {n} plants counted: not enough to say which species is short.")
PLACE = Label("1 spot")
PLACES = Label("{n} spots")
PLANTS_TOO_MANY = Label("{n} plants in one spot can't be right: is a space missing?")
PLENTY_PLANTS_WHERE = Label("Plenty of {name}: {seen} of the plants; {low} to {high} expected.")
RANGE_STAND_FACTOR = Label(
    "Range: stand ÷ and × this factor, e to the power of t × u ÷ stand, t {t}"
)
ROW_LIES_GAPS = Label("Gaps make up {share} of the row; the longest is {longest}.")
ROW_LIES_GAPS_LONGEST = Label(
    "Gaps make up {share} of the row; the longest is {longest}. Gaps of {limit} "
    "or more point to a seed tube or boot that plugged for a while."
)
SHORT_PLANTS_WHERE = Label("Short on {name}: {seen} of the plants; {low} to {high} expected.")
SOW_LIVE_NEXT = Label(
    "To reach {wish}, seed {seeds} live next time; {low} to {high}, depending on how much comes up."
)
SO_FEW_PLACES = Label(
    "so few spots say little about how spots differ: we assume drilled cereals, "
    "varying by {cv} plus chance"
)
STANDARD_UNCERTAINTY_HOW = Label("Its standard uncertainty, from how these spots differ")
STANDARD_UNCERTAINTY_HOW_PLACES = Label("Its standard uncertainty, from how spots usually differ")
STAND_PLANTS_COUNTED = Label("Stand: plants counted ÷ area of {n} spots")
STAND_PLANTS_COUNTED_GROUND = Label("Stand of {name}: plants counted ÷ area of {n} spots")
SUCH_TABLES_ADVISE = Label(
    "Such tables only advise: date, weeds, seed, money and evenness count too."
)
THE_STAND_IS = Label(
    "The stand is {stand}, with 19 in 20 odds of being between {low} and {high}, from {places}."
)
THINNER_THAN_TABLE = Label("{source} ({crop}): thinner than its table covers.")
UNCERTAINTY_PLACES_DIFFER = Label(
    "{part} of the uncertainty comes from differences between spots: {cure}."
)
USUAL_IS_TO = Label("{low} to {high} is typical.")
WHAT_CAME_UP = Label("earlier emergence entered without ± is assumed good to ± {reach}")
WHAT_USUAL_COUNTS = Label(
    "Combined with typical values, {mean}; the counts weigh as much as {n} seeds"
)
WHOLE_PLANTS = Label("enter whole numbers, 0 or more, one for each spot")
WRITE_STAND_DOWN = Label("Record the stand: it is good to ± 10%.")
