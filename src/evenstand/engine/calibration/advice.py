"""What to say about the next setting: the one next thing, how sure, and what then.

Every sentence is a `Phrase`: a template that translators see, with its
amounts still in SI.
"""

from collections.abc import Sequence

from ..catch.rate import Measured
from ..catch.stopped import Stopped, what_stopped
from ..catch.surer import Cure
from ..catch.target import SURE, Target, odds_in_words
from ..drill.drill import Gear, Scale, move, number
from ..quantities.phrases import Phrase, say
from ..quantities.units import NUMBER, RATE, SHARE
from .choose import Candidate, CaughtAt, Choice, Odd

HALF = 0.5


def advise(
    choice: Choice,
    *,
    target: Target,
    last: CaughtAt | None,
    cure: Cure | None = None,
) -> tuple[Phrase, ...]:
    """Say where the lever goes, with which odds, and what to do after.

    Parameters
    ----------
    last : CaughtAt, optional
        The latest catch: where the lever stands now. None before any.
    cure : Cure, optional
        The best thing to do about what all catches share.

    Returns
    -------
    tuple of Phrase
        Sentences, the one next thing first.
    """
    if choice.ending == "no notch":
        return no_notch(choice, target)
    if choice.ending == "common limits":
        return common_limits(choice, target, cure=cure)
    go = whereto(choice.best, scale=choice.curve.scale, last=last, gears=choice.curve.drill.gears)
    if last is None:
        return say("{go}.", go=go), _first(choice, target), say("Then make a catch there.")
    sure = hope(choice.best, target)
    if choice.ending == "accepted":
        done = say(
            "Caught at this notch and accepted: start seeding, and weigh back the "
            "first load to make sure."
        )
        return say("{go}.", go=go), sure, done
    if choice.best.caught:
        return say("{go}, and catch again there.", go=go), sure, _wanted(choice.best)
    return say("{go}.", go=go), sure, say("Then make a catch there.")


def whereto(
    best: Candidate, *, scale: Scale, last: CaughtAt | None, gears: tuple[Gear, ...]
) -> Phrase:
    """Say which gear and which notch, slack taken up."""
    if len(gears) == 1:
        return move(scale, last.setting if last else None, best.setting)
    if last and last.gear == best.gear:
        go = move(scale, last.setting, best.setting)
        return say("{go}, in {gear} gear", go=go, gear=best.gear.name)
    go = move(scale, None, best.setting)
    return say("Put the drive in {gear} gear. {go}", gear=best.gear.name, go=go)


def hope(candidate: Candidate, target: Target) -> Phrase:
    """Say the odds of a notch: *9 in 10 that this puts the field within 5% of 54 lb/ac.*"""
    where = say("the field") if target.on == "field" else say("the stationary rate")
    return say(
        "{odds} odds this puts {where} within {tolerance} of {rate}.",
        odds=odds_in_words(candidate.odds),
        where=where,
        tolerance=SHARE(target.tolerance),
        rate=RATE(target.rate),
    )


def _wanted(best: Candidate) -> Phrase:
    if best.odds >= SURE:
        return say("That is right at the edge: one more catch will settle it.")
    return say("The goal is {odds} odds.", odds=odds_in_words(SURE))


def _first(choice: Choice, target: Target) -> Phrase:
    if not choice.curve.trusted:
        return say("You have no chart, so this is only a starting point.")
    return say("The chart alone: {hope}", hope=hope(choice.best, target))


def clear(found: Sequence[Stopped], *, setting: float | None = None) -> tuple[Phrase, ...]:
    """Say which rows stopped in a catch, and what to do: no lever advice comes from it.

    Parameters
    ----------
    found : sequence of Stopped, the emptiest first
    setting : float, optional
        Where the lever stands.
    """
    again = (
        say("Clear it and catch again.")
        if found[0].off == -1
        else say("Find out why, and catch again.")
    )
    said = [what_stopped(found), again]
    if setting is not None:
        said.append(say("Leave the lever at {setting}.", setting=number(setting)))
    return tuple(said)


def no_notch(choice: Choice, target: Target) -> tuple[Phrase, ...]:
    """Say that no notch puts the rate inside the band, and which come nearest."""
    best = choice.best
    gear = best.gear
    same = [c for c in choice.candidates if c.gear == gear]
    above = [c for c in same if c.rate.value >= target.rate]
    below = [c for c in same if c.rate.value < target.rate]
    nearest = [*sorted(below, key=_rate)[-1:], *sorted(above, key=_rate)[:1]]
    parts = [_no_notch_on(gear, choice.curve.drill.gears, target)]
    parts += [
        say("{setting} drops {rate}.", setting=number(c.setting), rate=RATE(c.rate.value))
        for c in nearest
    ]
    parts.append(say("Use another gear or sprocket, or choose a rate that a notch drops."))
    return tuple(parts)


def _rate(candidate: Candidate) -> float:
    return candidate.rate.value


def _no_notch_on(gear: Gear, gears: tuple[Gear, ...], target: Target) -> Phrase:
    rate, tolerance = RATE(target.rate), SHARE(target.tolerance)
    if len(gears) == 1:
        return say(
            "No notch will do it: none drops {rate} within {tolerance}.",
            rate=rate,
            tolerance=tolerance,
        )
    return say(
        "No notch in {gear} gear will do it: none drops {rate} within {tolerance}.",
        gear=gear.name,
        rate=rate,
        tolerance=tolerance,
    )


