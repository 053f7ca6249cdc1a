"""The stand: plants per ground from counted places, with the range their own scatter gives."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum, inf, sqrt
from typing import Annotated, Literal

from ..quantities.errors import MeasurementError, Of, Path, require_positive
from ..quantities.phrases import Phrase, say
from ..quantities.units import GROUND, NUMBER, PLANTS, SHARE
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
    total,
    uncertain,
)
from ..statistics.distributions import t_quantile
from ..statistics.elementary import log
from .place import Place
from .scatter import Scatter, scatter, squares

BETWEEN = "variation between spots"
# From so many places on their own scatter is the best guide: on half metres of drilled wheat
# (Kalamkar 1932) Student's t then covers 95 to 96 of 100. With the larger of it and the prior
# five places would cover 99.8 of 100: the range would be half as wide again for nothing.
OWN_SCATTER_FROM = 5
# Negative binomial of drilled cereals: k from 5 to 10, read as one standard deviation of its
# logarithm either way. Ears on half metres of row (Kalamkar 1932) have 8.7 by their moments.
CLUMPING = sqrt(5.0 * 10.0)
CLUMPING_LOG_SD = 0.35
LEAST_VARIANCE = 1 / 12  # of a count, which is rounded to whole plants
NONE_SEEN = 0.05  # odds of seeing no plant at all, at the upper limit
NORMAL_95 = 1.6448536269514722  # one-sided
GUM = "JCGM 100:2008 (GUM)"
WHOLE = 7  # digits that show any count of plants wholly

Basis = Literal["own scatter", "usual scatter", "none seen"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stand:
    """Plants per ground, of all species or of one.

    ``density`` carries its causes on, to emergence; ``range`` is the 95%
    range. [1/m²] ``basis`` says what the range rests on. ``scatter`` is None
    for one place, or too few plants to tell.
    """

    KEYS = (
        *(put("stand", "range"), "places", "plants", put("range_from", "basis")),
        *(put("variance_to_mean", "scatter", "ratio"), put("clumped", "scatter", "clumped")),
        "budget",
    )

    name: str
    places: int
    plants: int
    ground: Quantity
    density: Quantity
    range: Annotated[Estimate, PLANTS]
    budget: tuple[Share, ...]
    basis: Basis
    scatter: Scatter | None
    assumed: tuple[Phrase, ...] = ()

    @property
    def dof(self) -> float:
        """Degrees of freedom of the scatter between places."""
        return next((share.dof for share in self.budget if share.name == BETWEEN), inf)


def stand(
    places: Sequence[Place], *, species: str | None = None, clumping: float = CLUMPING
) -> Stand:
    """Work out plants per ground from places of one or several sizes.

    D = Σ plants ÷ Σ ground, u² = n/(n − 1) × Σ (plants − D × ground)² ÷ (Σ ground)²

    Parameters
    ----------
    places : sequence of Place, length n ≥ 1
    species : str, optional
        One species; all plants where it is left out.
    clumping : float
        k of a negative binomial that stands in while places are few: their
        variance is taken as at least μ + μ²/k. [-]

    Returns
    -------
    Stand
        Range by Student's t on n − 1; with fewer than five places by the larger of
        both variances; from 0 up to what none seen leaves open where no plant was found.

    Raises
    ------
    MeasurementError
        For no places, a species that was not counted everywhere, clumping not above zero.

    References
    ----------
    W. G. Cochran (1977), Sampling Techniques, 3rd ed., section 6.3, for the ratio (not read);
    JCGM 100:2008 (GUM), G.3 and eq. (E.7), for the degrees of freedom of a judgement.

    Examples
    --------
    >>> from evenstand.engine.quantities.units import SQUARE_FOOT
    >>> counts = [31, 27, 35, 22, 29, 33, 26, 30, 38, 24, 28, 34]
    >>> found = stand([Place(area=1.875 * SQUARE_FOOT, plants=n) for n in counts]).range
    >>> print(", ".join(f"{x * SQUARE_FOOT:.2f}" for x in (found.value, found.low, found.high)))
    15.87, 14.27, 17.46
    """
    if not places:
        raise MeasurementError("places", 0, say("count the plants in at least one spot"))
    require_positive("clumping", clumping)
    counts = [_count(place, species) for place in places]
    areas = [nominal(place.area) for place in places]
    ground = total(place.area for place in places)
    plants = sum(count for count in counts)
    variance, dof, basis = _variance(counts, areas, clumping)
    density = uncertain(float(plants), sqrt(variance), BETWEEN) / ground
    shares = budget(density, {BETWEEN: Cause(dof=dof, common=False)})
    ranged = estimate(density, shares) if plants else _none_seen(areas, clumping)
    return Stand(
        name=species or "",
        places=len(places),
        plants=plants,
        ground=ground,
        density=density if plants else uncertain(0.0, ranged.u, BETWEEN),
        range=ranged,
        budget=shares,
        basis=basis,
        scatter=scatter(counts, areas=areas) if len(places) > 1 and plants > 1 else None,
        assumed=_assumed(basis, len(places), clumping),
    )


def stands(places: Sequence[Place], *, clumping: float = CLUMPING) -> tuple[Stand, ...]:
    """Work out the stand of each species, in the order they were first counted in.

    Raises
    ------
    MeasurementError
        Where a species was counted in one place and not in another: write 0.
    """
    names = dict.fromkeys(name for place in places for name in place.counts)
    return tuple(stand(places, species=name, clumping=clumping) for name in names)


def _count(place: Place, species: str | None) -> int:
    if species is None:
        return place.total
    if species not in place.counts:
        need = say("count it in every spot; enter 0 if you find none")
        raise MeasurementError(Path("plants", Of(species)), None, need)
    return place.counts[species]


def _variance(
    counts: Sequence[int], areas: Sequence[float], clumping: float
) -> tuple[float, float, Basis]:
    """Variance of all plants together, its degrees of freedom, and what it rests on."""
    n, total = len(counts), fsum(counts)
    if not total:
        return 0.0, inf, "none seen"
    own = max(squares(counts, areas), n * LEAST_VARIANCE) if n > 1 else 0.0
    if n >= OWN_SCATTER_FROM:
        return own, n - 1.0, "own scatter"
    ground = fsum(areas)
    clumps = fsum(total * a / ground * (total * a / ground) for a in areas) / clumping
    usual = total + clumps
    if own > usual:
        return own, n - 1.0, "own scatter"
    off = CLUMPING_LOG_SD * clumps / usual  # of the variance, relative
    return usual, max(n - 1.0, 2 / (off * off)), "usual scatter"


def _none_seen(areas: Sequence[float], clumping: float) -> Estimate:
    """Range from nothing to the density at which none is seen once in twenty.

    Σ k ln(1 + D × area ÷ k) = ln 20
    """

    def unlikely(density: float) -> float:
        return clumping * fsum(log(1 + density * area / clumping) for area in areas) + log(
            NONE_SEEN
        )

    low, high = 0.0, 1 / fsum(areas)
    while unlikely(high) < 0:
        low, high = high, 2 * high
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if unlikely(middle) < 0 else (low, middle)
    return Estimate(0.0, 0.0, high, high / NORMAL_95)


def _assumed(basis: Basis, places: int, clumping: float) -> tuple[Phrase, ...]:
    if basis == "none seen":
        text = "no plants found: the range ends where finding none has 1 in 20 odds"
        return (say(text),)
    if basis == "own scatter":
        return ()
    if places == 1:
        text = (
            "one spot says nothing about how spots differ: we assume drilled "
            "cereals, varying by {cv} plus chance"
        )
    else:
        text = (
            "so few spots say little about how spots differ: we assume drilled "
            "cereals, varying by {cv} plus chance"
        )
    return (say(text, cv=SHARE(1 / sqrt(clumping), 2)),)


def stand_lines(found: Stand) -> tuple[Line, ...]:
    """Show plants ÷ ground, and how the range comes from the places."""
    value = PLANTS(found.range.value)
    plants, ground = NUMBER(found.plants, WHOLE), GROUND(nominal(found.ground), 4)
    first = Line(_first(found), value, plants / ground, PRACTICE)
    return (first, *(_range_lines(found) if found.plants else ()))


def _first(found: Stand) -> Phrase:
    if found.name:
        text = "Stand of {name}: plants counted ÷ area of {n} spots"
        return say(text, name=found.name, n=found.places)
    return say("Stand: plants counted ÷ area of {n} spots", n=found.places)


def _range_lines(found: Stand) -> tuple[Line, ...]:
    between = next((share for share in found.budget if share.name == BETWEEN), None)
    if between is None:
        return ()
    said: Phrase = say("Its standard uncertainty, from how these spots differ")
    if found.basis == "usual scatter":
        said = say("Its standard uncertainty, from how spots usually differ")
    first = Line(said, PLANTS(between.u), source="Cochran (1977), section 6.3")
    return first, _reach(found)


def _reach(found: Stand) -> Line:
    """Show how far the range reaches: by a factor where it is made on the log scale."""
    t = t_quantile(0.975, dof=found.range.dof)
    if found.range.log_scale:
        text = "Range: stand ÷ and × this factor, e to the power of t × u ÷ stand, t {t}"
        factor = NUMBER(found.range.high / found.range.value)
        return Line(say(text, t=NUMBER(t, PENCIL_DIGITS)), factor, source=GUM)
    return Line(
        say("Half the range: Student's t × standard uncertainty of all causes"),
        PLANTS(t * found.range.u),
        NUMBER(t) * PLANTS(found.range.u),
        GUM,
    )
