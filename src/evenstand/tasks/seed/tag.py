"""The tag of a lot: what stands on it, and what that comes to."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Annotated

from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.quantities.units import PRICE, RATE, SEED_COUNT, TEST_WEIGHT
from evenstand.engine.quantities.written import AS_TEXT, inside, put
from evenstand.engine.seed.age import INTERSTATE, AgeLimit, limit_of, no_limit
from evenstand.engine.seed.replicates import Dish
from evenstand.engine.seed.result import TagResult, WantedRate, tag_result
from evenstand.engine.seed.retest import HomeTest
from evenstand.engine.seed.species import Species
from evenstand.engine.seed.species_names import one
from evenstand.engine.seed.tag import Month, Noxious, Tag

from ..job.tables import JobTable
from ..parsing.given import Given
from ..parsing.warned import Warned
from .count import count_asked, count_taken, read_count
from .said import LotSaid, lot_in
from .species_table import species_table
from .words import advise

# What the engine's tag has as the book's.
_SAME = (
    *("purity", "germination", "hard", "dormant", "inert", "other_crop", "weed", "coating"),
    *("total_viable", "seeds_tested", "hermetic", "treated"),
)


@dataclass(frozen=True, kw_only=True)
class TagRead:
    """What a tag comes to, with what was taken and what should be looked at.

    ``advice`` are sentences, the one next thing first.
    """

    KEYS = (
        *inside(
            ("result",),
            "pls",
            "pls_other_way",
            "pls_rate",
            "bulk_rate",
            "seeds_per_area",
            "price_per_pls",
            "count_hard",
        ),
        *(put("species", "species", "name"), put("say", "advice")),
        put("budget", "result", "shares"),
        *inside(("result",), "cautions", "working"),
        *(put("taken_as", "assumed"), "warnings"),
    )

    species: Species | None
    result: TagResult
    advice: Annotated[tuple[Phrase, ...], AS_TEXT]
    assumed: tuple[Phrase, ...]
    warnings: tuple[Warned, ...]


def read_tag_result(given: Given, *, today: Month) -> TagRead:
    """Read all that was written of a tag, and work out what it comes to.

    Parameters
    ----------
    given : Given
        Inputs of a lot as a job file has them, rate with its basis, state.
    """
    said = lot_in(JobTable(given, {}))
    species = _species_of(said)
    tag = read_tag(said, species=species)
    count = read_count(said, tag, species)
    state = given.text("state") if "state" in given else ""
    limit, asked = age_limit(given, state, months=said.lot.age_limit)
    wanted = _wanted(said)
    with given.pointing():
        result = tag_result(
            tag,
            count_hard=said.lot.count_hard,
            count=count,
            rate=wanted,
            price=price_of(said),
            species=species,
            today=today,
            limit=limit,
        )
    return TagRead(
        species=species,
        result=result,
        advice=advise(result, wanted),
        assumed=(*choice_taken(said, tag, result.choice), *count_taken(said, count)),
        warnings=(*asked, *doubts(said, result), *count_asked(said, count)),
    )


def _species_of(said: LotSaid) -> Species | None:
    """Find the species that was named, None where none was; a name of several asks which."""
    if not said.lot.species:
        return None
    with said.given.pointing():
        return one(said.lot.species, species_table())


def read_tag(said: LotSaid, *, species: Species | None) -> Tag:
    """Return what stands on a tag; a chaffy species has wider limits of purity."""
    tag, given = said.lot.tag, said.given
    with given.pointing(sprouted="home_test", seeds="home_test"):
        return Tag(
            **{name: getattr(tag, name) for name in _SAME},
            noxious=tuple(
                Noxious(weed.name, given.plain("noxious", weed.per_kg, SEED_COUNT, zero=True))
                for weed in tag.noxious
            ),
            chaffy=species is not None and species.has("chaffy"),
            tested=Month(*map(int, tag.tested.split("-"))) if tag.tested else None,
            home_test=_home_test(said),
        )


def _home_test(said: LotSaid) -> HomeTest | None:
    if said.test is None:
        return None
    dishes = tuple(Dish(dish.sprouted or 0, dish.seeds) for dish in said.test.dishes)
    return HomeTest(dishes=dishes, hard=said.test.hard)


def doubts(said: LotSaid, result: TagResult) -> Iterator[Warned]:
    """Yield what the engine doubts, at the inputs that it is about."""
    counted = said.count_key or "species"
    for doubt in result.warnings:
        key = counted if doubt.field == "seeds_per_kg" else doubt.field
        yield Warned(said.given.path(key), doubt.say)


def price_of(said: LotSaid) -> float | None:
    """Return the price of bulk seed, None where it is not known. [$/kg]"""
    price = said.lot.price
    return None if price is None else said.given.plain("price", price, PRICE, zero=True)


def test_weight_of(said: LotSaid) -> float | None:
    """Return what a measure of the seed weighs, None where it is not known. [kg/m³]"""
    weight = said.lot.test_weight
    return None if weight is None else said.given.plain("test_weight", weight, TEST_WEIGHT)


def choice_taken(said: LotSaid, tag: Tag, choice: Phrase) -> tuple[Phrase, ...]:
    """Say whether hard seed counts, where the tag has any and nobody chose."""
    hard = tag.total_viable or tag.total > tag.germination
    return (choice,) if hard and said.lot.count_hard is None else ()


def age_limit(
    given: Given, state: str, *, months: int | None = None
) -> tuple[AgeLimit, tuple[Warned, ...]]:
    """Return how old a test may be: so many months, or what a state allows.

    Parameters
    ----------
    given : Given
        Where the state was written.
    """
    if months is not None:
        return AgeLimit(place=state or "the limit you entered", months=months), ()
    found = limit_of(state) if state else INTERSTATE
    if found is None:
        return INTERSTATE, (Warned(given.path("state"), no_limit(state)),)
    return found, ()


def _wanted(said: LotSaid) -> WantedRate | None:
    given = said.given
    if "rate" not in given:
        return None
    if "basis" not in given:
        need = say("choose the kind of rate: pls (pure live seed) or bulk (as in the bag)")
        raise given.refuse("basis", need)
    basis = given.one_of("basis", ("pls", "bulk"))
    rate = given.exact("rate", RATE, test_weight=test_weight_of(said))
    return WantedRate(rate=rate, basis="pls" if basis == "pls" else "bulk")
