"""Patterns across a drill's rows: planned contrasts, held together by Holm."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from math import fsum
from typing import Annotated

from ..quantities.phrases import Phrase, say
from ..quantities.written import OR_NULL, PER_CENT, put
from ..statistics.outliers import holm
from ..statistics.variance import f_survival
from .contrasts import Contrast, Shape
from .scatter import ROUNDING

Deviations = Mapping[int, float]  # by row
Fit = Callable[[Deviations], dict[int, float]]  # what a model of the rows leaves unexplained

FALSE_ALARM = 0.05  # odds that a sound drill shows anything at all, of a family of tests
SWEEPS = 500


@dataclass(frozen=True, slots=True, kw_only=True)
class Pattern:
    """A pattern that was looked for, and what was seen of it.

    ``off`` is how much more the rows of ``group`` drop than the other rows of
    the contrast, as a share of the mean; for a slope, how much more the last
    row drops than the first. ``p`` is adjusted for all patterns looked for.
    ``told`` is whether it was found and is no echo of another that was.
    """

    KEYS = ("name", put("percent", "off"), "p", "rows", "period")

    shape: Shape
    name: Phrase
    group: Phrase
    rows: tuple[int, ...]
    off: Annotated[float, PER_CENT]
    statistic: float
    dof: tuple[int, int]
    p: float
    period: Annotated[int, OR_NULL] = 0
    told: bool = False

    @property
    def found(self) -> bool:
        """Whether the pattern is more than chance would make."""
        return self.p < FALSE_ALARM


@dataclass(frozen=True, slots=True)
class _Rows:
    """Rows that run, those of them that are odd, and the least variance they have."""

    offs: Deviations
    odd: frozenset[int]
    floor: float

    def kept(self, contrast: Contrast) -> dict[int, float]:
        rows = [row for row in self.offs if row in contrast.labels]
        sound = [row for row in rows if row not in self.odd]
        whole = _labels(contrast, sound) == _labels(contrast, rows)
        return {row: self.offs[row] for row in (sound if whole else rows)}


@dataclass(frozen=True, slots=True)
class _F:
    """A test of variances: F, its degrees of freedom, and p."""

    statistic: float
    dof: tuple[int, int]
    p: float

    @classmethod
    def of(cls, *, before: float, left: float, dof: tuple[int, int], floor: float) -> "_F":
        statistic = (before - left) / dof[0] / max(left / dof[1], floor)
        return cls(statistic, dof, f_survival(statistic, dof1=dof[0], dof2=dof[1]))


def patterns(
    offs: Deviations,
    contrasts: Iterable[Contrast],
    *,
    odd: Iterable[int] = (),
    floor: float = 0.0,
) -> tuple[Pattern, ...]:
    """Look for each contrast, and for a slope, in the rows that run.

    F = fall of the sum of squares ÷ (groups − 1) over the mean square that is
    left. A period is compared among neighbours, and must be seen against one
    slope across the drill as well: a slope alone is no period. p by Holm.

    Parameters
    ----------
    offs : mapping of int to float
        How far each row is from the mean, as a share of it. [-]
    odd : iterable of int
        Rows that are faults of their own: left out, so that one row does not
        make a pattern, unless a group would be left with none.
    floor : float
        Variance that the step of the scale makes: the mean square that is
        left is not taken below it. [-]

    Returns
    -------
    tuple of Pattern
        Every one that could be tested, in the order they were planned.

    References
    ----------
    Holm (1979), Scand. J. Statist. 6, 65–70. Unbalanced groups by alternating
    projections (von Neumann).
    """
    seen = _Rows(offs, frozenset(odd), max(floor, ROUNDING))
    contrasts = tuple(contrasts)
    tried = [*(_test(contrast, seen) for contrast in contrasts), _slope(seen)]
    tested = [pattern for pattern in tried if pattern]
    adjusted = holm([pattern.p for pattern in tested])
    tested = [replace(each, p=p) for each, p in zip(tested, adjusted, strict=True)]
    told = _told(tested, contrasts, seen)
    return tuple(replace(each, told=each in told) for each in tested)


def _told(tested: Sequence[Pattern], contrasts: Sequence[Contrast], seen: _Rows) -> list[Pattern]:
    """Leave out echoes: a poor half is a slope too, every 4th row every 8th, every 12th."""
    found = sorted((each for each in tested if each.found), key=lambda each: each.period)
    periods = {each.period: each for each in contrasts if each.period}
    names = [pattern.name for pattern in found if pattern.shape == "column"]
    columns = [each for each in contrasts if each.shape == "column" and each.name in names]
    sides = [pattern for pattern in found if pattern.shape in ("halves", "trend")]
    told = [pattern for pattern in found if pattern.shape in ("ends", "column")]
    told += sorted(sides, key=lambda pattern: -pattern.statistic)[:1]
    repeating = [
        pattern
        for pattern in found
        if pattern.period and not _echoes(periods[pattern.period], columns, seen)
    ]
    kept = repeating[:1]
    for pattern in repeating[1:]:
        longer, shorter = periods[pattern.period], periods[kept[0].period]
        if _adds(longer, shorter, seen) * len(repeating) < FALSE_ALARM:
            kept = [pattern]
    return [*told, *kept]


def _echoes(period: Contrast, columns: Sequence[Contrast], seen: _Rows) -> bool:
    """Whether a period only parts further what a column of the user has told already."""
    finer = [
        c for c in columns if all(len(_labels(c, g)) == 1 for g in period.partition(period.labels))
    ]
    return any(_beyond(period, column, seen) >= FALSE_ALARM for column in finer)


def _adds(longer: Contrast, shorter: Contrast, seen: _Rows) -> float:
    """Test what a multiple of a period explains beyond it: p, 1 for another length."""
    return 1.0 if longer.period % shorter.period else _beyond(longer, shorter, seen)


def _beyond(longer: Contrast, shorter: Contrast, seen: _Rows) -> float:
    """Test what the finer of two partitions explains beyond the other: p."""
    tests = _tests(longer, seen.kept(longer), floor=seen.floor, beyond=shorter)
    return max(test.p for test in tests)


def _test(contrast: Contrast, seen: _Rows) -> Pattern | None:
    kept = seen.kept(contrast)
    labels = set(contrast.labels.values())
    if _labels(contrast, kept) != labels or len(labels) < 2:
        return None
    if len(kept) - _blocks(contrast, kept) - len(labels) + 1 < 1:
        return None
    tests = _tests(contrast, kept, floor=seen.floor)
    off, label = _farthest(_centred(kept, contrast.block), contrast)
    return Pattern(
        shape=contrast.shape,
        name=contrast.name,
        group=contrast.group(label),
        rows=tuple(row for row, its in contrast.labels.items() if its == label),
        off=off,
        statistic=tests[0].statistic,
        dof=tests[0].dof,
        p=max(test.p for test in tests),
        period=contrast.period,
    )


def _tests(
    contrast: Contrast, kept: Deviations, *, floor: float, beyond: Contrast | None = None
) -> list[_F]:
    """Test the groups of a contrast among neighbours, and a period on one line across as well.

    With ``beyond`` what its groups explain is not counted.
    """
    fits: list[tuple[Fit, int]] = [
        (lambda offs: _centred(offs, contrast.block), _blocks(contrast, kept))
    ]
    if contrast.period:
        fits.append((_off_line, 2))
    groups = len(_labels(contrast, kept))
    known = [beyond.labels] if beyond else []
    more = groups - (len(_labels(beyond, kept)) if beyond else 1)
    return [
        _F.of(
            before=_left(kept, fit, *known),
            left=_left(kept, fit, contrast.labels),
            dof=(more, len(kept) - size - groups + 1),
            floor=floor,
        )
        for fit, size in fits
    ]


def _slope(seen: _Rows) -> Pattern | None:
    kept = {row: off for row, off in seen.offs.items() if row not in seen.odd}
    if len(kept) < 3:
        return None
    level, line = _centred(kept, lambda _: 0), _off_line(kept)
    fitted = {row: off - line[row] for row, off in kept.items()}
    dof = (1, len(kept) - 2)
    test = _F.of(before=_squares(level), left=_squares(line), dof=dof, floor=seen.floor)
    return Pattern(
        shape="trend",
        name=say("slope across the drill"),
        group=say("last row"),
        rows=(),
        off=fitted[max(kept)] - fitted[min(kept)],
        statistic=test.statistic,
        dof=test.dof,
        p=test.p,
    )


def _farthest(within: Deviations, contrast: Contrast) -> tuple[float, str]:
    """Group that differs most from all other rows; of two alike, the one that drops less."""
    apart = []
    labels = [contrast.about] if contrast.about else dict.fromkeys(contrast.labels.values())
    for label in labels:
        inside = [off for row, off in within.items() if contrast.labels[row] == label]
        others = [off for row, off in within.items() if contrast.labels[row] != label]
        apart.append((fsum(inside) / len(inside) - fsum(others) / len(others), label))
    return min(apart, key=lambda pair: (-abs(pair[0]), pair[0]))


def _labels(contrast: Contrast, rows: Iterable[int]) -> set[str]:
    return {contrast.labels[row] for row in rows}


def _blocks(contrast: Contrast, rows: Iterable[int]) -> int:
    return len({contrast.block(row) for row in rows})


def _left(offs: Deviations, fit: Fit, *groups: Mapping[int, str]) -> float:
    """Sum of squares that neither a fit nor groups explain."""
    left = fit(offs)
    before = now = _squares(left)
    for _ in range(SWEEPS if groups else 0):
        for labels in groups:
            left = fit(_centred(left, labels.__getitem__))
        now = _squares(left)
        if before - now <= 1e-13 * before:
            break
        before = now
    return now


def _off_line(offs: Deviations) -> dict[int, float]:
    """Take from each row the straight line through all of them."""
    middle, mean = fsum(offs) / len(offs), fsum(offs.values()) / len(offs)
    spread = fsum((row - middle) * (row - middle) for row in offs)
    slope = fsum((row - middle) * (off - mean) for row, off in offs.items()) / spread
    return {row: off - mean - slope * (row - middle) for row, off in offs.items()}


def _centred(offs: Deviations, key: Callable[[int], object]) -> dict[int, float]:
    """Take from each row the mean of the rows it stands with."""
    together: dict[object, list[float]] = {}
    for row, off in offs.items():
        together.setdefault(key(row), []).append(off)
    means = {name: fsum(values) / len(values) for name, values in together.items()}
    return {row: off - means[key(row)] for row, off in offs.items()}


def _squares(offs: Deviations) -> float:
    return fsum(off * off for off in offs.values())
