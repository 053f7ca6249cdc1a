"""Uncertainty budgets: what each input does to a result, and its range."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from math import floor, fsum, inf, isfinite, sqrt
from types import MappingProxyType
from typing import TypeAlias

from uncertainties import UFloat, ufloat

from ..quantities.written import put
from .distributions import Z95, t_cdf, t_quantile
from .elementary import exp, log

Quantity: TypeAlias = float | UFloat  # exact, or known with a standard uncertainty

LOG_SCALE_ABOVE = 0.10  # relative u past which a range is made on the log scale


@dataclass(frozen=True, slots=True)
class Cause:
    """What is known of one input's error, by the tag of its quantity.

    ``dof`` are the degrees of freedom of that knowledge, infinite for a
    judgement (type B). ``common`` says that every catch of one job shares the
    error, so that repeating the catch does not average it away.
    """

    dof: float = inf
    common: bool = True


@dataclass(frozen=True, slots=True)
class Share:
    """One line of a budget.

    ``u`` is what this input alone would make the result uncertain by, in the
    unit of the result; ``part`` is its part of the variance, from 0 to 1.
    """

    KEYS = ("name", put("share", "part"))

    name: str
    u: float
    part: float = 1.0
    dof: float = inf
    common: bool = True


@dataclass(frozen=True, slots=True)
class Estimate:
    """A value with its standard uncertainty and 95% range, all in SI."""

    value: float
    low: float
    high: float
    u: float
    dof: float = inf

    @property
    def log_scale(self) -> bool:
        """Whether the range is symmetric on the log scale."""
        return self.value > 0 and self.u > LOG_SCALE_ABOVE * self.value

    def over(self, divisor: float) -> "Estimate":
        """Return it divided by a number above zero that is known."""
        parts = (self.value, self.low, self.high, self.u)
        value, low, high, u = (part / divisor for part in parts)
        return Estimate(value, low, high, u, self.dof)

    def below(self, limit: float) -> float:
        """Odds that the true value lies below ``limit``."""
        if not self.u:
            return 1.0 if self.value < limit else 0.0
        if self.log_scale:
            if limit <= 0:
                return 0.0
            return t_cdf(log(limit / self.value) * self.value / self.u, dof=self.dof)
        return t_cdf((limit - self.value) / self.u, dof=self.dof)

    def within(self, low: float, high: float) -> float:
        """Odds that the true value lies from ``low`` to ``high``."""
        if not self.u:
            return 1.0 if low <= self.value <= high else 0.0
        return self.below(high) - self.below(low)


def nominal(quantity: Quantity) -> float:
    """Return the value without its uncertainty."""
    return float(quantity.nominal_value) if isinstance(quantity, UFloat) else float(quantity)


def standard_uncertainty(quantity: Quantity) -> float:
    """Return the standard uncertainty, the same bits on every machine."""
    if not isinstance(quantity, UFloat):
        return 0.0
    parts = quantity.error_components().values()
    return sqrt(fsum(float(u) * float(u) for u in parts))


def uncertain(value: float, u: float, tag: str) -> Quantity:
    """Return a quantity tagged with its cause, a plain float where u is 0."""
    return ufloat(value, u, tag) if u else value


def give_or_take(value: float, limits: float, tag: str) -> Quantity:
    """Return a quantity known to lie within ± ``limits``, all equally likely.

    u = limits ÷ √3

    References
    ----------
    JCGM 100:2008 (GUM), 4.3.7.
    """
    return uncertain(value, limits / sqrt(3), tag)


def budget(result: Quantity, causes: Mapping[str, Cause]) -> tuple[Share, ...]:
    """Lay out where the uncertainty of a result comes from, largest first.

    Parameters
    ----------
    result : Quantity
        A result whose inputs were tagged when they were made.
    causes : mapping of str to Cause
        What is known of each tag; an absent tag is a judgement common to all.

    Returns
    -------
    tuple of Share, one per tag [unit of the result]
    """
    if not isinstance(result, UFloat):
        return ()
    squares: dict[str, list[float]] = {}
    for variable, u in result.error_components().items():
        squares.setdefault(str(variable.tag), []).append(float(u) * float(u))
    variances = {tag: fsum(parts) for tag, parts in squares.items() if any(parts)}
    whole = fsum(variances.values())
    shares = [
        Share(
            tag, sqrt(v), v / whole, causes.get(tag, Cause()).dof, causes.get(tag, Cause()).common
        )
        for tag, v in variances.items()
    ]
    return tuple(sorted(shares, key=lambda share: (-share.u, share.name)))


def effective_dof(shares: Iterable[Share]) -> float:
    """Degrees of freedom of the combined uncertainty, Welch–Satterthwaite.

    Parameters
    ----------
    shares : iterable of Share, length n ≥ 0

    Returns
    -------
    float [-]
        Infinite where every share is a judgement.

    References
    ----------
    JCGM 100:2008 (GUM), eq. (G.2b), with the unrounded combined uncertainty.
    """
    shares = tuple(shares)
    whole = fsum(share.u * share.u for share in shares)
    if not whole:
        return inf
    parts = [share.u * share.u / whole for share in shares]
    spread = fsum(p * p / share.dof for p, share in zip(parts, shares, strict=True))
    return 1 / spread if spread else inf


def estimate(result: Quantity, shares: Iterable[Share], *, level: float = 0.95) -> Estimate:
    """Put a range around a result.

    value ± t(level, ν) · u, with ν cut to a whole number; where u is more
    than a tenth of the value the range is value × exp(± t · u ÷ value).

    Parameters
    ----------
    shares : iterable of Share
        Its budget, for the degrees of freedom.
    level : float
        Coverage of the range. [-]

    Returns
    -------
    Estimate [unit of the result]

    References
    ----------
    JCGM 100:2008 (GUM), G.4 and G.6.4.
    """
    value, u = nominal(result), standard_uncertainty(result)
    dof = effective_dof(shares)
    whole = float(max(1, floor(dof))) if isfinite(dof) else inf
    reach = t_quantile(0.5 + level / 2, dof=whole) * u
    if value > 0 and u > LOG_SCALE_ABOVE * value:
        factor = exp(reach / value)
        return Estimate(value, value / factor, value * factor, u, whole)
    return Estimate(value, value - reach, value + reach, u, whole)


def ranged(result: Quantity, causes: Mapping[str, Cause] = MappingProxyType({})) -> Estimate:
    """Put the 95% range around a result, as its budget has it."""
    return estimate(result, budget(result, causes))


def total(quantities: Iterable[Quantity]) -> Quantity:
    """Add up from the first to the last, with what they share kept."""
    whole: Quantity = 0.0
    for quantity in quantities:
        whole = whole + quantity
    return whole


def normal_range(value: float, u: float) -> Estimate:
    """Put the 95% range of a normal distribution around a value."""
    return Estimate(value, value - Z95 * u, value + Z95 * u, u)
