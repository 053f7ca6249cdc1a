"""The live seed that went on the ground of a job, by species, and where that is known from."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import sqrt
from types import MappingProxyType

from evenstand.book.book import Book
from evenstand.book.kinds import seed, work
from evenstand.book.kinds.shape import Typed
from evenstand.engine.mix.totals import Sown
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.seed.tag import Month
from evenstand.engine.statistics.budget import Quantity, nominal, standard_uncertainty, total

from ..drill.machines import quantity
from ..job.kept import named
from ..whole_job.achieved import achieved
from ..whole_job.gather import JobSoFar, gather

TYPED = say("Live seed planted: as entered here.")
WEIGHED = say("Live seed planted: from the seed used from the boxes, weighed back.")
BY_SETTING = say("Live seed planted: from the setting used and its catches.")
PLANNED = say("Live seed planted: as planned in the mix; no seeding is recorded yet.")

BASES = (TYPED, WEIGHED, BY_SETTING, PLANNED)

# Whose seed is of a kind with a usual emergence; of all others nothing is known.
_KINDS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "small grain": (
            "Cereal rye", "Winter wheat", "Durum wheat", "Spelt", "Emmer", "Triticale",
            "Barley", "Oats", "Black oats",
        ),
        "pea": ("Field / winter pea",),
        "canola": ("Winter rape / canola", "Rapeseed / forage rape"),
        "alfalfa": ("Alfalfa",),
        "native grass": (
            "Big bluestem", "Little bluestem", "Sand bluestem", "Indiangrass", "Switchgrass",
            "Sideoats grama", "Blue grama", "Canada wildrye", "Virginia wildrye",
            "Western wheatgrass", "Slender wheatgrass", "Green needlegrass",
        ),
    }
)  # fmt: skip
USUAL_KIND = MappingProxyType({name: kind for kind, names in _KINDS.items() for name in names})


@dataclass(frozen=True, kw_only=True)
class SeedDown:
    """Live seeds of each species on the ground [1/m²], with its kind, and how that is known.

    The only species of a job without a mix has no name.
    """

    seeds: Mapping[str, Quantity]
    kinds: Mapping[str, str]
    known: tuple[Phrase, ...]

    @property
    def whole(self) -> Quantity:
        """Live seeds of all species together. [1/m²]"""
        return total(self.seeds.values())


def seed_down(book: Book, job: str, *, said: work.StandWish | None, today: Month) -> SeedDown:
    """Find the live seed sown: as typed, else weighed back, else by the setting, else as planned.

    Parameters
    ----------
    job : str
        Id of the job.
    today : Month
        For the age of tests.

    Raises
    ------
    MeasurementError
        For a job that is not there.
    """
    far = gather(book, job, today=today)
    known = _planned(far)
    whence = dict.fromkeys(known, PLANNED)
    laid, weighed = _achieved(far)
    known |= laid
    whence |= {name: WEIGHED if name in weighed else BY_SETTING for name in laid}
    typed = _typed(said)
    known |= typed
    whence |= dict.fromkeys(typed, TYPED)
    if "" in typed:  # of all seed together
        known, whence = {"": typed[""]}, {"": TYPED}
    kinds = dict.fromkeys(known, "")
    kinds |= {n: USUAL_KIND.get(sown.name, "") for n, sown in _members(far) if n in known}
    kinds |= {each.species: each.usual for each in (said.live if said else ()) if each.usual}
    return SeedDown(
        seeds=known, kinds=kinds, known=tuple(each for each in BASES if each in whence.values())
    )


def species_of(book: Book, body: work.Job) -> tuple[str, ...]:
    """Return the species of a job's mix, each once; none for a job without a mix."""
    mix = named(book, body.mix, seed.Mix)
    seeds = [each.name for each in mix.members if not each.carrier] if mix else []
    return tuple(dict.fromkeys(seeds))


def _planned(far: JobSoFar) -> dict[str, Quantity]:
    return _together([(name, sown.seeds) for name, sown in _members(far)])


def _members(far: JobSoFar) -> list[tuple[str, Sown]]:
    """Return the seed of a mix under the names that its form has for it."""
    if far.mixed is None or far.mix is None:
        return []
    pairs = zip(far.mix.members, far.mixed.mix.sown, strict=True)
    return [(member.name, sown) for member, sown in pairs if sown.seed]


def _achieved(far: JobSoFar) -> tuple[dict[str, Quantity], set[str]]:
    """Return live seeds by species where all its seed is known, and those weighed back.

    In the boxes a species of two lots goes by both names.
    """
    if far.mix is None or far.boxes is None:
        return {}, set()
    portions = (each.portion.name for each in far.boxes.tipped)
    of = dict(zip(portions, (each.name for each in far.mix.members), strict=False))
    found = {each.name: each for each in achieved(far) if each.name in of}
    found = {name: each for name, each in found.items() if nominal(each.live) > 0}
    part = {name for portion, name in of.items() if portion not in found}
    whole = [(of[portion], each) for portion, each in found.items() if of[portion] not in part]
    live = _together([(name, each.live) for name, each in whole])
    return live, {name for name, each in whole if each.weighed}


def _typed(said: work.StandWish | None) -> dict[str, Quantity]:
    live = said.live if said else ()
    return {each.species: quantity(each.seeds, "live seed planted") for each in live if each.seeds}


def _together(parts: Sequence[tuple[str, Quantity]]) -> dict[str, Quantity]:
    found: dict[str, Quantity] = {}
    for name, seeds in parts:
        found[name] = found[name] + seeds if name in found else seeds
    return {name: seeds for name, seeds in found.items() if nominal(seeds) > 0}


def as_typed(found: Quantity) -> Typed:
    """Write a quantity as limits that give it back. Limits are √3 of its uncertainty."""
    return Typed(value=nominal(found), give_or_take=sqrt(3) * standard_uncertainty(found))
