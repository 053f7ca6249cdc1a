"""The tag on a bag of seed: what it says, what it must add up to, how surely it is known."""

from dataclasses import dataclass, field
from math import fsum

from ..quantities.errors import MeasurementError, require_positive
from ..quantities.phrases import say
from ..quantities.units import SHARE
from ..statistics.budget import Quantity, uncertain
from .germination import TEST_SEEDS, germination_u
from .retest import HomeTest, Together, combine
from .tolerances import purity_u

ROUNDING = 0.0005  # how far from 100 % the parts of a tag may add up by rounding alone


@dataclass(frozen=True, slots=True, order=True)
class Month:
    """A month of a year, as a tag gives the date of its test."""

    year: int
    month: int

    def __post_init__(self) -> None:
        if not 1 <= self.month <= 12:
            raise MeasurementError("tested", self.month, say("enter a month from 1 to 12"))

    def __str__(self) -> str:
        return f"{self.year}-{self.month:02d}"

    def until(self, later: "Month") -> int:
        """Whole months from the end of this month to the end of ``later``."""
        return 12 * (later.year - self.year) + later.month - self.month


@dataclass(frozen=True, slots=True)
class Noxious:
    """A noxious weed on the tag, in seeds per kg of bulk."""

    name: str
    per_kg: float

    def __post_init__(self) -> None:
        if not self.per_kg >= 0:
            raise MeasurementError("noxious", self.per_kg, say("enter 0 or more"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Tag:
    """What stands on the tag of a seed lot; percentages are shares of 1.

    Parameters
    ----------
    purity : float
        Pure seed in the bag by weight; a coating is not in it. [-]
    germination : float
        Of pure seed. With ``total_viable`` it has hard and dormant seed in it. [-]
    hard, dormant : float
        Live seed that did not sprout in the test, of pure seed. [-]
    inert, other_crop, weed : float, optional
        The rest of the bag by weight; a coating is inside ``inert``. [-]
    coating : float
        Part of the bag's weight that is coating, inside ``inert``.
    total_viable : bool
        The tag prints only the total of germination, hard and dormant seed.
    chaffy : bool
        A third or more of it is a chaffy kind of 7 CFR 201.60.
    tested : Month, optional
        Month of the germination test.
    seeds_tested : int
        Seeds behind the germination, 400 by 7 CFR 201.54.
    hermetic : bool
        Sealed against moisture, which the law lets grow older.
    treated : bool
        Treated with a pesticide.
    net_weight : float, optional
        Seed in one bag, in kg.
    home_test : HomeTest, optional
        Joined with the germination of the tag.

    Attributes
    ----------
    pure, sprouting, viable : Quantity
        Purity, germination, and germination with hard and dormant seed, each
        with its uncertainty: made once, so that what is computed from one tag
        stays correlated.

    Raises
    ------
    MeasurementError
        For shares outside 0 to 100%, parts that do not add up, hard seed
        beside a total that has it already, or more coating than inert matter.

    References
    ----------
    Coating is inert matter: 7 CFR 201.51b (f). A total printed beside the separate figures:
    Montana ARM 4.12.3105.
    """

    purity: float
    germination: float
    hard: float = 0.0
    dormant: float = 0.0
    inert: float | None = None
    other_crop: float | None = None
    weed: float | None = None
    coating: float = 0.0
    noxious: tuple[Noxious, ...] = ()
    total_viable: bool = False
    chaffy: bool = False
    tested: Month | None = None
    seeds_tested: int = TEST_SEEDS
    hermetic: bool = False
    treated: bool = False
    net_weight: float | None = None
    home_test: HomeTest | None = None
    pure: Quantity = field(init=False, repr=False, compare=False)
    sprouting: Quantity = field(init=False, repr=False, compare=False)
    viable: Quantity = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        _check_shares(self)
        _check_live(self)
        _check_whole(self)
        _check_coating(self)
        require_positive("seeds_tested", self.seeds_tested, "seeds")
        if self.net_weight is not None:
            require_positive("net_weight", self.net_weight, "kg")
        purity = uncertain(self.purity, purity_u(self.purity, chaffy=self.chaffy), "purity")
        sprouting = _germinated(self, hard_too=False)
        object.__setattr__(self, "pure", purity)
        object.__setattr__(self, "sprouting", sprouting)
        both = _germinated(self, hard_too=True) if _has_hard(self) else sprouting
        object.__setattr__(self, "viable", both)

    @property
    def total(self) -> float:
        """Germination, hard and dormant seed together, as printed."""
        return fsum((self.germination, self.hard, self.dormant))

    def compared(self, *, hard_too: bool) -> Together | None:
        """Tag and home test side by side, None without a home test."""
        if self.home_test is None:
            return None
        hard_too = hard_too and _has_hard(self)
        share = self.total if hard_too else self.germination
        return combine(share, seeds=self.seeds_tested, home=self.home_test, hard_too=hard_too)


def _has_hard(tag: Tag) -> bool:
    """Whether its total of live seed is another figure than what sprouts."""
    return tag.total_viable or tag.total > tag.germination


def _germinated(tag: Tag, *, hard_too: bool) -> Quantity:
    together = tag.compared(hard_too=hard_too)
    if together is not None:
        return together.quantity()
    share = tag.total if hard_too else tag.germination
    return uncertain(share, germination_u(min(share, 1.0), seeds=tag.seeds_tested), "germination")


def _check_shares(tag: Tag) -> None:
    for name in ("purity", "germination"):
        value = getattr(tag, name)
        if not 0 < value <= 1:
            raise MeasurementError(name, value, say("enter what the tag says, above 0% to 100%"))
    for name in ("hard", "dormant", "inert", "other_crop", "weed", "coating"):
        value = getattr(tag, name)
        if value is not None and not 0 <= value <= 1:
            raise MeasurementError(name, value, say("enter what the tag says, 0% to 100%"))


def _check_live(tag: Tag) -> None:
    if tag.total_viable and tag.total > tag.germination:
        need = say("leave it out: the total on this tag already includes hard and dormant seed")
        name = "hard" if tag.hard else "dormant"
        raise MeasurementError(name, getattr(tag, name), need)
    if tag.total > 1 + ROUNDING:
        need = say(
            "germination, hard and dormant seed add up to {total}: read the tag "
            "again. If its germination is a total, mark it so and leave hard seed"
            " blank",
            total=SHARE(tag.total, 4),
        )
        raise MeasurementError("germination", tag.germination, need)


def _check_whole(tag: Tag) -> None:
    parts = [tag.purity, tag.other_crop, tag.weed, tag.inert]
    whole = fsum(part for part in parts if part is not None)
    short = None not in parts and whole < 1 - ROUNDING
    if whole > 1 + ROUNDING or short:
        need = say(
            "pure seed, other crop, weed seed and inert matter add up to {whole},"
            " not 100%: read the tag again",
            whole=SHARE(whole, 4),
        )
        raise MeasurementError("purity", tag.purity, need)


def _check_coating(tag: Tag) -> None:
    room = 1 - tag.purity if tag.inert is None else tag.inert
    if tag.coating > room + ROUNDING:
        need = say(
            "coating is part of the inert matter, {room} at most here, and is not"
            " subtracted from purity again",
            room=SHARE(room, 4),
        )
        raise MeasurementError("coating", tag.coating, need)
