"""Sentences of the room mix that tests look for."""

from .label import Label

ABOVE = Label("above")
ALL_CARBON_ALL = Label("All carbon ÷ all nitrogen")
ALL_SEED_RATES = Label("All seed rates are {more} above the drilled ones, to broadcast")
AT_OF_IS = Label(
    "{name} at {rate} of {basis} is {place} {low} to {high}, printed for it {where} ({source})"
)
BELOW = Label("below")
BIOMASS_TAKEN_PROPORTION = Label(
    "biomass taken in proportion to the shares of full rates, an assumption: weigh a square of "
    "the cover to know it"
)
BRASSICAS_ALONE_NO = Label(
    "Brassicas alone are no cover: their residue breaks down fast (Corn and Soybean Digest)"
)
BRASSICAS_FULL_RATE = Label(
    "Brassicas are at {share} of a full rate; many keep them to {most} or less (from memory, no "
    "published figure found)"
)
BULK = Label("bulk")
BULK_SEED = Label("{name}: bulk seed")
COOL_SEASON_SEED = Label(
    "Cool-season seed ({cool} of the seeds) and warm-season seed ({warm}) share one date: see "
    "that it suits both"
)
C_N_ABOVE = Label(
    "C:N {ratio}: above {ideal} the soil's microbes take nitrogen from the soil to eat it; the "
    "cover lasts longer."
)
C_N_BELOW = Label(
    "C:N {ratio}: at {ideal} or below the residue breaks down fast and leaves nitrogen over."
)
FULL_RATES = Label("{amount} of full rates")
FULL_RATES_PURE = Label("full rates of pure live seed")
GIVE_BIOMASS_WILL = Label(
    "give the biomass that {name} will leave, or its full rate to guess it from"
)
GIVE_DEPTH_ONE = Label("give the depth that one important species of the mix bears")
GIVE_HOW_MUCH = Label("give how much more seed, from 0 % to 300 %: 100 % doubles it")
GIVE_LIVE_SEED = Label(
    "{name}: give the live seed of its tag, above 0 % to 100 %; what has none can only be a carrier"
)
GIVE_LOWER_RATE = Label("give the lower rate of the range first, both 0 or more")
GIVE_NAME_CARRIER = Label("give the name of the carrier")
GIVE_NAME_SPECIES = Label("give the name of the species")
GIVE_PRICE_MORE = Label("give a price of 0 or more")
GIVE_SHALLOWER_DEPTH = Label("give the shallower depth first, both 0 or more")
GIVE_WHOLE_ABOVE = Label("give a whole above 0 to fill up")
HAS_NO_FULL = Label(
    "{name} has no full rate to take a share of: give its full rate, or its live seeds or weight "
    "per area"
)
IN_A_MIX = Label("in a mix")
ITS_COST = Label("{name}: its cost")
LIES_TOO_DEEP = Label("{name} lies {by} too deep")
LIES_TOO_SHALLOW = Label("{name} lies {by} too shallow")
LIVE = Label("{amount}, live")
LIVE_IS_TO = Label("{seeds}, live, is {place} {low} to {high} ({source})")
LIVE_SEEDS = Label("{name}: live seeds")
LIVE_SEEDS_KNOWN = Label("The live seeds are known to about ± {reach}; most of that is {cause}.")
MARK_ONE_MEMBER = Label("mark the one member that fills it up")
MORE_SEED_BROADCAST = Label("More seed, as it is broadcast")
NITROGEN = Label("{name}: nitrogen")
NO_DEPTH_KNOWN = Label("No depth is known for {names}: it is left out")
NO_PRICE_GIVE = Label("No price for {names}: give it to see what the mix costs")
NO_SOURCE_GIVEN = Label("no source given")
OF_BULK = Label("{amount} of bulk")
OF_PURE_LIVE_SEED_AMOUNT = Label("{amount} of pure live seed")
ONLY_ONE_MEMBER = Label("only one member can be the rest: give the rates of all others")
OTHER_MEMBERS_LEAVE = Label(
    "the other members leave nothing of {whole} for {name}: give them less, or a larger whole"
)
PURE_LIVE_SEED = Label("pure live seed")
PURE_LIVE_SEED_NAME = Label("{name}: pure live seed")
SHARES_FULL_RATES = Label(
    "The shares of full rates add up to {whole}; mixes are often run at 100 to {most} (from memory)"
)
SHARE_FULL_RATE = Label("{name}: its share of the full rate")
SOW = Label("Sow {bulk}: {parts}.")
SOW_EVERY_SPECIES = Label("Sow at {depth}: every species of the mix bears it.")
SOW_SMALLEST_IMPORTANT = Label(
    "Sow at {depth}: {smallest}, the smallest important seed, bears {low} to {high}, and this is "
    "nearest to what the others ask."
)
THAT_IS_LIVE = Label("That is {seeds}, live, for {cost}.")
WEIGHT_BUT_SEEDS = Label("{name} is {weight} of the weight but {seed} of the seeds")
WHAT_OTHERS_LEAVE = Label("{name}: what the others leave of {whole}")
WITHIN = Label("within")
