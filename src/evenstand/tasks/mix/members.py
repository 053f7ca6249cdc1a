"""Members of a mix: which seed or carrier, and the one rate that each was given by."""

from dataclasses import dataclass

from evenstand.engine.mix.member import (
    BulkRate,
    Carrier,
    Depth,
    Group,
    LiveSeeds,
    Member,
    OfFull,
    PlsRate,
    Published,
    Rate,
    Rest,
    Season,
    Seed,
)
from evenstand.engine.mix.member import Given as Basis
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.quantities.units import DENSITY, PRICE, RATE, SHARE, SPACING, Kind
from evenstand.engine.quantities.working import PRACTICE
from evenstand.engine.seed.species import Sourced, Species

from ..job.tables import JobTable
from ..parsing import reading
from ..parsing.given import Given, listed
from ..parsing.keys import COUNTS, TAG
from ..seed.lots import Shelf, ShelfLot, lot_named, lot_of_species, species_or_own
from ..seed.tag import yes, zero_or_more

RATES = ("share", "seeds", "pls", "bulk", "rest")
GROUPS: tuple[Group, ...] = ("grass", "legume", "broadleaf", "brassica")
SEASONS: tuple[Season, ...] = ("cool", "warm")
INLINE = ("purity", "germination")  # a member with either of them is a lot of its own


@dataclass(frozen=True, kw_only=True)
class Sowing:
    """One member as read: its seed with its lot, or a carrier, and its rate.

    ``box`` is where its user puts it, empty where nobody said; ``fills`` is
    the weight of a carrier that fills a measure [kg/m³]. Without ``rate`` it
    is only on offer.
    """

    given: Given
    of: Seed | Carrier
    rate: Basis | None
    lot: ShelfLot | None
    box: str
    important: bool
    fills: float | None
    assumed: tuple[Phrase, ...]

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
            names = ", ".join(RATES)
            raise self.given.refuse("share", say("enter its rate: one of {names}", names=names))
        return Member(self.of, self.rate)


def read_member(table: JobTable, shelf: Shelf) -> Sowing:
    """Read one member.

    Raises
    ------
    MeasurementError
        For no seed, no lot, two rates, or a carrier given by live seed.
    """
    given = table.given
    if yes(given, "carrier"):
        return _carrier(given)
    lot = _lot(table, shelf)
    seed, assumed = _seed(given, lot)
    rate = _rate(given, lot.test_weight)
    by_full = isinstance(rate, OfFull | Rest)
    return Sowing(
        given=given,
        of=seed,
        rate=rate,
        lot=lot,
        box=_box(given),
        important=yes(given, "important") if "important" in given else True,
        fills=None,
        assumed=lot.assumed + (assumed if by_full else ()),
    )


def _box(given: Given) -> str:
    return given.text("box") if "box" in given else ""


def _carrier(given: Given) -> Sowing:
    for key in (*TAG, *COUNTS, "lot"):
        if key in given:
            raise given.refuse(key, say("leave it out: a carrier has no live seed"))
    fills = reading.test_weight(given)
    price = zero_or_more(given, "price", PRICE) if "price" in given else None
    name = given.text("name" if "name" in given or "species" not in given else "species")
    return Sowing(
        given=given,
        of=Carrier(name=name, price=price),
        rate=_rate(given, fills),
        lot=None,
        box=_box(given),
        important=False,
        fills=fills,
        assumed=(),
    )


def _lot(table: JobTable, shelf: Shelf) -> ShelfLot:
    given = table.given
    if "lot" not in given:
        inline = any(key in given for key in INLINE)
        return shelf.read(table) if inline else lot_of_species(shelf, given)
    for key in (*TAG, *COUNTS):
        if key in given:
            raise given.refuse(key, say("leave it out: the lot already has it"))
    lot = lot_named(shelf, given)
    if "species" in given and species_or_own(given)[1] != lot.species_name:
        raise given.refuse("species", say("that lot is {name}", name=lot.species_name))
    return lot


def _seed(given: Given, lot: ShelfLot) -> tuple[Seed, tuple[Phrase, ...]]:
    species = lot.species
    full, assumed = _full(given, lot)
    depth = _pair(given, "depth", SPACING) if "depth" in given else None
    with given.pointing(published="in_mix"):
        seed = Seed(
            name=lot.species_name,
            pls=lot.pls,
            seeds_per_kg=lot.count.seeds_per_kg,
            lot=lot.name,
            price=lot.price,
            group=_group(given, species),
            season=_season(given, species),
            full=full,
            published=(*_published(species), *_in_mix(given)),
            depth=Depth(low=depth[0], high=depth[1]) if depth else _known_depth(species),
            causes=lot.count.causes,
        )
    return seed, assumed


def _rate(given: Given, test_weight: float | None) -> Basis | None:
    """Read the one rate, None where there is none."""
    left_out = "rest" in given and not given.yes("rest")
    written = [key for key in RATES if key in given and not (key == "rest" and left_out)]
    if not written:
        return None
    match reading.only_one(given, tuple(written), say("enter its rate")):
        case "share":
            return OfFull(given.exact("share", SHARE))
        case "seeds":
            return LiveSeeds(given.exact("seeds", DENSITY))
        case "pls":
            return PlsRate(given.exact("pls", RATE))
        case "bulk":
            return BulkRate(given.exact("bulk", RATE, test_weight=test_weight))
        case _:
            return Rest()


def _full(given: Given, lot: ShelfLot) -> tuple[Rate | None, tuple[Phrase, ...]]:
    """Read the rate sown alone, else take the middle of what the table prints."""
    if "full_seeds" in given:
        if "full_rate" in given:
            raise given.refuse("full_seeds", say("leave it out, or leave out full_rate"))
        return LiveSeeds(given.exact("full_seeds", DENSITY)), ()
    if "full_rate" in given:
        rate = given.exact("full_rate", RATE, test_weight=lot.test_weight)
        if "full_basis" in given and given.one_of("full_basis", ("pls", "bulk")) == "bulk":
            return BulkRate(rate), ()
        taken = () if "full_basis" in given else (say("full rates assumed to be pure live seed"),)
        return PlsRate(rate), taken
    if "full_basis" in given:
        raise given.refuse("full_basis", say("it goes with {p}", p=given.name("full_rate")))
    printed = lot.species.rate if lot.species else None
    return (None, ()) if printed is None else _middle(printed, lot.species_name)


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


def _in_mix(given: Given) -> tuple[Published, ...]:
    if "in_mix" not in given:
        return ()
    low, high = _pair(given, "in_mix", RATE)
    return (Published(low=low, high=high, place="in mix", source="as you entered it"),)


def _pair(given: Given, key: str, kind: Kind) -> tuple[float, float]:
    """Read a range: two amounts, the lower first, or one that is both."""
    texts = listed(given.text(key))
    if len(texts) > 2:
        raise given.refuse(key, say("enter two amounts, the lower first"))
    low, high = (zero_or_more(given.piece(key, t), key, kind) for t in (texts * 2)[:2])
    return low, high


def _known_depth(species: Species | None) -> Depth | None:
    printed = species.depth if species else None
    if printed is None:
        return None
    return Depth(low=printed.low, high=printed.high, source=_source(printed))


def _group(given: Given, species: Species | None) -> Group | None:
    if "group" not in given:
        return species.group if species else None
    word = given.one_of("group", GROUPS)
    return next(group for group in GROUPS if group == word)


def _season(given: Given, species: Species | None) -> Season | None:
    if "season" not in given:
        return species.season if species else None
    word = given.one_of("season", SEASONS)
    return next(season for season in SEASONS if season == word)
