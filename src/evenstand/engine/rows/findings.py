"""What the rows of a drill show, in sentences: findings, the next thing, what would help."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from math import ceil, prod, sqrt

from ..quantities.phrases import Phrase, join, say
from ..quantities.units import CATCHES, NUMBER, SHARE
from ..quantities.written import put
from ..statistics.distributions import normal_cdf
from .catch import PLUGGED
from .causes import CAUSES, Check, Fault
from .contrasts import Shape
from .odd import OddRow, Spread, smallest_found
from .patterns import FALSE_ALARM, Pattern
from .scatter import RowScatter

ENOUGH_STEPS = 30.0  # steps of the scale in a row's weight, from where they do no harm
UNEVEN = 0.10  # CV up to which a test center says "very good" (quoted in the farm press)
WORTH_IT = 1.1  # another catch is worth its while where it finds faults so much smaller

_MORE, _LESS = say("more"), say("less")
_PATTERNS: Mapping[Shape, str] = {
    "halves": "The {group} drops {share} {way} than the other half.",
    "trend": (
        "The last row drops {share} {way} than the first, in a steady slope across the drill."
    ),
    "ends": "The outside rows drop {share} {way} than the ones between.",
    "period": "The rows follow a pattern, {name}: {group} drop {share} {way} than the rest.",
    "column": "By {name}, rows marked {group} drop {share} {way} than the rest.",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Crossing:
    """Rows outside a limit.

    ``by_chance`` is how often a drill whose sound rows differ as much as
    these has at least one row outside, with nothing wrong. [-]
    """

    limit: float
    rows: tuple[int, ...]
    by_chance: float


def crossing(offs: dict[int, float], limit: float, sound: Spread) -> Crossing:
    """Find the rows outside a limit.

    by chance = 1 − (1 − 2Φ(−limit ÷ sd))ᴿ

    Parameters
    ----------
    offs : dict of int to float
        How far each row is from the mean. [-]
    limit : float
        Share of the mean (±). [-]
    sound : Spread
        Of rows in which nothing was found.
    """
    inside = 1 - 2 * normal_cdf(-limit / sound.sd)
    return Crossing(
        limit=limit,
        rows=tuple(row for row, off in offs.items() if abs(off) > limit),
        by_chance=1 - prod([inside] * len(offs)),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One thing that the rows show, and what to check about it, in order."""

    KEYS = ("say", put("check", "checks", "say"))

    fault: Fault
    say: Phrase
    rows: tuple[int, ...]
    checks: tuple[Check, ...]


def findings(
    odd: Sequence[OddRow], found: Sequence[Pattern], seen: RowScatter
) -> tuple[Finding, ...]:
    """Tell what was found, the gravest first: plugged rows, odd rows, patterns.

    Rows that are uneven without any of these are a finding of their own.
    """
    stopped = [each for each in odd if each.off == -1]
    once = [each for each in odd if each.stopped_once]
    plugged = [each for each in odd if each.plugged and each not in (*stopped, *once)]
    others = sorted((each for each in odd if not each.plugged), key=lambda each: -abs(each.off))
    below = "Treat as plugged: {rows}, {share} or more below average."
    if len(plugged) == 1:
        below = "Treat as plugged: {rows}, {share} below average."
    told = [
        *_plugged("Plugged: {rows}, no seed at all.", stopped),
        *_plugged("No seed in one catch, seed in another: {rows}.", once),
        *_plugged(below, plugged),
        *map(_odd, others),
        *map(_pattern, found),
    ]
    if not told and seen.p < FALSE_ALARM and seen.row_cv > UNEVEN:
        told = [_uneven(seen)]
    return tuple(told)


def headline(told: Sequence[Finding], seen: RowScatter) -> Phrase:
    """Say in a few sentences how even the rows are."""
    parts = [finding.say for finding in told]
    if not told:
        parts.append(say("No single row is off, and no pattern shows."))
    return join([*parts, _unevenness(seen)])


def crossing_sentence(crossed: Crossing) -> Phrase:
    """Say what is outside the user's own limit, and do not call it a fault."""
    limit = SHARE(crossed.limit)
    if not crossed.rows:
        return say("No row is outside your ± {limit} limit.", limit=limit)
    text = (
        "Outside your ± {limit} limit: {rows}. With rows this uneven, one ends up"
        " there by chance in {odds} of catches."
    )
    odds = SHARE(crossed.by_chance, 2)
    return say(text, limit=limit, rows=named(crossed.rows), odds=odds)


def tolerance_sentence(rows: Sequence[int], tolerance: float) -> Phrase:
    """Say which rows miss the tolerance of the rate when the drill as a whole meets it."""
    share = SHARE(tolerance)
    if not rows:
        text = "With the average on target, every row is within ± {share}, noise removed."
        return say(text, share=share)
    text = "Even with the average on target, {rows} would miss ± {share}, noise removed."
    return say(text, rows=named(rows), share=share)


