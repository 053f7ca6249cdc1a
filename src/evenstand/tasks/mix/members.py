"""Members of a mix: which seed or carrier, and the one rate that each was given by."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from evenstand.book.kinds.details import BASES
from evenstand.book.kinds.seed import Range
from evenstand.engine.mix.member import (
    BulkRate,
    Carrier,
    Depth,
    LiveSeeds,
    Member,
    OfFull,
    PlsRate,
    Published,
    Rate,
    Rest,
    Seed,
    Whole,
)
from evenstand.engine.mix.member import Given as Basis
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.quantities.units import (
    DENSITY,
    PRICE,
    RATE,
    SPACING,
    TEST_WEIGHT,
    Kind,
)
from evenstand.engine.quantities.working import PRACTICE
from evenstand.engine.seed.species import Sourced, Species

from ..parsing.given import Given
from ..seed.bags import best_price
from ..seed.lots import Shelf, ShelfLot, lot_of_species, species_or_own
from ..seed.said import LotSaid
from .said import KEYS, MemberSaid

# By the basis of an amount: the engine's rate.
RATES: Mapping[str, Callable[[float], Whole]] = {
    "of full rate": OfFull,
    "live seeds": LiveSeeds,
    "pls": PlsRate,
    "bulk": BulkRate,
}


@dataclass(frozen=True, kw_only=True)
class Sowing:
    """One member as read: its seed with its lot, or a carrier, and its rate.

    ``fills`` is the weight of a carrier that fills a measure [kg/m³]. Without
    ``rate`` it is only on offer.
    """

    said: MemberSaid
    of: Seed | Carrier
    rate: Basis | None
    lot: ShelfLot | None
    fills: float | None
    assumed: tuple[Phrase, ...]

    @property
    def given(self) -> Given:
        """Where its inputs stand."""
        return self.said.given

    @property
    def seed(self) -> Seed | None:
        """The seed, None for a carrier."""
        return self.of if isinstance(self.of, Seed) else None

    @property
    def member(self) -> Member:
        """The member for the engine.

        Raises
        ------
        MeasurementError
            Where it has no rate.
        """
        if self.rate is None:
            names = ", ".join(KEYS.values())
            raise self.given.refuse("share", say("enter its rate: one of {names}", names=names))
        return Member(self.of, self.rate)


def read_member(said: MemberSaid, shelf: Shelf) -> Sowing:
    """Return one member as the engine has it.

    Raises
    ------
    MeasurementError
        For no lot, or what cannot be under the input that it is about.
    """
    if said.member.carrier:
        return _carrier(said)
    lot = shelf.of(said.lot or _of_species(said, shelf))
    seed, assumed = _seed(said, lot)
    rate = _rate(said)
    return Sowing(
        said=said,
        of=seed,
        rate=rate,
        lot=lot,
        fills=None,
        assumed=lot.assumed + (assumed if isinstance(rate, OfFull | Rest) else ()),
    )


def _of_species(said: MemberSaid, shelf: Shelf) -> LotSaid:
    name = species_or_own(said.given, said.member.name, own=False)[1]
    return lot_of_species([lot.said for lot in shelf.lots], said.given, name)


def _carrier(said: MemberSaid) -> Sowing:
    given, of = said.given, said.member
    price = best_price(given, of.bags)
    if of.price is not None:
        price = given.plain("price", of.price, PRICE, zero=True)
    fills = given.plain("test_weight", of.test_weight, TEST_WEIGHT) if of.test_weight else None
    name = of.name or given.text("name")
    carrier = Carrier(name=name, price=price)
    return Sowing(said=said, of=carrier, rate=_rate(said), lot=None, fills=fills, assumed=())


def _seed(said: MemberSaid, lot: ShelfLot) -> tuple[Seed, tuple[Phrase, ...]]:
    species, member = lot.species, said.member
    full, assumed = _full(said, lot)
    depth = _pair(said, "depth", SPACING)
    with said.given.pointing(published="in_mix"):
        seed = Seed(
            name=lot.species_name,
            pls=lot.pls,
            seeds_per_kg=lot.count.seeds_per_kg,
            lot=lot.name,
            price=lot.price,
            group=member.group or (species.group if species else None),
            season=member.season or (species.season if species else None),
            full=full,
            published=(*_published(species), *_in_mix(said)),
            depth=Depth(low=depth[0], high=depth[1]) if depth else _known_depth(species),
            causes=lot.count.causes,
        )
    return seed, assumed


def _rate(said: MemberSaid) -> Basis | None:
    """Return the one rate, None where there is none."""
    basis, rate = said.member.basis, said.member.rate
    if basis == "rest":
        return Rest()
    return None if rate is None else RATES[basis](said.given.plain(KEYS[basis], rate, BASES[basis]))


def _full(said: MemberSaid, lot: ShelfLot) -> tuple[Rate | None, tuple[Phrase, ...]]:
    """Return the rate sown alone, else the middle of what the table prints."""
    given, full, basis = said.given, said.member.full, said.member.full_basis
    if full is None:
        printed = lot.species.rate if lot.species else None
        return (None, ()) if printed is None else _middle(printed, lot.species_name)
    if basis == "live seeds":
        return LiveSeeds(given.plain("full_seeds", full, DENSITY)), ()
    rate = given.plain("full_rate", full, RATE)
    if basis == "bulk":
        return BulkRate(rate), ()
    taken = say("full rates assumed to be pure live seed")
    return PlsRate(rate), () if "full_basis" in given else (taken,)


def _middle(printed: Sourced, name: str) -> tuple[Rate, tuple[Phrase, ...]]:
    rate = (printed.low + printed.high) / 2
    pls = printed.basis == "pls"
    text = say(
        "full rate of {name}: {rate} of {basis}, the middle of {low} to {high} ({source})",
        name=name,
        rate=RATE(rate),
        basis=say("pure live seed") if pls else say("bulk"),
        low=RATE(printed.low),
        high=RATE(printed.high),
        source=_source(printed),
    )
    return PlsRate(rate) if pls else BulkRate(rate), (text,)


def _source(printed: Sourced) -> str:
    return printed.source if printed.read else PRACTICE


def _published(species: Species | None) -> tuple[Published, ...]:
    """Take what the table prints for a species alone."""
    printed = species.rate if species else None
    if printed is None:
        return ()
    return (
        Published(
            low=printed.low,
            high=printed.high,
            basis="pls" if printed.basis == "pls" else "bulk",
            source=_source(printed),
        ),
    )


def _in_mix(said: MemberSaid) -> tuple[Published, ...]:
    pair = _pair(said, "in_mix", RATE)
    if pair is None:
        return ()
    return (Published(low=pair[0], high=pair[1], place="in mix", source="as you entered it"),)


def _pair(said: MemberSaid, key: str, kind: Kind) -> tuple[float, float] | None:
    found: Range | None = getattr(said.member, key)
    if found is None:
        return None
    low, high = (said.given.plain(key, end, kind, zero=True) for end in (found.low, found.high))
    return low, high


def _known_depth(species: Species | None) -> Depth | None:
    printed = species.depth if species else None
    if printed is None:
        return None
    return Depth(low=printed.low, high=printed.high, source=_source(printed))
