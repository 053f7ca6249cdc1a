"""What an order reckons with, as it is typed: into what is kept, and back into its form."""

from collections.abc import Iterator, Sequence
from contextlib import suppress

from evenstand.book.kinds.work import Inoculant, OfBox, Order
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.units import LOAD

from ..parsing.given import Given
from ..parsing.structs import keys, numbered, read, texts
from ..parsing.writing import Writing

MOST_INOCULANTS = 12


def read_order_form(given: Given, job: str, *, boxes: Sequence[str]) -> Order:
    """Read an order from the fields of its form.

    Parameters
    ----------
    job : str
        Id of the job.
    boxes : sequence of str
        As they are called, in the order of the form.

    Raises
    ------
    RefusalsError
        Each under the field it was typed in.
    """
    with Writing(given) as form:
        return read(
            form,
            Order,
            job=job,
            heels=lambda: tuple(_of_boxes(form, "heel", boxes)),
            catches=lambda: tuple(_of_boxes(form, "catches", boxes)),
            inoculants=lambda: tuple(_inoculants(form)),
        )


def _of_boxes(form: Writing, key: str, boxes: Sequence[str]) -> Iterator[OfBox]:
    for number, box in enumerate(boxes, start=1):
        weight = form.zero_or_more(f"box{number}_{key}", LOAD)
        if weight:
            yield OfBox(box=box, weight=weight)


def _labels(given: Given) -> list[int]:
    """Return the numbers of the labels that are filled in."""
    return numbered(given, "inoculant", keys(Inoculant, but=("species",)), most=MOST_INOCULANTS)


def _inoculants(form: Writing) -> Iterator[Inoculant]:
    for i in _labels(form.given):
        yield read(form, Inoculant, line=f"inoculant{i}_")


def order_texts(order: Order, *, boxes: Sequence[str], legumes: Sequence[str]) -> dict[str, str]:
    """Return the fields of the form as they were filled in.

    Parameters
    ----------
    boxes, legumes : sequence of str
        As the form has them.
    """
    written = texts(order)
    for key, each in (("heel", order.heels), ("catches", order.catches)):
        for of in each:
            with suppress(ValueError):
                written[f"box{boxes.index(of.box) + 1}_{key}"] = of.weight.text
    for label in order.inoculants:
        if label.species in legumes:
            line = f"inoculant{legumes.index(label.species) + 1}_"
            written |= texts(label, line=line, but=("species",))
    return written


def at_order_field(refused: MeasurementError, given: Given) -> MeasurementError | None:
    """Return a refusal of a job file under the field of the form that holds it, if one does.

    Parameters
    ----------
    given : Given
        What the form says.
    """
    match refused.path:
        case ("field", ("area" | "pass_length") as key) | ("order", str(key)):
            return refused.at(key)
        case ("boxes", int(number), ("heel" | "catches") as key):
            return refused.at(f"box{number}_{key}")
        case ("boxes", int(number), "full"):  # what is to stay in is more than what is filled in
            heel = f"box{number}_heel"
            return refused.at(heel) if heel in given else None
        case ("inoculant", int(number), str(key)):
            return refused.at(f"inoculant{_labels(given)[number - 1]}_{key}")
        case _:
            return None
