"""The Set step: where the lever goes next, how sure that is, and what then."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from math import fsum, sqrt

from evenstand.engine.calibration import advice
from evenstand.engine.calibration.chart import (
    Curve,
    curve_from_charts,
    curve_without_chart,
    with_history,
)
from evenstand.engine.calibration.choose import CaughtAt, Choice, choose, learn
from evenstand.engine.calibration.meter import expected_rate
from evenstand.engine.catch.rate import Measured, measure
from evenstand.engine.catch.stopped import Stopped
from evenstand.engine.catch.surer import Cure
from evenstand.engine.catch.target import BenchTarget, bench_target
from evenstand.engine.drill.drill import Gear, heading, taking_up
from evenstand.engine.quantities.errors import MeasurementError, Path
from evenstand.engine.quantities.phrases import Phrase, join, say
from evenstand.engine.quantities.working import Line
from evenstand.engine.quantities.written import put
from evenstand.engine.statistics.budget import Estimate, nominal

from ..job.calibration import CatchMade, Job
from .catch import Caught, catch

SETTLED = ("accepted", "common limits")
FIELD_ONLY = ("slip", "field ratio")  # shares that stand between a static rate and the field's


@dataclass(frozen=True, kw_only=True)
class CatchSeen:
    """A catch as it was made and as it was measured, and whether it fits what was believed.

    One in which a row ``stopped`` is not learned from.
    """

    KEYS = (
        *(put("setting", "made", "setting"), put("gear", "made", "gear", "name")),
        *(put("static_rate", "measured", "static"), put("field_rate", "measured", "field")),
        put("verdict", "measured", "verdict", "word"),
        *(put("odds_within", "measured", "verdict", "odds_within"), "fits", "stopped"),
        put("note", "made", "note"),
    )

    made: CatchMade
    measured: Measured
    fits: bool
    stopped: tuple[Stopped, ...]


@dataclass(frozen=True, kw_only=True)
class Setting:
    """Where the lever goes next.

    ``caught`` are the catches as measured, in the order they were made;
    ``learned`` are the numbers of those that are learned from, ``at`` the same
    as the meter sees them; ``start`` is the curve before any of them;
    ``bench`` the target as the stand must show it. ``advice`` are sentences,
    the one next thing first, ``notes`` what else must be known.
    """

    KEYS = (
        *(put("choose", "choice", "best"), "stop", put("ending", "choice", "ending"), "say"),
        *(put("candidates", "choice", "candidates"), "catches"),
        put("rate", "job", "target", "rate", within="target"),
        put("low", "job", "target", "low", within="target"),
        put("high", "job", "target", "high", within="target"),
        put("on", "job", "target", "on", within="target"),
        *(put("bench_rate", "bench", "rate", within="target"), "working"),
        *(put("taken_as", "assumed"), put("warnings", "job", "warnings")),
    )

    job: Job
    choice: Choice
    start: Curve
    caught: tuple[Caught, ...]
    learned: tuple[int, ...]
    at: tuple[CaughtAt, ...]
    bench: BenchTarget
    factor: float
    advice: tuple[Phrase, ...]
    notes: tuple[Phrase, ...]

    @property
    def say(self) -> Phrase:
        """All that is said, in one text."""
        return join([*self.advice, *self.notes])

    @property
    def assumed(self) -> tuple[Phrase, ...]:
        """What was taken without being written."""
        return self.job.assumed + (self.caught[-1].assumed if self.caught else ())

    @property
    def catches(self) -> tuple[CatchSeen, ...]:
        """Every catch so far."""
        odd = {self.learned[each.catch - 1] for each in self.choice.odd}
        return tuple(
            CatchSeen(
                made=made,
                measured=caught.measured,
                fits=number not in odd,
                stopped=caught.stopped,
            )
            for number, (made, caught) in enumerate(
                zip(self.job.catches, self.caught, strict=True), 1
            )
        )

    @property
    def working(self) -> tuple[Line, ...]:
        """The arithmetic of the last catch."""
        return self.caught[-1].measured.working if self.caught else ()

    @property
    def stop(self) -> bool:
        """Whether another catch is not what is needed."""
        return self.choice.ending != "go on" and not self.stopped

    @property
    def came_from(self) -> float | None:
        """Where the lever stands, in the gear of the best notch; None where that is not known."""
        last = self.at[-1] if self.at else None
        return last.setting if last and last.gear == self.choice.best.gear else None

    @property
    def heading(self) -> Phrase:
        """What to do with the lever, up to the number it is set to."""
        return heading(self.choice.curve.scale, self.came_from, self.choice.best.setting)

    @property
    def taking_up(self) -> Phrase | None:
        """From which side the lever comes to the next notch."""
        return taking_up(self.choice.curve.scale, self.came_from, self.choice.best.setting)

    @property
    def settled(self) -> bool:
        """Whether the best notch can be locked in: accepted, or nothing better can be had."""
        return self.choice.ending in SETTLED and not self.stopped

    @property
    def stopped(self) -> tuple[Stopped, ...]:
        """What stopped in the latest catch: there is no lever advice until it is made again."""
        return self.caught[-1].stopped if self.caught else ()


def where_next(job: Job) -> Setting:
    """Weigh every notch against the target, with what the catches so far tell.

    Raises
    ------
    MeasurementError
        For a catch that cannot be measured (field ``catch 2 rows_caught``)
        or a target that no notch comes near (field ``target``).
    """
    factor = _factor(job)
    caught = tuple(_measure(job, i) for i in range(len(job.catches)))
    measured = {i: each.measured for i, each in enumerate(caught, 1) if not each.stopped}
    at = _as_seen(job, measured)
    start = _start(job, factor)
    choice = choose(
        start,
        at,
        job.target,
        factor=factor,
        common=_common(
            list(measured.values()), left_out=FIELD_ONLY if job.target.on == "static" else ()
        ),
        dearer=job.dearer,
        gears=(job.sown_in,) if job.sown_in else None,
    )
    _refuse_out_of_reach(job, choice)
    bench = bench_target(job.target, slip=_slip(job), field_ratio=job.field_ratio)
    return Setting(
        job=job,
        choice=choice,
        start=start,
        caught=caught,
        learned=tuple(measured),
        at=at,
        bench=bench,
        factor=factor,
        advice=_advice(job, choice, caught=caught, at=at),
        notes=(
            *_together(choice, caught),
            *_notes(job, choice, at=dict(zip(measured, at, strict=True)), bench=bench),
        ),
    )


def _advice(
    job: Job, choice: Choice, *, caught: tuple[Caught, ...], at: Sequence[CaughtAt]
) -> tuple[Phrase, ...]:
    if caught and caught[-1].stopped:
        return advice.clear(caught[-1].stopped, setting=job.catches[-1].setting)
    last = at[-1] if at else None
    return advice.advise(choice, target=job.target, last=last, cure=_cure(caught))


def bench_rate(job: Job, setting: float, gear: Gear) -> Estimate:
    """Tell what the stand promises for a setting: slip counted, no field ratio. [kg/m²]"""
    measured = {
        i: measure([made.bags], run=made.run, drill=job.drill, scale=made.scale, prior=job.prior)
        for i, made in enumerate(job.catches, 1)
        if made.counts
    }
    plain = replace(job, field_ratio=1.0)
    curve, _ = learn(_start(plain, _factor(plain)), _as_seen(plain, measured))
    return expected_rate(
        curve.belief,
        curve.at(setting, gear),
        common=_common(list(measured.values())),
        factor=1 - _slip(job),
    )


def field_rate(found: Setting, setting: float, gear: Gear) -> Estimate:
    """Tell what a setting is looked for to give in the field. [kg/m²]"""
    curve = found.choice.curve
    return expected_rate(
        curve.belief,
        curve.at(setting, gear),
        common=_common([each.measured for each in found.caught if not each.stopped]),
        factor=_in_field(found.job),
    )


def _as_seen(job: Job, measured: Mapping[int, Measured]) -> tuple[CaughtAt, ...]:
    """Put catches as the meter sees them: those that were measured, by number."""
    made = dict(enumerate(job.catches, 1))
    return tuple(
        CaughtAt(
            setting=made[i].setting,
            gear=made[i].gear,
            rate=_at_stand(job, made[i], result),
            cv=result.per_catch,
        )
        for i, result in measured.items()
    )


def _measure(job: Job, index: int) -> Caught:
    made = job.catches[index]
    try:
        return catch(
            [made.bags],
            run=made.run,
            drill=job.drill,
            scale=made.scale,
            prior=job.prior,
            field_ratio=job.field_ratio,
            target=job.target,
            counted=made.counted,
        )
    except MeasurementError as refused:
        raise refused.at(Path("catch", index + 1, *refused.path)) from None


def _slip(job: Job) -> float:
    return nominal(job.wheel.slip) if job.wheel else 0.0


def _in_field(job: Job) -> float:
    """Field rate ÷ static rate. [-]"""
    return (1 - _slip(job)) * nominal(job.field_ratio)


def _factor(job: Job) -> float:
    """Wanted kind of rate ÷ static rate. [-]"""
    return _in_field(job) if job.target.on == "field" else 1.0


def _at_stand(job: Job, made: CatchMade, measured: Measured) -> float:
    """Rate at the stand; one caught in work is brought back to it. [kg/m²]"""
    rate = measured.static.value
    return rate / _in_field(job) if made.run.in_field else rate


def _start(job: Job, factor: float) -> Curve:
    """Begin with the charts, with the drill's own earlier rates, or with nothing."""
    if job.charts:
        curve = curve_from_charts(job.charts, job.drill, test_weight=job.test_weight)
    else:
        curve = curve_without_chart(job.drill, rate=job.target.rate / factor)
    if job.history:
        return with_history(curve, job.history, test_weight=job.test_weight)
    return curve


