"""A job's Set step: the drill, what is known of it, the target, the catches; made of structs."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from evenstand.book.kinds import machine, work
from evenstand.book.kinds.shape import Typed
from evenstand.engine.calibration.chart import Chart
from evenstand.engine.calibration.choose import Dearer
from evenstand.engine.catch.stopped import stopped
from evenstand.engine.catch.target import Target
from evenstand.engine.catch.weighing import Catch, Prior, WeighScale, read_off
from evenstand.engine.drill.drill import Drill, Gear
from evenstand.engine.drill.travel import Run, Wheel
from evenstand.engine.parsing.parse import Reading
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.quantities.units import SHARE
from evenstand.engine.statistics.budget import Quantity

from ..drill.machines import engine_drill, prior, quantity, value_of, wheel_of
from ..parsing.reading import rows_shut, slip_as_written
from ..parsing.warned import Warned

TOLERANCE = 0.05  # taken, and said, where none was given


@dataclass(frozen=True, kw_only=True)
class CatchMade:
    """One catch: where the lever stood, what was turned, what the bags held.

    ``counted``: it counts though a row in it stopped, as somebody said.
    """

    setting: float
    gear: Gear
    bags: Catch
    run: Run
    scale: WeighScale
    counted: bool = False
    note: str = ""

    @property
    def counts(self) -> bool:
        """Whether it is learned from: no row stopped in it, or somebody said that it counts."""
        return self.counted or not stopped(self.bags, resolution=self.scale.resolution)


@dataclass(frozen=True, kw_only=True)
class Job:
    """All that the next setting is worked out from.

    ``names`` are those of drill, seed and field, as far as they were given;
    ``sown_in`` is the gear it will be sown in, where that was said.
    ``test_weight`` is this seed's [kg/m³], ``field_ratio`` field ÷ static. [-]
    """

    names: tuple[str, ...]
    drill: Drill
    wheel: Wheel | None
    charts: tuple[Chart, ...]
    history: tuple[Chart, ...]
    test_weight: float | None
    target: Target
    sown_in: Gear | None
    dearer: Dearer
    prior: Prior
    field_ratio: Quantity
    catches: tuple[CatchMade, ...]
    assumed: tuple[Phrase, ...]
    warnings: tuple[Warned, ...]


def job_of(
    drill: machine.Drill,
    body: work.Job,
    wanted: work.Wanted,
    *,
    names: Sequence[str],
    charts: tuple[Chart, ...],
    catches: tuple[CatchMade, ...],
    history: tuple[Chart, ...] = (),
    printed: tuple[Phrase, ...] = (),
    warnings: tuple[Warned, ...] = (),
) -> Job:
    """Make the Set step's job of what the book or a file says.

    Parameters
    ----------
    printed : tuple of Phrase
        What is taken of the charts as it is printed.
    """
    made, wheel = engine_drill(drill, body), wheel_of(drill, body)
    known = (*charts, *history)
    weight = wanted.test_weight if all(chart.test_weight is not None for chart in known) else None
    return Job(
        names=tuple(name for name in names if name),
        drill=made,
        wheel=wheel,
        charts=charts,
        history=history,
        test_weight=value_of(weight),
        target=target(wanted),
        sown_in=made.gear(wanted.gear) if wanted.gear else None,
        dearer=wanted.dearer,
        prior=prior(drill),
        field_ratio=field_ratio(body),
        catches=catches,
        assumed=(
            *slip_as_written(wheel),
            *tolerance_taken(wanted),
            *printed,
            *(rows_shut(made) if known else ()),
        ),
        warnings=warnings,
    )


def target(wanted: work.Wanted) -> Target:
    """Return the rate wanted with its tolerance.

    Raises
    ------
    MeasurementError
        For a rate with limits of its own, or what no target can be: ``target``, ``tolerance``.
    """
    if wanted.rate.give_or_take:
        need = say("enter it without ±: it is used as is")
        raise MeasurementError("target", wanted.rate.text, need)
    tolerance = wanted.tolerance.value if wanted.tolerance else TOLERANCE
    return Target(rate=wanted.rate.value, tolerance=tolerance, on=wanted.on)


def tolerance_taken(wanted: work.Wanted) -> tuple[Phrase, ...]:
    """Say which tolerance is taken where none was given."""
    if wanted.tolerance:
        return ()
    return (say("tolerance {tolerance}", tolerance=SHARE(TOLERANCE)),)


def weigh_scales(
    body: work.Job, typed: Sequence[Sequence[Reading]], *, own: Sequence[Typed | None] = ()
) -> tuple[WeighScale, ...]:
    """Return the scale that weighed each catch.

    Its step is the catch's ``own``, that of the job, or what the digits of its
    weights as ``typed`` tell.
    """
    usual = WeighScale(tolerance=value_of(body.scale_tolerance))
    steps = [step or body.resolution for step in own or [None] * len(typed)]
    told = zip(typed, steps, strict=True)
    scales = read_off([() if step else weights for weights, step in told], usual)
    return tuple(
        replace(usual, resolution=step.value) if step else scale
        for scale, step in zip(scales, steps, strict=True)
    )


def field_ratio(body: work.Job) -> Quantity:
    """Return field rate ÷ static rate, 1 where it is not known."""
    return quantity(body.field_ratio, "field ratio") if body.field_ratio else 1.0
