"""Where on the pages stands what a job file would call by its tables."""

import re

from flask import url_for

from evenstand.book import work
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.tasks.boxes.form import at_split_field
from evenstand.tasks.boxes.kept import body_of, carriers_of, split_of
from evenstand.tasks.job.kept import Kept
from evenstand.tasks.order.form import at_order_field
from evenstand.tasks.parsing.given import Given

from ..site import here
from .mix import fix, kept_mix

_NUMBERED = re.compile(r"\[\[(\w+)\]\] (\d+) ?(\w*)")
_MIX = ("[[mix]]", "[mix_whole]", "mix", "[[lots]]")
_OF_DRILL = ("volume", "dead", "least", "most", "agitator")  # of a box, in the drill's form
_DRILL = ("[[boxes]]", "[drill]", "boxes")


def in_boxes(
    missing: MeasurementError, kept: Kept, split: work.Split | None
) -> MeasurementError | None:
    """Return a refusal under the field of the form of the boxes, None where it is not in it."""
    mix = kept_mix(kept)
    carriers = [number for number, _ in carriers_of(kept, split)]
    return at_split_field(missing, members=len(mix.members) if mix else 0, carriers=carriers)


def page_that_holds(missing: MeasurementError, kept: Kept) -> str:
    """Return the address where what is missing, or refused, can be given."""
    job, field = kept.thing.id, missing.field
    if found := in_boxes(missing, kept, body_of(split_of(here.book(), kept), work.Split)):
        return url_for("boxes.show", job=job, _anchor=f"f-{found.field}")
    if field.startswith("[[inoculant]]"):
        return url_for("order.show", job=job, _anchor="inoculants")
    if found := at_order_field(missing, Given({}, str)):
        return url_for("order.show", job=job, _anchor=f"f-{found.field}")
    if field.startswith(_DRILL) and kept.drill_id:
        return url_for("drills.edit", drill=kept.drill_id, _anchor=_drill_field(field))
    if field.startswith(_MIX):
        mix = kept_mix(kept)
        return fix(kept, mix, missing).url if mix else url_for("mix.show", job=job)
    return url_for("jobs.edit", job=job)


def about(missing: MeasurementError, kept: Kept) -> str:
    """Name the seed, the lot or the box that is in the way; empty where it is none of them."""
    found, mix = _NUMBERED.fullmatch(missing.field), kept_mix(kept)
    if found is None or mix is None:
        return ""
    if found[1] in ("mix", "lots"):
        return fix(kept, mix, missing).about
    boxes = kept.drill.boxes if kept.drill else ()
    return boxes[int(found[2]) - 1].name if found[1] == "boxes" else ""


def _drill_field(field: str) -> str:
    if found := _NUMBERED.fullmatch(field):
        key = found[3] if found[3] in _OF_DRILL else "name"
        return f"f-box{found[2]}_{key}"
    return "f-box1_name" if field in ("boxes", "[[boxes]]") else f"f-{field.partition(' ')[2]}"
