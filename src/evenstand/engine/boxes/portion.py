"""What goes into a box: seed of one species of the mix, and carrier."""

from dataclasses import dataclass
from typing import Annotated

from ..quantities.errors import MeasurementError, Of, Path, require_positive
from ..quantities.phrases import say
from ..quantities.units import POUND_PER_BUSHEL, RATE
from ..seed.size_class import Sized, size_class
from ..statistics.budget import Quantity, nominal

# Rice hulls as sold for seeding: read in a seed seller's guide, 9 lb per bushel.
RICE_HULL_WEIGHT = 9 * POUND_PER_BUSHEL


@dataclass(frozen=True, slots=True, kw_only=True)
class Portion:
    """Seed of one species, as far as boxes and bags are concerned.

    Parameters
    ----------
    rate : Quantity
        Bulk seed wanted on the ground. What is weighed out is its value. [kg/m²]
    seeds_per_kg : Quantity
        Seeds in a weight, of pure seed. [1/kg]
    live_per_kg : Quantity
        Live seeds in a weight of bulk seed. [1/kg]
    purity : float
        Pure seed in the bulk seed by weight. [-]
    test_weight : Quantity, optional
        Weight of bulk seed that fills a measure. [kg/m³]
    measured : bool
        Whether the test weight is this lot's own, not a legal bushel.
    depth : tuple of two floats, optional
        Least and greatest depth advised. [m]

    Raises
    ------
    MeasurementError
        For a number out of its range; the field names the species too.
    """

    name: str
    rate: Quantity
    seeds_per_kg: Quantity
    live_per_kg: Quantity = 0.0
    purity: float = 1.0
    fluffy: bool = False
    native: bool = False
    legume: bool = False
    treated: bool = False
    test_weight: Quantity | None = None
    measured: bool = False
    depth: tuple[float, float] | None = None

    def __post_init__(self) -> None:
        require_positive(Path("rate", Of(self.name)), nominal(self.rate), "kg/m²")
        require_positive(
            Path("seeds_per_kg", Of(self.name)), nominal(self.seeds_per_kg), "seeds/kg"
        )
        if not nominal(self.live_per_kg) >= 0:
            field = Path("live_per_kg", Of(self.name))
            raise MeasurementError(field, nominal(self.live_per_kg), say("enter 0 or more"))
        if not 0 < self.purity <= 1:
            need = say("enter a share above 0%, up to 100%")
            raise MeasurementError(Path("purity", Of(self.name)), self.purity, need)
        _require_test_weight(self.name, self.test_weight)
        if self.depth is not None and not 0 <= self.depth[0] <= self.depth[1]:
            need = say("enter the shallowest depth first, then the deepest")
            raise MeasurementError(Path("depth", Of(self.name)), self.depth, need)

    @property
    def weighed(self) -> Annotated[float, RATE]:
        """Bulk seed that is weighed out for a square metre. [kg/m²]"""
        return nominal(self.rate)

    @property
    def count(self) -> float:
        """Seeds in a weight, of pure seed. [1/kg]"""
        return nominal(self.seeds_per_kg)

    @property
    def sized(self) -> Sized:
        """The size class of the seed."""
        return size_class(self.seeds_per_kg, fluffy=self.fluffy)


@dataclass(frozen=True, slots=True, kw_only=True)
class Carrier:
    """What is mixed in to make seed flow, with no live seed of its own.

    Parameters
    ----------
    rate : float
        [kg/m²]
    test_weight : Quantity, optional
        [kg/m³]
    measured : bool
        Whether the test weight was measured.
    """

    name: str
    rate: float
    test_weight: Quantity | None = None
    measured: bool = False

    def __post_init__(self) -> None:
        require_positive(Path("rate", Of(self.name)), self.rate, "kg/m²")
        _require_test_weight(self.name, self.test_weight)

    @property
    def weighed(self) -> float:
        """Carrier that is weighed out for a square metre. [kg/m²]"""
        return self.rate


def rice_hulls(rate: float) -> Carrier:
    """Take rice hulls as carrier, at 9 lb per bushel.

    Parameters
    ----------
    rate : float
        [kg/m²]

    References
    ----------
    A seed seller's guide to rice hulls, read: nine pounds per bushel. Rates
    in use: 10 lb/ac for a first seeding, 5 lb/ac to overseed (Forest Preserve
    District of Will County, 2019, broadcast).
    """
    return Carrier(name="rice hulls", rate=rate, test_weight=RICE_HULL_WEIGHT)


def _require_test_weight(name: str, test_weight: Quantity | None) -> None:
    if test_weight is not None:
        require_positive(Path("test_weight", Of(name)), nominal(test_weight), "kg/m³")
