"""Evenness of a drill's rows, from a catch that was weighed row by row.

Noise of the catch is told from differences of the rows, odd rows and
patterns from chance; the user's own limit is shown beside them.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import fsum, inf, sqrt
from typing import Annotated

from ..quantities.errors import MeasurementError, require_positive
from ..quantities.phrases import Phrase, join, say
from ..quantities.units import CATCH, CATCHES, NUMBER, ROWS, SHARE, Amount
from ..quantities.working import PRACTICE, Line
from ..quantities.written import PER_CENT, put
from ..statistics.budget import Cause, Estimate, ranged, uncertain
from ..statistics.distributions import t_quantile
from ..statistics.variance import cv_range
from .catch import RowCatch, row_catch
from .contrasts import planned
from .findings import (
    Crossing,
    Finding,
    crossing,
    crossing_sentence,
    findings,
    headline,
    next_thing,
    surer,
    tolerance_sentence,
)
from .odd import OddRow, Spread, odd_rows, sample_spread, smallest_found, usual_spread
from .patterns import Pattern, patterns
from .scatter import RowScatter, scatter

REPEAT_CV = 0.02  # scatter of one row's catch, a judgement within the 0.8–3.7 % published for flow


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """What one row drops: ``weight`` in kg, the others as shares of the mean.

    ``low`` and ``high`` are the 95% range of ``off`` from the noise of the
    catch; ``shrunk`` is ``off`` with that noise taken out as far as can be.
    """

    KEYS = ("row", "weight", put("percent", "off"), "low", "high")

    row: int
    weight: Annotated[float, CATCH]
    off: Annotated[float, PER_CENT]
    low: Annotated[float, PER_CENT]
    high: Annotated[float, PER_CENT]
    shrunk: float


@dataclass(frozen=True, slots=True, kw_only=True)
class RowOutside:
    """A row outside the user's own limit: how far it is from the mean. [-]"""

    KEYS = ("row", put("percent", "off"))

    row: int
    off: Annotated[float, PER_CENT]


@dataclass(frozen=True, slots=True, kw_only=True)
class Evenness:
    """How even the rows of a drill are.

    ``mean`` [kg] and ``cv`` [-] are those of the rows that run: plugged rows
    are among ``odd_rows`` and held against the others. ``tested`` are the
    patterns looked for. ``off_tolerance`` are rows that, noise
    taken out, miss the job's tolerance when the mean is on target. A row
    ``finds`` off the mean would be found 9 times in 10. [-]
    """

    KEYS = (
        *("mean", "cv", "odd_rows", "outside_limit", "patterns", "say", "next", "surer"),
        *("rows", put("check", "findings"), "working"),
    )

    mean: Annotated[Estimate, CATCH]
    cv: Annotated[Estimate, SHARE]
    scatter: RowScatter
    rows: tuple[Row, ...]
    odd_rows: tuple[OddRow, ...]
    tested: tuple[Pattern, ...]
    crossing: Crossing | None
    off_tolerance: tuple[Row, ...]
    finds: float
    findings: tuple[Finding, ...]
    say: Phrase
    next: Phrase
    surer: Phrase
    assumed: tuple[Phrase, ...]
    working: tuple[Line, ...]

    @property
    def patterns(self) -> tuple[Pattern, ...]:
        """Patterns that were found, the surest first; echoes of them left out."""
        return _told(self.tested)

    @property
    def outside_limit(self) -> tuple[RowOutside, ...]:
        """Rows outside the user's own limit, which is no test."""
        crossed = self.crossing.rows if self.crossing else ()
        return tuple(
            RowOutside(row=row.row, off=row.off) for row in self.rows if row.row in crossed
        )


