"""Sentences of the room seed that tests look for."""

from .label import Label

ABOUT_TIMES_OFF = Label(
    "{count} is about 10 times off from the {low} to {high} typical of {name}: is"
    " a digit missing, or extra?"
)
BLOAT_RISK_HIGH = Label("Bloat risk: high.")
BLOAT_RISK_NONE = Label("Bloat risk: none.")
CAN_MORE_THAN = Label("{text} could be more than one: {names}. Which one?")
CEREAL_RYE_GRAIN = Label(
    "Cereal rye is a grain; ryegrass is another plant, with seed a tenth of its size."
)
COATING_INSIDE_INERT = Label(
    "The coating, {coating}, is part of the inert matter and is subtracted once. "
    "Sources disagree on raising the rate for coated seed: Wisconsin counts live "
    "seed, Kentucky seeds the same weight coated or not."
)
COATING_PART_INERT = Label(
    "coating is part of the inert matter, {room} at most here, and is not "
    "subtracted from purity again"
)
COULD_WELL_COUNT = Label("it could just as well be {other}: count the lot")
COUNT_FIRM_SEEDS = Label("count the leftover firm seeds too: this tag counts them as live")
COUNT_LOT_GIVE = Label("count the lot or enter its seed count: none is published for {name}")
COUNT_TEST_BETWEEN = Label(
    "Count the home test between {first} and {last}, as the species calls for."
)
COUNT_THIS_LOT = Label("Count this lot: no seed count is entered for it yet.")
DISHES_TEST_DO = Label("The towels in this test do not agree: {why}. Test again.")
ENTER_TEST_MONTH = Label("Enter the test month shown on the tag.")
FAR_TIMES_OFF = Label(
    "{count} is far from the {low} to {high} typical of {name} ({times} times "
    "off). Is it per a different weight, or a different form of the seed, hulled "
    "or in the bur?"
)
GERMINATION_HARD_DORMANT = Label(
    "germination, hard and dormant seed add up to {total}: read the tag again. If"
    " its germination is a total, mark it so and leave hard seed blank"
)
GERMINATION_TEST_MONTHS = Label(
    "The germination test from {tested} is {months} months old; {place} allows "
    "{allowed} months ({source}). Retest it, at home if need be, before you rely "
    "on it."
)
GIVE_COATED_WEIGHT = Label("enter the coated weight first, the larger one")
GIVE_COATING_TAG = Label("enter the coating from the tag too, or enter the count as raw seed")
GIVE_DATE_AFTER_LAID = Label("enter a date after the seeds were laid out")
GIVE_ID_LOT = Label("enter the ID of a lot")
GIVE_MONTH_TEST = Label("enter the test month: it can't be after {today}")
GIVE_NUMBER_LAID = Label("enter 0 to {n} (the number laid out)")
GIVE_NUMBER_UNSPROUTED = Label("enter 0 to {n} (the ones that did not sprout)")
GIVE_ONE_COUNT = Label("enter at least one count and its weight")
GIVE_ONE_OF_TWO = Label("enter only one: raw or coated seed count")
GIVE_SEEDS_WEIGHT = Label("enter the seed count, raw or coated")
GIVE_SPROUTED_LAID = Label(
    "enter how many sprouted and how many you laid out, or just the date you laid them out"
)
GIVE_TSW_TABLE = Label("enter this or tsw: the table has no seed count for this species")
GIVE_WHAT_TAG = Label("enter what the tag says, above 0% to 100%")
GIVE_WHAT_TAG_SAYS = Label("enter what the tag says, 0% to 100%")
HARD_DORMANT_SEED_COUNTS = Label("Hard and dormant seed counts as live, as in 7 CFR 201.64.")
HARD_DORMANT_SEED_COUNTS_YOU = Label("Hard and dormant seed counts as live, as you chose.")
HARD_DORMANT_SEED_DOES = Label(
    "Hard and dormant seed is not counted: {name} lives one season, and that seed"
    " would come up too late."
)
HARD_SEED_LEFT_AS_CHOSEN = Label("Hard and dormant seed is not counted, as you chose.")
HARD_SEED_LIVES_ON = Label(
    "Hard and dormant seed counts as live: {name} lives more than one season, and "
    "that seed comes up later."
)
HAS = Label("{name} has {low} ({sources})")
LEAVE_OUT_TOTAL = Label(
    "leave it out: the total on this tag already includes hard and dormant seed"
)
LIST_NOT_COMPLETE = Label(
    "This list is not complete: go by your local extension office and the seed label."
)
LIVE_SEED_TAG = Label("Live seed from tag and home test combined, each weighted by seeds tested")
LOOKS_LIKE_COATED = Label(
    "{count} looks like a coated-seed count, not raw seed. Entered as raw, the "
    "coating is subtracted twice and you seed too much."
)
MEANT_NOT = Label("Did you mean {meant}, not {given}?")
MORE_THAN_LUCK = Label("more than chance allows")
NOT_HORSES = Label("Do not feed it to horses.")
NOT_KNOWN_HERE = Label("{text} is not in the list. Did you mean {names}?")
NOT_ONE_OF = Label("{text} is not one of {names}")
NOT_TABLE_SPECIES = Label(
    "{text} is not in the species table: check the spelling, or go ahead with a "
    "count of the lot and its tag"
)
NOXIOUS_WEED_TAG = Label(
    "Noxious weed on the tag: {name}, {count}. The state where you seed it sets "
    "what is allowed: check its list."
)
NO_AGE_LIMIT = Label(
    "We have no age limit for {state}; most states set 9 to 15 months (common "
    "practice). Ask the state seed office."
)
NO_LOT_HAS = Label("no lot has a name: name one in [[lots]], or enter the tag here")
NO_PRUSSIC_ACID = Label("No prussic acid.")
NRCS_NEW_HAMPSHIRE = Label(
    "NRCS New Hampshire calls for more than 80% germination in a cover crop "
    "(practice 340); this tag has {total}. Seeding more makes up the numbers but "
    "does not strengthen weak seedlings."
)
OFTEN_HALF_WEIGHT = Label("Coating is often half the weight.")
PART_LIVE_SEED = Label(
    "{pls} of this bag is pure live seed: weigh in {more} more than the live seed you want."
)
POINTS_BY_RULE = Label("{allowed} points, as 7 CFR 201.63 allows")
PRINTED_COUNT_TAKEN = Label(
    "The published count is assumed to be as good as the counting rule requires, u {u}"
)
PRUSSIC_ACID_KEEP = Label(
    "Keep livestock off young or frosted growth: it may contain prussic acid. "
    "Guides differ; the strictest we read calls for 30 in (76 cm) of regrowth and"
    " 14 days after frost."
)
PRUSSIC_ACID_KEEP_STOCK = Label(
    "Keep livestock off young or frosted growth: it may contain prussic acid. "
    "Guides differ; the strictest we read calls for 20 in (50 cm) of regrowth and"
    " 14 days after frost."
)
PURE_SEED_OTHER = Label(
    "pure seed, other crop, weed seed and inert matter add up to {whole}, not "
    "100%: read the tag again"
)
RANGE_OVER_CFR = Label("they vary by {spread}, and 7 CFR 201.55 allows {allowed}")
ROUGH_GUIDE = Label("{allowed} points, a rough guide: no tolerance is published below 200 seeds")
TAG_AND_TEST_AGREE = Label("Tag and home test differ by {difference} points, within {limit}.")
TAG_GIVES_ONLY = Label(
    "this tag has only the total, with hard and dormant seed: count those, or "
    "enter the germination alone"
)
TAG_GIVES_ONLY_TOTAL = Label("The tag has only the total with hard and dormant seed.")
TAG_HOME_TEST = Label(
    "Tag and home test differ by {difference} points, more than {limit}. The "
    "range is widened to cover both; test again, or send it to a lab, before you "
    "rely on either."
)
TAG_MONTH_TEST = Label("The tag's test month is missing, so its age is unknown.")
TEST_LOT_HOME = Label(
    "Test this lot at home: its tag is {months} months old; the limit is {allowed}."
)
TOXIC_HORSES_LIVER = Label(
    "Keep horses off it: it damages the liver, and their skin burns in the sun."
)
TREATED_SEED_NEVER = Label(
    "This seed is treated: wear gloves and a mask before you open the bag. Do not"
    " feed it, and do not graze what is left. Follow the label."
)
WEED_SEED_MORE = Label(
    "{weed} weed seed is above 2%. Above that level, the Federal Seed Act of 1939"
    " (section 304) turned away imported seed."
)
WEIGHTS_LIE_MORE = Label(
    "Weights {places} are more than 2 standard deviations from the average and are left out"
)
WEIGHTS_SCATTER_THEIR = Label(
    "The weights vary by {cv} of their average, more than the {limit} allowed: weigh another {more}"
)
WEIGHTS_SCATTER_WIDELY = Label(
    "The weights vary a lot and no single one is far off: the lot is uneven"
)
WEIGH_HUNDREDS = Label("weigh 100 seeds {n} times")
YOUR_OWN_COUNT = Label("Your own count is used, not the {told} on the tag or from the seller.")
