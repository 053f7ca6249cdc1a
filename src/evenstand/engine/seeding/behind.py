"""Seeds uncovered behind the drill, against what should lie there."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt

from ..catch.target import odds_in_words
from ..catch.weighing import Prior
from ..quantities.errors import MeasurementError, require_positive
from ..quantities.phrases import Phrase, say
from ..quantities.units import LENGTH, NUMBER, RATE, SEED_COUNT, SEEDS, SHARE, SPACING
from ..quantities.working import Line
from ..rows.causes import CAUSES, Check
from ..statistics.budget import Estimate, Quantity, nominal, standard_uncertainty
from ..statistics.distributions import Z95, normal_quantile, t_cdf

ALARM = 0.05  # odds of a false flag over all rows together
MEDIAN = 1.5707963267948966  # variance of a median of n, in variances of one ÷ n
FEWEST = 5  # seeds in a row below which it is not judged alone


@dataclass(frozen=True, slots=True, kw_only=True)
class RowSeeds:
    """One row's seeds; ``z`` is their distance from the others in standard deviations."""

    number: int
    seeds: int
    z: float
    odd: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Behind:
    """Seeds that were found and seeds that should lie there.

    ``expected`` is for all rows counted together, with the range that sound
    sowing gives; ``rate`` is what the count alone says [kg/m²]; ``odds`` are
    those of a count so far off by chance.
    """

    seeds: int
    expected: Estimate
    rate: Estimate
    odds: float
    rows: tuple[RowSeeds, ...]
    say: Phrase
    next: Phrase
    causes: tuple[Check, ...]
    assumed: tuple[Phrase, ...]
    working: tuple[Line, ...]

    @property
    def fits(self) -> bool:
        """Whether the count lies where it should."""
        return self.expected.low <= self.seeds <= self.expected.high


def count_behind(
    counts: Sequence[int],
    *,
    length: Quantity,
    spacing: Quantity,
    rate: Quantity,
    seeds_per_kg: Quantity,
    row_cv: float | None = None,
) -> Behind:
    """Hold seeds counted in some rows against the rate that should lie there.

    expected in a row = rate × seeds per weight × spacing × length;
    variance of a row = expected (Poisson) + (row spread × expected)²

    Parameters
    ----------
    counts : sequence of int
        Seeds found in each row.
    length : Quantity
        Uncovered of each row. [m]
    spacing : Quantity
        Distance between rows. [m]
    rate : Quantity
        Bulk rate that should lie there. [kg/m²]
    seeds_per_kg : Quantity
        All seeds, dead ones too: they lie there as well. [1/kg]
    row_cv : float, optional
        Spread of the rows; 5% where it is not known. [-]

    Raises
    ------
    MeasurementError
        For no rows, seeds below zero, or values not above zero.

    References
    ----------
    Counting at several places behind the drill: common practice, no source;
    the usual fluctuation of a count, Poisson's distribution. Rows tested
    together: Holm (1979).

    Examples
    --------
    Wheat at 66.7 kg/ha and 25,000 seeds/kg in rows of 19 cm:

    >>> found = count_behind([33, 28, 35], length=1.0, spacing=0.19, rate=0.00667,
    ...                      seeds_per_kg=25_000.0)
    >>> print(f"{found.seeds} of {found.expected.value:.0f}")
    96 of 95
    """
    _check(counts)
    inputs = {"length": length, "spacing": spacing, "rate": rate, "seeds_per_kg": seeds_per_kg}
    for field, quantity in inputs.items():
        require_positive(field, nominal(quantity))
    given = row_cv is not None
    cv = Prior().row_cv if row_cv is None else row_cv
    each = rate * seeds_per_kg * spacing * length
    expected = _expected(each, rows=len(counts), cv=cv)
    seeds = sum(count for count in counts)
    z = (seeds - expected.value) / expected.u
    odds = 2 * t_cdf(-abs(z), dof=expected.dof)
    rows = _rows(counts, cv=cv)
    return Behind(
        seeds=seeds,
        expected=expected,
        rate=_rate(seeds, nominal(rate), expected),
        odds=odds,
        rows=rows,
        say=_headline(seeds, expected, rows=rows),
        next=_next(seeds, expected, rows, odds=odds),
        causes=_causes(rows),
        assumed=_assumed(cv, given=given),
        working=_working(inputs, len(counts), expected=expected.value),
    )


