"""What came up: the stand, its species, emergence, the mix, and what is advised."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Annotated, Any, cast

from evenstand.engine.catch.target import odds_in_words
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.quantities.units import DENSITY, NUMBER, PLANTS
from evenstand.engine.quantities.working import Line
from evenstand.engine.quantities.written import AS_TEXT, put
from evenstand.engine.stand import emergence as came_up
from evenstand.engine.stand import species as stand_mix
from evenstand.engine.stand.advice import headline, next_thing, odds_of, published, surer, too_early
from evenstand.engine.stand.emergence import SOWN, Emergence, emergence, emergence_lines
from evenstand.engine.stand.gaps import Gaps, gaps, gaps_sentence
from evenstand.engine.stand.place import Place
from evenstand.engine.stand.species import Composition, SownSpecies, composition
from evenstand.engine.stand.stand import Stand, stand, stand_lines, stands
from evenstand.engine.stand.surer import fewest_more
from evenstand.engine.stand.tables import TABLES, Water, tables_for
from evenstand.engine.stand.usual import UNKNOWN, USUAL, Usual
from evenstand.engine.statistics.budget import Estimate, Quantity, nominal

from ..job.tables import InTables, many, one
from ..parsing.given import Given
from .next_season import HERE, Earlier, NextSeason, next_season, read_earlier, taken_as
from .places import read_places, read_spacing

DAY = 86_400.0
WATERS: tuple[Water, ...] = ("dryland", "irrigated")


@dataclass(frozen=True, kw_only=True)
class Known:
    """What is known beside the counts.

    ``wish`` is the stand wished for [1/m²]; ``spacing`` that of the rows [m];
    ``early`` says that it is too early to judge.
    """

    wish: float | None = None
    spacing: float | None = None
    crop: str = ""
    early: Phrase | None = None
    sown: tuple[SownSpecies, ...] = ()
    field: str = HERE
    earlier: tuple[Earlier, ...] = ()


@dataclass(frozen=True, kw_only=True)
class OfSpecies:
    """One species: its stand, and what came up of its seed where that is known."""

    KEYS = ("name", put("stand", added=True), "emergence", put("next_season", "coming"), "say")

    name: str
    stand: Stand
    emergence: Emergence | None
    coming: NextSeason | None
    say: tuple[Phrase, ...]


@dataclass(frozen=True, kw_only=True)
class Stood:
    """All that the counts tell, the one next thing first in ``advice``."""

    KEYS = (
        *(put("stand", added=True), "wish", "odds", put("species", "apart")),
        *(put("emergence", "alone", "emergence"), put("next_season", "alone", "coming"), "mix"),
        *("gaps", put("say", "advice"), "surer", "published", "working"),
        put("taken_as", "assumed"),
    )

    stand: Stand
    wish: Annotated[float, PLANTS] | None
    odds: float | None
    species: tuple[OfSpecies, ...]
    mix: Composition | None
    gaps: Gaps | None
    advice: Annotated[tuple[Phrase, ...], AS_TEXT]
    surer: tuple[Phrase, ...]
    published: tuple[Phrase, ...]
    working: tuple[Line, ...]
    assumed: tuple[Phrase, ...]

    @property
    def apart(self) -> tuple[OfSpecies, ...]:
        """Species that were counted apart."""
        return tuple(each for each in self.species if each.name)

    @property
    def alone(self) -> OfSpecies | None:
        """All plants, where they were not counted by species."""
        return next((each for each in self.species if not each.name), None)


def judge(places: Sequence[Place], known: Known) -> Stood:
    """Judge counted places.

    Parameters
    ----------
    places : sequence of Place, length ≥ 1
    """
    whole = stand(places)
    species = tuple(_species(each, known) for each in stands(places))
    named = {each.name for each in species}
    sown = tuple(each for each in known.sown if each.name in named)
    mix = composition(places, sown) if len(sown) > 1 and whole.plants else None
    looked = gaps(places) if any(place.row for place in places) else None
    tables = tables_for(known.crop, TABLES) if known.crop and whole.plants else ()
    first = known.early or next_thing(whole, wish=known.wish)
    told = [headline(whole), *_odds_too(whole, known)]
    told += [stand_mix.in_words(mix)] if mix else []
    told += [gaps_sentence(looked)] if looked else []
    lines = [line for each in species for line in _lines(each, known)]
    return Stood(
        stand=whole,
        wish=known.wish,
        odds=None if known.wish is None else odds_of(whole.range, known.wish),
        species=species,
        mix=mix,
        gaps=looked,
        advice=(first, *told),
        surer=surer(whole),
        published=published(whole.range, tables, spacing=known.spacing, wish=known.wish),
        working=(*(stand_lines(whole) if len(species) > 1 else ()), *lines),
        assumed=(*whole.assumed, *_seed_taken(known), *taken_as(known.earlier)),
    )


def _odds_too(whole: Stand, known: Known) -> list[Phrase]:
    """Say the odds of the wish where the next thing is about something else."""
    if known.wish is None or not (known.early or fewest_more(whole)):
        return []
    odds, wish = odds_in_words(odds_of(whole.range, known.wish)), PLANTS(known.wish)
    return [say("{odds} odds that it has {wish} or more.", odds=odds, wish=wish)]


def _species(found: Stand, known: Known) -> OfSpecies:
    sown = _sown(found, known)
    if sown is None:
        return OfSpecies(name=found.name, stand=found, emergence=None, coming=None, say=())
    share = emergence(found, seeds=sown.seeds, usual=sown.usual)
    wish = known.wish if len(known.sown) == 1 else None  # a mix's wish is of all its species
    coming = next_season(share, sown, known.earlier, field=known.field, wish=wish)
    return OfSpecies(
        name=found.name, stand=found, emergence=share, coming=coming, say=came_up.in_words(share)
    )


def _sown(found: Stand, known: Known) -> SownSpecies | None:
    """Seed of a species, by its name; plants that were not told apart are those of all seed."""
    if not found.name and len(known.sown) == 1:
        return known.sown[0]
    return next((each for each in known.sown if each.name == found.name), None)


def _lines(each: OfSpecies, known: Known) -> tuple[Line, ...]:
    sown = _sown(each.stand, known)
    lines = stand_lines(each.stand)
    if each.emergence is None or sown is None:
        return lines
    return (*lines, *emergence_lines(each.emergence, stand=each.stand, seeds=sown.seeds))


def _seed_taken(known: Known) -> tuple[Phrase, ...]:
    exact = [each.name for each in known.sown if isinstance(each.seeds, float)]
    if not exact:
        return ()
    return (say("live seed planted is assumed exact: enter 22 ± 1 seeds/ft² if it is not"),)


def read_stand(file: Mapping[str, Any]) -> Stood:
    """Judge the counts of a job file.

    Raises
    ------
    MeasurementError
        Naming the field as ``[table] key`` or ``[[table]] 2 key``.
    """
    given, field = one(file, "stand").given, one(file, "field").given
    spacing = read_spacing(file)
    known = Known(
        wish=given.exact("wish", PLANTS) if "wish" in given else None,
        spacing=None if spacing is None else nominal(spacing),
        crop=_crop(given) if "crop" in given else "",
        early=_early(given) if "days" in given else None,
        sown=_all_sown(file, given),
        field=field.text("name") if "name" in field else HERE,
        earlier=read_earlier(file),
    )
    places = read_places(file)
    counts = Given({}, lambda _: InTables("counts"))
    with counts.pointing():
        return judge(places, known)


def emergences(places: Sequence[Place], known: Known) -> dict[str, Estimate]:
    """Work out only what came up of the seed of each species. [-]"""
    found = [(each, _sown(each, known)) for each in stands(places)]
    return {each.name: emergence(each, seeds=sown.seeds).share for each, sown in found if sown}


def _crop(given: Given) -> str:
    crops = tuple(dict.fromkeys(table.crop for table in TABLES))
    return given.one_of("crop", tuple(crop.replace("-", " ") for crop in crops))


def _early(given: Given) -> Phrase | None:
    water = cast(Water, given.one_of("water", WATERS) if "water" in given else WATERS[0])
    return too_early(
        perennial=given.yes("perennial"),
        water=water,
        since=given.count("days", NUMBER, least=0) * DAY,
    )


def _all_sown(file: Mapping[str, Any], given: Given) -> tuple[SownSpecies, ...]:
    if "seeds" in given:
        return (SownSpecies(name="", seeds=_seeds(given), usual=_usual(given)),)
    tables = [table.given for table in many(file, "species")]
    return tuple(
        SownSpecies(name=each.text("name"), seeds=_seeds(each), usual=_usual(each))
        for each in tables
    )


def _seeds(given: Given) -> Quantity:
    return given.quantity("seeds", DENSITY, tag=SOWN)


def _usual(given: Given) -> Usual:
    return USUAL[given.one_of("kind", tuple(USUAL))] if "kind" in given else UNKNOWN
