"""Carbon to nitrogen of what a mix will leave on the ground.

A ratio of a mixture is carbon over nitrogen, each added up by weight. The
mean of the ratios is something else, and too high.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated

from ..quantities.errors import MeasurementError, require_positive
from ..quantities.phrases import Phrase, say
from ..quantities.units import NUMBER, SHARE, Amount
from ..quantities.working import Line
from ..statistics.budget import Estimate, Quantity, Share, budget, estimate, nominal, total
from .totals import Mix

SOURCE = "USDA NRCS, Carbon to Nitrogen Ratios in Cropping Systems, table 1"
IDEAL = 24.0  # what soil microbes live on best, same table

RATIOS = {
    "rye straw": 82.0,
    "wheat straw": 80.0,
    "oat straw": 70.0,
    "corn stover": 57.0,
    "rye cover crop, anthesis": 37.0,
    "pea straw": 29.0,
    "rye cover crop, vegetative": 26.0,
    "mature alfalfa hay": 25.0,
    "rotted barnyard manure": 20.0,
    "legume hay": 17.0,
    "beef manure": 17.0,
    "young alfalfa hay": 13.0,
    "hairy vetch cover crop": 11.0,
    "soil microbes": 8.0,
}

# Of dry matter: 40 to 45 % is common for herbage. From memory, no source read.
CARBON = 0.42


@dataclass(frozen=True, slots=True, kw_only=True)
class Residue:
    """What one species leaves.

    Parameters
    ----------
    ratio : Quantity
        Carbon ÷ nitrogen, by weight. [-]
    biomass : Quantity
        Dry matter, in any unit that all residues share.
    carbon : Quantity
        Carbon in the dry matter. [-]

    Raises
    ------
    MeasurementError
        For a ratio, biomass or carbon that is not above zero, or carbon of
        100% and more.
    """

    name: str
    ratio: Quantity
    biomass: Quantity
    carbon: Quantity = CARBON

    def __post_init__(self) -> None:
        require_positive("C:N", nominal(self.ratio))
        require_positive("biomass", nominal(self.biomass))
        if not 0 < nominal(self.carbon) < 1:
            need = say("enter the carbon in the dry matter, about {usual}", usual=SHARE(CARBON))
            raise MeasurementError("carbon", self.carbon, need)


@dataclass(frozen=True, slots=True, kw_only=True)
class CarbonNitrogen:
    """C:N of a mix, its range, and what it means. [-]"""

    ratio: Quantity
    range: Annotated[Estimate, NUMBER]
    shares: tuple[Share, ...]
    say: Phrase
    working: tuple[Line, ...]


def combine(residues: Sequence[Residue]) -> CarbonNitrogen:
    """Combine residues through their carbon and their nitrogen.

    C:N = Σ(biomass × carbon) ÷ Σ(biomass × carbon ÷ ratio)

    Parameters
    ----------
    residues : sequence of Residue, length n ≥ 1

    Raises
    ------
    MeasurementError
        For no residue.

    References
    ----------
    USDA NRCS, Carbon to Nitrogen Ratios in Cropping Systems, for the ratios
    and for 24 as what microbes ask.

    Examples
    --------
    Equal weights of rye at 37 and hairy vetch at 11; their mean would be 24:

    >>> pair = [
    ...     Residue(name="rye", ratio=37.0, biomass=1.0),
    ...     Residue(name="hairy vetch", ratio=11.0, biomass=1.0),
    ... ]
    >>> print(f"{combine(pair).ratio:.1f}")
    17.0
    """
    if not residues:
        raise MeasurementError("residues", (), say("enter at least one species"))
    carbon = total(each.biomass * each.carbon for each in residues)
    nitrogen = total(each.biomass * each.carbon / each.ratio for each in residues)
    ratio = carbon / nitrogen
    shares = budget(ratio, {})
    return CarbonNitrogen(
        ratio=ratio,
        range=estimate(ratio, shares),
        shares=shares,
        say=meaning(nominal(ratio)),
        working=_working(residues, carbon=nominal(carbon), nitrogen=nominal(nitrogen)),
    )


def meaning(ratio: float) -> Phrase:
    """Say what a ratio does to the nitrogen that the next crop finds.

    Parameters
    ----------
    ratio : float
        C:N of the residue. [-]
    """
    values = {"ratio": NUMBER(ratio, 2), "ideal": NUMBER(IDEAL)}
    if ratio > IDEAL:
        return say(
            "C:N {ratio}: above {ideal}, soil microbes tie up soil nitrogen to "
            "break it down; the residue lasts longer.",
            **values,
        )
    return say(
        "C:N {ratio}: at {ideal} or below, residue breaks down fast and releases nitrogen.",
        **values,
    )


def biomass_by_full_rate(mix: Mix) -> tuple[dict[str, Quantity], Phrase]:
    """Guess each species' part of the biomass from its share of the full rate.

    biomass ∝ share of the full rate: every species sown alone at its full
    rate is taken to grow the same weight

    Returns
    -------
    dict of str to Quantity, and the Phrase that says it is assumed

    Raises
    ------
    MeasurementError
        For a species without a full rate: seed counts and seed weights say
        nothing of what grows.
    """
    parts: dict[str, Quantity] = {}
    for each in mix.sown:
        if each.seed is None:
            continue
        if each.of_full is None:
            need = say(
                "enter the biomass {name} will leave, or its full rate to estimate it",
                name=each.name,
            )
            raise MeasurementError("biomass", None, need)
        parts[each.name] = parts.get(each.name, 0.0) + each.of_full
    return parts, say(
        "biomass assumed in proportion to shares of full rate: to know for sure, "
        "clip and weigh a square of the cover"
    )


def _working(residues: Sequence[Residue], *, carbon: float, nitrogen: float) -> tuple[Line, ...]:
    lines = []
    for each in residues:
        terms = _number(each.biomass) * _number(each.carbon)
        weight = nominal(each.biomass * each.carbon)
        lines.append(Line(say("{name}: carbon", name=each.name), _number(weight), terms))
        over = _number(weight) / _number(each.ratio)
        value = _number(weight / nominal(each.ratio))
        lines.append(Line(say("{name}: nitrogen", name=each.name), value, over))
    added = _number(carbon) / _number(nitrogen)
    last = Line(say("Total carbon ÷ total nitrogen"), _number(carbon / nitrogen), added, SOURCE)
    return (*lines, last)


def _number(value: Quantity) -> Amount:
    return NUMBER(nominal(value))
