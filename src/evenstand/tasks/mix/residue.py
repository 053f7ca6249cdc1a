"""Carbon to nitrogen of a mix, where its C:N ratios are given."""

from collections.abc import Sequence

from evenstand.engine.mix.carbon import CarbonNitrogen, Residue, biomass_by_full_rate, combine
from evenstand.engine.mix.totals import Mix
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.statistics.budget import Quantity

from ..drill.machines import quantity
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
        without = [each for each in seeds if getattr(each.said.member, key) is None]
        if without and len(without) < len(seeds):
            need = say("enter it for every species in the mix, or for none")
            raise without[0].given.refuse(key, need)
    ratios = _amounts(seeds, "cn", "C:N")
    if not ratios:
        return None, ()
    biomass, taken = _biomass(mix, seeds)
    residues = [
        Residue(name=each.of.name, ratio=ratio, biomass=weight)
        for each, ratio, weight in zip(seeds, ratios, biomass, strict=True)
    ]
    return combine(residues), taken


def _amounts(seeds: Sequence[Sowing], key: str, called: str) -> list[Quantity]:
    """Return an amount of each species; none where it is not given."""
    kept = ((each, getattr(each.said.member, key)) for each in seeds)
    return [quantity(typed, f"{called} of {each.of.name}") for each, typed in kept if typed]


def _species(members: Sequence[Sowing]) -> list[Sowing]:
    """Return each species once, its first lot speaking for it."""
    found: dict[str, Sowing] = {}
    for each in members:
        if each.seed is not None:
            found.setdefault(each.of.name, each)
    return list(found.values())


def _biomass(mix: Mix, seeds: Sequence[Sowing]) -> tuple[list[Quantity], tuple[Phrase, ...]]:
    if known := _amounts(seeds, "biomass", "biomass"):
        return known, ()
    with seeds[0].given.pointing():
        guessed, said = biomass_by_full_rate(mix)
    return [guessed[each.of.name] for each in seeds], (said,)
