"""Sentences of the room boxes that tests look for."""

from .label import Label

ADD_LOTS_ONE = Label("add the lots of one species up first, or name them apart")
AHEAD = Label("ahead")
ALL_ALIKE = Label("all alike")
BEHIND = Label("behind")
BOXES_JOB_NO = Label("By the boxes of this job no seed goes in {box}.")
COUNT_LEAST_ONE = Label("count at least one seed, better some hundreds")
DROPS_SAME_MIXTURE = Label(
    "{box} drops the same mixture all along, though not the one that was wanted: check the seed "
    "counts and what was weighed in."
)
EMPTY_METERS_STIR = Label("Empty the meters, stir {box}, then catch and separate again.")
FALLS = Label("falls")
FALLS_THROUGH_TIMES = Label("{small} falls through {large}, which is {ratio} times as far across")
FILL_ONLY_PART = Label(
    "Fill {box} only part-way, stir it at every stop, or mix in a carrier; then try again."
)
FLUFFY_BRIDGES_HAS = Label(
    "{seed} is fluffy and bridges in {box}, which has no agitator with picker wheels"
)
FLUFFY_NOT_MADE = Label("{seed} is fluffy, and {box} is not made for fluffy seed")
FROM_TO_OF = Label("{name} {way} from {first} to {last} of the seeds.")
GIVEN_UP_WAYS = Label("Given up in {count} ways, most of all: {gravest}.")
GIVE_BOX_DRILL = Label("give a box of the drill: one of {names}")
GIVE_BOX_GOES = Label("give the box it goes in: one of {names}")
GIVE_EACH_BOX = Label("give each box a name of its own")
GIVE_HOW_MANY = Label("give how many seeds were found, 0 or more; for a weight give its unit")
GIVE_HOW_MANY_FOUND = Label("give how many were found, 0 if none was")
GIVE_LEAST_ONE = Label("give at least one box of the drill")
GIVE_LEAST_ONE_SPECIES = Label("give at least one species")
GIVE_ONE = Label("give one of {names}")
GIVE_SHARE_BOX = Label("give the share of the box that was out, from 0 % to 100 %")
GIVE_TWO_SAMPLES = Label("give two samples or more, such as from a full box and a half-empty one")
GO_SEPARATE_CATCH = Label("Go on; separate a catch again with {box} half out.")
GO_STAYS_MIXED = Label("Go on: {box} stays mixed.")
IN = Label("In {box}: {names}.")
INSTEAD_OF = Label("{box}: {rate} instead of {before}")
ITS_SEED_IS = Label("{box}: its seed is {seed}")
LAYS_DOWN = Label("{box} lays down {rate}, {off} {way}: {names} {all_alike}.")
LAYS_DOWN_WANTED = Label("{box} lays down {rate}, as wanted.")
LESS_THAN_CAN = Label("{rate} is less than the {limit} that {box} can meter: mix in a carrier")
LIKELY_SINK_UNDER = Label(
    "{small} is likely to sink under {large}, which is {ratio} times as far across"
)
MAY_SORT_ONE = Label("{small} may sort from {large}: one is fluffy, one smooth")
MIX_CARRIER_SUCH = Label("mix in a carrier such as rice hulls, which keeps sizes together")
MORE_THAN_CAN = Label("{rate} is more than the {limit} that {box} can meter: sow it in two passes")
NEAR_SIZE_SHOULD = Label("{small} and {large} are near in size and should stay mixed")
NOTHING_GIVEN_UP = Label("Nothing is given up.")
NOT_MADE = Label("{seed} is {class_}, which {box} is not made for")
NO_BOX_DRILL = Label(
    "No box of this drill takes {names}: leave it out, sow it in a pass of its own, or use a "
    "drill with another box."
)
NO_SEED_GOES = Label("{box}: no seed goes in it now, its rate is left out")
NO_SORTING_SEEN = Label("No sorting seen in {box}: {seeds} are mixed as filled.")
OFF_WOULD_HAVE = Label("{name} {change} off would have shown 9 times in 10.")
OF_NEW = Label("{box}: {rate} of {seed}, new")
ORDER_SEED_EACH = Label("order the seed of each box apart, not pre-mixed ({source})")
PRINTED_BUSHEL_NOT = Label(
    "{names}: a printed bushel, not this lot's own weight, is taken to be within {limits}; weigh "
    "a full measure"
)
PUT_IN = Label("put {small} in {box}")
RISES = Label("rises")
RUNS_TIMES_SHARE = Label("{name} runs {runs}: {times} times its share as filled ({low} to {high}).")
SAMPLE_BOX_TWO = Label("sample a box with two species or more: in {box} nothing can sort")
SAMPLE_FAIR_PART = Label("the sample is a fair part of the catch, halved and halved again")
SEEDS_PER_WEIGHT = Label("seeds per weight taken as exact: a wrong one looks like sorting")
SEED_ASKS_WANTED = Label("The seed in {box} asks for {rate}, and {wanted} is wanted here.")
SEED_WEIGHS = Label("{box}: its seed weighs {weight}")
SMALL_SEED_TAKEN = Label("small seed is taken to fill no gaps between large: a box may hold more")
SORTS = Label("{box} sorts.")
SOW_ALL_BEARS = Label("sow at {depth}: all of it bears that")
SOW_BEARS_THEN = Label("sow at {depth}, which {smallest} bears: {name} then lies {by} {way}")
STAYS_EMPTY = Label("{box} stays empty")
TO = Label("{box} to {rate}")
TOO_DEEP = Label("too deep")
TOO_MUCH = Label("too much")
TOO_SHALLOW = Label("too shallow")
WEIGH_FULL_MEASURE = Label("weigh a full measure of it: a level bushel, or a litre")
WEIGH_FULL_MEASURE_MIXTURE = Label(
    "weigh a full measure of {names}, or of the mixture: what {box} holds is not known"
)
WHAT_DROPS_CHANGES = Label("What {box} drops changes as it empties, but in no one direction.")
WHAT_DROPS_DOES = Label("What {box} drops does not change as it empties, as far as is seen.")
WHAT_FILLS_MEASURE = Label("What fills a measure, volumes added: {parts}")
WHAT_WANTED_WITHOUT = Label("{box}: what was wanted without a box is wanted from it")
