"""One depth for a whole mix: what every species bears, and what it costs whom."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from typing import Annotated

from ..quantities.errors import MeasurementError
from ..quantities.phrases import Phrase, say
from ..quantities.units import CENTIMETRE, INCH, SPACING, Kind, Unit
from ..statistics.budget import nominal
from .member import Depth, Seed
from .words import listed

DEPTH = Kind("depth", "length", Unit("in", INCH), Unit("cm", CENTIMETRE))
RULE = "common practice: the smallest important seed decides"


@dataclass(frozen=True, slots=True, kw_only=True)
class Compromise:
    """A depth for the mix.

    ``low`` to ``high`` is what the smallest important seed bears, ``depth``
    the place in it that is nearest to all others; where all share some range
    it is the shallow end of that range, and ``suits_all`` is true. ``missed``
    says by how much each other species lies too deep or too shallow. [m]
    """

    depth: Annotated[float, SPACING]
    low: float
    high: float
    smallest: str
    suits_all: bool
    missed: tuple[tuple[str, float], ...]
    say: Phrase
    warnings: tuple[Phrase, ...]
    rule: str = RULE


def compromise(seeds: Sequence[Seed], *, unimportant: Collection[str] = ()) -> Compromise:
    """Find one depth for a mix that is sown in one pass.

    depth = the deepest of all shallow ends, but no deeper than the smallest
    important seed bears and no shallower than it asks

    Parameters
    ----------
    seeds : sequence of Seed
        Species without a printed depth are left out, and said.
    unimportant : collection of str
        Species that may fail without harm: they do not decide.

    Returns
    -------
    Compromise [m]

    Raises
    ------
    MeasurementError
        Where no important species has a depth.

    References
    ----------
    NRCS, Five keys to successful grass seeding (2003), for depth bands; the
    rule that the smallest important species decides is common practice, no
    source.
    """
    ranged = [(seed, seed.depth) for seed in seeds if seed.depth is not None]
    deciding = [pair for pair in ranged if pair[0].name not in unimportant]
    if not deciding:
        need = say("enter the depth range of one key species in the mix")
        raise MeasurementError("depth", None, need)
    smallest, own = max(deciding, key=lambda pair: nominal(pair[0].seeds_per_kg))
    wanted = max(depth.low for _, depth in deciding)
    depth = min(max(wanted, own.low), own.high)
    outside = ((seed.name, _missed(printed, depth)) for seed, printed in ranged)
    missed = tuple(dict.fromkeys(pair for pair in outside if pair[1]))  # two lots, one species
    return Compromise(
        depth=depth,
        low=own.low,
        high=own.high,
        smallest=smallest.name,
        suits_all=not missed,
        missed=missed,
        say=_headline(smallest.name, own, depth, suits_all=not missed),
        warnings=(*_warn(missed), *_unknown(seeds)),
    )


def _missed(printed: Depth, depth: float) -> float:
    """How far a depth lies outside a printed range, below 0 where too shallow. [m]"""
    return max(0.0, depth - printed.high) + min(0.0, depth - printed.low)


def _headline(smallest: str, own: Depth, depth: float, *, suits_all: bool) -> Phrase:
    at = DEPTH(depth)
    if suits_all:
        return say("Seed at {depth}: every species in the mix tolerates it.", depth=at)
    return say(
        "Seed at {depth}. {smallest}, the smallest key species, tolerates {low} to"
        " {high}; this is closest to what the others need.",
        depth=at,
        smallest=smallest,
        low=DEPTH(own.low),
        high=DEPTH(own.high),
    )


def _warn(missed: Sequence[tuple[str, float]]) -> tuple[Phrase, ...]:
    if not missed:
        return ()
    parts = [
        say(
            "{name} is {by} too deep" if by > 0 else "{name} is {by} too shallow",
            name=name,
            by=DEPTH(abs(by)),
        )
        for name, by in missed
    ]
    text = say(
        "{parts}: seed the deeper ones first, in a separate pass or from their own box",
        parts=listed(parts),
    )
    return (text,)


def _unknown(seeds: Sequence[Seed]) -> tuple[Phrase, ...]:
    names = dict.fromkeys(seed.name for seed in seeds if seed.depth is None)
    if not names:
        return ()
    return (
        say(
            "No seeding depth known for {names}: not used in choosing the depth",
            names=", ".join(names),
        ),
    )
