"""The drill and its charts, as they are kept."""

from typing import Annotated, ClassVar, Literal

from evenstand.engine.quantities import units as u
from evenstand.engine.quantities.phrases import say

from .details import AS_IT_STANDS, OR_ZERO, Unless, Within
from .shape import Body, Count, Id, Name, Part, Share, Some, Text, Typed

PART = Within(0, 1, say("enter a share from 0% to less than 100%"))


class Gear(Part, frozen=True):
    """A drive ratio, and the teeth it was made of where they were counted."""

    name: Name
    ratio: float
    driver: Count = 0
    driven: Count = 0


class Scale(Part, frozen=True):
    """The numbers the lever can be set to."""

    low: float
    high: float
    step: float = 1.0
    stops: tuple[float, ...] = ()
    reversed: bool = False
    closed: float | None = None
    slack: Literal["below", "above", "none"] = "below"
    levers: Some = 1


class Box(Part, frozen=True):
    """A box of a drill: volume [m³], limits of its bulk rate [kg/m²]."""

    name: Name
    seed: Literal["grain", "small seed", "fluffy"] = "grain"
    volume: Annotated[Typed | None, u.VOLUME] = None
    agitator: bool = False
    dead: Annotated[Share, PART, AS_IT_STANDS] = 0.0
    least: Annotated[Typed | None, u.RATE] = None
    most: Annotated[Typed | None, u.RATE] = None
    own_depth: Annotated[bool, Unless("shared_depth")] = True


class Drill(Body, frozen=True):
    """A drill: spacing [m], rolled distance or tape [m/turn], slip and row spread [-]."""

    kind: ClassVar = "drill"
    name: Name
    rows: Annotated[Some, u.ROWS]
    spacing: Annotated[Typed, u.SPACING]
    scale: Scale | None = None
    gears: tuple[Gear, ...] = ()
    boxes: tuple[Box, ...] = ()
    rolled: Annotated[Typed | None, u.TRAVEL] = None
    taped: Annotated[Typed | None, u.TRAVEL] = None
    slip: Annotated[Typed | None, u.SHARE, OR_ZERO] = None
    crank_per_wheel: Annotated[Typed | None, u.NUMBER] = None
    row_cv: Annotated[Typed | None, u.SHARE] = None
    note: Text = ""


class ChartPoint(Part, frozen=True):
    """A setting and the rate printed beside it [kg/m²]."""

    setting: float
    rate: Annotated[Typed, u.RATE]


class Chart(Body, frozen=True):
    """A chart of a drill: its seed, gear, spacing [m] and test weight [kg/m³]."""

    kind: ClassVar = "chart"
    drill: Id
    points: tuple[ChartPoint, ...]
    seed: Text = ""
    box: Text = ""
    gear: Text = ""
    spacing: Annotated[Typed | None, u.SPACING] = None
    test_weight: Annotated[Typed | None, u.TEST_WEIGHT] = None
    source: Text = ""
