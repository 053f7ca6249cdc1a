"""The wanted rate, its tolerance, and whether a range is inside it."""

from dataclasses import dataclass
from typing import Annotated, Literal

from ..quantities.errors import MeasurementError, require_positive
from ..quantities.phrases import Phrase, say
from ..quantities.units import NUMBER, RATE
from ..statistics.budget import Estimate, Quantity, nominal

Word = Literal["on target", "light", "heavy", "cannot tell yet"]
SURE = 0.90  # odds from which a verdict is given
MOST_TOLERANCE = 0.5

# Odds as people say them, best first.
ODDS: tuple[tuple[int, int], ...] = (
    (999, 1000), (199, 200), (99, 100), (49, 50), (29, 30), (19, 20), (14, 15), (9, 10),
    (6, 7), (5, 6), (4, 5), (3, 4), (2, 3), (3, 5), (1, 2), (2, 5), (1, 3), (1, 4),
    (1, 5), (1, 7), (1, 10), (1, 20), (1, 50), (1, 100),
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Target:
    """The rate that is wanted, and how far off it may be.

    Parameters
    ----------
    rate : float
        Wanted seeding rate, bulk. [kg/m²]
    tolerance : float
        Half width of the band around it, as a share. [-]
    on : "field" or "static"
        Which rate must meet it. They are never mixed.

    Raises
    ------
    MeasurementError
        For a rate that is not above zero or a tolerance outside 0 to 50%.
    """

    rate: Annotated[float, RATE]
    tolerance: float = 0.05
    on: Literal["field", "static"] = "field"

    def __post_init__(self) -> None:
        require_positive("target", self.rate, "kg/m²")
        if not 0 < self.tolerance <= MOST_TOLERANCE:
            raise MeasurementError(
                "tolerance", self.tolerance, say("enter a percent such as 5%, up to 50%")
            )

    @property
    def low(self) -> Annotated[float, RATE]:
        """Lower edge of the band. [kg/m²]"""
        return self.rate * (1 - self.tolerance)

    @property
    def high(self) -> Annotated[float, RATE]:
        """Upper edge of the band. [kg/m²]"""
        return self.rate * (1 + self.tolerance)


@dataclass(frozen=True, slots=True)
class Verdict:
    """Where a rate lies against its target, with the odds of each place."""

    word: Word
    odds_within: float
    odds_light: float
    odds_heavy: float


def judge(rate: Estimate, target: Target) -> Verdict:
    """Say whether a rate is on target, where 9 in 10 or more speak for it.

    Parameters
    ----------
    rate : Estimate
        Of the rate that the target is on. [kg/m²]
    """
    light, below_high = rate.below(target.low), rate.below(target.high)
    within, heavy = below_high - light, 1 - below_high
    word: Word = "cannot tell yet"
    if within >= SURE:
        word = "on target"
    elif light >= SURE:
        word = "light"
    elif heavy >= SURE:
        word = "heavy"
    return Verdict(word, within, light, heavy)


@dataclass(frozen=True, slots=True)
class BenchTarget:
    """The target as the stand must show it: [kg/m²] and why."""

    rate: Annotated[float, RATE]
    why: Phrase | None


def bench_target(target: Target, *, slip: Quantity, field_ratio: Quantity) -> BenchTarget:
    """Turn a field target into the rate to look for at the stand.

    bench rate = field rate ÷ ((1 − slip) × field ratio)

    Parameters
    ----------
    slip : Quantity
        Slip not yet inside the travel, 0 for a rolled distance. [-]
    field_ratio : Quantity
        Field rate ÷ bench rate, slip counted. [-]

    Returns
    -------
    BenchTarget [kg/m²]
    """
    require_positive("field_ratio", nominal(field_ratio))
    factor = (1 - nominal(slip)) * nominal(field_ratio)
    if target.on == "static" or factor == 1:
        return BenchTarget(target.rate, None)
    rate = target.rate / factor
    why = say(
        "In the field this drill puts down {factor} of what it drops stationary, "
        "so aim for {bench} stationary to seed {rate}",
        factor=NUMBER(factor),
        bench=RATE(rate),
        rate=RATE(target.rate),
    )
    return BenchTarget(rate, why)


def odds_in_words(odds: float) -> Phrase:
    """Say odds as people do: ``9 in 10``, ``50-50``, never rounded up.

    Parameters
    ----------
    odds : float, from 0 to 1
    """
    for part, whole in ODDS:
        if odds >= part / whole - 1e-12:
            if (part, whole) == (1, 2):
                return say("50-50")
            return say("{part} in {whole}", part=part, whole=whole)
    return say("less than {part} in {whole}", part=1, whole=100)
