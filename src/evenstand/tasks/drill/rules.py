"""What must hold of a drill and of its charts, whoever writes them down."""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import isclose

from evenstand.book.kinds import machine
from evenstand.engine.calibration.chart import scaled_points
from evenstand.engine.quantities.errors import MeasurementError, Path
from evenstand.engine.quantities.phrases import Phrase, say

from .machines import engine_chart, engine_drill, engine_wheel, prior


def check_drill(drill: machine.Drill) -> None:
    """See that a drill's scale, gears, boxes and wheel make sense."""
    for field, need in wheel_refusals(
        rolled=drill.rolled is not None, taped=drill.taped is not None, slip=drill.slip is not None
    ):
        raise MeasurementError(field, None, need)
    prior(drill)
    check_once(Path("gears", "name"), [gear.name for gear in drill.gears])
    check_once(Path("boxes", "name"), [box.name for box in drill.boxes])
    for box in drill.boxes:
        if box.least and box.most and not box.least.value < box.most.value:
            raise MeasurementError(
                Path("boxes", "most"), box.most.value, say("enter more than the minimum")
            )
    for gear in drill.gears:
        _check_teeth(gear)
    engine_drill(drill)
    engine_wheel(drill.rolled, drill.taped, drill.slip)


def _check_teeth(gear: machine.Gear) -> None:
    if not gear.driver and not gear.driven:
        return
    if not gear.driven or not isclose(gear.driver / gear.driven, gear.ratio, rel_tol=1e-9):
        raise MeasurementError(
            Path("gears", "ratio"),
            gear.ratio,
            say("the driver and driven teeth make a different ratio"),
        )


def wheel_refusals(*, rolled: bool, taped: bool, slip: bool) -> Iterator[tuple[str, Phrase]]:
    """Yield what is wrong with what is known of a wheel, each with its field."""
    if rolled and taped:
        yield "taped", say("enter the rolled distance or the tape, not both")
    if rolled and slip:
        yield "slip", say("leave it blank: a rolled distance already includes slip")
    if taped and not slip and not rolled:
        yield "slip", say("a tape can't measure slip: enter slip too, such as 3 ± 2%")
    if slip and not taped and not rolled:
        yield "taped", say("slip goes with the tape measurement around the tire")


def check_chart(chart: machine.Chart, drill: machine.Drill) -> None:
    """See that a chart has points, each setting once, and fits the scale of its drill."""
    settings = sorted(point.setting for point in chart.points)
    if any(a == b for a, b in pairwise(settings)):
        raise MeasurementError("points", settings, say("enter each setting only once"))
    if chart.gear and drill.gears:
        engine_drill(drill).gear(chart.gear)
    made = engine_chart(chart, with_test_weight=True)
    if drill.scale:
        weight = chart.test_weight.value if chart.test_weight else None
        scaled_points(made, engine_drill(drill), test_weight=weight)


def check_once(field: Path, names: Sequence[object]) -> None:
    """See that each stands there once."""
    for i, name in enumerate(names):
        if name in names[:i]:
            raise MeasurementError(field, name, say("enter each only once"))
