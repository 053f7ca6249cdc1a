"""The Set step's job by what the book says of it alone: its drill, its chart, its catches."""

from dataclasses import replace

from evenstand.book.kinds import machine, work
from evenstand.engine.calibration.chart import Chart
from evenstand.engine.catch import weighing
from evenstand.engine.quantities.errors import MeasurementError, Path
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.quantities.units import SHARE
from evenstand.engine.statistics.budget import Quantity

from ..drill.machines import engine_chart, prior, quantity
from ..job.calibration import Job
from ..job.kept import Kept, catch_body, catch_made, job_drill, job_wheel, target
from ..parsing.reading import TOLERANCE, rows_shut, slip_as_written


def caught_job(kept: Kept, chart: machine.Chart | None) -> Job:
    """Make the job of the Set step, nothing of other jobs in it.

    Parameters
    ----------
    chart : Chart, optional
        That a box begins from.

    Raises
    ------
    MeasurementError
        Naming what is missing: ``drill``, ``wanted``, ``drill scale``.
    """
    if kept.drill is None:
        raise MeasurementError("drill", None, say("choose the drill first"))
    if kept.wanted is None:
        raise MeasurementError("wanted", None, say("enter the target rate first"))
    if kept.drill.scale is None:
        raise MeasurementError(Path("drill", "scale"), None, say("enter the lever's scale first"))
    drill = job_drill(kept)
    wheel = job_wheel(kept)
    charts, printed = _charts(kept, chart)
    return Job(
        names=_names(kept),
        drill=drill,
        wheel=wheel,
        charts=charts,
        history=(),
        test_weight=_test_weight(kept.wanted, charts),
        target=target(kept.wanted),
        sown_in=drill.gear(kept.wanted.gear) if kept.wanted.gear else None,
        dearer=kept.wanted.dearer,
        scale=_weigh_scale(kept.body),
        prior=prior(kept.drill),
        field_ratio=_field_ratio(kept.body),
        catches=tuple(
            catch_made(kept, catch_body(t), drill=drill, wheel=wheel) for t in kept.catches
        ),
        assumed=(
            *slip_as_written(wheel),
            *_tolerance_taken(kept.wanted),
            *printed,
            *(rows_shut(drill) if charts else ()),
        ),
        warnings=(),
    )


def _tolerance_taken(wanted: work.Wanted) -> tuple[Phrase, ...]:
    if wanted.tolerance:
        return ()
    return (say("tolerance {tolerance}", tolerance=SHARE(TOLERANCE)),)


def _charts(
    kept: Kept, chosen: machine.Chart | None
) -> tuple[tuple[Chart, ...], tuple[Phrase, ...]]:
    """Return the chart to begin from, and what is taken as printed.

    A chart is scaled by test weight only where both its own and this seed's are known.
    """
    if chosen is None:
        return (), ()
    both = bool(chosen.test_weight and kept.wanted and kept.wanted.test_weight)
    said = say("chart used as printed: the test weights of its seed and of yours are not known")
    return (engine_chart(chosen, with_test_weight=both),), () if both else (said,)


def _test_weight(wanted: work.Wanted, charts: tuple[Chart, ...]) -> float | None:
    """Return this seed's test weight, where the chart it begins from has its own. [kg/m³]"""
    if wanted.test_weight is None or any(chart.test_weight is None for chart in charts):
        return None
    return wanted.test_weight.value


def _weigh_scale(body: work.Job) -> weighing.WeighScale:
    scale = weighing.WeighScale()
    if body.resolution:
        scale = replace(scale, resolution=body.resolution.value)
    if body.scale_tolerance:
        scale = replace(scale, tolerance=body.scale_tolerance.value)
    return scale


def _field_ratio(body: work.Job) -> Quantity:
    return quantity(body.field_ratio, "field ratio") if body.field_ratio else 1.0


def _names(kept: Kept) -> tuple[str, ...]:
    names = [kept.drill.name if kept.drill else "", kept.box, kept.body.name]
    return tuple(name for name in names if name)
