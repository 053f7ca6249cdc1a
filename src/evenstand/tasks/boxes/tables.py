"""The boxes of a drill as the engine has them, with what is known of what is in them."""

from collections.abc import Mapping, Sequence
from contextlib import AbstractContextManager
from dataclasses import dataclass, replace

from evenstand.book.kinds.work import InBox
from evenstand.engine.boxes.box import Box
from evenstand.engine.boxes.portion import Carrier
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import LOAD, RATE, SHARE
from evenstand.engine.statistics.budget import Quantity

from ..drill.machines import quantity
from ..job.tables import InTables
from ..parsing.given import Given, placing
from ..seed.names import alike
from .said import BoxSaid


@dataclass(frozen=True, kw_only=True)
class BoxRead:
    """A box as read.

    ``full`` is how high it is filled [-]; ``heel`` what stays in it, None
    where its dead part says so [kg]; ``catches`` the seed of calibration that
    does not go back [kg]; ``mixed_weight`` the measured test weight of the
    mixture in it [kg/m³].
    """

    said: BoxSaid
    box: Box
    full: float
    heel: Quantity | None
    catches: float
    mixed_weight: Quantity | None

    @property
    def given(self) -> Given:
        """Where its inputs stand."""
        return self.said.given

    @property
    def name(self) -> str:
        """Name of the box."""
        return self.box.name


def read_boxes(said: Sequence[BoxSaid]) -> tuple[BoxRead, ...]:
    """Read every box of the drill, without what is mixed into it.

    Raises
    ------
    MeasurementError
        For no box, two of one name, or an input that cannot be used.
    """
    found: list[BoxRead] = []
    for each in said:
        read = _box(each)
        if any(alike(read.name, earlier.name) for earlier in found):
            raise each.given.refuse("name", say("use a different name for each box"))
        found.append(read)
    if not found:
        need = say("missing: enter a [[boxes]] table for each box on the drill")
        raise MeasurementError(InTables("boxes"), None, need)
    return tuple(found)


def _box(said: BoxSaid) -> BoxRead:
    given, box, inside = said.given, said.box, said.inside
    if box.volume is None:
        raise given.refuse("volume", say("this is missing; enter it"))
    with of_box(given):
        made = Box(
            name=box.name,
            volume=quantity(box.volume, f"volume of {box.name}"),
            seed=said.takes,
            agitator=box.agitator,
            dead=box.dead,
            least=given.plain("least", box.least, RATE) if box.least else None,
            most=given.plain("most", box.most, RATE) if box.most else None,
            own_depth=box.own_depth,
        )
    weight = inside.test_weight
    return BoxRead(
        said=said,
        box=made,
        full=_full(given, inside),
        heel=given.plain("heel", said.heel, LOAD, zero=True) if said.heel else None,
        catches=given.plain("catches", said.catches, LOAD, zero=True) if said.catches else 0.0,
        mixed_weight=quantity(weight, f"test weight in {box.name}") if weight else None,
    )


def _full(given: Given, inside: InBox) -> float:
    """Return how high a box is filled, as a share."""
    share = given.plain("full", inside.full, SHARE) if inside.full else 1.0
    if share > 1:
        raise given.refuse("full", say("enter a share above 0%, up to 100%"))
    return share


def of_box(given: Given) -> AbstractContextManager[None]:
    """Let what the engine refuses as ``volume of grain`` be named as its key."""
    return placing(lambda refused: given.refuse(str(refused.path[0]), refused.need))


def with_carriers(boxes: Sequence[BoxRead], carriers: Mapping[str, Carrier]) -> list[Box]:
    """Return the boxes with what is mixed into each."""
    return [replace(each.box, carrier=carriers.get(each.name)) for each in boxes]
