"""Sentences of the room boxes that tests look for."""

from .label import Label

ADD_LOTS_ONE = Label("combine the lots of one species first, or use different names")
AHEAD = Label("ahead of the mix")
ALL_ALIKE = Label("by the same percent")
BEHIND = Label("behind the mix")
BOTH_OR_NEITHER = Label("enter this too, or neither one")
BOXES_JOB_NO = Label("In this job's box plan, {box} gets no seed.")
CARRIER_ALREADY_THERE = Label("{box} already has a carrier: put both under one name")
CHOOSE_DRILL_FIRST = Label("choose the drill first")
CHOOSE_FROM_LIST = Label("choose one from the list")
CLASS_NOT_HANDLED = Label("{seed} is {class_} ({why}), and {box} handles {classes}")
COUNT_LEAST_ONE = Label("count at least one seed, preferably a few hundred")
DROPS_SAME_MIXTURE = Label(
    "{box} drops the same mix all the way, but not your target mix: check the "
    "seed counts and the weights you loaded."
)
EMPTY_METERS_STIR = Label(
    "Stop the drill, empty the meters and stir {box}. Then catch and sort by species again."
)
ENTER_BOXES_FIRST = Label("enter the drill's boxes first")
FALLS = Label("falls")
FALLS_THROUGH_TIMES = Label("{small} falls through {large}, which is {ratio} times as wide")
FILL_ONLY_PART = Label(
    "Stop the drill. Fill {box} only partway and stir it at every stop, or mix in"
    " a carrier. Then try again."
)
FLUFFY_BRIDGES_HAS = Label(
    "{seed} is fluffy and will bridge in {box}, which has no agitator with picker wheels"
)
FLUFFY_NOT_MADE = Label("{seed} is fluffy, and {box} is not built for fluffy seed")
FROM_TO_OF = Label("{name} {way} from {first} to {last} of the seeds.")
GIVEN_UP_WAYS = Label("{count} trade-offs, the biggest: {gravest}.")
GIVE_BOX_DRILL = Label("choose a box on this drill: one of {names}")
GIVE_BOX_GOES = Label("choose the box it goes in: one of {names}")
GIVE_EACH_BOX = Label("use a different name for each box")
GIVE_HOW_MANY = Label("enter how many seeds you found, 0 or more; for a weight, include the unit")
GIVE_HOW_MANY_FOUND = Label("enter how many you found, 0 if none")
GIVE_LEAST_ONE = Label("enter at least one box for the drill")
GIVE_LEAST_ONE_SPECIES = Label("enter at least one species")
GIVE_ONE = Label("choose one of {names}")
GIVE_SHARE_BOX = Label("enter the share of the box already used, 0% to 100%")
GIVE_SHARE_TO_WHOLE = Label("enter a share above 0%, up to 100%")
GIVE_TWO_SAMPLES = Label("enter two samples or more, such as from a full box and a half-empty one")
GO_SEPARATE_CATCH = Label("Keep going; sort another catch by species when {box} is half empty.")
GO_STAYS_MIXED = Label("Keep going: {box} is staying mixed.")
IN = Label("In {box}: {names}.")
INSTEAD_OF = Label("{box}: {rate} instead of {before}")
ITS_SEED_IS = Label("{box}: its seed is {seed}")
LAYS_DOWN = Label("{box} is putting down {rate}, {off} {way}: {names} {all_alike}.")
LAYS_DOWN_WANTED = Label("{box} is putting down {rate}, right on target.")
LESS_THAN_CAN = Label("{rate} is less than the {limit} {box} can meter: mix in a carrier")
LIKELY_SINK_UNDER = Label(
    "{small} will likely settle under {large}, which is {ratio} times as wide"
)
MAY_SORT_ONE = Label("{small} may separate from {large}: one is fluffy, one is slick")
MIX_CARRIER_SUCH = Label("mix in a carrier such as rice hulls to keep sizes from separating")
MORE_THAN_CAN = Label("{rate} is more than the {limit} {box} can meter: seed it in two passes")
MORE_THAN_MINIMUM = Label("enter more than the minimum")
NEAR_SIZE_SHOULD = Label("{small} and {large} are close in size and should stay mixed")
NOTHING_GIVEN_UP = Label("No trade-offs.")
NOT_MADE = Label("{seed} is {class_}, and {box} is not built for it")
NO_BOX_DRILL = Label(
    "No box on this drill can handle {names}: leave it out, seed it in a separate"
    " pass, or use a drill with another box."
)
NO_SEED_GOES = Label("{box}: gets no seed now, so its rate is removed")
NO_SORTING_SEEN = Label("No separation found in {box}: {seeds} are still mixed as loaded.")
OFF_WOULD_HAVE = Label("If {name} were {change} off, it would have shown 9 times in 10.")
OF_NEW = Label("{box}: {rate} of {seed}, new")
ORDER_SEED_EACH = Label("order the seed for each box separately, not pre-mixed ({source})")
PRINTED_BUSHEL_NOT = Label(
    "{names}: test weight from a published bushel, not this lot, assumed good to "
    "± {limits}; weigh a full measure"
)
PUT_IN = Label("put {small} in {box}")
RISES = Label("rises")
RUNS_TIMES_SHARE = Label(
    "{name} is running {runs}: {times} times its share as loaded ({low} to {high})."
)
SAMPLE_BOX_TWO = Label("sample a box with two or more species: nothing can separate in {box}")
SAMPLE_FAIR_PART = Label(
    "assumes the sample is a fair part of the catch, split in half again and again"
)
SAMPLE_SETS_IT = Label("leave it blank: the weighed sample below sets it")
SEEDS_PER_WEIGHT = Label("assumes the seed counts are exact: a wrong one looks like separation")
SEED_ASKS_WANTED = Label("The seed in {box} calls for {rate}, but the target here is {wanted}.")
SEED_WEIGHS = Label("{box}: its seed weighs {weight}")
SET_BOXES = Label("Set {boxes}, bulk seed.")
SMALL_SEED_TAKEN = Label(
    "assumes small seed does not fill the gaps between large seed: the box may hold more"
)
SORTS = Label("{box} is separating.")
SOW_ALL_BEARS = Label("seed at {depth}: everything in this box tolerates that")
SOW_BEARS_THEN = Label("seed at {depth}, a depth {smallest} tolerates: {name} is then {by} {way}")
STAYS_EMPTY = Label("{box} is left empty")
TO = Label("{box} to {rate}")
TOO_DEEP = Label("too deep")
TOO_MUCH = Label("too high")
TOO_SHALLOW = Label("too shallow")
WEIGH_FULL_MEASURE = Label("weigh a full measure of it: a level bushel, or a liter")
WEIGH_FULL_MEASURE_MIXTURE = Label(
    "weigh a full measure of {names}, or of the mix: we don't know how much {box} holds"
)
WHAT_DROPS_CHANGES = Label("What {box} drops changes as it empties, but not in any one direction.")
WHAT_DROPS_DOES = Label("What {box} drops does not change as it empties, as far as we can see.")
WHAT_FILLS_MEASURE = Label("What fills a measure, adding volumes: {parts}")
WHAT_WANTED_WITHOUT = Label("{box}: now has the target that named no box before")
