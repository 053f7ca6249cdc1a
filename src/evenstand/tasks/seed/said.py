"""What is said of a lot, in the book or by inputs such as a job file's: structs of the book."""

import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from dataclasses import replace as changed
from typing import TypeVar

from msgspec.structs import replace

from evenstand.book.kinds.details import detail
from evenstand.book.kinds.seed import (
    Dish,
    GerminationTest,
    Lot,
    Noxious,
    Sample,
    SeedCount,
    Tag,
)
from evenstand.engine.quantities.errors import Path
from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import SCALE_STEP, SEED_COUNT, SEEDS
from evenstand.engine.seed.count import PER_REPLICATE

from ..job.tables import JobTable
from ..parsing.given import Given, lent, listed
from ..parsing.structs import read, texts
from ..parsing.writing import Writing, as_typed
from .bags import bags_in

TOLD = ("seeds_per_kg", "thousand_seed_weight", "coated_per_kg")  # of a lot: seeds in a weight
GO_WITH = {"home_hard": "home_test", "basis": "rate", "resolution": "counted"}

_IN = re.compile(r"(.+?)\s+in\s+(.+)", re.IGNORECASE)
_SPROUTED = re.compile(r"(\d+)\s*(?:/|of)\s*(\d+)", re.IGNORECASE)
_NAMED = re.compile(r"(.*?[^\d\s:])\s*:?\s+(\d.*)")
Piece = TypeVar("Piece")


@dataclass(frozen=True, kw_only=True)
class LotSaid:
    """A lot, the count and the home test that hold for it, and where its inputs stand."""

    given: Given = field(compare=False, repr=False)
    lot: Lot
    count: SeedCount | None = None
    test: GerminationTest | None = None

    @property
    def count_key(self) -> str | None:
        """The input that tells how its seeds were counted; only one can."""
        ways = [detail(Lot, name).key for name in TOLD if getattr(self.lot, name)]
        if self.count:
            ways.append("replicates" if self.count.way == "replicates" else "counted")
        if len(ways) > 1:
            first = self.given.name(ways[0])
            raise self.given.refuse(ways[1], say("leave it blank, or clear {first}", first=first))
        return next(iter(ways), None)


def kept_lot(
    lot: Lot,
    *,
    count: SeedCount | None = None,
    test: GerminationTest | None = None,
    path: Callable[[str], Path] = Path,
) -> LotSaid:
    """Return what the book says of a lot.

    Parameters
    ----------
    count : SeedCount, optional
        In place of what the lot says of the seeds in a weight.
    """
    written = {key: text for key, text in (texts(lot) | texts(lot.tag)).items() if text}
    if count:
        lot = replace(lot, **dict.fromkeys(TOLD))
    return LotSaid(given=Given(written, path), lot=lot, count=count, test=test)


def lot_in(table: JobTable) -> LotSaid:
    """Read what inputs say of a lot.

    Raises
    ------
    RefusalsError or MeasurementError
        For inputs that cannot be read, or mean nothing without another.
    """
    given = table.given
    for key, partner in GO_WITH.items():
        if key in given and partner not in given:
            need = say("use it together with {partner}", partner=given.name(partner))
            raise given.refuse(key, need)
    with Writing(_per_pound(given)) as form:
        lot = read(
            form,
            Lot,
            species=form.text("species"),
            tag=lambda: read(form, Tag, noxious=_each(form, "noxious", _weed)),
            bags=bags_in(table),
        )
        count = _count(form)
        dishes = _each(form, "home_test", _dish)
        hard = form.count("home_hard", SEEDS, otherwise=0) if "home_hard" in given else None
    test = GerminationTest(lot="", dishes=dishes, hard=hard) if dishes else None
    return LotSaid(given=given, lot=lot, count=count, test=test)


def lots_in(tables: Iterable[JobTable]) -> tuple[LotSaid, ...]:
    """Read lots, each of which has its own name or none; raises as `lot_in`."""
    found: list[LotSaid] = []
    for table in tables:
        said = lot_in(table)
        if said.lot.name and any(said.lot.name == earlier.lot.name for earlier in found):
            raise said.given.refuse("name", say("use a different name for each lot"))
        found.append(said)
    return tuple(found)


def _per_pound(given: Given) -> Given:
    """Give a bare number of seeds the unit that its input is called by."""
    keys = [key for key in ("seeds_per_lb", "coated_per_lb") if key in given]
    lended = {key: lent(given.texts[key], SEED_COUNT.us.symbol) for key in keys}
    return changed(given, texts={**given.texts, **lended})


def _each(form: Writing, key: str, piece: Callable[[Given, str], Piece]) -> tuple[Piece, ...]:
    """Read each piece of a list, none where it was not written."""
    if key not in form.given:
        return ()
    given = form.given

    def pieces() -> tuple[Piece, ...]:
        return tuple(piece(given, text) for text in listed(given.text(key)))

    return form.attempt(pieces, otherwise=())


def _weed(given: Given, text: str) -> Noxious:
    """Read a weed and its seeds in a weight: ``dodder 18 seeds/lb``."""
    parts = _NAMED.fullmatch(text)
    if parts is None:
        need = say("enter its name and its seed count, such as {x}", x="dodder 18 seeds/lb")
        raise given.refuse("noxious", need)
    count = given.part(lent(parts[2], SEED_COUNT.us.symbol), "noxious", SEED_COUNT)
    return Noxious(name=parts[1], per_kg=as_typed(count))


def _count(form: Writing) -> SeedCount | None:
    """Read a count of one's own: replicates of 100 seeds weighed, or samples counted."""
    weights, samples = _each(form, "replicates", _replicate), _each(form, "counted", _sample)
    if weights and samples:
        first = form.given.name("replicates")
        form.refuse(
            form.given.refuse("counted", say("leave it blank, or clear {first}", first=first))
        )
    step = form.amount("resolution", SCALE_STEP, exact=True)
    if weights:
        return SeedCount(lot="", samples=weights, way="replicates")
    return SeedCount(lot="", samples=samples, resolution=step) if samples else None


def _replicate(given: Given, text: str) -> Sample:
    return Sample(seeds=PER_REPLICATE, weight=as_typed(given.part(text, "replicates", SCALE_STEP)))


def _sample(given: Given, text: str) -> Sample:
    """Read a counted sample: ``560 in 20 g``."""
    parts = _IN.fullmatch(text)
    if parts is None:
        raise given.refuse("counted", say("enter a count and its weight, such as 560 in 20 g"))
    seeds = given.piece("counted", parts[1]).count("counted", SEEDS)
    return Sample(seeds=seeds, weight=as_typed(given.part(parts[2], "counted", SCALE_STEP)))


def _dish(given: Given, text: str) -> Dish:
    parts = _SPROUTED.fullmatch(text)
    if parts is None:
        need = say("enter sprouted/laid out, such as 46/50, a pair for each towel")
        raise given.refuse("home_test", need)
    return Dish(sprouted=int(parts[1]), seeds=int(parts[2]))
