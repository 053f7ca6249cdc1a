"""The boxes and the order of a kept job, as its job file would write them."""

from collections.abc import Sequence
from typing import Any, TypeVar

from msgspec.structs import replace

from evenstand.book.book import Book
from evenstand.book.kinds import machine, seed, work
from evenstand.book.kinds.shape import Body, Typed
from evenstand.book.storage.thing import Thing
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import (
    LOAD,
    RATE,
    SHARE,
    SPACING,
    TEST_WEIGHT,
    VOLUME,
    Kind,
)

from ..job.kept import Kept, named
from ..mix.kept import mix_tables
from ..parsing.structs import table
from ..parsing.written import as_written, percent

IN_FIELD = ("area", "pass_length")  # of an order: what a job file says of its field
Known = TypeVar("Known", bound=Body)


def split_of(book: Book, kept: Kept) -> Thing | None:
    """Return how the mix of a job was last shared out among the boxes, None where it never was."""
    return _newest(book, kept, work.Split)


def order_of(book: Book, kept: Kept) -> Thing | None:
    """Return what was last said of a job's order."""
    return _newest(book, kept, work.Order)


def _newest(book: Book, kept: Kept, kind: type[Body]) -> Thing | None:
    for thing in book.things(kind.kind, of=kept.thing.id, limit=1):
        if isinstance(thing.body, kind):
            return thing
    return None


def body_of(thing: Thing | None, kind: type[Known]) -> Known | None:
    """Return what a thing says, None for none."""
    return thing.body if thing and isinstance(thing.body, kind) else None


def members(book: Book, kept: Kept) -> tuple[str, ...]:
    """Return what each member of a job's mix is called in its boxes, in the order of the mix.

    A species of two lots goes by both names.
    """
    mix = _mix(book, kept)
    names = [each.name for each in mix.members]
    return tuple(
        _beside(book, each, i) if names.count(each.name) > 1 else each.name
        for i, each in enumerate(mix.members, start=1)
    )


def _beside(book: Book, member: seed.Member, number: int) -> str:
    lot = named(book, member.lot, seed.Lot)
    return f"{member.name} ({lot.name if lot and lot.name else number})"


def _mix(book: Book, kept: Kept) -> seed.Mix:
    mix = named(book, kept.body.mix, seed.Mix)
    if mix is None:
        raise MeasurementError("mix", None, say("choose a mix first"))
    return mix


def box_tables(book: Book, kept: Kept, split: work.Split | None) -> dict[str, Any]:
    """Return field, lots, mix, drill and boxes of a job as its job file would have them.

    Parameters
    ----------
    split : Split, optional
        Which member goes in which box; without, none is placed.

    Raises
    ------
    MeasurementError
        For a job without mix, drill or boxes: ``mix``, ``drill``, ``boxes``.
    """
    names, drill = members(book, kept), _drill(kept)
    tables = mix_tables(book, kept)
    said = {each.box: each for each in split.boxes} if split else {}
    places = {name: box.name for box in drill.boxes for name in _in(said.get(box.name))}
    mix = [
        table | ({"box": places[name]} if name in places else {})
        for name, table in zip(names, tables["mix"], strict=True)
    ]
    carriers = [_carrier(each) for _, each in carriers_of(kept, split)]
    return tables | {
        "drill": drill_table(kept, drill),
        "mix": mix + carriers,
        "boxes": [_box(box, said.get(box.name)) for box in drill.boxes],
    }


def carriers_of(kept: Kept, split: work.Split | None) -> list[tuple[int, work.InBox]]:
    """Return the boxes that something is mixed in, each with its number, from 1."""
    said = {each.box: each for each in split.boxes} if split else {}
    boxes = kept.drill.boxes if kept.drill else ()
    found = ((number, said.get(box.name)) for number, box in enumerate(boxes, start=1))
    return [(number, each) for number, each in found if each and each.carrier]


def _in(said: work.InBox | None) -> Sequence[str]:
    return said.members if said else ()


def _drill(kept: Kept) -> machine.Drill:
    if kept.drill is None:
        raise MeasurementError("drill", None, say("choose the drill first"))
    if not kept.drill.boxes:
        raise MeasurementError("boxes", None, say("enter the drill's boxes first"))
    return kept.drill


def drill_table(kept: Kept, drill: machine.Drill) -> dict[str, Any]:
    """Return the ``[drill]`` of a job: its rows, and those that are shut off."""
    shut = {"blocked": kept.body.blocked, "blocked_end": kept.body.blocked_end}
    return {
        "name": drill.name,
        "rows": drill.rows,
        "spacing": as_written(drill.spacing, SPACING),
    } | {key: number for key, number in shut.items() if number}


def _carrier(said: work.InBox) -> dict[str, Any]:
    rate = _amounts((("bulk", said.carrier_rate, RATE),))
    return {"carrier": True, "name": said.carrier, "box": said.box} | rate


def _of_sample(said: work.InBox) -> Typed | None:
    """Test weight of a mixture by a sample that filled a measure."""
    if said.measure is None or said.sample is None:
        return None
    return Typed(value=said.sample.value / said.measure.value)


def _box(box: machine.Box, said: work.InBox | None) -> dict[str, Any]:
    said = said or work.InBox(box=box.name, members=())
    return {
        "name": box.name,
        "takes": box.seed,
        **({"agitator": True} if box.agitator else {}),
        **({"dead": percent(box.dead)} if box.dead else {}),
        **({} if box.own_depth else {"own_depth": False}),
        **_amounts(
            (
                ("volume", box.volume, VOLUME),
                ("least", box.least, RATE),
                ("most", box.most, RATE),
                ("test_weight", said.test_weight or _of_sample(said), TEST_WEIGHT),
                ("full", said.full, SHARE),
            )
        ),
    }


def order_tables(
    book: Book, kept: Kept, split: work.Split | None, *, order: work.Order | None
) -> dict[str, Any]:
    """Return all that the order of a job is worked out from.

    Parameters
    ----------
    order : Order, optional
        Without it nothing but the rates and the field is known.

    Raises
    ------
    MeasurementError
        As `box_tables`.
    """
    tables, order = box_tables(book, kept, split), order or work.Order(job=kept.thing.id)
    heels = {each.box: each.weight for each in order.heels}
    catches = {each.box: each.weight for each in order.catches}
    boxes = [
        box
        | _amounts(
            (
                ("heel", heels.get(box["name"]), LOAD),
                ("catches", catches.get(box["name"]), LOAD),
            )
        )
        for box in tables["boxes"]
    ]
    field = {key: text for key, text in table(order).items() if key in IN_FIELD}
    return tables | {
        "field": {**tables["field"], **field},
        "boxes": boxes,
        "order": _order(order, order.speed or kept.body.speed),
        "inoculant": [table(each) for each in order.inoculants],
    }


def _order(order: work.Order, speed: Typed | None) -> dict[str, Any]:
    """Return ``[order]``; where it does not say the speed, the job does."""
    return table(replace(order, speed=speed), but=(*IN_FIELD, "note"))


def _amounts(kept: Sequence[tuple[str, Typed | None, Kind]]) -> dict[str, str]:
    return {key: as_written(typed, kind) for key, typed, kind in kept if typed is not None}
