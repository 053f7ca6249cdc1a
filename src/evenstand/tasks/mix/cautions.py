"""What to beware of in a mix: each caution once, with the species it is about."""

from collections.abc import Sequence
from dataclasses import dataclass

from evenstand.engine.quantities.phrases import Phrase, say, series
from evenstand.engine.seed.species import DEFER, STANDARD, Caution

from ..seed.lots import ShelfLot

# What harms animals or people; the rest of a species' cautions stand with the species.
HARM = ("prussic acid", "nitrate", "bloat", "horses", "poison")


@dataclass(frozen=True)
class Beware:
    """A caution, and the species of the mix that it is about."""

    species: tuple[str, ...]
    caution: Phrase

    @property
    def say(self) -> Phrase:
        """The caution behind the names of its species."""
        if not self.species:
            return self.caution
        return say("{names}: {caution}", names=series(self.species), caution=self.caution)


def beware(lots: Sequence[ShelfLot]) -> tuple[Beware, ...]:
    """Gather what may harm, kind by kind, and say whose word is the last."""
    found: dict[tuple[str, str], tuple[Caution, list[str]]] = {}
    for kind in HARM:
        for lot in lots:
            for caution in lot.species.cautions if lot.species else ():
                if caution.kind == kind:
                    text = caution.text or STANDARD[kind]
                    names = found.setdefault((kind, text), (caution, []))[1]
                    if lot.species_name not in names:
                        names.append(lot.species_name)
    said = tuple(Beware(tuple(names), caution.phrase) for caution, names in found.values())
    return (*said, Beware((), DEFER)) if said else ()
