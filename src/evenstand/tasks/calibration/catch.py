"""What a catch says: rates, verdict, and what would make it surer."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Annotated

from evenstand.book.kinds.work import Wanted
from evenstand.engine.calibration.advice import clear, of_one_catch
from evenstand.engine.catch.rate import Measured, measure
from evenstand.engine.catch.stopped import Stopped, stopped
from evenstand.engine.catch.surer import Cure, Effort, cures, half_range
from evenstand.engine.catch.target import BenchTarget, Target, bench_target
from evenstand.engine.catch.weighing import Catch, Prior, WeighScale
from evenstand.engine.drill.drill import Drill
from evenstand.engine.drill.travel import Run
from evenstand.engine.quantities.errors import Path
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.quantities.units import RATE
from evenstand.engine.quantities.written import AS_TEXT, inside, put
from evenstand.engine.statistics.budget import Quantity, Share, nominal

from ..drill.machines import engine_drill, prior, value_of
from ..job.calibration import field_ratio, target, tolerance_taken, weigh_scales
from ..job.said import drill_in, run_in, test_weight_in, wanted_in, wheel_in
from ..parsing import reading
from ..parsing.given import Given
from ..parsing.warned import Warned, about, about_small, ask_about

LEAVE_IT = "leave it: it hardly matters"
WANTED = 0.05  # half range to reach where no tolerance was given


@dataclass(frozen=True)
class CuredShare:
    """A share of a range, and what would make it smaller."""

    KEYS = (
        *(put("name", "share", "name"), put("share", "share", "part")),
        *(put("common", "share", "common"), "cure"),
    )

    share: Share
    cure: Phrase | str


@dataclass(frozen=True, kw_only=True)
class Caught:
    """A measured catch, and what to do about each share of its range.

    ``wanted`` is what half its 95% range should come down to, as a share of
    the field rate. ``stopped`` are bags whose rows gave nothing or far less
    than the others: such a catch has no verdict and no cures.
    """

    KEYS = (
        *(put("static_rate", "measured", "static"), put("field_rate", "measured", "field")),
        put("verdict", "measured", "verdict", "word"),
        *inside(("measured", "verdict"), "odds_within", "odds_light", "odds_heavy"),
        *("stopped", "budget", put("surer", "cures"), put("say", "advice")),
        *inside(("measured",), "catch", "rows_caught", "repeats", "working"),
        *(put("taken_as", "assumed"), "warnings"),
    )

    measured: Measured
    target: Target | None
    bench: BenchTarget | None
    effort: Effort
    scale: WeighScale
    wanted: float
    assumed: tuple[Phrase, ...]
    stopped: tuple[Stopped, ...] = ()
    warnings: tuple[Warned, ...] = ()

    @cached_property
    def half(self) -> float:
        """Half the 95% range, as a share of the field rate."""
        return half_range(self.measured.shares, self.measured.field.value)

    @cached_property
    def cures(self) -> tuple[Cure, ...]:
        """What would make it surer; not asked of a catch that others came after."""
        if self.stopped:
            return ()
        rate, shares = self.measured.field.value, self.measured.shares
        return cures(shares, value=rate, wanted=self.wanted, effort=self.effort)

    @property
    def budget(self) -> tuple[CuredShare, ...]:
        """Where its range comes from, and what would make each share smaller."""
        cures: dict[str, Phrase] = {each.name: each.say for each in self.cures}
        return tuple(
            CuredShare(share, cures.get(share.name, LEAVE_IT)) for share in self.measured.shares
        )

    @property
    def advice(self) -> Annotated[tuple[Phrase, ...], AS_TEXT]:
        """What to do, in sentences, the one next thing first."""
        if self.stopped:
            return clear(self.stopped)
        unsure = self.cures and self.half > self.wanted
        return of_one_catch(self.measured, self.target, cure=self.cures[0] if unsure else None)


def catch(
    catches: Sequence[Catch],
    *,
    run: Run,
    drill: Drill,
    scale: WeighScale,
    prior: Prior,
    field_ratio: Quantity = 1.0,
    target: Target | None = None,
    wanted: float | None = None,
    counted: bool = False,
) -> Caught:
    """Measure a catch with its repeats.

    Parameters
    ----------
    run : Run
        A run in work is the field's own: no field ratio is put on it.
    field_ratio : Quantity
        Field rate ÷ static rate, slip counted. [-]
    wanted : float, optional
        Half range to reach, as a share; the target's tolerance without. [-]
    counted : bool
        Whether it counts though a row in it stopped.
    """
    found = () if counted else _stopped(catches, scale)
    ratio = 1.0 if run.in_field else field_ratio
    reach = wanted or (target.tolerance if target else WANTED)
    measured = measure(
        catches,
        run=run,
        drill=drill,
        scale=scale,
        prior=prior,
        field_ratio=ratio,
        target=None if found else target,
    )
    effort = effort_of(catches, measured, run=run, drill=drill, scale=scale, prior=prior)
    bench = bench_target(target, slip=run.slip, field_ratio=ratio) if target else None
    return Caught(
        measured=measured,
        target=target,
        bench=bench,
        effort=effort,
        scale=scale,
        wanted=reach,
        assumed=measured.assumed + _as_caught(run, field_ratio),
        stopped=found,
    )


def _stopped(catches: Sequence[Catch], scale: WeighScale) -> tuple[Stopped, ...]:
    """Find what stopped in a catch or in one of its repeats."""
    found = [one for bags in catches for one in stopped(bags, resolution=scale.resolution)]
    return tuple({one.bag: one for one in reversed(found)}.values())[::-1]


def effort_of(
    catches: Sequence[Catch],
    measured: Measured,
    *,
    run: Run,
    drill: Drill,
    scale: WeighScale,
    prior: Prior,
) -> Effort:
    """Say what was done for a catch, so that more of it can be named."""
    return Effort(
        rows_caught=measured.rows_caught,
        open_rows=drill.open_rows,
        repeats=measured.repeats,
        bags=len(catches[0]),
        turns=run.turns,
        by_crank=run.by_crank,
        row_length=nominal(run.distance) * measured.rows_caught,
        resolution=scale.resolution,
        row_cv=prior.row_cv,
        prior=prior,
    )


def _as_caught(run: Run, field_ratio: Quantity) -> tuple[Phrase, ...]:
    if run.in_field and nominal(field_ratio) != 1:
        return (say("field ratio not applied: the seed was caught while seeding"),)
    return ()


def read_catch(given: Given, again: Sequence[Given] = ()) -> Caught:
    """Read what was written for a catch and its repeats, and measure it.

    Parameters
    ----------
    again : sequence of Given
        Each repeat, under the key of the first: weights, gross or net.
    """
    reading.refuse_strays(given)
    machine, job = drill_in(given)
    wheel, wanted = wheel_in(given), _wanted(given)
    reach = given.share("tolerance", tag="tolerance") if "tolerance" in given else None
    with given.pointing(wheel="rolled"):
        drill = engine_drill(machine, job)
        run = run_in(given, drill, wheel)
        rows = reading.rows_caught(given, drill=drill, every="area" in given)
        catches = [reading.bags(each, rows=rows, drill=drill) for each in (given, *again)]
        scales = weigh_scales(job, [reading.as_typed(each) for each in (given, *again)])
        scale = max(scales, key=lambda each: each.resolution)
        found = catch(
            catches,
            run=run,
            drill=drill,
            scale=scale,
            prior=prior(machine),
            field_ratio=field_ratio(job),
            target=target(wanted) if wanted else None,
            wanted=None if reach is None else nominal(reach),
        )
    return replace(
        found,
        assumed=(
            *found.assumed,
            *reading.slip_as_written(wheel),
            *(tolerance_taken(wanted) if wanted else ()),
        ),
        warnings=_warnings(given, found, catches, resolution=scale.resolution),
    )


def _wanted(given: Given) -> Wanted | None:
    """Read the target, None where there is none."""
    if "target" not in given:
        return None
    return wanted_in(given, "target", of_seed=given)


def _warnings(
    given: Given, found: Caught, catches: Sequence[Catch], *, resolution: float
) -> tuple[Warned, ...]:
    weights = next(key for key in reading.WEIGHTS if key in given)
    return (
        *ask_about(given, test_weight=value_of(test_weight_in(given))),
        *about(Path("static", "rate"), found.measured.static.value, RATE),
        *about_small(given.path(weights), catches, resolution=resolution),
    )
