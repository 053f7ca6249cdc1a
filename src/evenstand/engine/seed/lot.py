"""A seed lot: how much of what comes out of the bag is live seed."""

from dataclasses import dataclass

from ..quantities.errors import MeasurementError, require_positive
from ..quantities.phrases import say
from ..statistics.budget import Quantity, nominal
from .species import LifeCycle
from .tag import Tag


@dataclass(frozen=True, slots=True, kw_only=True)
class Lot:
    """Seed of one tag, as it stands in the shed.

    Parameters
    ----------
    species : str
        Common name in the species table, or a name of one's own.
    seeds_per_kg : Quantity
        Number of seeds in a weight of pure seed, without coating. [1/kg]
    name : str
        Lot number.
    price : float, optional
        Of bulk seed. [$/kg]
    bags : tuple of float
        Sizes it is sold in. [kg]
    count_hard : bool
        Whether hard and dormant seed count as live, as in 7 CFR 201.64.
    test_weight : float, optional
        Weight of a volume of this very lot. [kg/m³]

    Raises
    ------
    MeasurementError
        For a count, price, bag or test weight that is not above zero, or a
        wish to leave out hard seed that the tag does not tell apart.
    """

    species: str
    tag: Tag
    seeds_per_kg: Quantity
    name: str = ""
    price: float | None = None
    bags: tuple[float, ...] = ()
    count_hard: bool = True
    test_weight: float | None = None

    def __post_init__(self) -> None:
        require_positive("seeds_per_kg", nominal(self.seeds_per_kg), "seeds/kg")
        if self.price is not None and not self.price >= 0:
            raise MeasurementError("price", self.price, say("enter a price of 0 or more"))
        for bag in self.bags:
            require_positive("bags", bag, "kg")
        if self.test_weight is not None:
            require_positive("test_weight", self.test_weight, "kg/m³")
        pls_fraction(self.tag, count_hard=self.count_hard)


def counts_hard(life_cycle: LifeCycle) -> bool:
    """Whether hard and dormant seed counts as live where the user does not say.

    A perennial or native stand waits for it (NRCS, Texas A&M, 7 CFR 201.64); an
    annual is over before it comes up, so that germination alone is the safer
    rate. The second half is our judgement.
    """
    return not life_cycle.startswith("annual")


def pls_fraction(tag: Tag, *, count_hard: bool) -> Quantity:
    """Share of the bag's weight that is pure live seed.

    PLS = purity × (germination [+ hard + dormant])

    Parameters
    ----------
    count_hard : bool
        Whether hard and dormant seed count as live.

    Returns
    -------
    Quantity [-]

    Raises
    ------
    MeasurementError
        Where hard seed shall be left out but the tag gives only a total.

    References
    ----------
    7 CFR 201.64 applies tolerances to germination with hard seed and to pure seed; NRCS, Five
    keys to successful grass seeding (2003), counts dormant seed; Univ. of Tennessee PB 378 and
    others do not mention it.

    Examples
    --------
    >>> tag = Tag(purity=0.9875, germination=0.88, dormant=0.05)
    >>> [f"{pls_fraction(tag, count_hard=yes).nominal_value:.2%}" for yes in (True, False)]
    ['91.84%', '86.90%']
    """
    if tag.total_viable and not count_hard:
        need = say(
            "this tag has only the total, with hard and dormant seed: count "
            "those, or enter the germination alone"
        )
        raise MeasurementError("count_hard", count_hard, need)
    return tag.pure * (tag.viable if count_hard else tag.sprouting)


def live_seeds_per_kg(lot: Lot) -> Quantity:
    """Live seeds in a weight of seed as it comes out of the bag.

    live seeds per kg of bulk = PLS × seeds per kg of pure seed

    Returns
    -------
    Quantity [1/kg]

    Examples
    --------
    >>> from evenstand.engine.quantities.units import POUND
    >>> lot = Lot(
    ...     species="Cereal rye",
    ...     tag=Tag(purity=0.98, germination=0.92),
    ...     seeds_per_kg=18_100 / POUND,
    ... )
    >>> print(f"{live_seeds_per_kg(lot).nominal_value * POUND:.0f} live seeds in a pound")
    16319 live seeds in a pound
    """
    return pls_fraction(lot.tag, count_hard=lot.count_hard) * lot.seeds_per_kg
