"""What a stand asks for: the one next thing with its odds, and what others publish about it."""

from collections.abc import Iterator, Mapping, Sequence

from ..catch.target import odds_in_words
from ..quantities.phrases import Phrase, join, say
from ..quantities.units import PLANTS, SHARE
from ..statistics.budget import Estimate
from .scatter import in_words as of_clumps
from .stand import Stand
from .surer import fewest_more, in_places, largest_reason, more_places
from .tables import (
    JUDGED_IRRIGATED,
    JUDGED_SOURCE,
    Water,
    Word,
    YieldStep,
    YieldTable,
    step_of,
    thickness,
)

SURE = 0.90
DAY = 86_400.0


def odds_of(stand: Estimate, wish: float) -> float:
    """Odds that the stand is at least what was wished for.

    Parameters
    ----------
    stand : Estimate
        [1/m²]
    wish : float
        [1/m²]
    """
    return 1 - stand.below(wish)


def headline(found: Stand) -> Phrase:
    """Say the stand with its range."""
    ranged = found.range
    if not found.plants:
        text = "No plants in {places}: 19 in 20 odds the stand is below {high}."
        return say(text, places=in_places(found.places), high=PLANTS(ranged.high, 2))
    return say(
        "The stand is {stand}, with 19 in 20 odds of being between {low} and "
        "{high}, from {places}.",
        stand=PLANTS(ranged.value),
        low=PLANTS(ranged.low),
        high=PLANTS(ranged.high),
        places=in_places(found.places),
    )


def next_thing(found: Stand, *, wish: float | None = None) -> Phrase:
    """Say the one thing to do now, with its odds where a stand was wished for.

    Parameters
    ----------
    wish : float, optional
        [1/m²]
    """
    if few := fewest_more(found):
        text = "Count another {places}, well spread out: this few say little about a field."
        return say(text, places=in_places(few)) if found.plants else _look_again(few)
    if wish is None:
        return _count_on(found, say("Record the stand: it is good to ± 10%."))
    enough = odds_of(found.range, wish)
    stand = PLANTS(wish)
    if enough >= SURE:
        text = "Keep this stand: {odds} odds it meets your goal of {wish}."
        return say(text, odds=odds_in_words(enough), wish=stand)
    if enough <= 1 - SURE:
        text = (
            "Before you decide anything, walk the whole field: {odds} odds the "
            "stand is below your {wish} goal."
        )
        return say(text, odds=odds_in_words(1 - enough), wish=stand)
    text = "{odds} odds the stand meets your goal of {wish}. {more}"
    near = say("It is close to your goal: more counting will hardly change that.")
    return say(text, odds=odds_in_words(enough), wish=stand, more=_count_on(found, near))


def _look_again(few: int) -> Phrase:
    text = "Check another {places} before anything else: is seed in the ground still swelling?"
    return say(text, places=in_places(few))


def _count_on(found: Stand, done: Phrase) -> Phrase:
    if found.scatter is not None and found.scatter.clumped:
        return say("Count longer strips across several rows.")
    more = more_places(found)
    if more == 0:
        return done
    if more is None:
        return say("Count longer strips across several rows.")
    return say("Count another {places} to get the range to ± 10%.", places=in_places(more))


def surer(found: Stand) -> tuple[Phrase, ...]:
    """Say what most of the range comes from, its cure, and whether plants stand in clumps."""
    clumped = found.scatter is not None and found.scatter.clumped
    reason = largest_reason(found.budget, more=more_places(found), longer=clumped)
    return (*reason, *(of_clumps(found.scatter) if found.scatter else ()))


def published(
    stand: Estimate,
    tables: Sequence[YieldTable],
    *,
    spacing: float | None = None,
    wish: float | None = None,
) -> tuple[Phrase, ...]:
    """Say what each source's table says of this stand, with the odds that it is there or above.

    Parameters
    ----------
    stand : Estimate
        [1/m²]
    tables : sequence of YieldTable
        Those that need a spacing or a wish are left out where there is none.
    spacing : float, optional
        [m]
    wish : float, optional
        [1/m²]
    """
    usable = [
        table
        for table in tables
        if table.basis == "ground" or (spacing if table.basis == "row" else wish)
    ]
    said = [_of_table(stand, table, spacing=spacing, wish=wish) for table in usable]
    rule = say("Such tables only advise: date, weeds, seed, money and evenness count too.")
    return (*said, rule) if said else ()


def _of_table(
    stand: Estimate, table: YieldTable, *, spacing: float | None, wish: float | None
) -> Phrase:
    step = step_of(table, stand.value, spacing=spacing, wish=wish)
    if step is None:
        text = "{source} ({crop}): thinner than its table covers."
        return say(text, source=table.source, crop=table.crop)
    unit = thickness(table, 1.0, spacing=spacing, wish=wish)
    return say(
        "{source} ({crop}): {step}",
        source=table.source,
        crop=table.crop,
        step=join(list(_sentences(stand, step, low=step.low / unit, high=step.high / unit))),
    )


_WORDS: Mapping[Word, str] = {
    "aimed at": "it aims for {low} to {high}.",
    "adequate": "it calls {low} to {high} adequate.",
    "keep": "it says to keep an even stand of {low} or more.",
    "open": "it makes no call from {low} to {high}.",
    "think": "below {high} it suggests considering a reseed.",
}


def _sentences(stand: Estimate, step: YieldStep, *, low: float, high: float) -> Iterator[Phrase]:
    bounds = {"low": PLANTS(low, 2), "high": PLANTS(high, 2)}
    if step.least is None or step.most is None:
        yield say(_WORDS[step.word], **bounds)
    elif step.least == step.most:
        part = SHARE(step.least)
        yield say("{low} or more gave {part} of full yield.", part=part, **bounds)
    else:
        least, most = SHARE(step.least), SHARE(step.most)
        text = "{low} to {high} gave {least} to {most} of full yield."
        yield say(text, least=least, most=most, **bounds)
    if step.word == "think":
        text, odds = "{odds} odds the stand is below that.", stand.below(high)
    else:
        text, odds = "{odds} odds the stand is there or better.", 1 - stand.below(low)
    yield say(text, odds=odds_in_words(odds))


def too_early(*, perennial: bool, water: Water, since: float) -> Phrase | None:
    """Say that it is too early to judge a seeding of grass or other perennials, where it is.

    Parameters
    ----------
    water : "dryland" or "irrigated"
    since : float
        Time since it was sown. [s]

    Notes
    -----
    NRCS Montana, MT-5 (2009): irrigated not before 90 days, dryland not
    before the end of the first growing season; a year is taken for that.
    """
    if not perennial or since >= (JUDGED_IRRIGATED if water == "irrigated" else 365 * DAY):
        return None
    text = (
        "Too early to judge: wait until the end of the first growing season for "
        "dryland perennials ({source}). They may take 1 to 3 years."
    )
    if water == "irrigated":
        text = (
            "Too early to judge: wait 90 days for irrigated perennials "
            "({source}). They may take 1 to 3 years."
        )
    return say(text, source=JUDGED_SOURCE)
