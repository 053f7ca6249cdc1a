"""Seed and mixes, as they are kept."""

from typing import Annotated, ClassVar, Literal

from evenstand.engine.quantities import units as u
from evenstand.engine.quantities.phrases import say

from .details import AS_IT_STANDS, OR_ZERO, By, Key, Unless, Within
from .shape import Body, Count, Day, Id, Month, Name, Part, Share, Some, Text, Typed

PRINTED = Within(0, 1, say("enter what the tag says, 0% to 100%"), whole=True)


class Noxious(Part, frozen=True):
    """A noxious weed on a tag: seeds in a weight of bulk seed [1/kg]."""

    name: Name
    per_kg: Annotated[Typed, u.SEED_COUNT, Key("count"), OR_ZERO]


class Tag(Part, frozen=True):
    """What stands on the tag of a lot, as shares; a coating is inside ``inert``."""

    purity: Annotated[Share, PRINTED, AS_IT_STANDS]
    germination: Annotated[Share, PRINTED, AS_IT_STANDS]
    hard: Annotated[Share, PRINTED, AS_IT_STANDS] = 0.0
    dormant: Annotated[Share, PRINTED, AS_IT_STANDS] = 0.0
    inert: Annotated[Share | None, PRINTED, AS_IT_STANDS] = None
    other_crop: Annotated[Share | None, PRINTED, AS_IT_STANDS] = None
    weed: Annotated[Share | None, PRINTED, AS_IT_STANDS] = None
    coating: Annotated[Share, PRINTED, AS_IT_STANDS] = 0.0
    noxious: tuple[Noxious, ...] = ()
    total_viable: bool = False
    tested: Month | None = None
    seeds_tested: Annotated[Some, u.SEEDS] = 400
    hermetic: bool = False
    treated: bool = False


class BagSize(Part, frozen=True):
    """A bag as it is sold: net weight [kg] and what the bag costs."""

    weight: Annotated[Typed, u.LOAD, AS_IT_STANDS]
    price: Annotated[Typed | None, u.MONEY, OR_ZERO, AS_IT_STANDS] = None


class Lot(Body, frozen=True):
    """Seed of one tag: price [$/kg], test weight [kg/m³], seed on hand [kg].

    How many seeds are in a weight is told by the tag or the seller in one way:
    seeds of pure seed, or coated units [1/kg], or the weight of a thousand
    seeds [kg]. A count of one's own is an entry of its own. Where ``count_hard``
    or ``fluffy`` is null, the species decides. ``age_limit`` is in months;
    ``buy`` tells whether more of the lot can be bought.
    """

    kind: ClassVar = "lot"
    species: Name
    tag: Tag
    own_name: bool = False
    name: Text = ""
    seeds_per_kg: Annotated[Typed | None, u.SEED_COUNT, Key("seeds_per_lb")] = None
    coated_per_kg: Annotated[Typed | None, u.SEED_COUNT, Key("coated_per_lb")] = None
    thousand_seed_weight: Annotated[Typed | None, u.SEED_WEIGHT, Key("tsw")] = None
    price: Annotated[Typed | None, u.PRICE, OR_ZERO, AS_IT_STANDS] = None
    bags: tuple[BagSize, ...] = ()
    on_hand: Annotated[Typed | None, u.LOAD, OR_ZERO, AS_IT_STANDS] = None
    buy: Annotated[bool, Unless("sold_out")] = True
    count_hard: bool | None = None
    age_limit: Some | None = None
    test_weight: Annotated[Typed | None, u.TEST_WEIGHT] = None
    fluffy: bool | None = None
    treated_with: Text = ""
    note: Text = ""


class Sample(Part, frozen=True):
    """So many seeds weigh so much [kg]."""

    seeds: Annotated[Some, u.SEEDS]
    weight: Annotated[Typed, u.SCALE_STEP, AS_IT_STANDS]


class SeedCount(Body, frozen=True):
    """A count of a lot: replicates of 100 pure seeds weighed, or samples counted."""

    kind: ClassVar = "seed count"
    lot: Id
    samples: tuple[Sample, ...]
    way: Literal["samples", "replicates"] = "samples"
    resolution: Annotated[Typed | None, u.SCALE_STEP, AS_IT_STANDS] = None
    note: Text = ""


class Dish(Part, frozen=True):
    """Seeds laid out, and how many of them sprouted; None until they are counted."""

    seeds: Annotated[Some, u.SEEDS]
    sprouted: Annotated[Count | None, u.SEEDS] = None


class GerminationTest(Body, frozen=True):
    """A germination test at home, all its dishes counted or none yet.

    ``hard`` are firm seeds left over in all dishes.
    """

    kind: ClassVar = "germination test"
    lot: Id
    dishes: tuple[Dish, ...]
    hard: Annotated[Count | None, u.SEEDS] = None
    started: Day | None = None
    ended: Day | None = None
    note: Text = ""

    @property
    def counted(self) -> bool:
        """Whether its dishes were counted."""
        return all(dish.sprouted is not None for dish in self.dishes)


class Range(Part, frozen=True):
    """From the lower to the higher."""

    low: Typed
    high: Typed


class Member(Part, frozen=True):
    """A line of a mix: which seed or carrier, and the rate it was given by, in its basis.

    Without ``rate``, and not the rest, it is only on offer. ``full`` is the
    rate sown alone, ``in_mix`` the range printed for it in a mix [kg/m²],
    ``depth`` how deep it likes to lie [m]. ``cn`` is the ratio of its residue,
    ``biomass`` what it will leave [kg/m²]. ``price`` [$/kg] and ``test_weight``
    [kg/m³] are those of a carrier; seed has its own with its lot.
    """

    name: Name
    basis: Literal["of full rate", "live seeds", "pls", "bulk", "rest"]
    rate: Annotated[Typed | None, By("basis")] = None
    lot: Id | None = None
    full: Annotated[Typed | None, By("full_basis")] = None
    full_basis: Literal["live seeds", "pls", "bulk"] = "pls"
    in_mix: Annotated[Range | None, u.RATE, OR_ZERO] = None
    depth: Annotated[Range | None, u.SPACING, OR_ZERO] = None
    group: Literal["", "grass", "legume", "broadleaf", "brassica"] = ""
    season: Literal["", "cool", "warm"] = ""
    important: Annotated[bool, Unless("may_fail")] = True
    cn: Annotated[Typed | None, u.NUMBER] = None
    biomass: Annotated[Typed | None, u.RATE] = None
    carrier: bool = False
    price: Annotated[Typed | None, u.PRICE, OR_ZERO] = None
    test_weight: Annotated[Typed | None, u.TEST_WEIGHT] = None


class Mix(Body, frozen=True):
    """Species sown together: live seeds [1/m²], weights [kg/m²], shares [-].

    ``whole`` is what the rest fills up, all of the full rates without;
    ``uplift`` the share of seed added to all for broadcasting; ``stand`` what
    it is to grow into, to set printed live seeds beside it.
    """

    kind: ClassVar = "mix"
    name: Name
    members: tuple[Member, ...] = ()
    whole: Annotated[Typed | None, By("whole_basis")] = None
    whole_basis: Literal["of full rate", "live seeds", "pls", "bulk"] = "of full rate"
    uplift: Annotated[Typed | None, u.SHARE, OR_ZERO] = None
    stand: Text = ""
    note: Text = ""