def evenness(
    weights: Sequence[Sequence[float]],
    *,
    numbers: Sequence[int] | None = None,
    of: int | None = None,
    resolution: float = 0.0,
    repeat_cv: float = REPEAT_CV,
    row_cv: float | None = None,
    limit: float | None = None,
    tolerance: float | None = None,
    columns: Mapping[str, Sequence[str]] | None = None,
) -> Evenness:
    """Judge how even the rows of a drill are.

    Parameters
    ----------
    weights : sequence of k sequences of R floats
        Net seed of each row, catch by catch, R ≥ 3; a row with 0 is plugged.
        Rows are counted from 1 at the left, looking the way the drill goes.
        Catches may differ in length. [kg]
    numbers : sequence of R ints, optional
        Which rows they are, where not all were caught.
    of : int, optional
        How many rows the drill has; the last one caught is its last without.
    resolution : float
        Smallest step of the scale; 0 leaves it out. [kg]
    repeat_cv : float
        Scatter of one row's catch, used where no second catch shows it. [-]
    row_cv : float, optional
        What this drill's rows differ by when all is well, noise not in it,
        from its history. Without it rows are judged against each other. [-]
    limit : float, optional
        The user's own limit (±) for a row, from the mean. [-]
    tolerance : float, optional
        The job's tolerance (±) of the rate. [-]
    columns : mapping of str to sequence of str, optional
        Labels of the rows, R in each: rank, box, feed shaft.

    Raises
    ------
    MeasurementError
        For fewer than 3 rows, or fewer than 3 that run; for catches of
        unequal length, weights below 0 or not a number, a catch with no
        seed; for any other input out of its range. ``field`` names it.

    Notes
    -----
    A drill with nothing wrong shows an odd row in 5% of catches, and a
    pattern in another 5%.

    References
    ----------
    Rosner (1983), Technometrics 25, 165–172, and Holm (1979), Scand. J.
    Statist. 6, 65–70, for odd rows; Vangel (1996), Am. Statistician 50,
    21–26, for the range of the CV, not read.

    Examples
    --------
    >>> from evenstand.engine.quantities.units import GRAM
    >>> grams = [101, 98, 103, 99, 100, 102, 60, 97]
    >>> even = evenness([[g * GRAM for g in grams]], resolution=GRAM)
    >>> print(even.findings[0].say)
    Treat as plugged: row 7, 40% below average.
    """
    _check(resolution=resolution, repeat_cv=repeat_cv, row_cv=row_cv)
    _check_shares(limit=limit, tolerance=tolerance)
    catch = row_catch(weights, numbers)
    contrasts = planned(of or max(catch.numbers), columns or {})
    reading = resolution / sqrt(6) / catch.mean
    seen = scatter(catch.relative, repeat_cv=repeat_cv, reading=reading)
    usual = usual_spread(row_cv, seen) if row_cv is not None else None
    odd = odd_rows(catch, seen, usual)
    faults = [each.row for each in odd]
    sound = sample_spread(catch.running, faults, seen)
    step = reading * reading / seen.catches
    tested = patterns(catch.running, contrasts, odd=faults, floor=step)
    told = findings(odd, _told(tested), seen)
    rows, running, held = _rows(catch, seen), len(catch.running), usual or sound
    crossed = crossing(catch.off, limit, sound) if limit is not None else None
    off = tuple(row for row in rows if tolerance is not None and abs(row.shrunk) > tolerance)
    sentences = [headline(told, seen)]
    if crossed:
        sentences.append(crossing_sentence(crossed))
    if tolerance is not None:
        sentences.append(tolerance_sentence([row.row for row in off], tolerance))
    return Evenness(
        mean=_mean(catch, seen),
        cv=_cv(seen, running),
        scatter=seen,
        rows=rows,
        odd_rows=odd,
        tested=tested,
        crossing=crossed,
        off_tolerance=off,
        finds=smallest_found(held, running),
        findings=told,
        say=join(sentences),
        next=next_thing(told, steps=catch.mean / resolution if resolution else inf),
        surer=surer(held, seen, rows=running, known=usual is not None),
        assumed=_assumed(seen),
        working=row_lines(catch, seen, odd=odd, spread=held),
    )


def _told(tested: Sequence[Pattern]) -> tuple[Pattern, ...]:
    return tuple(sorted((each for each in tested if each.told), key=lambda each: each.p))


def _rows(catch: RowCatch, seen: RowScatter) -> tuple[Row, ...]:
    reach = t_quantile(0.975, dof=seen.dof) * seen.noise
    return tuple(
        Row(
            row=row,
            weight=(1 + off) * catch.mean,
            off=off,
            low=off - reach,
            high=off + reach,
            shrunk=off if row in catch.plugged else off * seen.kept,
        )
        for row, off in catch.off.items()
    )


def _mean(catch: RowCatch, seen: RowScatter) -> Estimate:
    u = catch.mean * seen.noise / sqrt(len(catch.running))
    mean = uncertain(catch.mean, u, "catch-to-catch variation")
    return ranged(mean, {"catch-to-catch variation": Cause(dof=seen.dof, common=False)})


