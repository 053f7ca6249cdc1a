"""The tag on a bag of seed: what it says, what it must add up to, how surely it is known."""

from dataclasses import dataclass, field
from math import fsum

from .budget import Quantity, uncertain
from .errors import MeasurementError
from .germination import germination_u
from .tolerances import purity_u
from .units import SHARE
from .words import Amount, say

ROUNDING = 0.0005  # how far from 100 % the parts of a tag may add up by rounding alone


@dataclass(frozen=True, slots=True, order=True)
class Month:
    """A month of a year, as a tag gives the date of its test."""

    year: int
    month: int

    def __post_init__(self) -> None:
        if not 1 <= self.month <= 12:
            raise MeasurementError("tested", self.month, say("give a month from 1 to 12"))

    def until(self, later: "Month") -> int:
        """Whole months from the end of this month to the end of ``later``."""
        return 12 * (later.year - self.year) + later.month - self.month


@dataclass(frozen=True, slots=True, kw_only=True)
class Tag:
    """What stands on the tag of a seed lot, as shares of 1.

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
    total_viable : bool
        The tag prints only the total of germination, hard and dormant seed.
    tested : Month, optional
    seeds_tested : int
        Seeds behind the germination, 400 by 7 CFR 201.54.

    Attributes
    ----------
    pure, sprouting, viable : Quantity
        Purity, germination, and germination with hard and dormant seed, each
        with its uncertainty: made once, so that what is computed from one tag
        stays correlated.

    Raises
    ------
    MeasurementError
        For shares outside 0 to 100 %, parts that do not add up, or hard seed
        beside a total that has it already.
    """

    purity: float
    germination: float
    hard: float = 0.0
    dormant: float = 0.0
    inert: float | None = None
    other_crop: float | None = None
    weed: float | None = None
    total_viable: bool = False
    tested: Month | None = None
    seeds_tested: int = 400
    pure: Quantity = field(init=False, repr=False, compare=False)
    sprouting: Quantity = field(init=False, repr=False, compare=False)
    viable: Quantity = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        _check_shares(self)
        _check_sums(self)
        total = fsum((self.germination, self.hard, self.dormant))
        n = self.seeds_tested
        quantities = {
            "pure": uncertain(self.purity, purity_u(self.purity), "purity"),
            "sprouting": uncertain(
                self.germination, germination_u(self.germination, seeds=n), "germination"
            ),
            "viable": uncertain(total, germination_u(total, seeds=n), "germination"),
        }
        for name, quantity in quantities.items():
            object.__setattr__(self, name, quantity)


def _check_shares(tag: Tag) -> None:
    for name in ("purity", "germination"):
        value = getattr(tag, name)
        if not 0 < value <= 1:
            raise MeasurementError(name, value, say("give what the tag says, above 0 % to 100 %"))
    for name in ("hard", "dormant", "inert", "other_crop", "weed"):
        value = getattr(tag, name)
        if value is not None and not 0 <= value <= 1:
            raise MeasurementError(name, value, say("give what the tag says, 0 % to 100 %"))


def _check_sums(tag: Tag) -> None:
    beside = fsum((tag.hard, tag.dormant))
    if tag.total_viable and beside:
        need = say("leave it out: the total on this tag has hard and dormant seed in it already")
        raise MeasurementError("hard" if tag.hard else "dormant", beside, need)
    total = fsum((tag.germination, beside))
    if total > 1 + ROUNDING:
        need = say(
            "germination, hard and dormant seed add up to {total}: read the tag again, or mark "
            "its germination as a total",
            total=Amount(total, SHARE, 4),
        )
        raise MeasurementError("germination", tag.germination, need)
    parts = [tag.purity, tag.other_crop, tag.weed, tag.inert]
    whole = fsum(part for part in parts if part is not None)
    complete = None not in parts
    if whole > 1 + ROUNDING or (complete and whole < 1 - ROUNDING):
        need = say(
            "pure seed, other crop, weed seed and inert matter add up to {whole}, not 100 %: "
            "read the tag again",
            whole=Amount(whole, SHARE, 4),
        )
        raise MeasurementError("purity", tag.purity, need)
