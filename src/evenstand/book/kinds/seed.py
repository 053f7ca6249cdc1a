"""Seed and mixes, as they are kept."""

from typing import Annotated, ClassVar, Literal

from evenstand.engine.quantities import units as u
from evenstand.engine.quantities.phrases import say

from .details import AS_IT_STANDS, OR_ZERO, By, Key, Unless, Within
from .shape import Body, Count, Day, Id, Month, Name, Part, Share, Some, Text, Typed

PRINTED = Within(0, 1, say("enter what the tag says, 0% to 100%"), whole=True)

LIVE = Within(0, 1, say("enter what the tag says, above 0% to 100%"), whole=True)


class Noxious(Part, frozen=True):
    """A noxious weed on a tag: seeds in a weight of bulk seed [1/kg]."""

    name: Annotated[Name, say("Noxious weed")]
    per_kg: Annotated[Typed, u.SEED_COUNT, Key("count"), OR_ZERO, say("Seeds per weight")]


class Tag(Part, frozen=True):
    """What stands on the tag of a lot, as shares; a coating is inside ``inert``."""

    purity: Annotated[Share, LIVE, AS_IT_STANDS, say("Pure seed")]
    germination: Annotated[Share, LIVE, AS_IT_STANDS, say("Germination")]
    hard: Annotated[Share, PRINTED, AS_IT_STANDS, say("Hard seed")] = 0.0
    dormant: Annotated[Share, PRINTED, AS_IT_STANDS, say("Dormant seed")] = 0.0
    inert: Annotated[Share | None, PRINTED, AS_IT_STANDS, say("Inert matter")] = None
    other_crop: Annotated[Share | None, PRINTED, AS_IT_STANDS, say("Other crop")] = None
    weed: Annotated[Share | None, PRINTED, AS_IT_STANDS, say("Weed seed")] = None
    coating: Annotated[Share, PRINTED, AS_IT_STANDS, say("Coating")] = 0.0
    noxious: Annotated[tuple[Noxious, ...], say("Noxious weeds")] = ()
    total_viable: Annotated[bool, say("Germination includes hard and dormant seed")] = False
    tested: Annotated[Month | None, say("Test month")] = None
    seeds_tested: Annotated[Some, u.SEEDS, say("Seeds tested")] = 400
    hermetic: Annotated[bool, say("Sealed against moisture")] = False
    treated: Annotated[bool, say("Treated")] = False


class BagSize(Part, frozen=True):
    """A bag as it is sold: net weight [kg] and what the bag costs."""

    weight: Annotated[Typed, u.LOAD, AS_IT_STANDS, say("Bag weight")]
    price: Annotated[Typed | None, u.MONEY, OR_ZERO, AS_IT_STANDS, say("Bag price")] = None


class Lot(Body, frozen=True):
    """Seed of one tag: price [$/kg], test weight [kg/m³], seed on hand [kg].

    How many seeds are in a weight is told by the tag or the seller in one way:
    seeds of pure seed, or coated units [1/kg], or the weight of a thousand
    seeds [kg]. A count of one's own is an entry of its own. Where ``count_hard``
    or ``fluffy`` is null, the species decides. ``age_limit`` is in months;
    ``buy`` tells whether more of the lot can be bought.
    """

    kind: ClassVar = "lot"
    species: Annotated[Name, say("Species")]
    tag: Annotated[Tag, say("Tag")]
    own_name: Annotated[bool, say("Name not in the list")] = False
    name: Annotated[Text, say("Lot number")] = ""
    seeds_per_kg: Annotated[
        Typed | None, u.SEED_COUNT, Key("seeds_per_lb"), say("Seeds per weight")
    ] = None
    coated_per_kg: Annotated[
        Typed | None, u.SEED_COUNT, Key("coated_per_lb"), say("Coated seeds per weight")
    ] = None
    thousand_seed_weight: Annotated[
        Typed | None, u.SEED_WEIGHT, Key("tsw"), say("Weight of 1,000 seeds")
    ] = None
    price: Annotated[Typed | None, u.PRICE, OR_ZERO, AS_IT_STANDS, say("Price")] = None
    bags: Annotated[tuple[BagSize, ...], say("Bag sizes")] = ()
    on_hand: Annotated[Typed | None, u.LOAD, OR_ZERO, AS_IT_STANDS, say("On hand")] = None
    buy: Annotated[bool, Unless("sold_out"), say("Can be bought")] = True
    count_hard: Annotated[bool | None, say("Hard and dormant seed counts as live")] = None
    age_limit: Annotated[Some | None, say("Test good for, in months")] = None
    test_weight: Annotated[Typed | None, u.TEST_WEIGHT, say("Test weight")] = None
    fluffy: Annotated[bool | None, say("Fluffy seed")] = None
    treated_with: Annotated[Text, say("Treated with")] = ""
    note: Annotated[Text, say("Note")] = ""


class Sample(Part, frozen=True):
    """So many seeds weigh so much [kg]."""

    seeds: Annotated[Some, u.SEEDS, say("Seeds")]
    weight: Annotated[Typed, u.SCALE_STEP, AS_IT_STANDS, say("Weight")]


