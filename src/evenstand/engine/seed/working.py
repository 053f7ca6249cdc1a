"""The pencil lines from a tag to live seed, rates and prices."""

from ..quantities.phrases import say
from ..quantities.units import DENSITY, PRICE, RATE, SEED_COUNT, SHARE
from ..quantities.working import PRACTICE, Line, added
from ..statistics.budget import nominal
from .tag import Tag

LAW = "7 CFR 201.64"


def pls_lines(tag: Tag, *, pls: float, count_hard: bool) -> tuple[Line, ...]:
    """Show how purity and germination become pure live seed.

    Parameters
    ----------
    pls : float
        What they come to. [-]
    count_hard : bool
        Whether hard and dormant seed count as live.
    """
    live = nominal(tag.viable if count_hard else tag.sprouting)
    lines = [_home_line(live)] if tag.home_test else _sum_line(tag, count_hard)
    product = Line(
        say("Pure live seed: purity × live seed"), SHARE(pls), SHARE(tag.purity) * SHARE(live), LAW
    )
    return (*lines, product)


def bulk_line(rate: float, *, pls: float) -> Line:
    """Show how a rate of pure live seed becomes bulk.

    Parameters
    ----------
    rate : float
        Of pure live seed. [kg/m²]
    pls : float
        Pure live seed in the bulk. [-]
    """
    terms = RATE(rate) / SHARE(pls)
    text = say("Bulk rate: PLS rate ÷ pure live seed")
    return Line(text, RATE(rate / pls), terms, PRACTICE)


def live_line(rate: float, *, pls: float) -> Line:
    """Show how a rate of bulk becomes one of pure live seed.

    Parameters
    ----------
    rate : float
        Of bulk. [kg/m²]
    pls : float
        Pure live seed in the bulk. [-]
    """
    terms = RATE(rate) * SHARE(pls)
    text = say("Live seed planted: bulk rate × pure live seed")
    return Line(text, RATE(rate * pls), terms, PRACTICE)


def seeds_line(rate: float, *, seeds_per_kg: float) -> Line:
    """Show how a rate of pure live seed becomes seeds per ground.

    Parameters
    ----------
    rate : float
        Of pure live seed. [kg/m²]
    seeds_per_kg : float
        Of pure seed. [1/kg]
    """
    terms = RATE(rate) * SEED_COUNT(seeds_per_kg)
    text = say("Live seeds per area: PLS rate × seeds per weight")
    return Line(text, DENSITY(rate * seeds_per_kg), terms, PRACTICE)


def price_line(price: float, *, pls: float) -> Line:
    """Show what live seed costs.

    Parameters
    ----------
    price : float
        Of bulk seed. [$/kg]
    pls : float
        Pure live seed in the bulk. [-]
    """
    terms = PRICE(price) / SHARE(pls)
    text = say("Price of live seed: price ÷ pure live seed")
    return Line(text, PRICE(price / pls), terms, PRACTICE)


def _home_line(live: float) -> Line:
    text = say("Live seed from tag and home test combined, each weighted by seeds tested")
    return Line(text, SHARE(live))


def _sum_line(tag: Tag, count_hard: bool) -> list[Line]:
    beside = [part for part in (tag.hard, tag.dormant) if part]
    if not beside or not count_hard:
        return []
    text = say("Live seed: germination + hard and dormant seed")
    terms = added(SHARE(part) for part in (tag.germination, *beside))
    return [Line(text, SHARE(tag.total), terms, LAW)]
