"""The boxes of a drill from a job file, and names as people write them."""

from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, replace
from typing import Any

from evenstand.engine.boxes.box import BOX_KINDS, Box, BoxKind, BoxSeed, Classes
from evenstand.engine.boxes.portion import Carrier
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import LOAD, RATE, SHARE, TEST_WEIGHT, VOLUME
from evenstand.engine.seed.size_class import SeedClass
from evenstand.engine.statistics.budget import Quantity, nominal

from ..job.tables import InTables, JobTable, many
from ..parsing.given import Given, Written, listed
from ..seed.names import alike
from ..seed.tag import zero_or_more

KINDS: tuple[BoxKind, ...] = ("grain", "small seed", "fluffy")
CLASSES: tuple[SeedClass, ...] = ("large", "medium", "small", "fluffy")


@dataclass(frozen=True, kw_only=True)
class BoxRead:
    """A box as read.

    ``full`` is how high it is filled [-]; ``heel`` what stays in it, None
    where its dead part says so [kg]; ``catches`` the seed of calibration that
    does not go back [kg]; ``mixed_weight`` the measured test weight of the
    mixture in it [kg/m³]; ``scale`` its own scale as written, None where it
    has that of the drill.
    """

    given: Given
    box: Box
    full: float
    heel: Quantity | None
    catches: float
    mixed_weight: Quantity | None
    scale: Mapping[str, Any] | None

    @property
    def name(self) -> str:
        """Name of the box."""
        return self.box.name


def read_boxes(file: Mapping[str, Any]) -> tuple[BoxRead, ...]:
    """Read every box of the drill, without what is mixed into it.

    Raises
    ------
    MeasurementError
        For no box, two of one name, or a key that cannot be used.
    """
    found: list[BoxRead] = []
    for table in many(file, "boxes"):
        read = _box(table)
        if any(alike(read.name, earlier.name) for earlier in found):
            raise table.given.refuse("name", say("use a different name for each box"))
        found.append(read)
    if not found:
        need = say("missing: enter a [[boxes]] table for each box on the drill")
        raise MeasurementError(InTables("boxes"), None, need)
    return tuple(found)


def _box(table: JobTable) -> BoxRead:
    given, scale = table.given, table.whole.get("scale")
    name = given.text("name")
    if scale is not None and not isinstance(scale, Mapping):
        raise MeasurementError(
            given.path("scale"), scale, say("enter it as a table, [boxes.scale]")
        )
    with of_box(given):
        box = Box(
            name=name,
            volume=given.quantity("volume", VOLUME, tag=f"volume of {name}"),
            seed=_takes(given),
            agitator="agitator" in given and given.yes("agitator"),
            dead=_share(given, "dead"),
            least=_rate(given, "least"),
            most=_rate(given, "most"),
            own_depth="own_depth" not in given or given.yes("own_depth"),
        )
    return BoxRead(
        given=given,
        box=box,
        full=_full(given),
        heel=zero_or_more(given, "heel", LOAD) if "heel" in given else None,
        catches=zero_or_more(given, "catches", LOAD) if "catches" in given else 0.0,
        mixed_weight=_mixed_weight(given, name),
        scale=scale,
    )


@contextmanager
def of_box(given: Given) -> Iterator[None]:
    """Let what the engine refuses as ``volume of grain`` be named as its key."""
    try:
        yield
    except MeasurementError as refused:
        if isinstance(refused.path, Written):
            raise
        raise given.refuse(str(refused.path[0]), refused.need) from None


def with_carriers(boxes: Sequence[BoxRead], carriers: Mapping[str, Carrier]) -> list[Box]:
    """Return the boxes with what is mixed into each."""
    return [replace(each.box, carrier=carriers.get(each.name)) for each in boxes]


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


def _share(given: Given, key: str) -> float:
    return nominal(given.share(key, tag=key)) if key in given else 0.0


def _rate(given: Given, key: str) -> float | None:
    return given.exact(key, RATE) if key in given else None


def _full(given: Given) -> float:
    if "full" not in given:
        return 1.0
    share = given.exact("full", SHARE)
    if share > 1:
        raise given.refuse("full", say("enter a share above 0%, up to 100%"))
    return share


def _mixed_weight(given: Given, name: str) -> Quantity | None:
    if "test_weight" not in given:
        return None
    return given.quantity("test_weight", TEST_WEIGHT, tag=f"test weight in {name}")