class SeedCount(Body, frozen=True):
    """A count of a lot: replicates of 100 pure seeds weighed, or samples counted."""

    kind: ClassVar = "seed count"
    lot: Annotated[Id, say("Seed lot")]
    samples: Annotated[tuple[Sample, ...], say("Samples")]
    way: Annotated[Literal["samples", "replicates"], say("Counting method")] = "samples"
    resolution: Annotated[Typed | None, u.SCALE_STEP, AS_IT_STANDS, say("Scale step")] = None
    note: Annotated[Text, say("Note")] = ""


class Dish(Part, frozen=True):
    """Seeds laid out, and how many of them sprouted; None until they are counted."""

    seeds: Annotated[Some, u.SEEDS, say("Seeds")]
    sprouted: Annotated[Count | None, u.SEEDS, say("Sprouted")] = None


class GerminationTest(Body, frozen=True):
    """A germination test at home, all its dishes counted or none yet.

    ``hard`` are firm seeds left over in all dishes.
    """

    kind: ClassVar = "germination test"
    lot: Annotated[Id, say("Seed lot")]
    dishes: Annotated[tuple[Dish, ...], say("Dishes")]
    hard: Annotated[Count | None, u.SEEDS, say("Firm seeds left")] = None
    started: Annotated[Day | None, say("Start date")] = None
    ended: Annotated[Day | None, say("End date")] = None
    note: Annotated[Text, say("Note")] = ""

    @property
    def counted(self) -> bool:
        """Whether its dishes were counted."""
        return all(dish.sprouted is not None for dish in self.dishes)


class Range(Part, frozen=True):
    """From the lower to the higher."""

    low: Annotated[Typed, say("Low")]
    high: Annotated[Typed, say("High")]


class Member(Part, frozen=True):
    """A line of a mix: which seed or carrier, and the rate it was given by, in its basis.

    Without ``rate``, and not the rest, it is only on offer. ``full`` is the
    rate sown alone, ``in_mix`` the range printed for it in a mix [kg/m²],
    ``depth`` how deep it likes to lie [m]. ``cn`` is the ratio of its residue,
    ``biomass`` what it will leave [kg/m²]. ``price`` [$/kg], ``bags``,
    ``on_hand`` [kg] and ``test_weight`` [kg/m³] are those of a carrier; seed has
    its own with its lot.
    """

    name: Annotated[Name, say("Name")]
    basis: Annotated[
        Literal["of full rate", "live seeds", "pls", "bulk", "rest"], say("Rate basis")
    ]
    rate: Annotated[Typed | None, By("basis"), say("Rate")] = None
    lot: Annotated[Id | None, say("Seed lot")] = None
    full: Annotated[Typed | None, By("full_basis"), say("Full rate")] = None
    full_basis: Annotated[Literal["live seeds", "pls", "bulk"], say("Full rate basis")] = "pls"
    in_mix: Annotated[Range | None, u.RATE, OR_ZERO, say("Range in a mix")] = None
    depth: Annotated[Range | None, u.SPACING, OR_ZERO, say("Seeding depth")] = None
    group: Annotated[Literal["", "grass", "legume", "broadleaf", "brassica"], say("Group")] = ""
    season: Annotated[Literal["", "cool", "warm"], say("Season")] = ""
    important: Annotated[bool, Unless("may_fail"), say("Sets the depth")] = True
    cn: Annotated[Typed | None, u.NUMBER, say("C:N")] = None
    biomass: Annotated[Typed | None, u.RATE, say("Dry matter")] = None
    carrier: Annotated[bool, say("Carrier")] = False
    price: Annotated[Typed | None, u.PRICE, OR_ZERO, say("Price")] = None
    test_weight: Annotated[Typed | None, u.TEST_WEIGHT, say("Test weight")] = None
    bags: Annotated[tuple[BagSize, ...], say("Bag sizes")] = ()
    on_hand: Annotated[Typed | None, u.LOAD, OR_ZERO, AS_IT_STANDS, say("On hand")] = None


class Mix(Body, frozen=True):
    """Species sown together: live seeds [1/m²], weights [kg/m²], shares [-].

    ``whole`` is what the rest fills up, all of the full rates without;
    ``uplift`` the share of seed added to all for broadcasting; ``stand`` what
    it is to grow into, to set printed live seeds beside it.
    """

    kind: ClassVar = "mix"
    name: Annotated[Name, say("Name")]
    members: Annotated[tuple[Member, ...], say("Seed in the mix")] = ()
    whole: Annotated[Typed | None, By("whole_basis"), say("Total the rest fills")] = None
    whole_basis: Annotated[
        Literal["of full rate", "live seeds", "pls", "bulk"], say("Total basis")
    ] = "of full rate"
    uplift: Annotated[Typed | None, u.SHARE, OR_ZERO, say("Extra seed to broadcast")] = None
    stand: Annotated[Text, say("Stand type")] = ""
    note: Annotated[Text, say("Note")] = ""
