"""The boxes of a kept job, as they are read."""

from dataclasses import replace
from typing import TypeVar

from msgspec import structs

from evenstand.book.book import Book
from evenstand.book.kinds import machine, seed, work
from evenstand.book.kinds.shape import Body, Typed
from evenstand.book.storage.thing import Thing
from evenstand.engine.boxes.box import BOX_KINDS
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import say

from ..job.kept import Kept, named
from ..job.tables import InTables
from ..mix.kept import job_mix, member_said, mix_of
from ..parsing.given import Given
from ..parsing.structs import texts
from .said import BoxesSaid, BoxSaid

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
    mix = mix_of(book, kept)
    names = [each.name for each in mix.members]
    return tuple(
        _beside(book, each, i) if names.count(each.name) > 1 else each.name
        for i, each in enumerate(mix.members, start=1)
    )


def _beside(book: Book, member: seed.Member, number: int) -> str:
    lot = named(book, member.lot, seed.Lot)
    return f"{member.name} ({lot.name if lot and lot.name else number})"


def boxes_said(book: Book, kept: Kept, split: work.Split | None) -> BoxesSaid:
    """Return what a job says of its mix and the boxes of its drill.

    Parameters
    ----------
    split : Split, optional
        Which member goes in which box; without, none is placed.

    Raises
    ------
    MeasurementError
        For a job without mix, drill or boxes: ``mix``, ``drill``, ``boxes``.
    """
    names, drill, mix = members(book, kept), _drill(kept), job_mix(book, kept)
    said = {each.box: each for each in split.boxes} if split else {}
    places = {name: box for box, each in said.items() for name in each.members}
    placed = [
        replace(member, box=places.get(name, ""))
        for name, member in zip(names, mix.members, strict=True)
    ]
    carriers = [
        member_said(_carrier(each), number, box=each.box)
        for number, (_, each) in enumerate(carriers_of(kept, split), start=len(placed) + 1)
    ]
    return BoxesSaid(
        mix=replace(mix, members=(*placed, *carriers)),
        boxes=tuple(
            _box(box, number, said.get(box.name)) for number, box in enumerate(drill.boxes, start=1)
        ),
    )


def carriers_of(kept: Kept, split: work.Split | None) -> list[tuple[int, work.InBox]]:
    """Return the boxes that something is mixed in, each with its number, from 1."""
    said = {each.box: each for each in split.boxes} if split else {}
    boxes = kept.drill.boxes if kept.drill else ()
    found = ((number, said.get(box.name)) for number, box in enumerate(boxes, start=1))
    return [(number, each) for number, each in found if each and each.carrier]


def _drill(kept: Kept) -> machine.Drill:
    if kept.drill is None:
        raise MeasurementError("drill", None, say("choose the drill first"))
    if not kept.drill.boxes:
        raise MeasurementError("boxes", None, say("enter the drill's boxes first"))
    return kept.drill


def _carrier(said: work.InBox) -> seed.Member:
    bag = said.carrier_bag and seed.BagSize(weight=said.carrier_bag, price=said.carrier_price)
    return seed.Member(
        name=said.carrier,
        basis="bulk",
        rate=said.carrier_rate,
        carrier=True,
        bags=(bag,) if bag else (),
    )


def _of_sample(said: work.InBox) -> Typed | None:
    """Test weight of a mixture by a sample that filled a measure."""
    if said.measure is None or said.sample is None:
        return None
    return Typed(value=said.sample.value / said.measure.value)


def _box(box: machine.Box, number: int, said: work.InBox | None) -> BoxSaid:
    said = said or work.InBox(box=box.name, members=())
    weight = said.test_weight or _of_sample(said)
    return BoxSaid(
        given=Given(texts(box) | texts(said), InTables("boxes", number).part),
        box=box,
        takes=BOX_KINDS[box.seed],
        inside=structs.replace(said, test_weight=weight),
    )
