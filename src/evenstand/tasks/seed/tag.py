"""The tag of a lot: what stands on it, and what that comes to."""

import re
from dataclasses import dataclass
from typing import Annotated

from evenstand.engine.parsing.parse import read
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.quantities.units import NUMBER, PRICE, RATE, SEED_COUNT, SEEDS, SHARE, Kind
from evenstand.engine.quantities.written import AS_TEXT
from evenstand.engine.seed.age import INTERSTATE, AgeLimit, limit_of, no_limit
from evenstand.engine.seed.germination import TEST_SEEDS
from evenstand.engine.seed.replicates import Dish
from evenstand.engine.seed.result import TagResult, WantedRate, tag_result
from evenstand.engine.seed.retest import HomeTest
from evenstand.engine.seed.species import Species
from evenstand.engine.seed.species_names import one
from evenstand.engine.seed.tag import Month, Noxious, Tag

from ..parsing import reading
from ..parsing.dates import month
from ..parsing.given import Given, listed
from ..parsing.warned import Warned
from .count import count_asked, count_key, count_taken, read_count
from .species_table import species_table
from .words import advise

GO_WITH = {"home_hard": "home_test", "basis": "rate", "resolution": "counted"}

_SPROUTED = re.compile(r"(\d+)\s*(?:/|of)\s*(\d+)", re.IGNORECASE)
_NAMED = re.compile(r"(.*?[^\d\s:])\s*:?\s+(\d.*)")


