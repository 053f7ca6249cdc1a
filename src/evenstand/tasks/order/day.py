"""The day at the drill before it begins: hours, stops, seed at the edge, from the order."""

from evenstand.book.kinds import work
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.quantities.units import LOAD, POUND
from evenstand.engine.seeding.plan import SowPlan, plan_sowing
from evenstand.engine.statistics.budget import nominal

from ..job.kept import Kept, job_drill
from .order import Ordered
from .sold import sold

BAG = 50 * POUND  # the usual bag, where no lot says its own


def plan_day(
    ordered: Ordered, kept: Kept, order: work.Order | None, *, people: int
) -> tuple[SowPlan, tuple[Phrase, ...]] | None:
    """Plan a field from its order; None where no speed is known or what a box holds.

    Parameters
    ----------
    order : Order, optional
        Its speed goes before that of the job, its time of a stop before what is reckoned.
    people : int
        Hands that pour.
    """
    speed = (order.speed if order else None) or kept.body.speed
    if speed is None or not ordered.loads:
        return None
    sizes = [size.weight for _, sizes, _ in sold(ordered.boxes) for size in sizes]
    bag = min(sizes) if sizes else BAG
    said = () if sizes else (say("a bag holds {bag}", bag=LOAD(BAG)),)
    try:
        plan = plan_sowing(
            ordered.loads,
            nominal(ordered.job.ground),
            speed=speed.value,
            width=nominal(job_drill(kept).width),
            bag=bag,
            people=people,
            refill=order.refill.value if order and order.refill else None,
        )
    except MeasurementError:
        return None
    return plan, said
