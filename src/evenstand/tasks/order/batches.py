"""Batches of each box, with the inoculant of its legumes."""

from math import fsum

from evenstand.engine.boxes.filled import FilledBox
from evenstand.engine.order.batches import BatchSheet, batch_sheet
from evenstand.engine.order.inoculant import SOW_WITHIN, Inoculant, Inoculation, inoculate
from evenstand.engine.order.need import OrderJob, box_needs
from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import HOURS, LOAD
from evenstand.engine.statistics.budget import nominal

from ..boxes.boxes import Boxes
from ..job.tables import InTables
from ..parsing.given import Given
from ..parsing.structs import texts
from ..seed.names import named
from .said import OrderSaid


def batches(
    said: OrderSaid, boxes: Boxes, job: OrderJob, *, hours: float
) -> tuple[tuple[Inoculation, ...], tuple[BatchSheet, ...]]:
    """Divide each box into batches, with the inoculant of its legumes."""
    labels = read_inoculants(said, boxes)
    inoculations: list[Inoculation] = []
    sheets: list[BatchSheet] = []
    for filled in boxes.used:
        needs = {need.name: nominal(need.total) for need in box_needs(filled, job)}
        total = fsum(needs.values())
        most = _most(said, filled, total)
        with said.given.pointing(most="batch"):
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


def _most(said: OrderSaid, filled: FilledBox, total: float) -> float:
    """What is mixed at once: as written, else a full box, else all of it. [kg]"""
    if said.order.batch:
        return said.given.plain("batch", said.order.batch, LOAD)
    return total if filled.holds is None else nominal(filled.holds + filled.heel)


def read_inoculants(said: OrderSaid, boxes: Boxes) -> dict[str, Inoculant]:
    """Return the label of each inoculant, by the seed that it goes on.

    Raises
    ------
    MeasurementError
        For a species that is not in the mix or is no legume, or one that has two labels.
    """
    found: dict[str, Inoculant] = {}
    for number, label in enumerate(said.order.inoculants, start=1):
        given = Given(texts(label), InTables("inoculant", number).part)
        names = [each.portion.name for each in boxes.tipped]
        seed = named(given, "species", label.species, names=names)
        portion = next(each.portion for each in boxes.tipped if each.portion.name == seed)
        if not portion.legume:
            raise given.refuse("species", say("not a legume: remove its inoculant"))
        if seed in found:
            raise given.refuse("species", say("it already has an inoculant: remove one"))
        found[seed] = Inoculant(
            name=label.name or "inoculant",
            amount=given.plain("amount", label.amount, LOAD),
            seed=given.plain("seed", label.seed, LOAD),
            pack=given.plain("pack", label.pack, LOAD) if label.pack else None,
            sow_within=given.plain("within", label.within, HOURS) if label.within else SOW_WITHIN,
        )
    return found
