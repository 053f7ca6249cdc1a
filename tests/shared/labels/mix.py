"""Sentences of the room mix that tests look for."""

from .label import Label

ABOVE = Label("above")
ALL_CARBON_ALL = Label("Total carbon ÷ total nitrogen")
ALL_SEED_RATES = Label(
    "All seed rates are {more} above drilled rates, because the seed is broadcast"
)
AT_OF_IS = Label(
    "{name} at {rate} {basis} is {place} {low} to {high}, the published range for"
    " seeding it {where} ({source})"
)
BELOW = Label("below")
BIOMASS_TAKEN_PROPORTION = Label(
    "biomass assumed in proportion to shares of full rate: to know for sure, clip"
    " and weigh a square of the cover"
)
BLANK_IN_THE_REST = Label("leave it blank: this line makes up the rest of the mix")
BRASSICAS_ALONE_NO = Label(
    "Brassicas alone are not much of a cover: their residue breaks down fast (farm press)"
)
BRASSICAS_FULL_RATE = Label(
    "Brassicas are at {share} of full rate; many growers stay at {most} or less "
    "(common practice, no published figure found)"
)
BULK = Label("bulk")
BULK_SEED = Label("{name}: bulk seed")
CARRIER_BULK_WEIGHT = Label("enter the carrier's bulk weight: it has no live seed")
CHOOSE_FIRST_SEED = Label("choose the first seed of the mix")
CHOOSE_MIX_FIRST = Label("choose a mix first")
CHOOSE_SEED_OR_CLEAR = Label("choose its seed; to delete the line, clear everything in it")
COOL_SEASON_SEED = Label(
    "Cool-season seed ({cool} of the seeds) and warm-season seed ({warm}) share "
    "one seeding date: make sure it suits both"
)
COST_UPPER_LIMIT_ONLY = Label("leave it out: a cost has only an upper limit")
C_N_ABOVE = Label(
    "C:N {ratio}: above {ideal}, soil microbes tie up soil nitrogen to break it "
    "down; the residue lasts longer."
)
C_N_BELOW = Label(
    "C:N {ratio}: at {ideal} or below, residue breaks down fast and releases nitrogen."
)
FULL_RATES = Label("{amount} of full rate")
FULL_RATES_PURE = Label("full rates assumed to be pure live seed")
GIVE_BIOMASS_WILL = Label("enter the biomass {name} will leave, or its full rate to estimate it")
GIVE_DEPTH_ONE = Label("enter the depth range of one key species in the mix")
GIVE_HOW_MUCH = Label("enter how much extra seed, 0% to 300%: 100% doubles the rate")
GIVE_LIVE_SEED = Label(
    "{name}: enter the live seed from its tag, above 0% to 100%; if it has none, "
    "it can only be a carrier"
)
GIVE_LOWER_RATE = Label("enter the lower rate of the range first, both 0 or more")
GIVE_NAME_CARRIER = Label("enter the name of the carrier")
GIVE_NAME_SPECIES = Label("enter the name of the species")
GIVE_PRICE_MORE = Label("enter a price of 0 or more")
GIVE_SHALLOWER_DEPTH = Label("enter the shallower depth first, both 0 or more")
GIVE_WHOLE_ABOVE = Label("enter a total above 0 to fill up to")
HAS_NO_FULL = Label(
    "{name} has no full rate to figure a share of: enter its full rate, or its "
    "live seeds or weight per area"
)
IN_A_MIX = Label("in a mix")
ITS_COST = Label("{name}: cost")
LIES_TOO_DEEP = Label("{name} is {by} too deep")
LIES_TOO_SHALLOW = Label("{name} is {by} too shallow")
LIVE = Label("{amount} live")
LIVE_IS_TO = Label("{seeds} live is {place} {printed} ({source})")
LIVE_SEEDS = Label("{name}: live seeds")
LIVE_SEEDS_KNOWN = Label(
    "Live seeds are good to about ± {reach}; most of the uncertainty is {cause}."
)
MARK_ONE_MEMBER = Label("mark the one line that makes up the rest")
MORE_SEED_BROADCAST = Label("Extra seed for broadcasting")
NITROGEN = Label("{name}: nitrogen")
NO_DEPTH_KNOWN = Label("No seeding depth known for {names}: not used in choosing the depth")
NO_PRICE_GIVE = Label("No price for {names}: enter one to see what the mix costs")
NO_SOURCE_GIVEN = Label("no source listed")
OF_BULK = Label("{amount} bulk")
OF_PURE_LIVE_SEED_AMOUNT = Label("{amount} PLS")
ONLY_ONE_MEMBER = Label("only one line can be the rest: enter rates for all the others")
OTHER_MEMBERS_LEAVE = Label(
    "the other lines leave nothing of {whole} for {name}: lower them, or raise the total"
)
PURE_LIVE_SEED = Label("pure live seed")
PURE_LIVE_SEED_NAME = Label("{name}: pure live seed")
SHARES_FULL_RATES = Label(
    "Shares of full rate add up to {whole}; mixes often run 100 to {most} (common practice)"
)
SHARE_FULL_RATE = Label("{name}: share of full rate")
SOW = Label("Seed {bulk}: {parts}.")
SOW_EVERY_SPECIES = Label("Seed at {depth}: every species in the mix tolerates it.")
SOW_SMALLEST_IMPORTANT = Label(
    "Seed at {depth}. {smallest}, the smallest key species, tolerates {low} to "
    "{high}; this is closest to what the others need."
)
SPECIES_OF_ALL_OR_GROUP = Label("enter all or a group: species are counted within it")
SPECIES_OF_A_RATE = Label("enter which species: a rate belongs to one species")
THAT_IS_LIVE = Label("That's {seeds} live, at {cost}.")
WEIGHT_BUT_SEEDS = Label("{name} is {weight} of the weight but {seed} of the seeds")
WHAT_OTHERS_LEAVE = Label("{name}: what the others leave of {whole}")
WITHIN = Label("within")
