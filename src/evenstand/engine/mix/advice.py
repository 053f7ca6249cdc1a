"""What publications say about the rates of a mix, and which choices are the user's.

Every number here stands with who printed it. What was not read in a source
says "common practice". Nothing in here changes a rate.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum

from ..quantities.errors import MeasurementError
from ..quantities.phrases import Phrase, say
from ..quantities.units import DENSITY, RATE, SHARE, SQUARE_FOOT
from ..statistics.budget import nominal, total
from .bases import Rates
from .member import Published, Seed
from .totals import Sown

# Cover-crop mixes are often run at 100 to 130% of full rates: common practice, no source.
MOST_OF_FULL = 1.3
# Brassicas are often kept to 10 to 25% of a full rate: common practice, no source.
MOST_BRASSICA = 0.25
TURF = 1000 / SQUARE_FOOT


@dataclass(frozen=True, slots=True)
class Uplift:
    """How much more seed somebody prints for broadcasting, as a share of the drilled rate."""

    low: float
    high: float
    source: str


# The user picks: the sources differ by more than a factor of three.
UPLIFTS = (
    Uplift(0.25, 0.30, "University of Georgia, Georgia Forages"),
    Uplift(0.25, 0.30, "seed sellers' guides"),
    Uplift(0.30, 0.30, "Tennessee native plants note, by hand"),
    Uplift(0.50, 0.50, "seed sellers' guides, the higher ones"),
    Uplift(1.00, 1.00, "Colorado permits and NRCS letters"),
)


@dataclass(frozen=True, slots=True)
class Density:
    """Live seeds per ground that somebody prints for a kind of stand, 1/m²."""

    stand: str
    low: float
    high: float
    source: str


DENSITIES = tuple(
    Density(stand, low / SQUARE_FOOT, high / SQUARE_FOOT, source)
    for stand, low, high, source in (
        ("native grass", 20, 40, "native seed seller's guide, this or more"),
        ("native grass", 20, 60, "Tennessee native plants note"),
        ("native grass", 40, 40, "Middle Park Conservation District, an average"),
        ("dryland grass", 20, 30, "NRCS rule of thumb, common practice"),
        ("critical area", 40, 60, "NRCS rule of thumb, common practice"),
        ("small grain", 30, 35, "University of Kentucky, for 25 to 30 plants"),
        ("alfalfa", 60, 75, "University of Wisconsin, alfalfa seeding rate"),
        ("turf", 1000, 2000, "turf guides; never a field"),
    )
)


def compare_density(seeds: float, *, stand: str) -> tuple[Phrase, ...]:
    """Set the live seeds of a mix beside what is printed for a kind of stand.

    Parameters
    ----------
    seeds : float
        Live seeds per ground, of the whole mix. [1/m²]
    stand : str
        One of the stands of ``DENSITIES``.

    Returns
    -------
    tuple of Phrase, one per source

    Raises
    ------
    MeasurementError
        For a stand that nobody prints a density for here.
    """
    printed = [density for density in DENSITIES if density.stand == stand]
    if not printed:
        known = ", ".join(dict.fromkeys(density.stand for density in DENSITIES))
        raise MeasurementError("stand", stand, say("choose one of {known}", known=known))
    return tuple(_beside(seeds, density) for density in printed)


def _beside(seeds: float, density: Density) -> Phrase:
    place = _place(seeds, density.low, density.high)
    low, high = DENSITY(density.low), DENSITY(density.high)
    printed = say("{low} to {high}", low=low, high=high) if density.low < density.high else low
    return say(
        "{seeds} live is {place} {printed} ({source})",
        seeds=DENSITY(seeds),
        place=place,
        printed=printed,
        source=density.source,
    )


def _place(value: float, low: float, high: float) -> Phrase:
    if value < low * (1 - 1e-9):
        return say("below")
    return say("above") if value > high * (1 + 1e-9) else say("within")


def warnings(sown: Sequence[Sown], *, uplift: float) -> tuple[Phrase, ...]:
    """Say what should be looked at before a mix is bought.

    Parameters
    ----------
    uplift : float
        More seed for broadcasting, as a share; printed ranges are for
        drilled seed, so it is taken out before they are compared. [-]
    """
    return (
        *_prices(sown),
        *_ranges(sown, drilled=1 / (1 + uplift)),
        *_full_shares(sown, drilled=1 / (1 + uplift)),
        *_brassicas(sown, drilled=1 / (1 + uplift)),
        *_turf(sown),
    )


def _prices(sown: Sequence[Sown]) -> tuple[Phrase, ...]:
    names = [each.name for each in sown if each.cost is None]
    if not names or len(names) == len(sown):
        return ()
    text = say("No price for {names}: enter one to see what the mix costs", names=", ".join(names))
    return (text,)


def _species(sown: Sequence[Sown], *, drilled: float) -> list[tuple[Seed, Rates]]:
    """Return each species once, its lots together, at the drilled rate."""
    by_name: dict[str, list[Sown]] = {}
    for each in sown:
        by_name.setdefault(each.name, []).append(each)
    return [
        (lots[0].seed, together([lot.rates for lot in lots]).times(drilled))
        for lots in by_name.values()
        if lots[0].seed
    ]


def together(rates: Sequence[Rates]) -> Rates:
    """Add up the rates of several members."""
    return Rates(
        seeds=total(each.seeds for each in rates),
        pls=total(each.pls for each in rates),
        bulk=total(each.bulk for each in rates),
    )


def _ranges(sown: Sequence[Sown], *, drilled: float) -> tuple[Phrase, ...]:
    species = _species(sown, drilled=drilled)
    return tuple(
        phrase
        for seed, rates in species
        for printed in seed.published
        for phrase in _out_of_range(seed, rates, printed, alone=len(species) == 1)
    )


def _out_of_range(
    seed: Seed, rates: Rates, printed: Published, *, alone: bool
) -> tuple[Phrase, ...]:
    """Compare: a mix may well be below the rate of a species alone, never above it."""
    rate = nominal(rates.pls if printed.basis == "pls" else rates.bulk)
    too_high = rate > printed.high * (1 + 1e-9)
    too_low = rate < printed.low * (1 - 1e-9)
    if alone != (printed.place == "alone") and not (printed.place == "alone" and too_high):
        return ()
    if not (too_high or too_low):
        return ()
    text = say(
        "{name} at {rate} {basis} is {place} {low} to {high}, the published range"
        " for seeding it {where} ({source})",
        name=seed.name,
        rate=RATE(rate),
        basis=say("pure live seed") if printed.basis == "pls" else say("bulk"),
        place=_place(rate, printed.low, printed.high),
        low=RATE(printed.low),
        high=RATE(printed.high),
        where=say("alone") if printed.place == "alone" else say("in a mix"),
        source=printed.source or say("no source listed"),
    )
    return (text,)


def _of_full(sown: Sequence[Sown], *, drilled: float) -> list[float]:
    return [nominal(each.of_full) * drilled for each in sown if each.of_full is not None]


def _full_shares(sown: Sequence[Sown], *, drilled: float) -> tuple[Phrase, ...]:
    shares = _of_full([each for each in sown if each.seed], drilled=drilled)
    if len(shares) < sum(1 for each in sown if each.seed) or fsum(shares) <= MOST_OF_FULL + 1e-9:
        return ()
    text = say(
        "Shares of full rate add up to {whole}; mixes often run 100 to {most} (common practice)",
        whole=SHARE(fsum(shares)),
        most=SHARE(MOST_OF_FULL),
    )
    return (text,)


def _brassicas(sown: Sequence[Sown], *, drilled: float) -> tuple[Phrase, ...]:
    brassicas = [each for each in sown if each.seed and each.seed.group == "brassica"]
    if brassicas and len(brassicas) == sum(1 for each in sown if each.seed):
        text = say(
            "Brassicas alone are not much of a cover: their residue breaks down fast (farm press)"
        )
        return (text,)
    shares = _of_full(brassicas, drilled=drilled)
    if not fsum(shares) > MOST_BRASSICA + 1e-9:
        return ()
    text = say(
        "Brassicas are at {share} of full rate; many growers stay at {most} or "
        "less (common practice, no published figure found)",
        share=SHARE(fsum(shares)),
        most=SHARE(MOST_BRASSICA),
    )
    return (text,)


def _turf(sown: Sequence[Sown]) -> tuple[Phrase, ...]:
    seeds = fsum(nominal(each.seeds) for each in sown)
    if seeds < TURF:
        return ()
    text = say(
        "{seeds} live is a turf rate: check whether a weight or a count is ten times too high",
        seeds=DENSITY(seeds),
    )
    return (text,)
