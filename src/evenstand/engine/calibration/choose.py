"""The next setting: what each notch would give, and when to stop.

Every notch has odds of putting the rate inside the band. The notch with the
least expected loss is tried next; a notch is accepted when it has itself been
caught and its odds are good enough.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf, pi, sqrt
from typing import Annotated, Literal

from ..catch.target import SURE, Target
from ..drill.drill import Gear
from ..quantities.units import RATE
from ..quantities.written import put
from ..statistics.budget import Estimate, normal_range
from ..statistics.distributions import normal_cdf, t_cdf
from ..statistics.elementary import exp
from .chart import Curve
from .meter import expected_rate, predict, surprise, update, widen

ACCEPT = 0.91  # odds to stop at: a little more than is said, as luck stops a search too
CONFLICT = 0.01  # odds below which a catch cannot come from what was believed
SHORTLIST = 9  # notches of each gear that are looked at closely
BETTER_BY = 0.03  # a notch not yet caught must be better by this to be worth a catch
ROOM = (0.10, 0.85)  # part of the scale to begin in, so that there is room to both sides
GEAR_COST = 0.10  # odds that must be won to be worth changing gear
Dearer = Literal["thin stand", "wasted seed", "neither"]
DEARER_BY = 3.0  # how much dearer a miss on the dear side is


@dataclass(frozen=True, slots=True, kw_only=True)
class CaughtAt:
    """A catch as the meter sees it.

    Parameters
    ----------
    rate : float
        Static rate. [kg/m²]
    cv : float
        Relative uncertainty that is this catch's own. [-]
    """

    setting: float
    gear: Gear
    rate: float
    cv: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """A notch that could be set, and what it would give.

    ``rate`` is the wanted rate's own kind (field or static) in kg/m²;
    ``loss`` orders the notches.
    """

    KEYS = ("setting", put("gear", "gear", "name"), "rate", "odds", "caught")

    setting: float
    gear: Gear
    rate: Annotated[Estimate, RATE]
    odds: float
    loss: float
    caught: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Odd:
    """A catch that does not fit what was believed before it.

    ``catch`` counts from 1; ``expected`` is the rate looked for [kg/m²];
    ``odds`` those of being so far off by chance.
    """

    catch: int
    expected: float
    odds: float


Ending = Literal["go on", "accepted", "no notch", "common limits"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """Where to go next, and why.

    ``ending`` says whether it is over: *accepted*, *no notch* can do it, or
    what all catches share (*common limits*) keeps the odds down.
    """

    best: Candidate
    ending: Ending
    candidates: tuple[Candidate, ...]
    odd: tuple[Odd, ...]
    curve: Curve
    best_possible: float


def learn(curve: Curve, catches: Sequence[CaughtAt]) -> tuple[Curve, tuple[Odd, ...]]:
    """Let catches change the curve; where one cannot fit, loosen the start.

    Parameters
    ----------
    catches : sequence of CaughtAt, oldest first

    Returns
    -------
    Curve, tuple of Odd
        The curve after all catches, and the catches that were in conflict
        with what was believed when they came.
    """
    odd: list[Odd] = []
    start = curve.belief
    belief = start
    for i, catch in enumerate(catches):
        x = curve.at(catch.setting, catch.gear)
        weight = _weight(catch, start.scatter)
        z = surprise(belief, x, rate=catch.rate, weight=weight)
        odds = 2 * t_cdf(-abs(z), dof=belief.dof)
        if odds < CONFLICT:
            odd.append(Odd(catch=i + 1, expected=predict(belief, x)[0], odds=odds))
            start = widen(start, z * z)
            belief = start
            for earlier in catches[:i]:
                belief = update(
                    belief,
                    curve.at(earlier.setting, earlier.gear),
                    rate=earlier.rate,
                    weight=_weight(earlier, start.scatter),
                )
        belief = update(belief, x, rate=catch.rate, weight=weight)
    return curve.believing(belief), tuple(odd)


def _weight(catch: CaughtAt, scatter: float) -> float:
    part = catch.cv / scatter
    return catch.rate * catch.rate * part * part


def choose(
    curve: Curve,
    catches: Sequence[CaughtAt],
    target: Target,
    *,
    factor: float = 1.0,
    common: float = 0.0,
    dearer: Dearer = "neither",
    gears: Sequence[Gear] | None = None,
) -> Choice:
    """Choose the next setting, or say that the work is done.

    Parameters
    ----------
    curve : Curve
        Before any of these catches.
    catches : sequence of CaughtAt, oldest first
    factor : float
        Wanted kind of rate ÷ static rate: (1 − slip) × field ratio for a
        field target, 1 for a static one. [-]
    common : float
        Relative uncertainty that all catches share. It widens what is said
        of a notch and never what is learned. [-]
    dearer : "thin stand", "wasted seed" or "neither"
        The side on which a miss costs three times as much.
    gears : sequence of Gear, optional
        Gears it may be sown in; all of the drill's without. Catches in
        others count all the same.

    Notes
    -----
    Loss of a notch is the expected square of (rate ÷ target − 1), the dear
    side weighted; before any catch the chart alone decides. The spread is
    taken as a share of the rate itself: a start that may be all too high or
    too low would else always be answered with less.
    """
    known, odd = learn(curve, catches)
    last_gear = catches[-1].gear if catches else None
    learned = bool(catches)
    rates = _Rates(known, target, factor=factor, common=common, dearer=dearer, learned=learned)
    candidates = _candidates(rates, catches, tuple(gears or curve.drill.gears))
    best = _best(candidates, last_gear) if catches else _first(known, candidates, target)
    best_possible = _best_possible(target, common)
    accepted = _accepted(candidates, best)
    ending: Ending = "go on"
    if accepted is not None:
        best, ending = accepted, "accepted"
    elif catches:
        ending = _hopeless(known, best, target, factor=factor, common=common)
    return Choice(
        best=best,
        ending=ending,
        candidates=candidates,
        odd=odd,
        curve=known,
        best_possible=best_possible,
    )


@dataclass(frozen=True, slots=True)
class _Rates:
    """The curve seen from the target: what a notch gives and what missing costs."""

    curve: Curve
    target: Target
    factor: float
    common: float
    dearer: Dearer
    learned: bool

    def loss(self, setting: float, gear: Gear) -> float:
        mean, sd = predict(self.curve.belief, self.curve.at(setting, gear))
        if mean <= 0:
            return inf
        off = mean * self.factor / self.target.rate - 1
        spread = sd / mean if self.learned else 0.0  # the chart's own setting comes first
        return expected_loss(off, spread, dof=self.curve.belief.dof, dearer=self.dearer)

    def rate(self, setting: float, gear: Gear) -> Estimate:
        x = self.curve.at(setting, gear)
        return expected_rate(self.curve.belief, x, common=self.common, factor=self.factor)


def _candidates(
    rates: _Rates, catches: Sequence[CaughtAt], gears: Sequence[Gear]
) -> tuple[Candidate, ...]:
    """Look closely at the notches of each gear with the least loss."""
    found, target = [], rates.target
    for gear in gears:
        rated = sorted((rates.loss(s, gear), s) for s in rates.curve.scale.settings())
        for loss, setting in rated[:SHORTLIST]:
            rate = rates.rate(setting, gear)
            found.append(
                Candidate(
                    setting=setting,
                    gear=gear,
                    rate=rate,
                    odds=rate.within(target.low, target.high),
                    loss=loss,
                    caught=sum(c.setting == setting and c.gear == gear for c in catches),
                )
            )
    return tuple(sorted(found, key=lambda c: c.loss))


def _first(curve: Curve, candidates: Sequence[Candidate], target: Target) -> Candidate:
    """Where the chart alone puts it, not at an end of the scale where another gear does too."""
    low, high = ROOM
    near = max(candidates[0].loss, target.tolerance * target.tolerance / 4)
    for candidate in candidates:
        if low <= curve.scale.opening(candidate.setting) <= high and candidate.loss <= near:
            return candidate
    return candidates[0]


def _best(candidates: Sequence[Candidate], last_gear: Gear | None) -> Candidate:
    """Least loss; another gear only where it wins enough to be worth the change."""
    best = candidates[0]
    same = [c for c in candidates if c.gear == last_gear]
    if same and best.odds < same[0].odds + GEAR_COST:
        return same[0]
    return best


def _accepted(candidates: Sequence[Candidate], best: Candidate) -> Candidate | None:
    """The caught notch that is sure enough, unless another is clearly better."""
    sure = [c for c in candidates if c.caught and c.odds >= ACCEPT]
    if not sure:
        return None
    top = min(sure, key=lambda c: c.loss)
    return top if best.caught or best.odds < top.odds + BETTER_BY else None


def _best_possible(target: Target, common: float) -> float:
    """Odds of a notch that meets the target exactly, were it known."""
    known = normal_range(target.rate, target.rate * common)
    return known.within(target.low, target.high)


def _hopeless(
    curve: Curve, best: Candidate, target: Target, *, factor: float, common: float
) -> Ending:
    """Say why another catch cannot help, if it cannot."""
    if not best.caught:
        return "go on"
    x = curve.at(best.setting, best.gear)
    exact = expected_rate(curve.belief, x, factor=factor)
    if 1 - exact.within(target.low, target.high) >= SURE:
        return "no notch"
    known = normal_range(exact.value, exact.value * common)
    if known.within(target.low, target.high) < SURE and exact.u < known.u:
        return "common limits"
    return "go on"


def expected_loss(off: float, sd: float, *, dof: float, dearer: Dearer) -> float:
    """Expected squared miss of a notch, the dear side weighted.

    off² + sd²·ν ÷ (ν − 2), split at zero by a normal of that spread.

    Parameters
    ----------
    off : float
        Expected rate ÷ target − 1. [-]
    sd : float
        Its standard uncertainty. [-]
    dof : float, > 2
    dearer : "thin stand", "wasted seed" or "neither"
    """
    variance = sd * sd * (dof / (dof - 2) if dof < inf else 1.0)
    whole = off * off + variance
    if dearer == "neither" or not variance:
        heavy_only = off > 0 and dearer == "wasted seed"
        light_only = off < 0 and dearer == "thin stand"
        return whole * (DEARER_BY if heavy_only or light_only else 1.0)
    spread = sqrt(variance)
    z = off / spread
    density = exp(-z * z / 2) / sqrt(2 * pi)
    heavy = whole * normal_cdf(z) + off * spread * density
    dear = heavy if dearer == "wasted seed" else whole - heavy
    return whole + (DEARER_BY - 1) * dear
