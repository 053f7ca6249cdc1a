"""Sentences of the room seed that tests look for."""

from .label import Label

ABOUT_TIMES_OFF = Label(
    "{count} is about 10 times off the {low} to {high} of {name}: is a digit missing, or one too "
    "many?"
)
BLOAT_RISK_HIGH = Label("Bloat risk: high.")
BLOAT_RISK_NONE = Label("Bloat risk: none.")
CAN_MORE_THAN = Label("{text} can be more than one: {names}. Which one?")
CEREAL_RYE_GRAIN = Label(
    "Cereal rye is a grain; ryegrass is another plant, with seed a tenth of its size."
)
COATING_INSIDE_INERT = Label(
    "The coating, {coating}, is inside the inert matter and is taken off once. Sources disagree "
    "on sowing coated seed heavier: Wisconsin counts live seed, Kentucky sows the same weight "
    "coated or not."
)
COATING_PART_INERT = Label(
    "a coating is part of the inert matter, at most {room} here, and is not taken off the purity "
    "again"
)
COULD_WELL_COUNT = Label("it could as well be {other}: count the lot")
COUNT_FIRM_SEEDS = Label("count the firm seeds left over too: this tag counts them as live")
COUNT_LOT_GIVE = Label("count the lot or give its seeds per weight: none is printed for {name}")
DISHES_TEST_DO = Label("The dishes of this test do not agree: {why}. Test again.")
FAR_TIMES_OFF = Label(
    "{count} is far from the {low} to {high} of {name}, {times} times off: is it counted per "
    "another weight, or is it another form of the seed, hulled or in the bur?"
)
GERMINATION_HARD_DORMANT = Label(
    "germination, hard and dormant seed add up to {total}: read the tag again; where its "
    "germination is a total, say so and leave hard seed out"
)
GERMINATION_TEST_MONTHS = Label(
    "The germination test of {tested} is {months} months old; {place} allows {allowed} months "
    "({source}). Test it again, at home if need be, before you lean on it."
)
GIVE_COATED_WEIGHT = Label("give the coated weight first, the larger one")
GIVE_COATING_TAG = Label("give the coating of the tag too, or the count as one of raw seeds")
GIVE_ID_LOT = Label("give the id of a lot")
GIVE_MONTH_TEST = Label("give the month of the test: it cannot lie after {today}")
GIVE_ONE_OF_TWO = Label("give one of the two: raw seeds per weight, or coated units per weight")
GIVE_SEEDS_WEIGHT = Label("give the seeds in a weight, raw or coated")
GIVE_TSW_TABLE = Label("give it or tsw: the table has no count of this species")
GIVE_WHAT_TAG = Label("give what the tag says, above 0 % to 100 %")
GIVE_WHAT_TAG_SAYS = Label("give what the tag says, 0 % to 100 %")
HARD_DORMANT_SEED_COUNTS = Label("Hard and dormant seed counts, as in 7 CFR 201.64.")
HARD_DORMANT_SEED_COUNTS_YOU = Label("Hard and dormant seed counts, as you chose.")
HARD_DORMANT_SEED_DOES = Label(
    "Hard and dormant seed does not count: {name} lives one season, and it would come too late."
)
HARD_SEED_LEFT_AS_CHOSEN = Label("Hard and dormant seed does not count, as you chose.")
HARD_SEED_LIVES_ON = Label("Hard and dormant seed counts: {name} lives on, and it comes up later.")
HAS = Label("{name} has {low} ({sources})")
LEAVE_OUT_TOTAL = Label(
    "leave it out: the total on this tag has hard and dormant seed in it already"
)
LIST_NOT_COMPLETE = Label(
    "This list is not complete: your local extension office and the label on the seed decide."
)
LIVE_SEED_TAG = Label("Live seed of tag and home test together, each by the seeds it tested")
LOOKS_LIKE_COATED = Label(
    "{count} looks like coated units, not raw seeds: given as raw, the coating is taken off "
    "twice and too much is sown."
)
MEANT_NOT = Label("Was {meant} meant, not {given}?")
MORE_THAN_LUCK = Label("more than the luck of the draw allows")
NOT_HORSES = Label("Not for horses.")
NOT_KNOWN_HERE = Label("{text} is not known here. Is it {names}?")
NOT_TABLE_SPECIES = Label(
    "{text} is not in the table of species: check its spelling, or go on with a count of the lot "
    "and its tag"
)
NOXIOUS_WEED_TAG = Label(
    "Noxious weed on the tag: {name}, {count}. What is allowed is set by the state it is sown "
    "in: look at its list."
)
NO_AGE_LIMIT = Label(
    "No age limit is kept here for {state}; most states set 9 to 15 months (from memory). Its "
    "seed office knows."
)
NO_LOT_HAS = Label("no lot has a name: give one its name in [[lots]], or write the tag here")
NO_PRUSSIC_ACID = Label("No prussic acid.")
NRCS_NEW_HAMPSHIRE = Label(
    "NRCS New Hampshire asks for more than 80 % germination of a cover crop (practice 340) and "
    "this tag has {total}: the rate makes up for it, the weak seedlings it does not."
)
OFTEN_HALF_WEIGHT = Label("Often half of the weight is coating.")
PRINTED_COUNT_TAKEN = Label(
    "The printed count is taken to be as good as the count rule asks, u {u}"
)
PRUSSIC_ACID_KEEP = Label(
    "Prussic acid: keep stock off young or frosted growth. Guides differ; the strictest read "
    "asks for 30 in (76 cm) of regrowth and 14 days after frost."
)
PRUSSIC_ACID_KEEP_STOCK = Label(
    "Prussic acid: keep stock off young or frosted growth. Guides differ; the strictest read "
    "asks for 20 in (50 cm) of regrowth and 14 days after frost."
)
PURE_SEED_OTHER = Label(
    "pure seed, other crop, weed seed and inert matter add up to {whole}, not 100 %: read the "
    "tag again"
)
RANGE_OVER_CFR = Label("they range over {spread}, and 7 CFR 201.55 allows {allowed}")
TAG_GIVES_ONLY = Label(
    "this tag gives only the total with hard and dormant seed: count them, or give the "
    "germination alone"
)
TAG_GIVES_ONLY_TOTAL = Label("The tag gives only the total with hard and dormant seed.")
TAG_HOME_TEST = Label(
    "Tag and home test differ by {difference} points, more than {limit}. Their range is "
    "stretched to hold both; test again, or have it tested, before you lean on either."
)
TAG_MONTH_TEST = Label("The tag's month of test is not given: its age is not known.")
TOXIC_HORSES_LIVER = Label("Toxic to horses: liver disease, and skin that burns in the sun.")
TREATED_SEED_NEVER = Label(
    "Treated seed: never feed it or graze what is left of it; gloves, and the label decides."
)
WEED_SEED_MORE = Label(
    "{weed} weed seed is more than the 2 % above which the Federal Seed Act of 1939, section "
    "304, turned imported seed away."
)
WEIGHTS_LIE_MORE = Label(
    "Weights {places} lie more than 2 standard deviations from the mean and are left out"
)
WEIGHTS_SCATTER_THEIR = Label(
    "The weights scatter by {cv} of their mean, above the {limit} allowed: weigh {more} more"
)
WEIGHTS_SCATTER_WIDELY = Label("The weights scatter widely and none stands out: the lot is uneven")
YOUR_OWN_COUNT = Label("Your own count holds, not the {told} of the tag or the seller.")
