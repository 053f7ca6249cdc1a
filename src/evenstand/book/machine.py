"""The drill and its charts, as they are kept."""

from typing import ClassVar, Literal

from .shape import Body, Count, Id, Name, Part, Share, Some, Text, Typed


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
    volume: Typed | None = None
    agitator: bool = False
    dead: Share = 0.0
    least: Typed | None = None
    most: Typed | None = None
    own_depth: bool = True


class Drill(Body, frozen=True):
    """A drill: spacing [m], rolled distance or tape [m/turn], slip and row spread [-]."""

    kind: ClassVar = "drill"
    name: Name
    rows: Some
    spacing: Typed
    scale: Scale | None = None
    gears: tuple[Gear, ...] = ()
    boxes: tuple[Box, ...] = ()
    rolled: Typed | None = None
    taped: Typed | None = None
    slip: Typed | None = None
    crank_per_wheel: Typed | None = None
    row_cv: Typed | None = None
    note: Text = ""


class ChartPoint(Part, frozen=True):
    """A setting and the rate printed beside it [kg/m²]."""

    setting: float
    rate: Typed


class Chart(Body, frozen=True):
    """A chart of a drill: its seed, gear, spacing [m] and test weight [kg/m³]."""

    kind: ClassVar = "chart"
    drill: Id
    points: tuple[ChartPoint, ...]
    seed: Text = ""
    box: Text = ""
    gear: Text = ""
    spacing: Typed | None = None
    test_weight: Typed | None = None
    source: Text = ""
