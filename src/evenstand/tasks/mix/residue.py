"""Carbon to nitrogen of a mix, where its C:N ratios are given."""

from collections.abc import Sequence

from evenstand.engine.mix.carbon import CarbonNitrogen, Residue, biomass_by_full_rate, combine
from evenstand.engine.mix.totals import Mix
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.quantities.units import RATE
from evenstand.engine.statistics.budget import Quantity

from .members import Sowing


def read_residue(
    mix: Mix, members: Sequence[Sowing]
) -> tuple[CarbonNitrogen | None, tuple[Phrase, ...]]:
    """Combine the C:N of the members through their carbon and nitrogen.

    Returns
    -------
    CarbonNitrogen, and what was taken without being written
        None where no member has a ratio.

    Raises
    ------
    MeasurementError
        Where some species have a ratio, or a biomass, and others have not.
    """
    seeds = _species(members)
    for key in ("cn", "biomass"):
        without = [each for each in seeds if key not in each.given]
        if without and len(without) < len(seeds):
            need = say("enter it for every species in the mix, or for none")
            raise without[0].given.refuse(key, need)
    if not seeds or "cn" not in seeds[0].given:
        return None, ()
    biomass, taken = _biomass(mix, seeds)
    residues = [
        Residue(
            name=each.of.name,
            ratio=each.given.ratio("cn", tag=f"C:N of {each.of.name}"),
            biomass=weight,
        )
        for each, weight in zip(seeds, biomass, strict=True)
    ]
    return combine(residues), taken


def _species(members: Sequence[Sowing]) -> list[Sowing]:
    """Return each species once, its first lot speaking for it."""
    found: dict[str, Sowing] = {}
    for each in members:
        if each.seed is not None:
            found.setdefault(each.of.name, each)
    return list(found.values())


def _biomass(mix: Mix, seeds: Sequence[Sowing]) -> tuple[list[Quantity], tuple[Phrase, ...]]:
    if "biomass" in seeds[0].given:
        tags = [f"biomass of {each.of.name}" for each in seeds]
        pairs = zip(seeds, tags, strict=True)
        return [each.given.quantity("biomass", RATE, tag=tag) for each, tag in pairs], ()
    with seeds[0].given.pointing():
        guessed, said = biomass_by_full_rate(mix)
    return [guessed[each.of.name] for each in seeds], (said,)
