"""A place where plants were counted: a length of row, a hoop or a frame, and its ground."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import fsum, isfinite, pi

from ..quantities.errors import MeasurementError, Of, Path, require_positive
from ..quantities.phrases import say
from ..statistics.budget import Quantity, nominal


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Plants counted on a piece of ground.

    Parameters
    ----------
    area : Quantity
        Its ground; a spacing that is not sure is one quantity for all places. [m²]
    plants : int or mapping of str to int
        All plants, or those of each species.
    row : float, optional
        Length of row looked along, where gaps were measured. [m]
    gaps : tuple of float
        Lengths of row without a plant. [m]

    Raises
    ------
    MeasurementError
        For ground or a row that is not above zero, a count that is no whole
        number of 0 or more, gaps longer than their row.
    """

    area: Quantity
    plants: int | Mapping[str, int]
    row: float | None = None
    gaps: tuple[float, ...] = ()

    def __post_init__(self) -> None:
        require_positive("area", nominal(self.area), "m²")
        if not self.counts:
            raise MeasurementError("plants", {}, say("enter how many plants you counted"))
        for name, count in self.counts.items():
            if not (count >= 0 and count == count // 1):
                path = Path("plants", Of(name)) if name else Path("plants")
                raise MeasurementError(path, count, say("enter a whole number, 0 or more"))
        self._check_gaps()

    def _check_gaps(self) -> None:
        if self.row is not None:
            require_positive("row", self.row, "m")
        if not self.gaps:
            return
        if not all(gap > 0 and isfinite(gap) for gap in self.gaps):
            raise MeasurementError("gaps", self.gaps, say("enter lengths above 0"))
        if self.row is None or fsum(self.gaps) > self.row * (1 + 1e-9):
            need = say("enter the length of row, at least as long as all its gaps together")
            raise MeasurementError("gaps", self.gaps, need)

    @property
    def counts(self) -> Mapping[str, int]:
        """Plants by species; under an empty name where they were not told apart."""
        return self.plants if isinstance(self.plants, Mapping) else {"": self.plants}

    @property
    def total(self) -> int:
        """All plants together."""
        counts = self.counts.values()
        return sum(count for count in counts)


def row_area(length: float, *, spacing: Quantity) -> Quantity:
    """Ground of a length of row, half a spacing to either side.

    length × spacing

    Parameters
    ----------
    length : float
        Of all rows counted along, together. [m]
    spacing : Quantity
        [m]

    Returns
    -------
    Quantity [m²]

    Raises
    ------
    MeasurementError
        For a length or spacing that is not above zero.

    Examples
    --------
    >>> from evenstand.engine.quantities.units import FOOT, INCH, SQUARE_FOOT
    >>> print(f"{40 / (row_area(3 * FOOT, spacing=7 * INCH) / SQUARE_FOOT):.3f} per ft²")
    22.857 per ft²
    """
    require_positive("length", length, "m")
    require_positive("spacing", nominal(spacing), "m")
    return length * spacing


def hoop_area(*, diameter: Quantity | None = None, around: Quantity | None = None) -> Quantity:
    """Ground inside a hoop, by its diameter or by the length of hose it was bent of.

    π d² ÷ 4 = around² ÷ (4 π)

    Parameters
    ----------
    diameter, around : Quantity
        One of both. [m]

    Returns
    -------
    Quantity [m²]

    Raises
    ------
    MeasurementError
        For none, both, or one that is not above zero.

    Examples
    --------
    >>> from evenstand.engine.quantities.units import ACRE, INCH
    >>> print(f"{ACRE / hoop_area(diameter=30 * INCH):,.0f} hoops to the acre")
    8,874 hoops to the acre
    """
    if around is not None and diameter is None:
        require_positive("around", nominal(around), "m")
        return around * around / (4 * pi)
    if diameter is None or around is not None:
        raise MeasurementError("diameter", None, say("enter the hoop's diameter or circumference"))
    require_positive("diameter", nominal(diameter), "m")
    return pi * diameter * diameter / 4


def frame_area(a: float, *, b: float) -> float:
    """Ground inside a frame of sides a and b.

    Parameters
    ----------
    a, b : float
        [m]

    Returns
    -------
    float [m²]

    Raises
    ------
    MeasurementError
        For a side that is not above zero; its field is ``side``.
    """
    require_positive("side", min(a, b) if a == a else a, "m")
    return a * b
