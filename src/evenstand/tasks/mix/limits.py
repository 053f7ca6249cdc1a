"""Limits that a mix with a goal must keep to, as they stand in a job file."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.quantities.units import COST, DENSITY, NUMBER, RATE, SHARE
from evenstand.engine.seed.species_names import find
from evenstand.office.limits import (
    ALL,
    PLURALS,
    CostWithin,
    Everything,
    Grouped,
    Limit,
    RateWithin,
    Scope,
    SeedShareWithin,
    SeedsWithin,
    Species,
    SpeciesWithin,
    WeightShareWithin,
    WeightWithin,
)
from evenstand.office.offer import Offer, published

from ..job.tables import many
from ..parsing.given import Given, placing
from ..seed.names import named
from ..seed.species_table import species_table
from .members import Sowing

LIMIT = "mix_goal.limits"
WHAT = ("seeds", "weight", "seed share", "weight share", "rate", "species", "cost")
ENDS = {"low": "at_least", "high": "at_most", "of": "of"}


@dataclass(frozen=True)
class LimitRead:
    """A limit, and where it was written; a published one stands nowhere."""

    limit: Limit
    given: Given

    def refuse(self, side: str, need: Phrase) -> MeasurementError:
        """Refuse one side of it, or what it is on."""
        key = ENDS.get(side, "what")
        if key not in self.given and "published" in self.given:
            key = "published"
        return self.given.refuse(key, need)


def read_limits(file: Mapping[str, Any], members: Sequence[Sowing]) -> tuple[LimitRead, ...]:
    """Read every limit of the goal.

    Raises
    ------
    MeasurementError
        For a limit without sides, or one that no mix could ever keep to.
    """
    return tuple(LimitRead(_limit(t.given, members), t.given) for t in many(file, LIMIT))


def _limit(given: Given, members: Sequence[Sowing]) -> Limit:
    what = given.one_of("what", WHAT)
    if "at_least" not in given and "at_most" not in given:
        raise given.refuse("at_least", say("enter at_least, at_most, or both"))
    scope = _scope(given, members)
    with placing(lambda no: given.refuse(ENDS.get(str(no.path[-1]), "of"), no.need)):
        return _READ[what](given, scope)


def _scope(given: Given, members: Sequence[Sowing]) -> Scope:
    """Read what a limit is on: all, a group, or a species of the mix by as much of its name."""
    if "of" not in given:
        return ALL
    text = given.text("of")
    word = " ".join(text.casefold().split())
    if word in ("all", "everything"):
        return ALL
    for group, plural in PLURALS.items():
        if word in (group, plural, plural.partition(" ")[0]):
            return Grouped(group)
    names = list(dict.fromkeys(each.of.name for each in members))
    known = find(text, species_table()).species
    if known is not None and known.name in names:
        return Species(known.name)
    return Species(named(given, "of", text, names=names))


def _ends(given: Given, read: Callable[[str], float]) -> dict[str, float | None]:
    return {
        end: read(key) if key in given else None
        for end, key in (("low", "at_least"), ("high", "at_most"))
    }


def _seeds(given: Given, scope: Scope) -> Limit:
    return SeedsWithin(of=scope, **_ends(given, lambda key: given.exact(key, DENSITY, zero=True)))


def _weight(given: Given, scope: Scope) -> Limit:
    return WeightWithin(of=scope, **_ends(given, lambda key: given.exact(key, RATE, zero=True)))


def _part(given: Given, scope: Scope) -> Species | Grouped:
    if isinstance(scope, Everything):
        raise given.refuse("of", say("enter which group or species: all is always 100%"))
    return scope


def _seed_share(given: Given, scope: Scope) -> Limit:
    ends = _ends(given, lambda key: given.exact(key, SHARE, zero=True))
    return SeedShareWithin(of=_part(given, scope), **ends)


def _weight_share(given: Given, scope: Scope) -> Limit:
    ends = _ends(given, lambda key: given.exact(key, SHARE, zero=True))
    return WeightShareWithin(of=_part(given, scope), **ends)


def _rate(given: Given, scope: Scope) -> Limit:
    if not isinstance(scope, Species):
        raise given.refuse("of", say("enter which species: a rate belongs to one species"))
    ends = _ends(given, lambda key: given.exact(key, RATE, zero=True))
    return RateWithin(of=scope, low=ends["low"], high=ends["high"])


def _species(given: Given, scope: Scope) -> Limit:
    if isinstance(scope, Species):
        raise given.refuse("of", say("enter all or a group: species are counted within it"))
    low, high = (
        given.count(key, NUMBER, least=0) if key in given else None
        for key in ("at_least", "at_most")
    )
    return SpeciesWithin(of=scope, low=low, high=high)


def _cost(given: Given, scope: Scope) -> Limit:
    if "at_least" in given:
        raise given.refuse("at_least", say("leave it out: a cost has only an upper limit"))
    if not isinstance(scope, Everything):
        raise given.refuse("of", say("leave it out: a cost always covers the whole mix"))
    return CostWithin(high=given.exact("at_most", COST, zero=True))


_READ: Mapping[str, Callable[[Given, Scope], Limit]] = {
    "seeds": _seeds,
    "weight": _weight,
    "seed share": _seed_share,
    "weight share": _weight_share,
    "rate": _rate,
    "species": _species,
    "cost": _cost,
}


def published_limits(given: Given, offers: Sequence[Offer]) -> tuple[LimitRead, ...]:
    """Make limits of printed ranges: those in mixes, and what is the most of a species alone.

    Parameters
    ----------
    given : Given
        Where ``published`` was written.
    """
    in_mix = published(offers)
    named = {limit.of.name for limit in in_mix}
    alone = [
        RateWithin(of=limit.of, high=limit.high, source=limit.source)
        for limit in published(offers, place="alone")
        if limit.of.name not in named
    ]
    return tuple(LimitRead(limit, given) for limit in (*in_mix, *alone))
