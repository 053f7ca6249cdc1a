"""Which way to move the lever on the way, and how far, or to leave it."""

from dataclasses import dataclass
from math import fsum, sqrt
from typing import Annotated

from ..calibration.chart import Curve
from ..calibration.choose import BETTER_BY
from ..calibration.meter import predict
from ..catch.target import Target, Verdict, judge, odds_in_words
from ..drill.drill import Gear, heading, move, number, taking_up
from ..quantities.errors import MeasurementError
from ..quantities.phrases import Inline, Phrase, say
from ..quantities.units import RATE
from ..quantities.written import put
from ..statistics.budget import Estimate, Quantity, normal_range, uncertain
from ..statistics.vectors import Vector, dot
from .large import Large


@dataclass(frozen=True, slots=True, kw_only=True)
class LeverMove:
    """What to do about the lever.

    ``setting`` is where it should stand and ``rate`` what that gives in the
    field [kg/m²]; ``factor`` is new rate ÷ old with its standard uncertainty
    ``factor_u`` [-]. ``leave`` says that it stays where it is.
    """

    KEYS = ("setting", "leave", "rate", put("odds", "verdict", "odds_within"), "say")

    setting: float
    rate: Annotated[Estimate, RATE]
    verdict: Verdict
    factor: float
    factor_u: float
    leave: bool
    say: Phrase
    large: Large


def move_lever(
    curve: Curve, rate: Estimate, target: Target, *, setting: float, gear: Gear
) -> LeverMove:
    """Choose the notch that brings the field's rate nearest to the target.

    new field rate = field rate × curve at the new setting ÷ curve at the old

    Parameters
    ----------
    curve : Curve
        What Set learned of the meter: its shape is taken, not its height.
    rate : Estimate
        Of the field, at the setting in use. [kg/m²]
    setting : float
        Where the lever stands. [-]

    Returns
    -------
    LeverMove
        To leave it where no notch has clearly better odds.

    Raises
    ------
    MeasurementError
        For a setting off the scale.
    """
    curve.scale.check(setting)
    here = judge(rate, target)
    stay = _Notch(setting, rate, here, 1.0, 0.0)
    notches = [
        _at(curve, rate, target, old=curve.at(setting, gear), new=(s, curve.at(s, gear)))
        for s in curve.scale.settings()
        if s != setting
    ]
    best = max(
        (notch for notch in notches if notch is not None),
        key=lambda notch: (notch.verdict.odds_within, -abs(notch.rate.value - target.rate)),
        default=stay,
    )
    leave = best.verdict.odds_within < stay.verdict.odds_within + BETTER_BY
    chosen = stay if leave else best
    return LeverMove(
        setting=chosen.setting,
        rate=chosen.rate,
        verdict=chosen.verdict,
        factor=chosen.factor,
        factor_u=chosen.factor_u,
        leave=leave,
        say=_leave(here, setting=setting) if leave else _move(curve, stay, best),
        large=_large(curve, stay, chosen),
    )


def lever_factor(
    curve: Curve, old: float, new: float, *, gear: Gear, then: Gear | None = None
) -> Quantity:
    """Rate at one setting ÷ rate at another, by the shape of the curve.

    Parameters
    ----------
    old, new : float
        Settings. [-]
    then : Gear, optional
        The gear at the new setting, where it was changed too.

    Returns
    -------
    Quantity [-]

    Raises
    ------
    MeasurementError
        For a setting off the scale, or one at which nothing flows.
    """
    for setting in (old, new):
        curve.scale.check(setting)
    found = _factor(curve, curve.at(old, gear), curve.at(new, then or gear))
    if found is None:
        raise MeasurementError("setting", new, say("enter a setting that lets seed flow"))
    return uncertain(found[0], found[1], "the lever change")


@dataclass(frozen=True, slots=True)
class _Notch:
    setting: float
    rate: Estimate
    verdict: Verdict
    factor: float
    factor_u: float


def _factor(curve: Curve, old: Vector, new: Vector) -> tuple[float, float] | None:
    """New rate ÷ old and its standard uncertainty, None where nothing flows."""
    here, there = predict(curve.belief, old)[0], predict(curve.belief, new)[0]
    if here <= 0 or there <= 0:
        return None
    relative = [a / there - b / here for a, b in zip(new, old, strict=True)]
    variance = fsum(
        d * dot(row, relative) for d, row in zip(relative, curve.belief.spread, strict=True)
    )
    factor = there / here
    return factor, factor * curve.belief.scatter * sqrt(max(0.0, variance))


def _at(
    curve: Curve, rate: Estimate, target: Target, *, old: Vector, new: tuple[float, Vector]
) -> _Notch | None:
    """What a notch would give, None where the curve says that nothing flows."""
    setting, x = new
    found = _factor(curve, old, x)
    if found is None:
        return None
    factor, own = found
    value, part, more = rate.value * factor, rate.u / rate.value, own / factor
    u = value * sqrt(part * part + more * more)
    reached = normal_range(value, u)
    return _Notch(setting, reached, judge(reached, target), factor, own)


def _leave(verdict: Verdict, *, setting: float) -> Phrase:
    if verdict.word == "on target":
        text = "Leave the lever at {setting}: {odds} odds the rate is right."
        return say(text, setting=number(setting), odds=odds_in_words(verdict.odds_within))
    return say(
        "Leave the lever at {setting}: no other notch is clearly better.", setting=number(setting)
    )


def _move(curve: Curve, stay: _Notch, best: _Notch) -> Phrase:
    moved, gives = move(curve.scale, stay.setting, best.setting), _gives(stay, best)
    return say("{move}: {gives}", move=moved, gives=Inline(gives.template, gives.values))


def _large(curve: Curve, stay: _Notch, best: _Notch) -> Large:
    scale, old, new = curve.scale, stay.setting, best.setting
    if best is stay:
        return Large(heading(scale, old, new), number(new), ())
    takes_up = taking_up(scale, old, new)
    after = (_gives(stay, best),) if takes_up is None else (takes_up, _gives(stay, best))
    return Large(heading(scale, old, new), number(new), after)


def _gives(stay: _Notch, best: _Notch) -> Phrase:
    return say(
        "That should give about {rate}, with {odds} odds of being right "
        "({now} odds where it is now).",
        rate=RATE(best.rate.value),
        odds=odds_in_words(best.verdict.odds_within),
        now=odds_in_words(stay.verdict.odds_within),
    )
