"""What is said of an order, in the book or in a job file."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from msgspec import structs

from evenstand.book.book import Book
from evenstand.book.kinds.work import Inoculant, Order, Split
from evenstand.engine.drill.drill import Drill
from evenstand.engine.quantities.units import LENGTH

from ..boxes.kept import boxes_said
from ..boxes.said import BoxesSaid, boxes_in
from ..job.file import read_drill
from ..job.kept import Kept, job_drill
from ..job.tables import InTables, many, one
from ..parsing.given import Given
from ..parsing.structs import read, texts
from ..parsing.writing import Writing


@dataclass(frozen=True, kw_only=True)
class OrderSaid:
    """An order with its boxes and its drill, None where its rows are not known."""

    boxes: BoxesSaid
    order: Order
    drill: Drill | None

    @property
    def given(self) -> Given:
        """Where the inputs of the order stand."""
        return Given(texts(self.order), InTables("order").part)


def order_in(file: Mapping[str, Any]) -> OrderSaid:
    """Read what a job file says of its boxes and its order.

    Raises
    ------
    RefusalsError or MeasurementError
        Naming the field as ``[order] overlap``.
    """
    boxes = boxes_in(file)
    with Writing(one(file, "order").given) as form, Writing(one(file, "field").given) as field:
        order = read(
            form,
            Order,
            job="",
            area=boxes.mix.ground.area,
            pass_length=field.amount("pass_length", LENGTH, exact=True),
            inoculants=tuple(_inoculant(table.given) for table in many(file, "inoculant")),
        )
    return OrderSaid(
        boxes=boxes,
        order=order,
        drill=read_drill(file) if "rows" in one(file, "drill").given else None,
    )


def _inoculant(given: Given) -> Inoculant:
    with Writing(given) as form:
        return read(form, Inoculant)


def order_said(book: Book, kept: Kept, split: Split | None, *, order: Order | None) -> OrderSaid:
    """Return all that the order of a job is worked out from.

    Parameters
    ----------
    order : Order, optional
        Without it nothing but the rates and the field is known.

    Raises
    ------
    MeasurementError
        As `boxes_said`.
    """
    boxes, order = boxes_said(book, kept, split), order or Order(job=kept.thing.id)
    heels = {each.box: each.weight for each in order.heels}
    catches = {each.box: each.weight for each in order.catches}
    told = (
        replace(box, heel=heels.get(box.box.name), catches=catches.get(box.box.name))
        for box in boxes.boxes
    )
    return OrderSaid(
        boxes=replace(boxes, boxes=tuple(told)),
        order=structs.replace(
            order,
            area=order.area or boxes.mix.ground.area,
            speed=order.speed or kept.body.speed,
        ),
        drill=job_drill(kept),
    )