def _cv(seen: RowScatter, rows: int) -> Estimate:
    low, high = cv_range(seen.cv, n=rows)
    u = seen.cv * sqrt(1 / (2 * (rows - 1)) + seen.cv * seen.cv / rows)
    return Estimate(seen.cv, low, high, u, float(rows - 1))


def _assumed(seen: RowScatter) -> tuple[Phrase, ...]:
    if seen.test == "F":
        return ()
    noise = SHARE(seen.repeat_cv, 2)
    return (say("Catching alone is assumed to make one row vary by {noise}.", noise=noise),)


def _check(*, resolution: float, repeat_cv: float, row_cv: float | None) -> None:
    if not 0 <= resolution < inf:
        raise MeasurementError(
            "resolution", resolution, say("enter the scale's smallest step, or 0")
        )
    require_positive("repeat_cv", repeat_cv)
    if row_cv is not None and not 0 <= row_cv < inf:
        raise MeasurementError("row_cv", row_cv, say("enter 0 or more"))


def _check_shares(**shares: float | None) -> None:
    for field, share in shares.items():
        if share is not None and not 0 < share < 1:
            raise MeasurementError(field, share, say("enter a share above 0% and below 100%"))


def sampling(rows: int, rows_caught: int, cv: float) -> float:
    """How well the caught rows stand for all of them.

    u = CV × √((1 − rows caught ÷ rows) ÷ rows caught)

    Parameters
    ----------
    rows : int
        Rows of the drill that sow, ≥ 1.
    rows_caught : int
        Rows whose seed was caught, from 1 to ``rows``.
    cv : float
        Spread of the drill's rows about their mean, ≥ 0. [-]

    Returns
    -------
    float [-]
        Relative standard uncertainty of the drill's mean; 0 when every row
        was caught.

    Raises
    ------
    MeasurementError
        For any input out of its range; ``field`` names it.

    References
    ----------
    Cochran, Sampling Techniques, 3rd ed. (1977), theorem 2.2: finite
    population correction. From memory, the formula alone.

    Examples
    --------
    >>> [round(100 * sampling(24, r, cv=0.04), 1) for r in (1, 4, 24)]
    [3.9, 1.8, 0.0]
    """
    if not rows >= 1:
        raise MeasurementError("rows", rows, say("enter at least 1 row"))
    if not 1 <= rows_caught <= rows:
        need = say("enter 1 to {rows} rows", rows=rows)
        raise MeasurementError("rows_caught", rows_caught, need)
    if not cv >= 0:
        raise MeasurementError("cv", cv, say("enter 0 or more"))
    return cv * sqrt((1 - rows_caught / rows) / rows_caught)


def row_lines(
    catch: RowCatch, scatter: RowScatter, *, odd: Sequence[OddRow], spread: Spread
) -> tuple[Line, ...]:
    """Show the mean, the scatter and each odd row with its distance.

    Parameters
    ----------
    spread : Spread
        What the odd rows were held against.
    """
    cv = Line(
        say("Row-to-row variation (CV): standard deviation ÷ average"),
        SHARE(scatter.cv, 3),
        _weight(scatter.cv * catch.mean) / _weight(catch.mean),
        PRACTICE,
    )
    rows = [line for each in odd for line in _odd(catch, each, spread)]
    return (_mean_line(catch), cv, *rows)


def _mean_line(catch: RowCatch) -> Line:
    rows = [i for i, row in enumerate(catch.numbers) if row in catch.running]
    seed = fsum(weights[i] for weights in catch.weights for i in rows)
    terms = _weight(seed) / ROWS(len(catch.running))
    if len(catch.weights) > 1:
        terms /= CATCHES(len(catch.weights))
    return Line(
        say("Average of the running rows: their seed ÷ rows"), _weight(catch.mean), terms, PRACTICE
    )


def _odd(catch: RowCatch, odd: OddRow, spread: Spread) -> Iterator[Line]:
    weight = (1 + odd.off) * catch.mean
    yield Line(
        say("Row {row} as a share of the average", row=odd.row),
        SHARE(1 + odd.off, 3),
        _weight(weight) / _weight(catch.mean),
        PRACTICE,
    )
    yield Line(
        say("How far it is from a good row, in standard deviations"),
        NUMBER(odd.z, 3),
        SHARE(abs(odd.off), 3) / SHARE(spread.sd, 3),
        "Rosner (1983), Technometrics 25, 165–172; Holm (1979)",
    )


def _weight(kg: float) -> Amount:
    return CATCH(kg)
