"""The Set step's job by what the book says of it alone: its drill, its chart, its catches."""

from evenstand.book.kinds import machine
from evenstand.engine.calibration.chart import Chart
from evenstand.engine.quantities.errors import MeasurementError, Path
from evenstand.engine.quantities.phrases import Phrase, say

from ..drill.machines import engine_chart
from ..job.calibration import Job, job_of
from ..job.kept import Kept, catches_made, job_drill, job_wheel


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
    drill, wheel = job_drill(kept), job_wheel(kept)
    charts, printed = _charts(kept, chart)
    return job_of(
        kept.drill,
        kept.body,
        kept.wanted,
        names=(kept.drill.name, kept.box, kept.body.name),
        charts=charts,
        catches=catches_made(kept, drill=drill, wheel=wheel),
        printed=printed,
    )


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
