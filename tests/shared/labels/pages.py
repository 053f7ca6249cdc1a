"""Sentences of the pages that tests look for."""

from .label import Label

AGE_MONTHS = Label("{n} months")
AGE_TOO_OLD = Label("too old")
ALL_PLANS = Label("All plans side by side")
AND_COVERS = Label("and covers")
ANOTHER_PLAN_BETTER = Label("Another plan has fewer trade-offs: {way}")
AT_HOME = Label("At home")
BAGS_OF = Label("{n} bags of {weight}")
BLANK_JOB_SPEED = Label("Leave blank to use the job's speed, {speed}")
CALIBRATE = Label("Calibrate")
CHANGED_MEANWHILE = Label(
    "{field}: {who} changed {before} to {theirs} {at} while you had this open."
)
CHANGED_SINCE_LOCKED = Label("Changed since it was locked in: {n}")
COUNT_MORE_SAMPLES = Label("Count {n} more samples to get it within {within}.")
COUNT_ONE_MORE_SAMPLE = Label("Count 1 more sample to get it within {within}.")
COUNT_OUT_HUNDREDS = Label(
    "Count out 100 seeds as they come, weigh them, and set them aside. Do it eight times, "
    "each from a different part of the sample."
)
COUNT_TURNS = Label("Count turns")
CRANK_TURNS = Label("crank turns")
DOES_NOT_ADD_UP = Label("doesn't add up: open it")
ENTER_FIRST_TAG = Label("Enter the tag of your first lot.")
FIRM_LEFT = Label("Firm seeds left over: {n}")
FULL_BOX_SEEDS = Label("A full box seeds")
GERMINATION_COMBINED = Label("Germination, tag and home test combined")
GOOD_ENOUGH = Label("Good enough: it's known to within {within}.")
HARD_REQUIRED = Label("Required: hard seed counts as live for this lot")
IN_USE = Label("in use")
ITEMS_TO_BUY = Label("{n} items to buy, a price is missing")
KNOWN_TO_WITHIN = Label("Known to within")
LAID_NOT_COUNTED = Label("{laid} laid out, not counted yet")
LEFT_OUT_NOW = Label("It is left out. Save it again to put it back.")
LIVE_SEED_COMBINED = Label("Pure live seed, both combined")
LOAD_ENDS_IN_PASS = Label("pass {number}, {along} in")
LOCK_IN = Label("Lock in {setting}")
LOT_TOO_UNEVEN = Label("Stop here: this lot is too uneven to get within {within}.")
NEEDS_MIX_AREA = Label("needs a mix and the field's area")
NEEDS_MIX_BOXES = Label("needs a mix and the drill's boxes")
NEED_OF_SEED = Label(
    "{need} needed ({range}), {hand} on hand, {left} left over; {odds} odds it's enough"
)
NEWER_COUNT = Label("A newer count of this lot is in use.")
NEWER_TEST = Label("A newer test of this lot is in use.")
NEXT_STEP = Label("Next up: {step}.")
NOT_IN_MIX = Label("Not in a mix yet.")
PDF_LETTER = Label("PDF, letter")
PLACE_ALLOWS = Label("{place} allows {allowed}")
PLAN_IN_USE = Label("This is the plan in use.")
PRICE_AS_SOLD = Label("Price as sold")
PRICE_LIVE_SEED = Label("Price of live seed")
PRICE_MISSING = Label("a price is missing")
PURE_LIVE_SEED_HEADING = Label("Pure live seed")
RATES_HANDED_OVER = Label("Calibrate has these target rates.")
RATES_NOT_CHANGED = Label("Calibrate already has these target rates: nothing was changed.")
RATE_AIMED_AT = Label("target {rate}")
REPLICATES_WEIGHED = Label("{n} × 100 seeds weighed")
SAMPLES_COUNTED = Label("{n} samples counted")
SAVED_OTHER_VALUES = Label(
    "This was already saved with other values. To change it, correct the saved entry. To "
    "add this as another entry, save again."
)
SAVE_CATCH = Label("Save catch")
SEED_ALL_THERE = Label("you have all the seed you need")
SEED_TO_BUY = Label("{cost} of seed to buy")
SET_AT = Label("set to {setting}")
SHOULD_WEIGH = Label("100 seeds of this lot should weigh about {weight}.")
SOMETHING_MISSING = Label("Something is missing.")
SOMETHING_NOT_FITTING = Label("Something doesn't fit yet.")
SPROUTED_OF = Label("{up} of {laid} sprouted")
STEP_DONE = Label("done")
STEP_IN_PROGRESS = Label("in progress")
STEP_TO_DO = Label("to do")
STILL_GOOD = Label("still good")
TEST_AGAINST_TAG = Label("This test and the lot's tag don't agree: open the lot and fix it.")
TEST_MONTH_UNKNOWN = Label("test month unknown")
TEST_NOT_LIKE_TAG = Label("Test again: the home test doesn't match the tag.")
TEST_RAN = Label("From {start} to {end}")
TEST_TOO_OLD = Label("test too old")
TIME_EACH = Label("{time} each")
TOWELS_DISAGREE = Label("Test again: the towels don't agree.")
TOWEL_LAID = Label("Towel {n}: {seeds} seeds")
TREATED_COUNTING = Label(
    "Treated seed: wear gloves and a mask. Put it back in its bag afterward, never into feed."
)
TREATED_LOT = Label(
    "Treated seed: follow its label first. Wear gloves and a mask before you open the "
    "bag, and wash before you eat. Keep it away from people, animals and water."
)
TREATED_TESTING = Label(
    "Treated seed: wear gloves and a mask. Do not eat or drink nearby. Dispose of the "
    "towels as the label says."
)
TURN_CRANK = Label("Turn the crank")
UNIT_IN_FIELD = Label("{unit} in the field")
USE_TAG_AND_TEST = Label("Use the tag and home test combined.")
USE_THIS_PLAN = Label("Use this plan")
VARIATION_BETWEEN = Label("Variation between them")
WHEEL_NOT_MEASURED = Label("The drive wheel hasn't been measured yet.")
WITHOUT_HARD_SEED = Label("Without hard and dormant seed")
WITH_HARD_SEED = Label("With hard and dormant seed")
