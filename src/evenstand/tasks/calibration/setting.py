"""The Set step: where the lever goes next, how sure that is, and what then."""

from collections.abc import Sequence
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
from evenstand.engine.catch.surer import Cure
from evenstand.engine.catch.target import BenchTarget, bench_target
from evenstand.engine.drill.drill import Gear
from evenstand.engine.quantities.errors import MeasurementError, Path
from evenstand.engine.quantities.phrases import Phrase, join, say
from evenstand.engine.quantities.working import Line
from evenstand.engine.quantities.written import put
from evenstand.engine.statistics.budget import Estimate, nominal

from ..job.calibration import CatchMade, Job
from .catch import Caught, catch

FIELD_ONLY = ("slip", "field ratio")  # shares that stand between a static rate and the field's


@dataclass(frozen=True, kw_only=True)
class CatchSeen:
    """A catch as it was made and as it was measured, and whether it fits what was believed."""

    KEYS = (
        *(put("setting", "made", "setting"), put("gear", "made", "gear", "name")),
        *(put("static_rate", "measured", "static"), put("field_rate", "measured", "field")),
        put("verdict", "measured", "verdict", "word"),
        *(put("odds_within", "measured", "verdict", "odds_within"), "fits"),
        put("note", "made", "note"),
    )

    made: CatchMade
    measured: Measured
    fits: bool


@dataclass(frozen=True, kw_only=True)
class Setting:
    """Where the lever goes next.

    ``caught`` are the catches as measured, ``at`` as the meter sees them, in
    the order they were made; ``start`` is the curve before any of them;
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
        odd = {each.catch for each in self.choice.odd}
        return tuple(
            CatchSeen(made=made, measured=caught.measured, fits=number not in odd)
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
        return self.choice.ending != "go on"


def where_next(job: Job) -> Setting:
    """Weigh every notch against the target, with what the catches so far tell.

    Raises
    ------
    MeasurementError
        For a catch that cannot be measured (field ``catch 2 rows_caught``)
        or a target that no notch comes near (field ``target``).
    """
    factor = _factor(job)
    caught, at = _catches(job)
    start, measured = _start(job, factor), [each.measured for each in caught]
    choice = choose(
        start,
        at,
        job.target,
        factor=factor,
        common=_common(measured, left_out=FIELD_ONLY if job.target.on == "static" else ()),
        dearer=job.dearer,
        gears=(job.sown_in,) if job.sown_in else None,
    )
    _refuse_out_of_reach(job, choice)
    last = at[-1] if at else None
    bench = bench_target(job.target, slip=_slip(job), field_ratio=job.field_ratio)
    return Setting(
        job=job,
        choice=choice,
        start=start,
        caught=caught,
        at=at,
        bench=bench,
        factor=factor,
        advice=advice.advise(choice, target=job.target, last=last, cure=_cure(caught)),
        notes=_notes(job, choice, at=at, bench=bench),
    )


def bench_rate(job: Job, setting: float, gear: Gear) -> Estimate:
    """Tell what the stand promises for a setting: slip counted, no field ratio. [kg/m²]"""
    measured = [
        measure([made.bags], run=made.run, drill=job.drill, scale=job.scale, prior=job.prior)
        for made in job.catches
    ]
    plain = replace(job, field_ratio=1.0)
    curve, _ = learn(_start(plain, _factor(plain)), _as_seen(plain, measured))
    return expected_rate(
        curve.belief,
        curve.at(setting, gear),
        common=_common(measured),
        factor=1 - _slip(job),
    )


def field_rate(found: Setting, setting: float, gear: Gear) -> Estimate:
    """Tell what a setting is looked for to give in the field. [kg/m²]"""
    curve = found.choice.curve
    return expected_rate(
        curve.belief,
        curve.at(setting, gear),
        common=_common([each.measured for each in found.caught[-1:]]),
        factor=_in_field(found.job),
    )


def _catches(job: Job) -> tuple[tuple[Caught, ...], tuple[CaughtAt, ...]]:
    """Measure the catches, and put them as the meter sees them."""
    caught = tuple(_measure(job, i) for i in range(len(job.catches)))
    return caught, _as_seen(job, [each.measured for each in caught])


def _as_seen(job: Job, measured: Sequence[Measured]) -> tuple[CaughtAt, ...]:
    return tuple(
        CaughtAt(
            setting=made.setting,
            gear=made.gear,
            rate=_at_stand(job, made, result),
            cv=result.per_catch,
        )
        for made, result in zip(job.catches, measured, strict=True)
    )


def _measure(job: Job, index: int) -> Caught:
    made = job.catches[index]
    try:
        return catch(
            [made.bags],
            run=made.run,
            drill=job.drill,
            scale=job.scale,
            prior=job.prior,
            field_ratio=job.field_ratio,
            target=job.target,
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
    if not caught:
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


def _notes(
    job: Job, choice: Choice, *, at: Sequence[CaughtAt], bench: BenchTarget
) -> tuple[Phrase, ...]:
    notes = [
        advice.conflict(odd, at[odd.catch - 1], trusted=choice.curve.trusted) for odd in choice.odd
    ]
    if bench.why is not None:
        notes.append(say("{why}.", why=bench.why))
    sown = job.sown_in or choice.best.gear
    if at and at[-1].gear != sown:
        notes.append(advice.other_gear(at[-1].gear, sown))
    return tuple(notes)
