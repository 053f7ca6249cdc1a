"""What is odd about a lot: questions and advice, never a refusal.

Limits that somebody prints stand with who printed them.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from ..quantities.phrases import Phrase, say
from ..quantities.units import SEED_COUNT, SHARE
from .age import INTERSTATE, AgeLimit, too_old
from .coating import looks_coated
from .species import Species
from .tag import Month, Tag

FOLD_OFF = 3.0  # from so many times the table's counts on, a count is asked about
TEN_FOLD = (7.0, 14.0)  # times taken for a digit missing or too many
MOST_WEED = 0.02
LEAST_COVER_CROP = 0.80
_HAIR = 1e-9  # what binary fractions make of a whole per cent


@dataclass(frozen=True, slots=True)
class Doubt:
    """A question or advice, and the input it is about."""

    field: str
    say: Phrase


@dataclass(frozen=True, slots=True)
class Minimum:
    """Least germination and purity, and most weed seed, that a guide prints for a species."""

    germination: float
    purity: float
    weed: float


# Alabama Cooperative Extension, guide to forage grasses: the rows that were read.
MINIMA = {
    "Bahiagrass (Pensacola)": Minimum(0.85, 0.95, 0.0040),
    "Barley": Minimum(0.85, 0.98, 0.0007),
    "Bermudagrass (hulled)": Minimum(0.85, 0.95, 0.0050),
    "Big bluestem": Minimum(0.70, 0.90, 0.0050),
}


SLIP = 0.01  # judgement: no lot that is sold has as little pure or live seed


def doubts(
    tag: Tag,
    *,
    today: Month | None = None,
    limit: AgeLimit = INTERSTATE,
    species: Species | None = None,
    seeds_per_kg: float | None = None,
    count_hard: bool = True,
) -> tuple[Doubt, ...]:
    """Ask about everything odd on a tag.

    Parameters
    ----------
    today : Month, optional
        Without it the age of the test is not looked at.
    seeds_per_kg : float, optional
        Of pure seed, as the user gave it. [1/kg]
    count_hard : bool
        Whether a home test is held against the total with hard seed.

    Raises
    ------
    MeasurementError
        For a test in the future.
    """
    asked = [*_age(tag, today, limit=limit, species=species), *_slips(tag), *_on_the_tag(tag)]
    if species is not None:
        asked += _quality(tag, species)
        if seeds_per_kg is not None:
            asked += count_doubts(tag, species, seeds_per_kg=seeds_per_kg)
    together = tag.compared(hard_too=count_hard)
    if together is not None:
        asked += [Doubt("home_test", text) for text in together.said]
    return tuple(asked)


def count_doubts(tag: Tag, species: Species, *, seeds_per_kg: float) -> Iterator[Doubt]:
    """Ask about a count of pure seed that the species does not have.

    Parameters
    ----------
    seeds_per_kg : float
        [1/kg]

    Returns
    -------
    iterator of Doubt
        One where the count is three times off, or looks like coated units.
    """
    if species.count_range is None:
        return
    coated = looks_coated(tag, seeds_per_kg=seeds_per_kg, known=species.count_range)
    if coated:
        yield Doubt("seeds_per_kg", coated)
    low, high = species.count_range
    times = max(seeds_per_kg / high, low / seeds_per_kg)
    if times < FOLD_OFF:
        return
    template = (
        "{count} is far from the {low} to {high} typical of {name} ({times} times"
        " off). Is it per a different weight, or a different form of the seed, "
        "hulled or in the bur?"
    )
    if TEN_FOLD[0] <= times <= TEN_FOLD[1]:
        template = (
            "{count} is about 10 times off from the {low} to {high} typical of "
            "{name}: is a digit missing, or extra?"
        )
    text = say(
        template,
        count=SEED_COUNT(seeds_per_kg),
        low=SEED_COUNT(low),
        high=SEED_COUNT(high),
        name=species.name,
        times=f"{times:.0f}",
    )
    yield Doubt("seeds_per_kg", text)


def _age(
    tag: Tag, today: Month | None, *, limit: AgeLimit, species: Species | None
) -> Iterator[Doubt]:
    if today is None:
        return
    if tag.tested is None:
        yield Doubt("tested", say("The tag's test month is missing, so its age is unknown."))
        return
    cool = species is not None and species.cool_season_grass
    old = too_old(tag, today=today, limit=limit, cool_season_grass=cool)
    if old:
        yield Doubt("tested", old)


def _slips(tag: Tag) -> Iterator[Doubt]:
    """Ask about shares that look like 0.98 written for 98%."""
    for field, share in (("purity", tag.purity), ("germination", tag.germination)):
        if 0 < share <= SLIP:
            meant = SHARE(100 * share)
            text = say("Did you mean {meant}, not {given}?", meant=meant, given=SHARE(share))
            yield Doubt(field, text)


def _on_the_tag(tag: Tag) -> Iterator[Doubt]:
    if tag.coating:
        text = (
            "The coating, {coating}, is part of the inert matter and is "
            "subtracted once. Sources disagree on raising the rate for coated "
            "seed: Wisconsin counts live seed, Kentucky seeds the same weight "
            "coated or not."
        )
        yield Doubt("coating", say(text, coating=SHARE(tag.coating)))
    text = (
        "Noxious weed on the tag: {name}, {count}. The state where you seed it "
        "sets what is allowed: check its list."
    )
    for weed in tag.noxious:
        if weed.per_kg:
            yield Doubt("noxious", say(text, name=weed.name, count=SEED_COUNT(weed.per_kg)))
    if tag.weed is not None and tag.weed > MOST_WEED + _HAIR:
        text = (
            "{weed} weed seed is above 2%. Above that level, the Federal Seed Act"
            " of 1939 (section 304) turned away imported seed."
        )
        yield Doubt("weed", say(text, weed=SHARE(tag.weed)))
    if tag.treated:
        text = (
            "This seed is treated: wear gloves and a mask before you open the "
            "bag. Do not feed it, and do not graze what is left. Follow the "
            "label."
        )
        yield Doubt("treated", say(text))


def _quality(tag: Tag, species: Species) -> Iterator[Doubt]:
    least = MINIMA.get(species.name)
    if least is not None:
        yield from _below(tag, least)
    elif species.life_cycle == "annual" and tag.total < LEAST_COVER_CROP - _HAIR:
        text = say(
            "NRCS New Hampshire calls for more than 80% germination in a cover "
            "crop (practice 340); this tag has {total}. Seeding more makes up the"
            " numbers but does not strengthen weak seedlings.",
            total=SHARE(tag.total),
        )
        yield Doubt("germination", text)


def _below(tag: Tag, least: Minimum) -> Iterator[Doubt]:
    weed = tag.weed or 0.0
    checks = (
        ("germination", "germination of at least", tag.total, least.germination),
        ("purity", "purity of at least", tag.purity, least.purity),
        ("weed", "weed seed of at most", weed, least.weed),
    )
    for name, wanted, given, limit in checks:
        over = given - limit if name == "weed" else limit - given
        if over > _HAIR:
            text = say(
                "Alabama Extension calls for {wanted} {limit}, and this tag has {given}.",
                wanted=say(wanted),
                limit=SHARE(limit),
                given=SHARE(given),
            )
            yield Doubt(name, text)
