"""Seed and mixes, as they are kept."""

from typing import ClassVar, Literal

from .shape import Body, Count, Day, Id, Month, Name, Part, Share, Some, Text, Typed


class Tag(Part, frozen=True):
    """What stands on the tag of a lot, as shares."""

    purity: Share
    germination: Share
    hard: Share = 0.0
    dormant: Share = 0.0
    inert: Share | None = None
    other_crop: Share | None = None
    weed: Share | None = None
    noxious: Text = ""
    total_viable: bool = False
    tested: Month | None = None
    seeds_tested: Some = 400


class Lot(Body, frozen=True):
    """Seed of one tag: seeds [1/kg], price [$/kg], bags [kg], test weight [kg/m³]."""

    kind: ClassVar = "lot"
    species: Name
    tag: Tag
    name: Text = ""
    seeds_per_kg: Typed | None = None
    price: Typed | None = None
    bags: tuple[Typed, ...] = ()
    count_hard: bool = True
    test_weight: Typed | None = None
    fluffy: bool = False
    treated: Text = ""
    coated: bool = False
    note: Text = ""


class SeedCount(Body, frozen=True):
    """A count of a lot: so many seeds weigh so much [kg]."""

    kind: ClassVar = "seed count"
    lot: Id
    seeds: Some
    weight: Typed
    resolution: Typed | None = None
    note: Text = ""


class GerminationTest(Body, frozen=True):
    """A germination test at home."""

    kind: ClassVar = "germination test"
    lot: Id
    seeds: Some
    sprouted: Count
    hard: Count = 0
    started: Day | None = None
    ended: Day | None = None
    note: Text = ""


class Member(Part, frozen=True):
    """A line of a mix: which seed, and the rate it was given by, in the unit of its basis."""

    name: Name
    basis: Literal["of full rate", "live seeds", "pls", "bulk", "rest"]
    rate: Typed | None = None
    lot: Id | None = None
    full: Typed | None = None
    full_basis: Literal["live seeds", "pls", "bulk"] = "pls"
    carrier: bool = False


class Mix(Body, frozen=True):
    """Species sown together: live seeds [1/m²], weights [kg/m²], shares [-]."""

    kind: ClassVar = "mix"
    name: Name
    members: tuple[Member, ...] = ()
    uplift: Typed | None = None
    note: Text = ""
