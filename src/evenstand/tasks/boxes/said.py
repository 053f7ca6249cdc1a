"""What is said of a drill's boxes, in the book or in a job file."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from evenstand.book.kinds.machine import Box
from evenstand.book.kinds.shape import Typed
from evenstand.book.kinds.work import InBox
from evenstand.engine.boxes.box import BOX_KINDS, BoxKind, BoxSeed, Classes
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import LOAD
from evenstand.engine.seed.size_class import SeedClass

from ..job.tables import JobTable, many
from ..mix.said import MixSaid, mix_in
from ..parsing.given import Given, listed
from ..parsing.structs import read
from ..parsing.writing import Writing
from ..seed.names import alike

KINDS: tuple[BoxKind, ...] = ("grain", "small seed", "fluffy")
CLASSES: tuple[SeedClass, ...] = ("large", "medium", "small", "fluffy")


@dataclass(frozen=True, kw_only=True)
class BoxSaid:
    """A box of a drill, what it takes, what is known of what is in it, and where its inputs stand.

    ``heel`` is what stays in it, ``catches`` the seed of calibration that does
    not go back [kg]; ``scale`` its own scale as written, None where it has
    that of the drill.
    """

    given: Given = field(compare=False, repr=False)
    box: Box
    takes: BoxSeed
    inside: InBox
    heel: Typed | None = None
    catches: Typed | None = None
    scale: Mapping[str, Any] | None = field(default=None, compare=False)


@dataclass(frozen=True, kw_only=True)
class BoxesSaid:
    """A mix with the boxes that it goes in; its carriers are members that name their box."""

    mix: MixSaid
    boxes: tuple[BoxSaid, ...]


def boxes_in(file: Mapping[str, Any]) -> BoxesSaid:
    """Read what a job file says of its mix and of every box.

    Raises
    ------
    RefusalsError or MeasurementError
        Naming the field as ``[[boxes]] 2 volume``.
    """
    boxes = tuple(_box(table) for table in many(file, "boxes"))
    return BoxesSaid(mix=mix_in(file), boxes=boxes)


def _box(table: JobTable) -> BoxSaid:
    given, scale = table.given, table.whole.get("scale")
    if scale is not None and not isinstance(scale, Mapping):
        need = say("enter it as a table, [boxes.scale]")
        raise MeasurementError(given.path("scale"), scale, need)
    with Writing(given) as form:
        box = read(form, Box, seed="grain")
        inside = read(form, InBox, box=box.name, members=())
        heel, catches = (
            form.amount(key, LOAD, zero=True, exact=True) for key in ("heel", "catches")
        )
    return BoxSaid(
        given=given,
        box=box,
        takes=_takes(given),
        inside=inside,
        heel=heel,
        catches=catches,
        scale=scale,
    )


def _takes(given: Given) -> BoxSeed:
    """Read what a box is made for: a kind of box, or classes of seed."""
    text = given.text("takes").casefold()
    kinds = [kind for kind in KINDS if alike(kind, text)]
    if kinds:
        if "makes_do" in given:
            need = say("leave it out, or list what the box handles: large, medium, small, fluffy")
            raise given.refuse("makes_do", need)
        return BOX_KINDS[kinds[0]]
    makes_do = _classes(given, "makes_do") if "makes_do" in given else frozenset()
    return BoxSeed(_classes(given, "takes"), makes_do)


def _classes(given: Given, key: str) -> Classes:
    found = set()
    for word in listed(given.text(key)):
        fitting = [name for name in CLASSES if alike(name, word)]
        if not fitting:
            text = "enter grain, small seed or fluffy, or a list of large, medium, small, fluffy"
            raise given.refuse(key, say(text))
        found.add(fitting[0])
    return frozenset(found)
