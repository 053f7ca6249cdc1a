"""Seed and mixes, as they are kept."""

from typing import ClassVar, Literal

from .shape import Body, Count, Day, Id, Month, Name, Part, Share, Some, Text, Typed


class Noxious(Part, frozen=True):
    """A noxious weed on a tag: seeds in a weight of bulk seed [1/kg]."""

    name: Name
    per_kg: Typed


class Tag(Part, frozen=True):
    """What stands on the tag of a lot, as shares; a coating is inside ``inert``."""

    purity: Share
    germination: Share
    hard: Share = 0.0
    dormant: Share = 0.0
    inert: Share | None = None
    other_crop: Share | None = None
    weed: Share | None = None
    coating: Share = 0.0
    noxious: tuple[Noxious, ...] = ()
    total_viable: bool = False
    tested: Month | None = None
    seeds_tested: Some = 400
    hermetic: bool = False
    treated: bool = False


class BagSize(Part, frozen=True):
    """A bag as it is sold: net weight [kg] and what the bag costs."""

    weight: Typed
    price: Typed | None = None


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
    seeds_per_kg: Typed | None = None
    coated_per_kg: Typed | None = None
    thousand_seed_weight: Typed | None = None
    price: Typed | None = None
    bags: tuple[BagSize, ...] = ()
    on_hand: Typed | None = None
    buy: bool = True
    count_hard: bool | None = None
    age_limit: Some | None = None
    test_weight: Typed | None = None
    fluffy: bool | None = None
    treated_with: Text = ""
    note: Text = ""


class Sample(Part, frozen=True):
    """So many seeds weigh so much [kg]."""

    seeds: Some
    weight: Typed


class SeedCount(Body, frozen=True):
    """A count of a lot: replicates of 100 pure seeds weighed, or samples counted."""

    kind: ClassVar = "seed count"
    lot: Id
    samples: tuple[Sample, ...]
    way: Literal["samples", "replicates"] = "samples"
    resolution: Typed | None = None
    note: Text = ""


class Dish(Part, frozen=True):
    """Seeds laid out, and how many of them sprouted; None until they are counted."""

    seeds: Some
    sprouted: Count | None = None


class GerminationTest(Body, frozen=True):
    """A germination test at home, all its dishes counted or none yet.

    ``hard`` are firm seeds left over in all dishes.
    """

    kind: ClassVar = "germination test"
    lot: Id
    dishes: tuple[Dish, ...]
    hard: Count | None = None
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
    rate: Typed | None = None
    lot: Id | None = None
    full: Typed | None = None
    full_basis: Literal["live seeds", "pls", "bulk"] = "pls"
    in_mix: Range | None = None
    depth: Range | None = None
    group: Literal["", "grass", "legume", "broadleaf", "brassica"] = ""
    season: Literal["", "cool", "warm"] = ""
    important: bool = True
    cn: Typed | None = None
    biomass: Typed | None = None
    carrier: bool = False
    price: Typed | None = None
    test_weight: Typed | None = None


class Mix(Body, frozen=True):
    """Species sown together: live seeds [1/m²], weights [kg/m²], shares [-].

    ``whole`` is what the rest fills up, all of the full rates without;
    ``uplift`` the share of seed added to all for broadcasting; ``stand`` what
    it is to grow into, to set printed live seeds beside it.
    """

    kind: ClassVar = "mix"
    name: Name
    members: tuple[Member, ...] = ()
    whole: Typed | None = None
    whole_basis: Literal["of full rate", "live seeds", "pls", "bulk"] = "of full rate"
    uplift: Typed | None = None
    stand: Text = ""
    note: Text = ""
