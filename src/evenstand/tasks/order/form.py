"""What an order reckons with, as it is typed: into what is kept, and back into its form."""

import re
from collections.abc import Iterator, Sequence
from contextlib import suppress

from evenstand.book.shape import Typed
from evenstand.book.work import Inoculant, OfBox, Order
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import FIELD, HOURS, LENGTH, LOAD, MINUTES, SHARE, SPEED

from ..parsing.given import Given
from ..parsing.writing import Writing
from ..parsing.written import percent

MOST_INOCULANTS = 12
LABEL = ("name", "amount", "seed", "pack", "within")
AMOUNTS = ("area", "pass_length", "overlap", "spread", "batch", "speed", "efficiency", "refill")
_OF_FIELD = re.compile(r"\[field\] (area|pass_length)|\[order\] (\w+)")
_OF_BOX = re.compile(r"\[\[boxes\]\] (\d+) (heel|catches|full)")
_OF_LABEL = re.compile(r"\[\[inoculant\]\] (\d+) (\w+)")


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
    form = Writing(given)
    order = Order(
        job=job,
        area=form.amount("area", FIELD),
        pass_length=form.amount("pass_length", LENGTH),
        overlap=form.zero_or_more("overlap", SHARE),
        heels=tuple(_of_boxes(form, "heel", boxes)),
        catches=tuple(_of_boxes(form, "catches", boxes)),
        sure=form.attempt(lambda: _sure(given), otherwise=None),
        spread=form.zero_or_more("spread", SHARE),
        batch=form.amount("batch", LOAD),
        speed=form.amount("speed", SPEED),
        efficiency=form.amount("efficiency", SHARE),
        refill=form.amount("refill", MINUTES),
        inoculants=tuple(_inoculant(form, f"inoculant{i}_") for i in _labels(given)),
    )
    form.done()
    return order


def _of_boxes(form: Writing, key: str, boxes: Sequence[str]) -> Iterator[OfBox]:
    for number, box in enumerate(boxes, start=1):
        weight = form.zero_or_more(f"box{number}_{key}", LOAD)
        if weight:
            yield OfBox(box=box, weight=weight)


def _sure(given: Given) -> float | None:
    if "sure" not in given:
        return None
    odds = given.exact("sure", SHARE)
    if not 0.5 <= odds < 1:
        raise given.refuse("sure", say("give odds from 50 % to below 100 %"))
    return odds


def _labels(given: Given) -> list[int]:
    """Return the numbers of the labels that are filled in."""
    return [
        i
        for i in range(1, MOST_INOCULANTS + 1)
        if any(f"inoculant{i}_{key}" in given for key in LABEL)
    ]


def _inoculant(form: Writing, line: str) -> Inoculant:
    return Inoculant(
        species=form.name(f"{line}species"),
        name=form.text(f"{line}name"),
        amount=form.needed(f"{line}amount", LOAD),
        seed=form.needed(f"{line}seed", LOAD),
        pack=form.amount(f"{line}pack", LOAD),
        within=form.amount(f"{line}within", HOURS),
    )


def order_texts(order: Order, *, boxes: Sequence[str], legumes: Sequence[str]) -> dict[str, str]:
    """Return the fields of the form as they were filled in.

    Parameters
    ----------
    boxes, legumes : sequence of str
        As the form has them.
    """
    texts = {name: kept.text for name in AMOUNTS if (kept := getattr(order, name))}
    texts |= {"sure": percent(order.sure)} if order.sure else {}
    for key, each in (("heel", order.heels), ("catches", order.catches)):
        for of in each:
            with suppress(ValueError):
                texts[f"box{boxes.index(of.box) + 1}_{key}"] = of.weight.text
    for label in order.inoculants:
        if label.species in legumes:
            texts |= _label_texts(label, f"inoculant{legumes.index(label.species) + 1}_")
    return texts


def _label_texts(label: Inoculant, line: str) -> dict[str, str]:
    amounts: dict[str, Typed | None] = {key: getattr(label, key) for key in LABEL[1:]}
    texts = {f"{line}{key}": kept.text for key, kept in amounts.items() if kept}
    return texts | {f"{line}name": label.name}


def at_order_field(refused: MeasurementError, given: Given) -> MeasurementError | None:
    """Return a refusal of a job file under the field of the form that holds it, if one does.

    Parameters
    ----------
    given : Given
        What the form says.
    """
    if found := _OF_FIELD.fullmatch(refused.field):
        return _under(found[1] or found[2], refused)
    if found := _OF_BOX.fullmatch(refused.field):
        heel = f"box{found[1]}_heel"
        if found[2] == "full":  # what is to stay in is more than what is filled in
            return _under(heel, refused) if heel in given else None
        return _under(f"box{found[1]}_{found[2]}", refused)
    if found := _OF_LABEL.fullmatch(refused.field):
        lines = _labels(given)
        return _under(f"inoculant{lines[int(found[1]) - 1]}_{found[2]}", refused)
    return None


def _under(field: str, refused: MeasurementError) -> MeasurementError:
    return MeasurementError(field, refused.given, refused.need)
