"""What a farm's own counts teach about emergence: seasons and fields, held by what is usual."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum, pi, sqrt
from typing import Annotated

from ..quantities.errors import MeasurementError, require_positive
from ..quantities.phrases import Phrase, say
from ..quantities.units import SHARE
from ..statistics.budget import Estimate
from ..statistics.distributions import normal_cdf
from ..statistics.elementary import exp, log
from .usual import Usual

# Judgements. On the log-odds scale fields and seasons differ by some tenths; half of that
# variance is taken to stay with the field, half to come anew each season.
BETWEEN_FIELDS = 0.5  # scale of a half-normal prior
STAYS = 0.5
SPREADS = tuple(0.04 * (1 + i * i / 8) for i in range(18))  # spreads tried, to 1.5
WIDEST = 12.0  # log-odds beyond which nothing lies
MOST_STEPS = 60
CLOSE = 1e-10


@dataclass(frozen=True, slots=True, kw_only=True)
class Season:
    """Emergence counted once, in one field.

    Parameters
    ----------
    emergence : float
        Above 0 and below 1. [-]
    u : float
        Its standard uncertainty. [-]

    Raises
    ------
    MeasurementError
        For a share outside its range or an uncertainty that is not above zero.
    """

    field: str
    emergence: float
    u: float

    def __post_init__(self) -> None:
        if not 0 < self.emergence < 1:
            need = say("enter a share above 0% and below 100%")
            raise MeasurementError("emergence", self.emergence, need)
        require_positive("u", self.u)

    @property
    def log_odds(self) -> float:
        """Logarithm of the odds to come up."""
        return log(self.emergence / (1 - self.emergence))

    @property
    def variance(self) -> float:
        """Variance of the log odds, by counting alone."""
        sd = self.u / (self.emergence * (1 - self.emergence))
        return sd * sd


@dataclass(frozen=True, slots=True, kw_only=True)
class Learned:
    """Emergence to be looked for next season. [-]

    ``usual_counts`` is the part that what is usual still has in it.
    """

    share: Annotated[Estimate, SHARE]
    seasons: int
    fields: int
    field: str | None
    usual_counts: float


@dataclass(frozen=True, slots=True)
class _Guess:
    """What follows if fields differ by one spread: the next season, and how likely that is."""

    fit: float
    mean: float
    variance: float
    usual: float


def learned(seasons: Sequence[Season], *, usual: Usual, field: str | None = None) -> Learned:
    """Foretell the emergence of a species next season, in a field that was counted or another.

    log odds = farm + field + season + counting error, all normal; the farm
    about what is usual, the spread of fields and seasons integrated out

    Parameters
    ----------
    seasons : sequence of Season
        All of one species on one farm; none leaves what is usual.
    field : str, optional
        Where it is to be sown; a field never counted where it is left out.

    References
    ----------
    A. Gelman et al. (2013), Bayesian Data Analysis, 3rd ed., section 5.4, for the normal
    hierarchy with its spread on a grid (not read).
    """
    fields = list(dict.fromkeys(season.field for season in seasons))
    groups = [[each for each in seasons if each.field == name] for name in fields]
    at = fields.index(field) if field in fields else None
    guesses = [_guess(groups, usual, spread=spread, at=at) for spread in SPREADS]
    best = max(guess.fit for guess in guesses)
    weights = _weights([exp(guess.fit - best) for guess in guesses])
    mean = fsum(w * guess.mean for w, guess in zip(weights, guesses, strict=True))
    low, middle, high = (_quantile(p, weights, guesses) for p in (0.025, 0.5, 0.975))
    value = _share(middle)
    square = fsum(
        w * (guess.variance + (guess.mean - mean) * (guess.mean - mean))
        for w, guess in zip(weights, guesses, strict=True)
    )
    return Learned(
        share=Estimate(value, _share(low), _share(high), value * (1 - value) * sqrt(square)),
        seasons=len(seasons),
        fields=len(fields),
        field=field if at is not None else None,
        usual_counts=fsum(w * guess.usual for w, guess in zip(weights, guesses, strict=True)),
    )


def _weights(likelihoods: Sequence[float]) -> list[float]:
    """Weights of the spreads: likelihood × prior × how far apart they are tried."""
    widths = [
        SPREADS[min(i + 1, len(SPREADS) - 1)] - SPREADS[max(i - 1, 0)] for i in range(len(SPREADS))
    ]
    parts = [
        like * width * exp(-spread * spread / (2 * BETWEEN_FIELDS * BETWEEN_FIELDS))
        for like, width, spread in zip(likelihoods, widths, SPREADS, strict=True)
    ]
    whole = fsum(parts)
    return [part / whole for part in parts]


def _guess(
    groups: Sequence[Sequence[Season]], usual: Usual, *, spread: float, at: int | None
) -> _Guess:
    """Solve for one spread of fields and seasons, everything else in closed form."""
    stays, anew = STAYS * spread * spread, (1 - STAYS) * spread * spread
    centre = log(usual.mean / (1 - usual.mean))
    start = usual.sd / (usual.mean * (1 - usual.mean))
    prior = 1 / (start * start)
    found = [_field(group, anew) for group in groups]
    means, variances = [each[1] for each in found], [each[2] + stays for each in found]
    precision = fsum([prior, *(1 / v for v in variances)])
    pulls = [centre * prior, *(m / v for m, v in zip(means, variances, strict=True))]
    farm = fsum(pulls) / precision
    gaps = [(m - farm) * (m - farm) / v for m, v in zip(means, variances, strict=True)]
    gaps.append((farm - centre) * (farm - centre) * prior)
    sizes = [*(log(v) for v in variances), log(precision / prior)]
    fit = fsum(each[0] for each in found) - 0.5 * fsum([*sizes, *gaps])
    own = 0.0 if at is None else stays / variances[at]
    mean = farm if at is None else farm + own * (means[at] - farm)
    left = (1 - own) * (1 - own) / precision + stays * (1 - own)
    return _Guess(fit, mean, left + anew, (1 - own) * prior / precision)


def _field(group: Sequence[Season], anew: float) -> tuple[float, float, float]:
    """Fit within one field, its mean, and the variance of that."""
    weights = [1 / (season.variance + anew) for season in group]
    whole = fsum(weights)
    mean = fsum(w * season.log_odds for w, season in zip(weights, group, strict=True)) / whole
    squares = [
        w * (season.log_odds - mean) * (season.log_odds - mean)
        for w, season in zip(weights, group, strict=True)
    ]
    fit = 0.5 * fsum([*(log(w / (2 * pi)) for w in weights), -log(whole / (2 * pi))])
    return fit - 0.5 * fsum(squares), mean, 1 / whole


def _quantile(p: float, weights: Sequence[float], guesses: Sequence[_Guess]) -> float:
    """Point of the mixed normals, by Newton's method inside a bracket."""
    low, high = -WIDEST, WIDEST
    point = fsum(w * guess.mean for w, guess in zip(weights, guesses, strict=True))
    for _ in range(MOST_STEPS):
        below, density = _mixed(point, weights, guesses)
        low, high = (point, high) if below < p else (low, point)
        step = (p - below) / density if density else 0.0
        inside = low < point + step < high
        point, last = (point + step if inside else (low + high) / 2), point
        if abs(point - last) < CLOSE:
            break
    return point


