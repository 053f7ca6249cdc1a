"""Is it really going down at that rate? One box, so far: the answer and the one next thing."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf, isclose
from typing import Annotated, TypeAlias

from ..boxes.box import Box
from ..calibration.chart import Curve
from ..catch.target import Target, Verdict, judge, odds_in_words
from ..drill.drill import Gear, number
from ..order.loads import Passes
from ..quantities.errors import MeasurementError
from ..quantities.phrases import Phrase, Value, join, say
from ..quantities.units import FIELD, LOAD, RATE
from ..quantities.working import Line
from ..statistics.budget import Estimate, Quantity, Share, nominal
from .awaited import Awaited, Before, await_reading, unread
from .balance import Balance, balance_lines, doubts, follow
from .change_point import Turning, find_turning
from .cures import cure_of
from .events import Change, Event, assumptions
from .large import Large
from .lever import LeverMove, move_lever
from .runout import RunOut, next_load, run_out
from .steps import Known

MAY_RUN_OUT = 0.05  # odds from which it is said that seed may not suffice
READ_ALIKE = 0.002  # share by which two areas differ that read alike


@dataclass(frozen=True, slots=True, kw_only=True)
class Rest:
    """The field around what was sown so far.

    Parameters
    ----------
    ground : float
        Of the whole field, overlap twice. [m²]
    at_edge : Quantity, optional
        Seed for this box that is not in it yet; without it nothing is said of
        whether the seed suffices. [kg]
    heel : float
        What must stay in the box. [kg]

    Raises
    ------
    MeasurementError
        For ground not above zero, or seed below zero.
    """

    ground: float
    at_edge: Quantity | None = None
    heel: float = 0.0
    passes: Passes | None = None

    def __post_init__(self) -> None:
        if not self.ground > 0:
            raise MeasurementError("ground", self.ground, say("enter the area to seed"))
        for field, weight in (("at_edge", nominal(self.at_edge or 0.0)), ("heel", self.heel)):
            if not weight >= 0:
                raise MeasurementError(field, weight, say("enter a weight of 0 or more"))


@dataclass(frozen=True, slots=True, kw_only=True)
class LeverAt:
    """Where the lever stands, and what Set learned of the meter."""

    curve: Curve
    setting: float
    gear: Gear


@dataclass(frozen=True, slots=True, kw_only=True)
class Sowing:
    """A box so far.

    ``rate`` is the rate now with its 95% range [kg/m²], ``verdict`` the odds
    against the target; ``until`` the ground that the box still sows [m²].
    Until the box was read at its setting there is no verdict, but a reading
    that is ``awaited``; ``before`` is what was found before the lever was moved.
    ``next`` is the one thing to do, ``large`` the same with its number large;
    ``cure`` is what would narrow the range most.
    """

    balance: Balance
    rate: Annotated[Estimate, RATE]
    shares: tuple[Share, ...]
    verdict: Verdict | None
    awaited: Awaited | None
    before: Before | None
    turning: Turning | None
    until: Annotated[Estimate, FIELD]
    run_out: RunOut | None
    lever: LeverMove | None
    say: Phrase
    next: Phrase
    large: Large | None
    cure: Phrase | None
    warnings: tuple[Phrase, ...]
    assumed: tuple[Phrase, ...]
    working: tuple[Line, ...]

    @property
    def alarm(self) -> bool:
        """Whether 9 in 10 speak for a rate outside the band, or a change was found."""
        return self.turning is not None or (
            self.verdict is not None and self.verdict.word in ("light", "heavy")
        )


def sowing(
    events: Sequence[Event],
    known: Known,
    *,
    box: Box | None = None,
    holds: float = inf,
    rest: Rest | None = None,
    lever: LeverAt | None = None,
) -> Sowing:
    """Tell what a box sows, whether that is right, and what to do next.

    Parameters
    ----------
    events : sequence of Event, in the order of the area meter
    holds : float
        What goes into it, level full. [kg]
    rest : Rest, optional
        Without it nothing is said of the seed for the rest.
    lever : LeverAt, optional
        Without it nothing is said of where the lever should stand.

    Raises
    ------
    MeasurementError
        For events that cannot be; see `balance.follow`.

    Notes
    -----
    Where a change is found the rate now is that since the change.
    """
    balance = follow(events, known, box=box, holds=holds)
    turning = find_turning(balance)
    if turning is not None:
        balance = follow(events, known, box=box, holds=holds, jumps=(turning.shown,))
    rate, heel = balance.rate, rest.heel if rest else 0.0
    until = next_load(balance.seed - heel, rate=balance.rate_now, shown=balance.shown)
    first = unread(balance.events)
    waits = first is not None or not balance.stretches
    awaited = await_reading(balance, until=until, holds=holds) if waits else None
    verdict = judge(rate, known.target)
    left = _seed_left(balance, rest)
    move = None if awaited else _lever(lever, rate, known.target)
    to_sow = rest.ground - nominal(balance.ground) if rest else inf
    load = until.say(to_sow=to_sow), until.large(to_sow=to_sow)
    next_, large = _next(verdict, turning, left=left, moved=move, load=load)
    if awaited:
        next_, large = awaited.say, awaited.large
    return Sowing(
        balance=balance,
        rate=rate,
        shares=balance.shares,
        verdict=None if awaited else verdict,
        awaited=awaited,
        before=_before(sowing(events[:first], known, box=box, holds=holds)) if first else None,
        turning=turning,
        until=until.ground,
        run_out=left,
        lever=move,
        say=_expected(balance) if awaited else _headline(balance, verdict),
        next=next_,
        large=large,
        cure=cure_of(balance.shares),
        warnings=doubts(balance),
        assumed=(*known.assumed, *assumptions(events), *_stays(heel)),
        working=(*balance_lines(balance), *(left.working if left else ())),
    )


def _stays(heel: float) -> tuple[Phrase, ...]:
    return (say("{weight} stays in the box", weight=LOAD(heel)),) if heel else ()


def _seed_left(balance: Balance, rest: Rest | None) -> RunOut | None:
    """Seed against what is still to sow, None where the field is done or seed not known."""
    done = rest is None or not rest.ground > nominal(balance.ground)
    if done or rest is None or rest.at_edge is None:
        return None
    sown = nominal(balance.ground)
    return run_out(
        balance.seed + rest.at_edge - rest.heel,
        rate=balance.rate_now,
        ground=rest.ground - sown,
        done=sown,
        shown=balance.shown,
        passes=rest.passes,
    )


def _lever(lever: LeverAt | None, rate: Estimate, target: Target) -> LeverMove | None:
    if lever is None:
        return None
    return move_lever(lever.curve, rate, target, setting=lever.setting, gear=lever.gear)


def _before(found: Sowing) -> Before | None:
    """Say what was found at the setting before, None where nothing was read there either."""
    if found.verdict is None:
        return None
    text = (
        "Before the lever was moved, after {ground}, you were at {rate} ({low} to {high}): "
        "{verdict}."
    )
    said = say(text, **_rates(found.balance), verdict=_verdict(found.verdict))
    turning = [found.turning.say] if found.turning else []
    return Before(rate=found.rate, verdict=found.verdict, say=join([said, *turning]))


def _rates(balance: Balance) -> dict[str, Value]:
    rate = balance.rate
    return {
        "rate": RATE(rate.value),
        "low": RATE(rate.low),
        "high": RATE(rate.high),
        "ground": _where(balance),
        "target": RATE(balance.known.target.rate),
    }


def _headline(balance: Balance, verdict: Verdict) -> Phrase:
    text = "After {ground}, you are at {rate} ({low} to {high}); target {target}: {verdict}."
    return say(text, **_rates(balance), verdict=_verdict(verdict))


def _expected(balance: Balance) -> Phrase:
    """Say what the setting is expected to give, before a reading of it."""
    settings = [event.setting for event in balance.events if isinstance(event, Change)]
    values = _rates(balance)
    del values["ground"]
    if settings:
        text = "The lever is at {setting}: {rate} ({low} to {high}) expected, target {target}."
        return say(text, **values, setting=number(settings[-1]))
    if balance.known.expected is not None:
        return say("No reading yet: {rate} ({low} to {high}) expected, target {target}.", **values)
    del values["rate"]
    return say("No catch, no reading yet: {low} to {high} possible, target {target}.", **values)


def _where(balance: Balance) -> Value:
    """Say the ground so far as the meter showed it, and beside it what that comes to."""
    shown, ground = balance.events[-1].at - balance.events[0].at, nominal(balance.ground)
    if isclose(shown, ground, rel_tol=READ_ALIKE):
        return FIELD(ground)
    return say(
        "{shown} by the meter (corrected: {ground})", shown=FIELD(shown), ground=FIELD(ground)
    )


def _verdict(verdict: Verdict) -> Phrase:
    match verdict.word:
        case "on target":
            return say("on target, {odds} odds", odds=odds_in_words(verdict.odds_within))
        case "light":
            return say("light, {odds} odds", odds=odds_in_words(verdict.odds_light))
        case "heavy":
            return say("heavy, {odds} odds", odds=odds_in_words(verdict.odds_heavy))
    return say(
        "cannot tell yet, {odds} odds of being right", odds=odds_in_words(verdict.odds_within)
    )


Next: TypeAlias = tuple[Phrase, Large | None]


def _next(
    verdict: Verdict,
    turning: Turning | None,
    *,
    left: RunOut | None,
    moved: LeverMove | None,
    load: Next,
) -> Next:
    """Say the one next thing: a change first, then the lever, then seed, then the box."""
    if turning is not None:
        text = (
            "Stop the drill and shut off the tractor. Then check the meters, drive "
            "and flaps, and look for bridged seed. {what}"
        )
        return say(text, what=turning.say), None
    if verdict.word in ("light", "heavy"):
        return _off(verdict, moved)
    if left is not None and left.odds > MAY_RUN_OUT + 1e-9:
        return left.say, None
    return load


def _off(verdict: Verdict, moved: LeverMove | None) -> Next:
    if moved is not None:
        return moved.say, moved.large
    text = "Set the meter for more seed, and read the box again after a few passes."
    if verdict.word == "heavy":
        text = "Set the meter for less seed, and read the box again after a few passes."
    return say(text), None
