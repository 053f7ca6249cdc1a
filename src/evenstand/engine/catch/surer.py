"""What would make a result surer: for each share of the budget its cure.

Every cure is tried by itself: how far must it go so that the range reaches
what is wanted, and if it cannot, how far does it help. The cheapest that
reaches comes first.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from math import ceil, fsum, sqrt

from ..quantities.phrases import Phrase, say
from ..quantities.units import CATCHES, ROWS, SCALE_STEP, SHARE, TURNS
from ..quantities.written import put
from ..rows.evenness import sampling
from ..statistics.budget import Share, effective_dof
from ..statistics.distributions import t_quantile
from .weighing import Prior

# Time each step takes, a judgement that only orders the advice. [min]
MINUTES = {
    "row": 0.5,
    "turn": 0.1,
    "catch": 8.0,
    "scale": 30.0,
    "known weight": 5.0,
    "roll": 15.0,
    "width": 5.0,
    "field": 60.0,
}
MOST_TURNS = 400.0
MOST_OF_IT = 2 / 3  # of the narrowing that a remedy can give at its utmost
WORTH_A_LOOK = 0.01  # part of the variance below which a share is left alone
NO_GAIN = 0.98  # a remedy that leaves this much of the range is not worth the walk
MOST_CATCHES = 12
ROLLED_TO = 0.005  # limits (±) that rolling over five turns in the field gives
WIDTH_TO = 1 / 400  # limits (±) of a spacing taken from the whole width


@dataclass(frozen=True, slots=True, kw_only=True)
class Effort:
    """What was done for the catch, so that more of it can be named.

    Parameters
    ----------
    bags : int
        Bags that one catch was weighed in.
    turns : float or None
        Turns of one catch; None where no wheel was turned.
    by_crank : bool
        Whether they are those of a crank.
    row_length : float
        Length of all rows caught, together. [m]
    resolution : float
        Step of the scale. [kg]
    row_cv : float
        Spread of the rows. [-]
    prior : Prior
        How catches are expected to scatter with row length.
    """

    rows_caught: int
    open_rows: int
    repeats: int
    bags: int
    turns: float | None
    row_length: float
    resolution: float
    row_cv: float
    prior: Prior
    by_crank: bool = False

    def longer(self, times: float) -> dict[str, float]:
        """Factors on the variances when ``times`` the row length is caught in as many bags."""
        now, then = (self.prior.repeat(self.row_length * n) for n in (1, times))
        smaller = 1 / (times * times)
        return {
            "catch-to-catch variation": then * then / (now * now),
            "scale reading": smaller,
            "scale error": smaller,
        }


@dataclass(frozen=True, slots=True, kw_only=True)
class Cure:
    """One thing to do about one share, and the range it leads to.

    ``reach`` is half the 95% range as a share of the value after the cure;
    ``reaches`` says whether that is what was wanted.
    """

    KEYS = (put("share", "name"), "say", put("half_range", "reach"), "reaches")

    name: str
    say: Phrase
    reach: float
    reaches: bool
    minutes: float


@dataclass(frozen=True, slots=True)
class _Step:
    """Some amount of one remedy: factors on variances by share, cost, words."""

    factors: dict[str, float]
    minutes: float
    say: Phrase


Spread = Mapping[str, float]  # relative standard uncertainty by share
Remedy = Callable[[Effort, Spread], list[_Step]]


def cures(
    shares: Sequence[Share], *, value: float, wanted: float, effort: Effort
) -> tuple[Cure, ...]:
    """Find what would bring the range to the wanted width, cheapest first.

    Parameters
    ----------
    shares : sequence of Share
        Budget of the rate. [kg/m²]
    value : float
        The rate. [kg/m²]
    wanted : float
        Half the 95% range that is wanted, as a share of the value. [-]

    Returns
    -------
    tuple of Cure
        One for each share that has a cure worth doing; those that reach the
        wanted range first, by time, then the others by the range they lead to.
    """
    found = []
    spread = {share.name: share.u / value for share in shares}
    for share in shares:
        remedy = _REMEDIES.get(share.name) if share.part >= WORTH_A_LOOK else None
        steps = remedy(effort, spread) if remedy else []
        if not steps:
            continue
        tried = [(step, _reach(shares, value, step)) for step in steps]
        step, reach = _enough(tried, wanted=wanted, now=half_range(shares, value))
        if reach > NO_GAIN * half_range(shares, value):
            continue
        found.append(
            Cure(
                name=share.name,
                say=step.say,
                reach=reach,
                reaches=reach <= wanted,
                minutes=step.minutes,
            )
        )
    return tuple(sorted(found, key=lambda c: (not c.reaches, c.minutes if c.reaches else c.reach)))


def _enough(
    tried: Sequence[tuple[_Step, float]], *, wanted: float, now: float
) -> tuple[_Step, float]:
    """Pick the first step that reaches what is wanted, else most of what can be had."""
    goal = max(wanted, now - MOST_OF_IT * (now - min(reach for _, reach in tried)))
    return next(pair for pair in tried if pair[1] <= goal)


def half_range(shares: Sequence[Share], value: float) -> float:
    """Half the 95% range, as a share of the value. [-]"""
    u = sqrt(fsum(s.u * s.u for s in shares))
    return t_quantile(0.975, dof=effective_dof(shares)) * u / value


def _reach(shares: Sequence[Share], value: float, step: _Step) -> float:
    after = [
        Share(s.name, s.u * sqrt(step.factors.get(s.name, 1.0)), dof=s.dof, common=s.common)
        for s in shares
    ]
    return half_range(after, value)


def _more_rows(effort: Effort, _spread: Spread) -> list[_Step]:
    now = sampling(effort.open_rows, effort.rows_caught, cv=effort.row_cv)
    steps = []
    for rows in range(effort.rows_caught + 1, effort.open_rows + 1):
        part = sampling(effort.open_rows, rows, cv=effort.row_cv) / now if now else 0.0
        factors = effort.longer(rows / effort.rows_caught)
        if effort.bags > 1:  # each row in its own bag: more rows, more readings
            factors["scale reading"] *= rows / effort.rows_caught
        factors["the rows you didn't catch"] = part * part
        more = rows - effort.rows_caught
        text = say("catch another {rows}", rows=ROWS(more))
        if rows == effort.open_rows:
            text = say("catch all {rows}", rows=ROWS(rows))
        steps.append(_Step(factors, more * MINUTES["row"], text))
    return steps


def _more_turns(effort: Effort, _spread: Spread) -> list[_Step]:
    if effort.turns is None:
        return []
    steps = []
    for times in (1.5, 2, 3, 4, 6, 8, 10):
        turns = ceil(effort.turns * times)
        if turns > MOST_TURNS:
            break
        more = turns / effort.turns
        factors = effort.longer(more) | {"turn count": 1 / (more * more)}
        cost = (turns - effort.turns) * MINUTES["turn"] * effort.repeats
        text = "make {turns} instead"
        if effort.by_crank:
            text = "make {turns} of the crank instead"
        steps.append(_Step(factors, cost, say(text, turns=TURNS(turns))))
    return steps


def _more_catches(effort: Effort, _spread: Spread) -> list[_Step]:
    steps = []
    for more in range(1, MOST_CATCHES + 1):
        less = effort.repeats / (effort.repeats + more)
        factors = {"catch-to-catch variation": less, "turn count": less}
        text = say("make another {catches}", catches=CATCHES(more))
        steps.append(_Step(factors, more * MINUTES["catch"], text))
    return steps


def _finer_scale(effort: Effort, _spread: Spread) -> list[_Step]:
    steps = []
    for times in (2, 5, 10, 100):
        step = effort.resolution / times
        factors = {"scale reading": 1 / (times * times), "scale error": 1 / (times * times)}
        text = say("use a scale that reads to {step}", step=SCALE_STEP(step, 2))
        steps.append(_Step(factors, MINUTES["scale"], text))
    return steps


def _either(*remedies: Remedy) -> Remedy:
    def steps(effort: Effort, spread: Spread) -> list[_Step]:
        merged = [step for remedy in remedies for step in remedy(effort, spread)]
        return sorted(merged, key=lambda step: step.minutes)

    return steps


def _known_weight(_effort: Effort, _spread: Spread) -> list[_Step]:
    text = say("check the scale with a known weight and note how far off it is")
    return [_Step({"scale error": 0.04}, MINUTES["known weight"], text)]


def _roll(_effort: Effort, spread: Spread) -> list[_Step]:
    names = ("rolled distance", "taped circumference", "tire under load", "slip")
    now = sqrt(fsum(spread.get(name, 0.0) * spread.get(name, 0.0) for name in names))
    left = min(1.0, ROLLED_TO / sqrt(3) / now)
    factors = {name: left * left for name in names}
    text = say(
        "roll the loaded wheel five turns in that field and measure the distance to ± {limits}",
        limits=SHARE(ROLLED_TO),
    )
    return [_Step(factors, MINUTES["roll"], text)]


def _measure_width(_effort: Effort, spread: Spread) -> list[_Step]:
    left = min(1.0, WIDTH_TO / sqrt(3) / spread["row spacing"])
    text = say("measure from the first opener to the last and divide by the number of gaps")
    return [_Step({"row spacing": left * left}, MINUTES["width"], text)]


def _more_fields(_effort: Effort, _spread: Spread) -> list[_Step]:
    text = say("weigh back what is left after a known area: the field ratio gets more certain")
    return [_Step({"field ratio": 0.25}, MINUTES["field"], text)]


_REMEDIES: dict[str, Remedy] = {
    "the rows you didn't catch": _more_rows,
    "catch-to-catch variation": _either(_more_turns, _more_catches),
    "scale reading": _either(_more_turns, _finer_scale),
    "scale error": _either(_more_turns, _known_weight, _finer_scale),
    "turn count": _more_turns,
    "rolled distance": _roll,
    "taped circumference": _roll,
    "tire under load": _roll,
    "slip": _roll,
    "row spacing": _measure_width,
    "field ratio": _more_fields,
}
