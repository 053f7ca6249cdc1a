"""Sentences of the room order that tests look for."""

from .label import Label

ABOUT_DRILL = Label("About {time} at the drill.")
ABOUT_DRILL_ONE = Label("About {time} at the drill with one refill stop, after {every} of driving.")
ABOUT_DRILL_STOPS = Label(
    "About {time} at the drill with {stops} refill stops, one for every {every} of driving."
)
ABOUT_DRILL_WITHOUT = Label("About {time} at the drill with no refill stops.")
ALL_SEED_HAND = Label("You have all the seed you need.")
BATCHES_EACH = Label("{box}: {batches} batches of {weight} each")
BUY = Label("Buy {lines}.")
CHECK_VOLUME_RATE = Label("check the volume and the rate: that comes to {n} loads")
EACH_BATCH = Label("for each batch")
EACH_BOX_LAYS = Label(
    "assumes each box drops its rate, give or take {spread} (one standard deviation)"
)
EFFICIENCY_OUTSIDE_USUAL = Label(
    "{given} efficiency is outside the {low} to {high} usual for a grain drill"
)
ENOUGH_HAND = Label("{name}: enough on hand")
FIELD_EFFICIENCY_TAKEN = Label(
    "assumes {share} field efficiency, typical for a grain drill (common "
    "practice; compare ASABE D497)"
)
FILL_ABOVE_HEEL = Label("fill {box} above the level that has to stay in it")
FILL_ONLY_PART_WAY = Label(
    "fill {box} only partway each time, and stir it at every stop, with the drill shut off"
)
GIVE_BOX_SEED = Label("choose a box with seed in it")
GIVE_EFFICIENCY = Label("enter a share, such as 70%")
GIVE_MIXER_HOLDS = Label("enter how much the mixer holds at once")
GIVE_ODDS = Label("enter odds from 50% to below 100%")
INOCULANT_PACK = Label("{name}: {amount} of inoculant, {packs} package")
INOCULANT_PACKS = Label("{name}: {amount} of inoculant, {packs} packages")
INOCULATE_LEGUMES_ONLY = Label("inoculate legumes only: leave the inoculant off this one")
LABEL_DECIDES_RATE = Label("Follow the label: its rate, its legumes and its expiration date.")
LEFT_OVER_WHAT = Label(
    "{name}: {left} left over, {share} of what you need; retest it before you seed it"
)
LOADS_LAST_LOOK = Label("{box}: {n} loads, the last one {last}; start checking the box at {low}.")
LOAD_PASS_ALONG = Label("load {n}: {weight}, runs out at {done}: pass {number}, {along} in")
MIX_BUCKETFUL_FIRST = Label("first mix {name} with a bucketful of {most}")
MOISTEN_TURN_INOCULANT = Label("dampen {seed} and mix in {amount} of inoculant, {batch}")
MOVING_REFILLING_ALONE = Label(
    "driving and refilling alone take {least}: plan on that, plus time for turns"
)
NOTHING_COUNTED_WHAT = Label("nothing added for what stays in {box}: its test weight is unknown")
NOTHING_MIX_FILL = Label("no mixing needed: fill {box} straight from the bag")
NOT_LEGUME = Label("not a legume: remove its inoculant")
NO_BAG = Label("no bags")
OF = Label("{n} of {weight}")
OF_INOCULANT = Label("{name}: {amount} of inoculant")
ONE_BATCH = Label("{box}: one batch of {weight}")
ONE_LOAD = Label("{box}: one load, {weight}.")
ORDER_ASK_TAG = Label(
    "Order it, and ask for a tag with every lot: {odds} odds or better that each one is enough."
)
SOWING_TAKES_LONGER = Label(
    "seeding will take {hours}, longer than the {limit} inoculated seed should sit: split the job"
)
SOW_WITHIN = Label("{what}; seed within {hours}")
SOW_WITHIN_HOURS = Label(
    "Seed within the hours on the label ({hours} if it has none), or inoculate again ({source})."
)
SPREAD_LAYERS_EACH = Label("spread it in layers in this order, heaviest at the bottom")
SUFFICES_HAVE_HAND = Label(
    "{odds} odds that {name} is enough. For 9 in 10 odds, have {enough} on hand, "
    "which is {more} more."
)
THAT_COSTS = Label("That costs {cost}.")
