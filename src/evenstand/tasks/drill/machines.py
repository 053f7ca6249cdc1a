"""Drills and their charts: from the book to the engine, and from what was typed to the book."""

from msgspec.structs import asdict

from evenstand.book.kinds import machine as kept
from evenstand.book.kinds.shape import Typed
from evenstand.book.kinds.work import Catch, Job
from evenstand.engine.calibration.chart import Chart
from evenstand.engine.catch.weighing import Prior
from evenstand.engine.drill.drill import Drill, Gear, Scale
from evenstand.engine.drill.travel import Run, Wheel, driven, rolled, sown, taped, turned
from evenstand.engine.quantities.errors import MeasurementError, require_share
from evenstand.engine.quantities.phrases import say
from evenstand.engine.statistics.budget import Quantity
from evenstand.engine.statistics.budget import give_or_take as within

RATIO_NEEDED = say("enter how many crank turns make one wheel turn")
WHEEL_NEEDED = say(
    "enter the distance rolled in one turn, or the tape around the tire with its slip"
)


def quantity(typed: Typed, tag: str) -> Quantity:
    """Return an amount that was kept, uncertain where its limits were typed."""
    return within(typed.value, typed.give_or_take, tag) if typed.give_or_take else typed.value


def value_of(typed: Typed | None) -> float | None:
    """Return what an amount is in SI, None where there is none."""
    return typed.value if typed else None


def engine_drill(drill: kept.Drill, job: Job | None = None) -> Drill:
    """Make the engine's drill of the one that is kept, with the rows that a job shuts off."""
    return Drill(
        rows=drill.rows,
        spacing=quantity(drill.spacing, "row spacing"),
        blocked=job.blocked if job else 0,
        blocked_end=job.blocked_end if job else 0,
        scale=engine_scale(drill.scale) if drill.scale else None,
        gears=tuple(Gear(name=g.name, ratio=g.ratio) for g in drill.gears) or (Gear(),),
    )


def engine_scale(scale: kept.Scale) -> Scale:
    """Make the engine's scale of the one that is kept."""
    return Scale(**asdict(scale))


def engine_wheel(rolled_: Typed | None, taped_: Typed | None, slip: Typed | None) -> Wheel | None:
    """Make the drive wheel, rolled before taped; None where neither is known."""
    if rolled_:
        return rolled(quantity(rolled_, "rolled distance"))
    if taped_:
        return taped(
            quantity(taped_, "taped circumference"), slip=quantity(slip, "slip") if slip else 0.0
        )
    return None


def wheel_of(drill: kept.Drill | None, body: Job) -> Wheel | None:
    """Return the drive wheel as measured for a job, else as the drill has it."""
    own = engine_wheel(body.rolled, body.taped, body.slip)
    if own or drill is None:
        return own
    return engine_wheel(drill.rolled, drill.taped, body.slip or drill.slip)


def run_of(
    catch: Catch,
    *,
    drill: Drill,
    wheel: Wheel | None,
    crank_per_wheel: Typed | None = None,
) -> Run:
    """Return what was turned, pulled or sown for a catch.

    Parameters
    ----------
    crank_per_wheel : Typed, optional
        The drill's own, where the catch has none.
    """
    if catch.distance:
        return driven(quantity(catch.distance, "measured distance"))
    if catch.area:
        return sown(quantity(catch.area, "area"), drill)
    if catch.crank_turns and catch.per_turn:
        per_turn = rolled(quantity(catch.per_turn, "rolled distance"))
        crank = quantity(catch.crank_turns, "turn count")
        return turned(per_turn, crank, crank_per_wheel=1.0)
    if wheel is None:
        raise MeasurementError("wheel", None, WHEEL_NEEDED)
    if catch.turns:
        return turned(wheel, quantity(catch.turns, "turn count"))
    crank = quantity(catch.crank_turns or Typed(value=0.0), "turn count")
    ratio = catch.crank_per_wheel or crank_per_wheel
    if ratio is None:
        raise MeasurementError("crank_per_wheel", None, RATIO_NEEDED)
    return turned(wheel, crank, crank_per_wheel=ratio.value)


def engine_chart(chart: kept.Chart, *, with_test_weight: bool) -> Chart:
    """Make the engine's chart; without its test weight where the seed's own is not known."""
    return Chart(
        points=tuple((point.setting, point.rate.value) for point in chart.points),
        gear=chart.gear or None,
        spacing=value_of(chart.spacing),
        test_weight=value_of(chart.test_weight) if with_test_weight else None,
    )


def prior(drill: kept.Drill) -> Prior:
    """Return what is known of the spread of a drill's rows."""
    if drill.row_cv is None:
        return Prior()
    require_share("row_cv", drill.row_cv.value)
    return Prior(row_cv=drill.row_cv.value)
