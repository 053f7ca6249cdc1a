"""Seeds and depths dug up behind the drill, judged against what is wanted there."""

from dataclasses import dataclass

from evenstand.book.kinds.sown import Check
from evenstand.engine.boxes.filled import FilledBox
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import say
from evenstand.engine.seeding.behind import Behind, count_behind
from evenstand.engine.seeding.depth_check import Depths, depths
from evenstand.engine.statistics.budget import Quantity, total

from ..drill.machines import quantity
from ..job.kept import Kept, job_drill
from ..seed.species_seeds import seeds_per_kg


@dataclass(frozen=True, kw_only=True)
class Checked:
    """What a check says; None for what was not looked at."""

    behind: Behind | None
    depths: Depths | None


def judge_check(check: Check, kept: Kept, *, mixed: Quantity | None = None) -> Checked:
    """Judge what was dug up.

    Parameters
    ----------
    kept : Kept
        Its job, with the box that it is about.
    mixed : Quantity, optional
        Seeds in a weight of what is in the box, where the mix says it. [1/kg]

    Raises
    ------
    MeasurementError
        Where it is not known how many seeds are in a weight, or what is wanted.
    """
    return Checked(behind=_behind(check, kept, mixed), depths=_depths(check))


def _behind(check: Check, kept: Kept, mixed: Quantity | None) -> Behind | None:
    if not check.seeds or check.length is None:
        return None
    if kept.wanted is None:
        raise MeasurementError("wanted", None, say("enter the target rate first"))
    row_cv = kept.drill.row_cv.value if kept.drill and kept.drill.row_cv else None
    return count_behind(
        check.seeds,
        length=quantity(check.length, "length of row"),
        spacing=job_drill(kept).between_open,
        rate=quantity(kept.wanted.rate, "rate"),
        seeds_per_kg=_seeds(check, kept, mixed),
        row_cv=row_cv,
    )


def seeds_in_box(filled: FilledBox) -> Quantity:
    """Work out the seeds in a weight of all that is in a box, a carrier with none. [1/kg]"""
    seeds = total(part.weighed * part.purity * part.seeds_per_kg for part in filled.portions)
    return seeds / filled.rate


def _seeds(check: Check, kept: Kept, mixed: Quantity | None) -> Quantity:
    if check.seeds_per_kg is not None:
        return quantity(check.seeds_per_kg, "seed count")
    if mixed is not None:
        return mixed
    known = seeds_per_kg(kept.wanted.seed) if kept.wanted else None
    if known is None:
        raise MeasurementError("seeds_per_kg", None, say("enter the seed count"))
    return known


def _depths(check: Check) -> Depths | None:
    if not check.dug or check.wanted is None:
        return None
    dug = [[depth.value for depth in row.depths] for row in check.dug]
    return depths(dug, wanted=check.wanted.value)
