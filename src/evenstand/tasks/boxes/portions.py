"""From a designed mix and its lots to what goes into boxes and bags."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from evenstand.engine.boxes.portion import RICE_HULL_WEIGHT, Carrier, Portion
from evenstand.engine.mix.totals import Sown
from evenstand.engine.quantities.phrases import say
from evenstand.engine.seed.species import Species
from evenstand.engine.statistics.budget import Quantity, nominal

from ..mix.members import Sowing
from ..mix.mix import Mixed
from ..seed.lots import ShelfLot

RICE_HULLS = "rice hulls"


@dataclass(frozen=True, kw_only=True)
class Tipped:
    """Seed of one member on its way into a box: the member as read, and its portion."""

    member: Sowing
    portion: Portion

    @property
    def lot(self) -> ShelfLot | None:
        """The lot that it comes from."""
        return self.member.lot


def portions(mixed: Mixed) -> tuple[Tipped, ...]:
    """Turn every seed of a mix into a portion; carriers have a box of their own.

    A species of two lots goes by both names.
    """
    species = [each.of.name for each in mixed.members]
    return tuple(
        Tipped(member=member, portion=_portion(_name(member, species), member, sown))
        for member, sown in zip(mixed.members, mixed.mix.sown, strict=True)
        if sown.seed is not None
    )


def _name(member: Sowing, species: Sequence[str]) -> str:
    name, lot = member.of.name, member.lot.name if member.lot else ""
    return f"{name} ({lot})" if lot and species.count(name) > 1 else name


def _portion(name: str, member: Sowing, sown: Sown) -> Portion:
    seed, lot = member.seed, member.lot
    if seed is None or lot is None:  # a carrier is none
        raise AssertionError(name)
    weight, measured = _test_weight(lot)
    return Portion(
        name=name,
        rate=sown.bulk_rate,
        seeds_per_kg=seed.seeds_per_kg,
        live_per_kg=seed.pls * seed.seeds_per_kg,
        purity=lot.tag.purity,
        fluffy=lot.fluffy,
        legume=seed.group == "legume",
        treated=lot.tag.treated,
        test_weight=weight,
        measured=measured,
        depth=(seed.depth.low, seed.depth.high) if seed.depth else None,
    )


def _test_weight(lot: ShelfLot) -> tuple[Quantity | None, bool]:
    """Take the lot's own test weight, else the middle of what is printed."""
    if lot.test_weight is not None:
        return lot.test_weight, True
    return _printed(lot.species), False


def _printed(species: Species | None) -> float | None:
    known = species.test_weight if species else None
    return (known.low + known.high) / 2 if known else None


def carriers(mixed: Mixed, boxes: Sequence[str]) -> Mapping[str, Carrier]:
    """Return the carrier of each box that has one.

    Raises
    ------
    MeasurementError
        For a carrier that does not say which of several boxes it goes in, or
        a second one in a box.
    """
    found: dict[str, Carrier] = {}
    for member, sown in zip(mixed.members, mixed.mix.sown, strict=True):
        if sown.seed is not None:
            continue
        box = member.said.box or (boxes[0] if len(boxes) == 1 else "")
        if box not in boxes:
            need = say("choose the box it goes in: one of {names}", names=", ".join(boxes))
            raise member.given.refuse("box", need)
        if box in found:
            need = say("{box} already has a carrier: put both under one name", box=box)
            raise member.given.refuse("box", need)
        found[box] = _carrier(member, nominal(sown.bulk_rate))
    return found


def _carrier(member: Sowing, rate: float) -> Carrier:
    name = member.of.name
    hulls = name.casefold() == RICE_HULLS and member.fills is None
    return Carrier(
        name=name,
        rate=rate,
        test_weight=RICE_HULL_WEIGHT if hulls else member.fills,
        measured=member.fills is not None,
    )
