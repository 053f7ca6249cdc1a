"""Batches of each box, with the inoculant of its legumes."""

from collections.abc import Mapping
from math import fsum
from typing import Any

from evenstand.engine.boxes.filled import FilledBox
from evenstand.engine.order.batches import BatchSheet, batch_sheet
from evenstand.engine.order.inoculant import SOW_WITHIN, Inoculant, Inoculation, inoculate
from evenstand.engine.order.need import OrderJob, box_needs
from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import HOURS, LOAD
from evenstand.engine.statistics.budget import nominal

from ..boxes.boxes import Boxes
from ..job.tables import many, one
from ..parsing.given import Given
from ..seed.names import named


def batches(
    file: Mapping[str, Any], boxes: Boxes, job: OrderJob, *, hours: float
) -> tuple[tuple[Inoculation, ...], tuple[BatchSheet, ...]]:
    """Divide each box into batches, with the inoculant of its legumes."""
    labels = read_inoculants(file, boxes)
    inoculations: list[Inoculation] = []
    sheets: list[BatchSheet] = []
    given = one(file, "order").given
    for filled in boxes.used:
        needs = {need.name: nominal(need.total) for need in box_needs(filled, job)}
        total = fsum(needs.values())
        most = _most(given, filled, total)
        with given.pointing(most="batch"):
            count = batch_sheet(filled, total, most=most).batches
        done = [
            inoculate(
                portion,
                needs[portion.name],
                inoculant=labels[portion.name],
                hours=hours,
                times=count,
            )
            for portion in filled.portions
            if portion.name in labels
        ]
        inoculations += done
        sheets.append(batch_sheet(filled, total, most=most, inoculants=done))
    return tuple(inoculations), tuple(sheets)


def _most(given: Given, filled: FilledBox, total: float) -> float:
    """What is mixed at once: as written, else a full box, else all of it. [kg]"""
    if "batch" in given:
        return given.exact("batch", LOAD)
    return total if filled.holds is None else nominal(filled.holds + filled.heel)


def read_inoculants(file: Mapping[str, Any], boxes: Boxes) -> dict[str, Inoculant]:
    """Read the label of each inoculant, by the seed that it goes on.

    Raises
    ------
    MeasurementError
        For a species that is not in the mix or is no legume, or one that has two labels.
    """
    found: dict[str, Inoculant] = {}
    for table in many(file, "inoculant"):
        given = table.given
        names = [each.portion.name for each in boxes.tipped]
        seed = named(given, "species", given.text("species"), names=names)
        portion = next(each.portion for each in boxes.tipped if each.portion.name == seed)
        if not portion.legume:
            raise given.refuse("species", say("not a legume: remove its inoculant"))
        if seed in found:
            raise given.refuse("species", say("it already has an inoculant: remove one"))
        found[seed] = Inoculant(
            name=given.text("name") if "name" in given else "inoculant",
            amount=given.exact("amount", LOAD),
            seed=given.exact("seed", LOAD),
            pack=given.exact("pack", LOAD) if "pack" in given else None,
            sow_within=given.exact("within", HOURS) if "within" in given else SOW_WITHIN,
        )
    return found
