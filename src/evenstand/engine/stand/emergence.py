"""Emergence: plants that came up, of the live seeds sown."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Annotated

from ..quantities.errors import require_positive
from ..quantities.phrases import Phrase, say
from ..quantities.units import DENSITY, NUMBER, PLANTS, SHARE
from ..quantities.working import PENCIL_DIGITS, PRACTICE, Line
from ..quantities.written import put
from ..statistics.budget import (
    Cause,
    Estimate,
    Quantity,
    Share,
    budget,
    estimate,
    nominal,
    standard_uncertainty,
    uncertain,
)
from ..statistics.distributions import beta_quantile
from .stand import BETWEEN, Stand
from .usual import Usual

SOWN = "live seed planted"
CONFLICT = 2.576  # standard deviations apart, 1 in 100 by chance, from which counts stand alone
MORE_THAN_SOWN = 0.9  # odds that more came up than was sown, from which volunteers are asked for


@dataclass(frozen=True, slots=True, kw_only=True)
class Emergence:
    """Share of live seed that came up. [-]

    ``share`` is what was counted, with its range; ``updated`` joins it with
    what is usual for the kind: None without such a start, where nothing came
    up, or where both are too far apart. ``effective`` are the seeds of a
    perfect trial that would tell as much as the counts.
    """

    KEYS = ("share", put("with_usual", "updated"), "budget")

    share: Annotated[Estimate, SHARE]
    budget: tuple[Share, ...]
    usual: Usual | None = None
    effective: float = 0.0
    updated: Annotated[Estimate, SHARE] | None = None


def emergence(
    stand: Stand,
    *,
    seeds: Quantity,
    usual: Usual | None = None,
    causes: Mapping[str, Cause] | None = None,
) -> Emergence:
    """Divide a stand by the live seed sown there.

    E = D ÷ live seeds, relative variances added; effective n = E (1 − E) ÷ u²

    Parameters
    ----------
    seeds : Quantity
        Live seeds really sown; with no tag of its own it counts as known. [1/m²]
    usual : Usual, optional
        What usually comes up of that kind.
    causes : mapping of str to Cause, optional
        What is known of the errors in ``seeds``.

    Raises
    ------
    MeasurementError
        For live seeds that are not above zero.

    Notes
    -----
    The beta distribution of ``usual`` takes the counts as ``effective``
    seeds of which E came up.

    References
    ----------
    JCGM 100:2008 (GUM), G.4, for the degrees of freedom; L. Kish (1965), Survey Sampling,
    section 8.2, for the effective number (not read).
    """
    require_positive("seeds", nominal(seeds), "seeds/m²")
    known = {BETWEEN: Cause(dof=stand.dof, common=False)} | dict(causes or {})
    share = stand.density / seeds
    shares = budget(share, known)
    found = _possible(share, shares) if stand.plants else _of_none(stand.range, nominal(seeds))
    effective = _effective(share) if stand.plants else 0.0
    joined = usual is not None and effective and not _conflict(found, usual)
    updated = _updated(found.value, effective, usual) if usual and joined else None
    return Emergence(share=found, budget=shares, usual=usual, effective=effective, updated=updated)


def live_seeds(value: float, *, u: float) -> Quantity:
    """Live seeds sown with the standard uncertainty of that, tagged with its cause. [1/m²]

    Parameters
    ----------
    value : float
        [1/m²]
    u : float
        [1/m²]
    """
    return uncertain(value, u, SOWN)


def _possible(share: Quantity, shares: tuple[Share, ...]) -> Estimate:
    """The range of a share: no more comes up than all, unless more was counted than was sown."""
    found = estimate(share, shares)
    return replace(found, high=min(found.high, max(1.0, found.value)))


def _of_none(none_seen: Estimate, seeds: float) -> Estimate:
    return Estimate(0.0, 0.0, none_seen.high / seeds, none_seen.u / seeds)


def _effective(share: Quantity) -> float:
    """Seeds of a perfect trial that tell as much; 0 where as many came up as were sown."""
    value, u = nominal(share), standard_uncertainty(share)
    return value * (1 - value) / (u * u) if 0 < value < 1 and u else 0.0


def _conflict(found: Estimate, usual: Usual) -> bool:
    apart = found.value - usual.mean
    return apart * apart > CONFLICT * CONFLICT * (found.u * found.u + usual.sd * usual.sd)


def _updated(value: float, effective: float, usual: Usual) -> Estimate:
    a, b = usual.a + effective * value, usual.b + effective * (1 - value)
    learned = Usual(name=usual.name, a=a, b=b, low=usual.low, high=usual.high, source=usual.source)
    low, high = (beta_quantile(p, a=a, b=b) for p in (0.025, 0.975))
    return Estimate(learned.mean, low, high, learned.sd)


def in_words(found: Emergence) -> tuple[Phrase, ...]:
    """Say how much of the live seed came up, and ask back where that cannot be."""
    share = found.share
    said = [
        say(
            "{share} of the live seed came up, with 19 in 20 odds of being "
            "between {low} and {high}.",
            share=SHARE(share.value),
            low=SHARE(share.low),
            high=SHARE(share.high),
        )
    ]
    if not share.value:
        text = "No plants found: at most {high} came up, with 19 in 20 odds."
        said = [say(text, high=SHARE(share.high, 2))]
    if 1 - share.below(1.0) >= MORE_THAN_SOWN:
        text = "More plants than live seeds planted: are volunteers or weeds in the count?"
        said.append(say(text))
    usual = found.usual
    if usual is None or usual.name == "unknown":
        return tuple(said)
    low, high = SHARE(usual.low), SHARE(usual.high)
    if share.high < usual.low:
        text = "{low} to {high} is typical: look for crusting, wrong depth, dry seed or insects."
        said.append(say(text, low=low, high=high))
    elif share.low <= usual.high:
        said.append(say("{low} to {high} is typical.", low=low, high=high))
    return tuple(said)


def emergence_lines(found: Emergence, *, stand: Stand, seeds: Quantity) -> tuple[Line, ...]:
    """Show stand ÷ live seeds, and what is usual where it was joined with that.

    Parameters
    ----------
    seeds : Quantity
        Live seeds sown. [1/m²]
    """
    plants = PLANTS(stand.range.value, PENCIL_DIGITS)
    lines = [
        Line(_came_up(stand), SHARE(found.share.value), plants / DENSITY(nominal(seeds)), PRACTICE)
    ]
    if found.updated is not None and found.usual is not None:
        text = "Combined with typical values, {mean}; the counts weigh as much as {n} seeds"
        said = say(text, mean=SHARE(found.usual.mean), n=NUMBER(found.effective, 2))
        lines.append(Line(said, SHARE(found.updated.value), source=found.usual.source))
    return tuple(lines)


def _came_up(stand: Stand) -> Phrase:
    if stand.name:
        return say("Emergence of {name}: stand ÷ live seeds planted", name=stand.name)
    return say("Emergence: stand ÷ live seeds planted")
