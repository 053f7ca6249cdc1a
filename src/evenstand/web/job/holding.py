"""Where on the pages stands what a job file would call by its tables."""

from flask import url_for

from evenstand.book.kinds import work
from evenstand.engine.quantities.errors import MeasurementError, Path
from evenstand.tasks.boxes.form import at_split_field
from evenstand.tasks.boxes.kept import body_of, carriers_of, split_of
from evenstand.tasks.job.kept import Kept
from evenstand.tasks.order.form import at_order_field
from evenstand.tasks.parsing.given import Given

from ..site import here
from .mix import fix, kept_mix

_MIX = ("mix", "mix_whole", "lots")
_OF_DRILL = ("volume", "dead", "least", "most", "agitator")  # of a box, in the drill's form
_DRILL = ("boxes", "drill")


def in_boxes(
    missing: MeasurementError, kept: Kept, split: work.Split | None
) -> MeasurementError | None:
    """Return a refusal under the field of the form of the boxes, None where it is not in it."""
    mix = kept_mix(kept)
    carriers = [number for number, _ in carriers_of(kept, split)]
    return at_split_field(missing, members=len(mix.members) if mix else 0, carriers=carriers)


def page_that_holds(missing: MeasurementError, kept: Kept) -> str:
    """Return the address where what is missing, or refused, can be given."""
    job, path = kept.thing.id, missing.path
    if found := in_boxes(missing, kept, body_of(split_of(here.book(), kept), work.Split)):
        return url_for("boxes.show", job=job, _anchor=f"f-{found.field}")
    if path[0] == "inoculant":
        return url_for("order.show", job=job, _anchor="inoculants")
    if found := at_order_field(missing, Given({})):
        return url_for("order.show", job=job, _anchor=f"f-{found.field}")
    if path[0] in _DRILL and kept.drill_id:
        return url_for("drills.edit", drill=kept.drill_id, _anchor=_drill_field(path))
    if path[0] in _MIX:
        mix = kept_mix(kept)
        return fix(kept, mix, missing).url if mix else url_for("mix.show", job=job)
    return url_for("jobs.edit", job=job)


def about(missing: MeasurementError, kept: Kept) -> str:
    """Name the seed, the lot or the box that is in the way; empty where it is none of them."""
    mix, boxes = kept_mix(kept), kept.drill.boxes if kept.drill else ()
    match missing.path:
        case ("mix" | "lots", int(), *_) if mix:
            return fix(kept, mix, missing).about
        case ("boxes", int(number), *_) if mix:
            return boxes[number - 1].name
        case _:
            return ""


def _drill_field(path: Path) -> str:
    match path:
        case ("boxes", int(number), *inside):
            key = next((key for key in inside if key in _OF_DRILL), "name")
            return f"f-box{number}_{key}"
        case ("drill", str(key)):
            return f"f-{key}"
        case _:
            return "f-box1_name"
