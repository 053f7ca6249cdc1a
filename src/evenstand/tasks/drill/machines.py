"""Drills and their charts: from the book to the engine, and from what was typed to the book."""

from evenstand.book.kinds import machine as kept
from evenstand.book.kinds.shape import Typed
from evenstand.engine.calibration.chart import Chart
from evenstand.engine.catch.weighing import Prior
from evenstand.engine.drill.drill import Drill, Gear, Scale
from evenstand.engine.drill.travel import Wheel, rolled, taped
from evenstand.engine.statistics.budget import Quantity
from evenstand.engine.statistics.budget import give_or_take as within


def quantity(typed: Typed, tag: str) -> Quantity:
    """Return an amount that was kept, uncertain where its limits were typed."""
    return within(typed.value, typed.give_or_take, tag) if typed.give_or_take else typed.value


def engine_drill(drill: kept.Drill, *, blocked: int = 0, blocked_end: int = 0) -> Drill:
    """Make the engine's drill of the one that is kept.

    Parameters
    ----------
    blocked, blocked_end : int
        Rows shut off for a job.
    """
    return Drill(
        rows=drill.rows,
        spacing=quantity(drill.spacing, "row spacing"),
        blocked=blocked,
        blocked_end=blocked_end,
        scale=engine_scale(drill.scale) if drill.scale else None,
        gears=tuple(Gear(name=g.name, ratio=g.ratio) for g in drill.gears) or (Gear(),),
    )


def engine_scale(scale: kept.Scale) -> Scale:
    """Make the engine's scale of the one that is kept."""
    return Scale(
        low=scale.low,
        high=scale.high,
        step=scale.step,
        stops=scale.stops,
        reversed=scale.reversed,
        closed=scale.closed,
        slack=scale.slack,
        levers=scale.levers,
    )


def engine_wheel(rolled_: Typed | None, taped_: Typed | None, slip: Typed | None) -> Wheel | None:
    """Make the drive wheel, rolled before taped; None where neither is known."""
    if rolled_:
        return rolled(quantity(rolled_, "rolled distance"))
    if taped_:
        return taped(
            quantity(taped_, "taped circumference"), slip=quantity(slip, "slip") if slip else 0.0
        )
    return None


def engine_chart(chart: kept.Chart, *, with_test_weight: bool) -> Chart:
    """Make the engine's chart; without its test weight where the seed's own is not known."""
    weight = chart.test_weight.value if chart.test_weight and with_test_weight else None
    return Chart(
        points=tuple((point.setting, point.rate.value) for point in chart.points),
        gear=chart.gear or None,
        spacing=chart.spacing.value if chart.spacing else None,
        test_weight=weight,
    )


def prior(drill: kept.Drill) -> Prior:
    """Return what is known of the spread of a drill's rows."""
    return Prior(row_cv=drill.row_cv.value) if drill.row_cv else Prior()
