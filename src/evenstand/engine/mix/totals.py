"""What a mix puts down: every member on every basis, and all together."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from math import fsum, sqrt
from typing import Annotated

from uncertainties import UFloat

from ..quantities.phrases import Phrase, join
from ..quantities.units import COST, DENSITY, RATE
from ..quantities.working import Line
from ..quantities.written import OR_NULL, Bare, put
from ..statistics.budget import Cause, Estimate, Quantity, Share, budget, estimate
from .bases import Rates
from .member import Carrier, Member, Rest, Seed, size


@dataclass(frozen=True, slots=True, kw_only=True)
class Ranges:
    """What is sown on every basis, each with its 95% range. [kg/m²], [1/m²]"""

    pls: Annotated[Estimate, RATE]
    bulk: Annotated[Estimate, RATE]
    seeds: Annotated[Estimate, DENSITY]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sown:
    """One member of a mix on every basis, all as sown, the uplift in it.

    ``of_full`` is its share of the full rate, None where that is not known.
    ``seed_share`` is its part of all live seeds, ``weight_share`` its part of
    all that goes through the drill, carriers too. ``cost`` is per ground and
    None without a price. [1/m²], [kg/m²], [$/m²]
    """

    KEYS = (
        *("name", "lot", "carrier", put("pls_rate", "ranges", "pls")),
        *(put("bulk_rate", "ranges", "bulk"), put("seeds", "ranges", "seeds")),
        *(put("of_full_rate", "of_full"), "seed_share", "weight_share", "cost"),
    )

    member: Member
    rates: Rates
    of_full: Quantity | None
    seed_share: Quantity
    weight_share: Quantity
    cost: Annotated[Quantity, Bare(COST)] | None
    working: tuple[Line, ...]

    @property
    def name(self) -> str:
        """Name of the species or the carrier."""
        return self.member.name

    @property
    def seed(self) -> Seed | None:
        """The seed, None for a carrier."""
        return None if isinstance(self.member.of, Carrier) else self.member.of

    @property
    def lot(self) -> Annotated[str, OR_NULL]:
        """Which lot of its species, empty where nobody said."""
        return self.seed.lot if self.seed else ""

    @property
    def carrier(self) -> bool:
        """Whether it has no live seed of its own."""
        return self.seed is None

    @property
    def ranges(self) -> Ranges:
        """What is sown of it, with ranges."""
        return _ranges(self.rates, self.range_of)

    @property
    def seeds(self) -> Quantity:
        """Live seeds per ground. [1/m²]"""
        return self.rates.seeds

    @property
    def pls_rate(self) -> Quantity:
        """Pure live seed per ground. [kg/m²]"""
        return self.rates.pls

    @property
    def bulk_rate(self) -> Quantity:
        """What goes through the drill. [kg/m²]"""
        return self.rates.bulk

    def why(self, quantity: Quantity) -> tuple[Share, ...]:
        """Lay out what makes one of this member's own results uncertain."""
        return budget(quantity, self.seed.causes if self.seed else {})

    def range_of(self, quantity: Quantity) -> Estimate:
        """Put the 95% range around one of this member's own results."""
        return estimate(quantity, self.why(quantity))