@dataclass(frozen=True, kw_only=True)
class TagRead:
    """What a tag comes to, with what was taken and what should be looked at.

    ``advice`` are sentences, the one next thing first.
    """

    KEYS = """
        pls=result.pls pls_other_way=result.pls_other_way pls_rate=result.pls_rate
        bulk_rate=result.bulk_rate seeds_per_area=result.seeds_per_area
        price_per_pls=result.price_per_pls count_hard=result.count_hard species=species.name
        say=advice budget=result.shares cautions=result.cautions working=result.working
        taken_as=assumed warnings
    """

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
        Inputs of `TAG` and `lot_count.COUNTS`, species, count_hard, rate with its basis,
        price, test_weight, state, age_limit.
    """
    refuse_strays(given)
    species = species_of(given)
    tag = read_tag(given, species=species)
    count = read_count(given, tag, species)
    limit, asked = age_limit(given)
    wanted = _wanted(given)
    with given.pointing():
        result = tag_result(
            tag,
            count_hard=count_hard(given),
            count=count,
            rate=wanted,
            price=zero_or_more(given, "price", PRICE) if "price" in given else None,
            species=species,
            today=today,
            limit=limit,
        )
    doubts = [Warned(given.path(doubt_key(given, d.field)), d.say) for d in result.warnings]
    return TagRead(
        species=species,
        result=result,
        advice=advise(result, wanted),
        assumed=(*choice_taken(given, tag, result.choice), *count_taken(given, count)),
        warnings=(*asked, *doubts, *count_asked(given, count)),
    )


def refuse_strays(given: Given) -> None:
    """Refuse an input that means nothing without another that was not written."""
    for key, partner in GO_WITH.items():
        if key in given and partner not in given:
            raise given.refuse(
                key, say("use it together with {partner}", partner=given.name(partner))
            )


def species_of(given: Given) -> Species | None:
    """Find the species that was named, None where none was; a name of several asks which."""
    if "species" not in given:
        return None
    with given.pointing():
        return one(given.text("species"), species_table())


def read_tag(given: Given, *, species: Species | None) -> Tag:
    """Read what stands on a tag; a chaffy species has wider limits of purity."""
    with given.pointing():
        return Tag(
            purity=share_of(given, "purity"),
            germination=share_of(given, "germination"),
            hard=_share_or(given, "hard") or 0.0,
            dormant=_share_or(given, "dormant") or 0.0,
            coating=_share_or(given, "coating") or 0.0,
            inert=_share_or(given, "inert"),
            other_crop=_share_or(given, "other_crop"),
            weed=_share_or(given, "weed"),
            noxious=_noxious(given),
            total_viable=yes(given, "total_viable"),
            chaffy=species is not None and species.has("chaffy"),
            tested=month(given, "tested") if "tested" in given else None,
            seeds_tested=_seeds_tested(given),
            hermetic=yes(given, "hermetic"),
            treated=yes(given, "treated"),
            home_test=_home_test(given),
        )


def doubt_key(given: Given, field: str) -> str:
    """Return the input that a doubt of the engine is about."""
    return count_key(given) or "species" if field == "seeds_per_kg" else field


def yes(given: Given, key: str) -> bool:
    """Read yes or no, no where nothing was written."""
    return key in given and given.yes(key)


def count_hard(given: Given) -> bool | None:
    """Read whether hard and dormant seed counts, None where it was not said."""
    return given.yes("count_hard") if "count_hard" in given else None


def share_of(given: Given, key: str) -> float:
    """Read a share as it is printed on a tag; its limits are checked with the others."""
    return _bare(given, key, SHARE)


def zero_or_more(given: Given, key: str, kind: Kind) -> float:
    """Read an amount of zero or more that cannot carry limits."""
    value = _bare(given, key, kind)
    if not value >= 0:
        raise given.refuse(key, say("enter 0 or more"))
    return value


def _bare(given: Given, key: str, kind: Kind) -> float:
    found = given.reading(key, kind)
    if found.give_or_take:
        raise given.refuse(key, say("enter it without ±: it is used as is"))
    return found.value


def _share_or(given: Given, key: str) -> float | None:
    return share_of(given, key) if key in given else None


def choice_taken(given: Given, tag: Tag, choice: Phrase) -> tuple[Phrase, ...]:
    """Say whether hard seed counts, where the tag has any and nobody chose."""
    chosen = "count_hard" in given or not (tag.total_viable or tag.total > tag.germination)
    return () if chosen else (choice,)


def age_limit(given: Given) -> tuple[AgeLimit, tuple[Warned, ...]]:
    """Read how old a test may be: so many months, or what a state allows."""
    state = given.text("state") if "state" in given else ""
    if "age_limit" in given:
        months = given.count("age_limit", NUMBER)
        return AgeLimit(place=state or "the limit you entered", months=months), ()
    found = limit_of(state) if state else INTERSTATE
    if found is None:
        return INTERSTATE, (Warned(given.path("state"), no_limit(state)),)
    return found, ()


def _wanted(given: Given) -> WantedRate | None:
    if "rate" not in given:
        return None
    if "basis" not in given:
        need = say("choose the kind of rate: pls (pure live seed) or bulk (as in the bag)")
        raise given.refuse("basis", need)
    basis = given.one_of("basis", ("pls", "bulk"))
    rate = given.exact("rate", RATE, test_weight=reading.test_weight(given))
    return WantedRate(rate=rate, basis="pls" if basis == "pls" else "bulk")


def _seeds_tested(given: Given) -> int:
    return given.count("seeds_tested", SEEDS) if "seeds_tested" in given else TEST_SEEDS


def _noxious(given: Given) -> tuple[Noxious, ...]:
    """Read weeds and their seeds in a weight: ``dodder 18 seeds/lb``."""
    if "noxious" not in given:
        return ()
    return read_weeds(given, given.text("noxious"))


def read_weeds(given: Given, text: str) -> tuple[Noxious, ...]:
    """Read a list of weeds, each with its seeds in a weight."""
    return tuple(_weed(given, each) for each in listed(text))


def _weed(given: Given, text: str) -> Noxious:
    parts = _NAMED.fullmatch(text)
    if parts is None:
        need = say("enter its name and its seed count, such as {x}", x="dodder 18 seeds/lb")
        raise given.refuse("noxious", need)
    path, unit = given.path("noxious"), SEED_COUNT.us
    count = read(parts[2], SEED_COUNT, field=path, default_unit=unit, decimal=given.decimal)
    return Noxious(parts[1], count.value)


def _home_test(given: Given) -> HomeTest | None:
    """Read a germination test at home, dish by dish: ``46/50, 45/50``."""
    if "home_test" not in given:
        return None
    hard = given.count("home_hard", SEEDS, least=0) if "home_hard" in given else None
    dishes = tuple(_dish(given, text) for text in listed(given.text("home_test")))
    return HomeTest(dishes=dishes, hard=hard)


def _dish(given: Given, text: str) -> Dish:
    parts = _SPROUTED.fullmatch(text)
    if parts is None:
        need = say("enter sprouted/laid out, such as 46/50, a pair for each towel")
        raise given.refuse("home_test", need)
    try:
        return Dish(int(parts[1]), int(parts[2]))
    except MeasurementError as refused:
        raise given.refuse("home_test", refused.need) from None