def _common(caught: Sequence[Measured], *, left_out: Sequence[str] = ()) -> float:
    """Relative uncertainty that all catches share, as the latest shows it. [-]"""
    if not caught:
        return 0.0
    measured = caught[-1]
    shares = (s for s in measured.shares if s.common and s.name not in left_out)
    return sqrt(fsum(s.u * s.u for s in shares)) / measured.field.value


def _cure(caught: Sequence[Caught]) -> Cure | None:
    """What to do about the largest error that all catches share."""
    if not caught or caught[-1].stopped:
        return None
    cures = {cure.name: cure for cure in caught[-1].cures}
    shared = [s.name for s in caught[-1].measured.shares if s.common and s.name in cures]
    return cures[shared[0]] if shared else None


def _refuse_out_of_reach(job: Job, choice: Choice) -> None:
    """Refuse a target that every notch misses by more than its range."""
    target = job.target
    near = any(c.rate.low <= target.high and c.rate.high >= target.low for c in choice.candidates)
    if not near and not choice.best.caught:
        raise MeasurementError("target", target.rate, advice.out_of_reach(choice))


def _together(choice: Choice, caught: Sequence[Caught]) -> tuple[Phrase, ...]:
    """Reconcile what the latest catch says by itself with what all say together."""
    verdict = caught[-1].measured.verdict if caught else None
    if choice.ending != "accepted" or verdict is None or verdict.word == "on target":
        return ()
    text = "Catch {n} by itself would not settle it; everything known together does."
    return (say(text, n=len(caught)),)


def _notes(
    job: Job, choice: Choice, *, at: Mapping[int, CaughtAt], bench: BenchTarget
) -> tuple[Phrase, ...]:
    notes = [
        advice.conflict(odd, caught, trusted=choice.curve.trusted, place=place)
        for odd in choice.odd
        for place, caught in list(at.items())[odd.catch - 1 : odd.catch]
    ]
    if bench.why is not None:
        notes.append(say("{why}.", why=bench.why))
    sown, last = job.sown_in or choice.best.gear, list(at.values())[-1:]
    notes += [advice.other_gear(each.gear, sown) for each in last if each.gear != sown]
    return tuple(notes)