def _mixed(
    point: float, weights: Sequence[float], guesses: Sequence[_Guess]
) -> tuple[float, float]:
    below, density = [], []
    for weight, guess in zip(weights, guesses, strict=True):
        sd = sqrt(guess.variance)
        z = (point - guess.mean) / sd
        below.append(weight * normal_cdf(z))
        density.append(weight * exp(-z * z / 2) / (sd * sqrt(2 * pi)))
    return fsum(below), fsum(density)


def _share(log_odds: float) -> float:
    return 1 / (1 + exp(-log_odds))


def in_words(found: Learned) -> Phrase:
    """Say what to look for, and how much of that is the farm's own."""
    share, low, high, usual = (
        SHARE(value, 2)
        for value in (found.share.value, found.share.low, found.share.high, found.usual_counts)
    )
    if not found.seasons:
        text = "No counts of your own yet: {share} is typical, {low} to {high}."
        return say(text, share=share, low=low, high=high)
    text = (
        "Expect {share} to come up, {low} to {high}: {own}; typical values count for "
        "{usual} of this."
    )
    return say(text, share=share, low=low, high=high, own=_own(found), usual=usual)


def _own(found: Learned) -> Phrase:
    if found.seasons == 1:
        return say("from one count of your own")
    if found.fields == 1:
        return say("from {n} counts of one field", n=found.seasons)
    return say("from {n} counts in {fields} fields", n=found.seasons, fields=found.fields)