def next_thing(told: Sequence[Finding], *, steps: float) -> Phrase:
    """Say the one thing to do now.

    Parameters
    ----------
    steps : float
        Steps of the scale in the weight of a row; infinite where unknown.
    """
    plugged = bool(told) and told[0].fault in ("nothing", "together")
    if steps < ENOUGH_STEPS and not plugged:
        return say(
            "Make the run {times} times as long: a row weighs only {steps} steps on the scale.",
            times=ceil(ENOUGH_STEPS / steps),
            steps=NUMBER(steps, 2),
        )
    if not told:
        return say("Nothing to fix: go on to the setting.")
    rows = named(told[0].rows)
    go = say("Go check {rows}.", rows=rows) if told[0].rows else say("Go check the drill.")
    return join([go, told[0].checks[0].say, say("Then catch all the rows again.")])


def surer(held: Spread, seen: RowScatter, *, rows: int, known: bool) -> Phrase:
    """Say how small a fault would be found, and what would find a smaller one.

    Parameters
    ----------
    held : Spread
        What odd rows are held against.
    rows : int
        Rows that run. [row]
    known : bool
        Whether the drill's usual row scatter was given.
    """
    now, more = smallest_found(held, rows), seen.catches + 1
    then = now * _after_one_more(held.sd, seen)
    text = "A row {now} off is found 9 times in 10."
    if now > PLUGGED:
        text = "Apart from a plugged row, nothing under {now} off is found 9 times in 10."
    found = say(text, now=SHARE(now, 2))
    if now > WORTH_IT * then:
        text = "Repeat the catch: {catches} would also find a row {then} off."
        advice = say(text, catches=CATCHES(more), then=SHARE(then, 2))
    elif known:
        advice = say("More catches won't help much: the rows really do differ.")
    else:
        advice = say(
            "More catches won't help much: the rows really do differ. It would "
            "help to know how much this drill's rows vary when all is well."
        )
    return join([found, advice])


def _after_one_more(sd: float, seen: RowScatter) -> float:
    """Part of the spread that is left when the catch is made once more."""
    noise = seen.noise / sd
    return sqrt(1 - noise * noise / (seen.catches + 1))


def _unevenness(seen: RowScatter) -> Phrase:
    cv, noise = SHARE(seen.cv, 2), SHARE(seen.noise, 2)
    if seen.p >= FALSE_ALARM:
        text = "Rows vary by {cv} (CV), no more than catching alone can cause ({noise})."
        return say(text, cv=cv, noise=noise)
    text = "Rows vary by {cv} (CV): {rows} from the rows themselves, {noise} from catching."
    return say(text, cv=cv, noise=noise, rows=SHARE(seen.row_cv, 2))


def named(rows: Iterable[int]) -> Phrase:
    """Name rows by number, runs of three or more as such: rows 1–12, 14."""
    rows = tuple(rows)
    return say("row {rows}" if len(rows) == 1 else "rows {rows}", rows=listed(rows))


def listed(rows: Sequence[int]) -> str:
    """Write rows in order, three or more neighbors as a run: 1–12, 14."""
    runs: list[list[int]] = []
    for row in rows:
        if runs and row == runs[-1][-1] + 1:
            runs[-1].append(row)
        else:
            runs.append([row])
    pieces = [[f"{run[0]}–{run[-1]}"] if len(run) > 2 else map(str, run) for run in runs]
    return ", ".join(piece for run in pieces for piece in run)


def _uneven(seen: RowScatter) -> Finding:
    text = "All rows are uneven, and no single row is far off: {cv} row to row."
    return Finding(
        fault="uneven",
        say=say(text, cv=SHARE(seen.row_cv, 2)),
        rows=(),
        checks=CAUSES["uneven"],
    )


def _plugged(text: str, odd: Sequence[OddRow]) -> list[Finding]:
    """Tell of plugged rows; three neighbours or more have something in common."""
    if not odd:
        return []
    rows = tuple(each.row for each in odd)
    together = any({row + 1, row + 2} <= set(rows) for row in rows)
    fault: Fault = "together" if together else "nothing"
    share = SHARE(min(abs(each.off) for each in odd), 2)
    text_of = say(text, rows=named(rows), share=share)
    return [Finding(fault=fault, say=text_of, rows=rows, checks=CAUSES[fault])]


def _odd(each: OddRow) -> Finding:
    fault: Fault = "low" if each.off < 0 else "high"
    return Finding(
        fault=fault,
        say=say(
            "Row {row} drops {share} {way} than average.",
            row=each.row,
            share=SHARE(abs(each.off), 2),
            way=_LESS if each.off < 0 else _MORE,
        ),
        rows=(each.row,),
        checks=CAUSES[fault],
    )


def _pattern(each: Pattern) -> Finding:
    fault: Fault = "ranks" if each.period in (2, 3) else each.shape
    return Finding(
        fault=fault,
        say=say(
            _PATTERNS[each.shape],
            name=each.name,
            group=each.group,
            share=SHARE(abs(each.off), 2),
            way=_LESS if each.off < 0 else _MORE,
        ),
        rows=each.rows,
        checks=CAUSES[fault],
    )
