"""Sentences of the room order that tests look for."""

from .label import Label

ABOUT_DRILL = Label("About {time} at the drill.")
ABOUT_DRILL_ONE = Label(
    "About {time} at the drill, with one stop to refill, after {every} of moving."
)
ABOUT_DRILL_STOPS = Label(
    "About {time} at the drill, with {stops} stops to refill, one every {every} of moving."
)
ABOUT_DRILL_WITHOUT = Label("About {time} at the drill, without a stop to refill.")
ALL_SEED_HAND = Label("All seed is on hand.")
BATCHES_EACH = Label("{box}: {batches} batches of {weight} each")
BUY = Label("Buy {lines}.")
CHECK_VOLUME_RATE = Label("check the volume and the rate: that would be {n} loads")
EACH_BATCH = Label("for each batch")
EACH_BOX_LAYS = Label("each box lays down its rate to within {spread} (standard)")
EFFICIENCY_OUTSIDE_USUAL = Label(
    "an efficiency of {given} is outside the {low} to {high} usual for a grain drill"
)
ENOUGH_HAND = Label("{name}: enough on hand")
FIELD_EFFICIENCY_TAKEN = Label(
    "a field efficiency of {share} is taken, typical of a grain drill (ASABE D497, from memory)"
)
FILL_ONLY_PART_WAY = Label("fill {box} only part-way each time, and stir it at every stop")
GIVE_BOX_SEED = Label("give a box with seed in it")
INOCULANT_PACK = Label("{name}: {amount} of inoculant, {packs} pack")
INOCULATE_LEGUMES_ONLY = Label("inoculate legumes only: leave the inoculant of this one out")
LABEL_DECIDES_RATE = Label("The label decides: its rate, its kinds of legume and its last date.")
LEFT_OVER_WHAT = Label(
    "{name}: {left} left over, {share} of what is needed; test it again before it is sown"
)
LOADS_LAST_LOOK = Label("{box}: {n} loads, the last {last}; look into the box from {low} on.")
LOAD_PASS_ALONG = Label("load {n}: {weight}, to {done}: pass {number}, {along} along it")
MIX_BUCKETFUL_FIRST = Label("mix {name} with a bucketful of {most} first")
MOISTEN_TURN_INOCULANT = Label("moisten {seed} and turn {amount} of inoculant in, {batch}")
MOVING_REFILLING_ALONE = Label(
    "moving and refilling alone take {least}: count with that, and time for turns"
)
NOTHING_COUNTED_WHAT = Label(
    "nothing is counted for what stays in {box}: its test weight is not known"
)
NOTHING_MIX_FILL = Label("nothing to mix: fill {box} from the bag")
NO_BAG = Label("no bag")
OF = Label("{n} of {weight}")
OF_INOCULANT = Label("{name}: {amount} of inoculant")
ONE_BATCH = Label("{box}: one batch of {weight}")
ONE_LOAD = Label("{box}: one load, {weight}.")
ORDER_ASK_TAG = Label(
    "Order it, and ask for a tag with every lot: {odds} or better that each suffices."
)
SOWING_TAKES_LONGER = Label(
    "sowing takes {hours}, longer than the {limit} inoculated seed may lie: do it in parts"
)
SOW_WITHIN = Label("{what}; sow within {hours}")
SOW_WITHIN_HOURS = Label(
    "Sow within the hours that the label names, {hours} where it names none, or inoculate again "
    "({source})."
)
SPREAD_LAYERS_EACH = Label(
    "spread the layers on each other in this order, the heaviest at the bottom"
)
SUFFICES_HAVE_HAND = Label(
    "{odds} that {name} suffices: for 9 in 10 have {enough} at hand, {more} more."
)
THAT_COSTS = Label("That costs {cost}.")