def _check(counts: Sequence[int]) -> None:
    if not counts:
        raise MeasurementError("counts", (), say("count at least one row"))
    for count in counts:
        if not count >= 0:
            raise MeasurementError("counts", count, say("enter 0 or more seeds"))


def _expected(each: Quantity, *, rows: int, cv: float) -> Estimate:
    """Seeds in all rows counted, with the spread of sound sowing and of what is known."""
    value, u = rows * nominal(each), rows * standard_uncertainty(each)
    variance = value + cv * cv * value * value / rows + u * u
    reach = Z95 * sqrt(variance)
    return Estimate(value, max(0.0, value - reach), value + reach, sqrt(variance))


def _rate(seeds: int, rate: float, expected: Estimate) -> Estimate:
    """What the count says of the rate, by itself."""
    found, u = rate * seeds / expected.value, rate * expected.u / expected.value
    return Estimate(found, max(0.0, found - Z95 * u), found + Z95 * u, u)


def _rows(counts: Sequence[int], *, cv: float) -> tuple[RowSeeds, ...]:
    """Each row against the middle one, which no bad row moves; Holm's limit over all."""
    n, middle = len(counts), _middle(counts)
    variance = (middle + cv * cv * middle * middle) * (1 + MEDIAN / n)
    judged = n > 1 and middle >= FEWEST
    zs = [(count - middle) / sqrt(variance) if judged else 0.0 for count in counts]
    odd: set[int] = set()
    for rank, index in enumerate(sorted(range(n), key=lambda i: -abs(zs[i]))):
        if abs(zs[index]) <= normal_quantile(1 - ALARM / (2 * (n - rank))):
            break
        odd.add(index)
    return tuple(
        RowSeeds(number=i + 1, seeds=count, z=z, odd=i in odd)
        for i, (count, z) in enumerate(zip(counts, zs, strict=True))
    )


def _middle(counts: Sequence[int]) -> float:
    ordered, n = sorted(counts), len(counts)
    return (ordered[(n - 1) // 2] + ordered[n // 2]) / 2


def _headline(seeds: int, expected: Estimate, *, rows: Sequence[RowSeeds]) -> Phrase:
    text = "Found {found} in {n} rows; you should find {expected} ({low} to {high})."
    if len(rows) == 1:
        text = "Found {found} in one row; you should find {expected} ({low} to {high})."
    return say(
        text,
        found=SEEDS(seeds, 9),
        n=len(rows),
        expected=SEEDS(expected.value),
        low=NUMBER(expected.low),
        high=NUMBER(expected.high),
    )


def _next(seeds: int, expected: Estimate, rows: Sequence[RowSeeds], *, odds: float) -> Phrase:
    odd = [row for row in rows if row.odd]
    if odd:
        listed = ", ".join(str(row.number) for row in odd)
        text = (
            "Stop the drill, shut off the tractor, then check row {rows} first: it drops "
            "differently from its neighbors."
        )
        return say(text, rows=listed)
    if expected.low <= seeds <= expected.high:
        return say("Keep going: the seed count checks out.")
    text = "Uncover more rows: {odds} odds of finding this few just by chance."
    if seeds > expected.value:
        text = "Uncover more rows: {odds} odds of finding this many just by chance."
    return say(text, odds=odds_in_words(odds))


def _causes(rows: Sequence[RowSeeds]) -> tuple[Check, ...]:
    odd = [row for row in rows if row.odd]
    if not odd:
        return ()
    worst = max(odd, key=lambda row: abs(row.z))
    if not worst.seeds:
        return tuple(CAUSES["nothing"])
    return tuple(CAUSES["low" if worst.z < 0 else "high"])


def _assumed(cv: float, *, given: bool) -> tuple[Phrase, ...]:
    found = say(
        "assumes you found every seed: in loose soil you miss some, and the count reads low"
    )
    if given:
        return (found,)
    return (say("rows vary by {cv} around their average", cv=SHARE(cv)), found)


def _working(inputs: dict[str, Quantity], rows: int, *, expected: float) -> tuple[Line, ...]:
    rate, count = RATE(nominal(inputs["rate"])), SEED_COUNT(nominal(inputs["seeds_per_kg"]))
    spacing, length = SPACING(nominal(inputs["spacing"])), LENGTH(nominal(inputs["length"]))
    return (
        Line(
            say("Seeds you should find: rate × seeds per weight × row spacing × length × rows"),
            SEEDS(expected),
            rate * count * spacing * length * NUMBER(rows),
        ),
    )