def common_limits(choice: Choice, target: Target, *, cure: Cure | None) -> tuple[Phrase, ...]:
    """Say that repeating cannot make it surer, and what can."""
    parts = [
        say(
            "Stay at {setting}: another catch like these won't tell you more.",
            setting=number(choice.best.setting),
        ),
        hope(choice.best, target),
    ]
    if cure is not None and cure.name == "the rows you didn't catch":
        parts.append(say("Catch more rows, not the same rows again: {cure}.", cure=cure.say))
    elif cure is not None:
        parts.append(
            say("Every catch shares one built-in error. To shrink it, {cure}.", cure=cure.say)
        )
    return tuple(parts)


def conflict(odd: Odd, caught: CaughtAt, *, trusted: bool, place: int | None = None) -> Phrase:
    """Say that a catch and what was believed before it cannot both be right.

    Parameters
    ----------
    caught : CaughtAt
        The catch it speaks of.
    trusted : bool
        Whether the curve started from a chart or from history.
    place : int, optional
        Its place among all catches made, where some are not learned from.
    """
    expected, gave = RATE(odd.expected), RATE(caught.rate)
    if odd.catch == 1 and trusted:
        return say(
            "Your chart can't be right: it says {expected} at {setting}, but the "
            "drill dropped {gave} stationary ({odds} odds by chance). From here "
            "on, the chart counts less.",
            expected=expected,
            setting=number(caught.setting),
            gave=gave,
            odds=odds_in_words(odd.odds),
        )
    return say(
        "Catch {catch} does not fit the others: {expected} was expected at "
        "{setting}, but it was {gave} stationary ({odds} odds by chance). Check "
        "bags, tare and turn count, and catch again.",
        catch=place or odd.catch,
        expected=expected,
        setting=number(caught.setting),
        gave=gave,
        odds=odds_in_words(odd.odds),
    )


def other_gear(caught: Gear, sown: Gear) -> Phrase:
    """Say what calibrating in one gear and sowing in another changes."""
    ratio = sown.ratio / caught.ratio
    part = say("half") if ratio == HALF else say("{n} times", n=NUMBER(ratio))
    return say(
        "Caught in {caught} gear, to be seeded in {sown} gear: the same turns "
        "will meter {part} the seed. The number of turns stays the same; the "
        "setting changes.",
        caught=caught.name,
        sown=sown.name,
        part=part,
    )


def out_of_reach(choice: Choice) -> Phrase:
    """Say what the drill can give at the most, where the target lies beyond it."""
    best = choice.best
    reach = RATE(best.rate.low), RATE(best.rate.high)
    return say(
        "no notch comes close: the nearest, {setting}, drops {low} to {high}; use"
        " another gear or check the chart",
        setting=number(best.setting),
        low=reach[0],
        high=reach[1],
    )


def of_one_catch(
    measured: Measured, target: Target | None, *, cure: Cure | None
) -> tuple[Phrase, ...]:
    """Say what one catch with its repeats tells, the one next thing first.

    Parameters
    ----------
    target : Target, optional
        The one that its verdict was given for.
    cure : Cure, optional
        The cheapest thing that makes it surer.
    """
    verdict = measured.verdict
    if target is None or verdict is None:
        return _without_target(measured, cure)
    rate = measured.static if target.on == "static" else measured.field
    odds = {"on target": verdict.odds_within, "light": verdict.odds_light}
    odds["heavy"] = verdict.odds_heavy
    if verdict.word == "cannot tell yet":
        return _cannot_tell(target, cure, odds=verdict.odds_within)
    if verdict.word == "on target":
        first = say("On target: leave the setting where it is.")
        return first, _within(target, verdict.odds_within)
    off = SHARE(abs(target.rate / rate.value - 1), 2)
    if verdict.word == "light":
        first = say("Running light: open the meter to drop {off} more, and catch again.", off=off)
        edge = say("below {limit}", limit=RATE(target.low))
    else:
        first = say("Running heavy: close the meter to drop {off} less, and catch again.", off=off)
        edge = say("above {limit}", limit=RATE(target.high))
    said = say("{odds} odds it is {edge}.", odds=odds_in_words(odds[verdict.word]), edge=edge)
    return first, said


def _without_target(measured: Measured, cure: Cure | None) -> tuple[Phrase, ...]:
    found = say(
        "The field gets {rate}, with 19 in 20 odds of being between {low} and {high}.",
        rate=RATE(measured.field.value),
        low=RATE(measured.field.low),
        high=RATE(measured.field.high),
    )
    return (found, say("To be more certain, {cure}.", cure=cure.say)) if cure else (found,)


def _cannot_tell(target: Target, cure: Cure | None, *, odds: float) -> tuple[Phrase, ...]:
    sure = say("No answer has 9 in 10 odds yet: on target, light or heavy.")
    within = _within(target, odds)
    if cure is None:
        return say("Too soon to tell: catch again."), within, sure
    return say("Too soon to tell. To be more certain, {cure}.", cure=cure.say), within, sure


def _within(target: Target, odds: float) -> Phrase:
    where = say("the field gets") if target.on == "field" else say("the stationary rate is")
    return say(
        "{odds} odds {where} within {tolerance} of {rate}.",
        odds=odds_in_words(odds),
        where=where,
        tolerance=SHARE(target.tolerance),
        rate=RATE(target.rate),
    )
