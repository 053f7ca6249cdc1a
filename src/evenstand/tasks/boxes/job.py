"""The Set step of one box: its target is what the seed in it asks for."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from evenstand.engine.boxes.filled import FilledBox
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.quantities.units import POUND_PER_ACRE, POUND_PER_BUSHEL, RATE, TEST_WEIGHT
from evenstand.engine.seed.tag import Month
from evenstand.engine.statistics.budget import nominal

from ..calibration.setting import Setting, where_next
from ..job.calibration import Job
from ..job.file import read_job
from ..job.tables import in_tables, many
from ..parsing.given import Given
from ..seed.names import named
from .boxes import Boxes, fill
from .part import BoxPart, part_of
from .said import boxes_in

DIGITS = 7  # of what is written into the tables, more than any catch tells


def set_box(file: Mapping[str, Any], box: Given, *, today: Month) -> Setting:
    """Tell where the lever of one box goes next.

    Of the file, what names another box is left out: charts, earlier rates and
    catches. A box may have a scale of its own.

    Parameters
    ----------
    file : mapping of str
        A job file as parsed.
    box : Given
        Its name, as ``box``.

    Raises
    ------
    MeasurementError
        As `boxes.fill`, `job_file.read_job` and `setting.where_next` do, for a
        box without seed, and for a catch without a box beside others with one.
    """
    part, filled = _part(file, box, today)
    with part.named(), in_tables(part.file):
        return where_next(_job(part, filled))


def _part(file: Mapping[str, Any], box: Given, today: Month) -> tuple[BoxPart, FilledBox]:
    boxes = fill(boxes_in(file), today=today)
    filled = _filled(boxes, box)
    return part_of(file, boxes, filled.box.name), filled


def _job(part: BoxPart, filled: FilledBox) -> Job:
    """Read the job; a target rate and a test weight that are not written are the box's."""
    file = part.file
    seed, target = dict(file.get("seed", {})), dict(file.get("target", {}))
    seed.setdefault("name", ", ".join(each.name for each in filled.portions))
    taken: list[Phrase] = list(part.assumed)
    if "rate" not in target:
        target["rate"] = f"{filled.rate / POUND_PER_ACRE:.{DIGITS}g} lb/ac"
        text = "target {rate}, what the seed in {box} calls for"
        taken.append(say(text, rate=RATE(filled.rate), box=filled.box.name))
    if filled.packed is not None and "test_weight" not in seed and _chart_has_weight(file):
        weight = nominal(filled.packed.test_weight)
        seed["test_weight"] = f"{weight / POUND_PER_BUSHEL:.{DIGITS}g} lb/bu"
        text = "test weight {weight}, for what is in {box}"
        taken.append(say(text, weight=TEST_WEIGHT(weight), box=filled.box.name))
        taken += filled.packed.assumed
    job = read_job({**file, "seed": seed, "target": target})
    return replace(job, assumed=(*taken, *job.assumed))


def _filled(boxes: Boxes, given: Given) -> FilledBox:
    name = named(given, "box", given.texts["box"], names=[each.name for each in boxes.read])
    filled = boxes.box(name)
    if not filled.portions:
        names = ", ".join(each.box.name for each in boxes.used)
        raise given.refuse("box", say("this box gets no seed: choose one of {names}", names=names))
    return filled


def _chart_has_weight(file: Mapping[str, Any]) -> bool:
    tables = [*many(file, "chart"), *many(file, "history")]
    return any("test_weight" in table.given for table in tables)