@dataclass(frozen=True, slots=True, kw_only=True)
class MixPart:
    """All members of one group or one season together."""

    KEYS = ("name", "species", "seed_share", "weight_share")

    name: str
    species: int
    rates: Rates
    seed_share: Quantity
    weight_share: Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class Mix:
    """A mix, member by member and in all.

    ``rates`` are the sums over all members: its bulk is what the drill must
    put down, carriers too. ``cost`` is None where a price is missing.
    ``groups`` and ``seasons`` leave out seed whose own are not known.
    ``warnings`` ask for something to be done, ``notes`` only say what is.
    """

    sown: tuple[Sown, ...]
    rates: Rates
    cost: Annotated[Quantity, Bare(COST)] | None
    uplift: float
    groups: tuple[MixPart, ...]
    seasons: tuple[MixPart, ...]
    advice: tuple[Phrase, ...]
    warnings: tuple[Phrase, ...]
    notes: tuple[Phrase, ...]

    @property
    def say(self) -> Phrase:
        """What to sow, and how sure that is."""
        return join(self.advice)

    @property
    def seeds(self) -> Quantity:
        """Live seeds per ground. [1/m²]"""
        return self.rates.seeds

    @property
    def bulk_rate(self) -> Quantity:
        """What goes through the drill. [kg/m²]"""
        return self.rates.bulk

    @property
    def ranges(self) -> Ranges:
        """What is sown in all, with ranges."""
        return _ranges(self.rates, self.range_of)

    @property
    def shares(self) -> tuple[Share, ...]:
        """Whose tag makes all live seeds uncertain, largest first."""
        return self.why(self.seeds)

    def why(self, quantity: Quantity) -> tuple[Share, ...]:
        """Lay out whose tag makes a sum over the members uncertain, largest first.

        Each share is named after the members and the cause, as in
        ``cereal rye: germination``.
        """
        return why(quantity, self.sown)

    def range_of(self, quantity: Quantity) -> Estimate:
        """Put the 95% range around a sum over the members."""
        return estimate(quantity, self.why(quantity))


def _ranges(rates: Rates, range_of: Callable[[Quantity], Estimate]) -> Ranges:
    return Ranges(pls=range_of(rates.pls), bulk=range_of(rates.bulk), seeds=range_of(rates.seeds))


def why(quantity: Quantity, sown: Iterable[Sown]) -> tuple[Share, ...]:
    """Lay out a budget by member and cause.

    Parameters
    ----------
    quantity : Quantity
        Computed from the members' own quantities.

    Returns
    -------
    tuple of Share, largest first [unit of the quantity]
    """
    if not isinstance(quantity, UFloat):
        return ()
    owners, known = _owners(sown)
    squares: dict[tuple[str, str], list[float]] = {}
    for variable, u in quantity.error_components().items():
        line = (", ".join(owners.get(variable, ())), str(variable.tag))
        squares.setdefault(line, []).append(float(u) * float(u))
    variances = {line: fsum(parts) for line, parts in squares.items() if any(parts)}
    whole = fsum(variances.values())
    shares = [
        _share(line, variance, whole=whole, cause=known.get(line, Cause()))
        for line, variance in variances.items()
    ]
    return tuple(sorted(shares, key=lambda share: (-share.u, share.name)))


def _share(line: tuple[str, str], variance: float, *, whole: float, cause: Cause) -> Share:
    owner, tag = line
    name = f"{owner}: {tag}" if owner else tag
    return Share(name, sqrt(variance), variance / whole, cause.dof, cause.common)


def _owners(
    sown: Iterable[Sown],
) -> tuple[dict[UFloat, list[str]], dict[tuple[str, str], Cause]]:
    """Return whose each input is, and what is known of it."""
    owners: dict[UFloat, list[str]] = {}
    known: dict[tuple[str, str], Cause] = {}
    for each in sown:
        for quantity in _inputs(each.member):
            if not isinstance(quantity, UFloat):
                continue
            for variable in quantity.error_components():
                names = owners.setdefault(variable, [])
                if each.name not in names:
                    names.append(each.name)
                causes = each.seed.causes if each.seed else {}
                known[", ".join(names), str(variable.tag)] = causes.get(str(variable.tag), Cause())
    return owners, known


def _inputs(member: Member) -> Iterable[Quantity]:
    if not isinstance(member.given, Rest):
        yield size(member.given)
    if member.of.price is not None:
        yield member.of.price
    if isinstance(member.of, Seed):
        yield from (member.of.pls, member.of.seeds_per_kg)
        if member.of.full is not None:
            yield size(member.of.full)
