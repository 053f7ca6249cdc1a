"""The drill and its charts, as they are kept."""

from typing import Annotated, ClassVar, Literal

from evenstand.engine.quantities import units as u
from evenstand.engine.quantities.phrases import say

from .details import AS_IT_STANDS, OR_ZERO, Unless, Within
from .shape import Body, Count, Id, Name, Part, Share, Some, Text, Typed

PART = Within(0, 1, say("enter a share from 0% to less than 100%"))


class Gear(Part, frozen=True):
    """A drive ratio, and the teeth it was made of where they were counted."""

    name: Annotated[Name, say("Gear")]
    ratio: Annotated[float, say("Drive ratio")]
    driver: Annotated[Count, say("Driving sprocket teeth")] = 0
    driven: Annotated[Count, say("Driven sprocket teeth")] = 0


class Scale(Part, frozen=True):
    """The numbers the lever can be set to."""

    low: Annotated[float, say("Lowest setting")]
    high: Annotated[float, say("Highest setting")]
    step: Annotated[float, say("Scale step")] = 1.0
    stops: Annotated[tuple[float, ...], say("Notches")] = ()
    reversed: Annotated[bool, say("Higher settings drop less")] = False
    closed: Annotated[float | None, say("Setting when closed")] = None
    slack: Annotated[Literal["below", "above", "none"], say("Lever play")] = "below"
    levers: Annotated[Some, say("Levers")] = 1


class Box(Part, frozen=True):
    """A box of a drill: volume [m³], limits of its bulk rate [kg/m²]."""

    name: Annotated[Name, say("Box")]
    seed: Annotated[Literal["grain", "small seed", "fluffy"], say("Seed the box is for")] = "grain"
    volume: Annotated[Typed | None, u.VOLUME, say("Box capacity")] = None
    agitator: Annotated[bool, say("Agitator")] = False
    dead: Annotated[Share, PART, AS_IT_STANDS, say("Dead space")] = 0.0
    least: Annotated[Typed | None, u.RATE, say("Lowest rate")] = None
    most: Annotated[Typed | None, u.RATE, say("Highest rate")] = None
    own_depth: Annotated[bool, Unless("shared_depth"), say("Own seeding depth")] = True


class Drill(Body, frozen=True):
    """A drill: spacing [m], rolled distance or tape [m/turn], slip and row spread [-]."""

    kind: ClassVar = "drill"
    name: Annotated[Name, say("Name")]
    rows: Annotated[Some, u.ROWS, say("Rows")]
    spacing: Annotated[Typed, u.SPACING, say("Row spacing")]
    scale: Annotated[Scale | None, say("Lever scale")] = None
    gears: Annotated[tuple[Gear, ...], say("Gears")] = ()
    boxes: Annotated[tuple[Box, ...], say("Boxes")] = ()
    rolled: Annotated[Typed | None, u.TRAVEL, say("Distance per wheel turn, rolled")] = None
    taped: Annotated[Typed | None, u.TRAVEL, say("Wheel circumference, taped")] = None
    slip: Annotated[Typed | None, u.SHARE, OR_ZERO, say("Wheel slip")] = None
    crank_per_wheel: Annotated[Typed | None, u.NUMBER, say("Crank turns per wheel turn")] = None
    row_cv: Annotated[Typed | None, u.SHARE, OR_ZERO, say("Variation between rows")] = None
    note: Annotated[Text, say("Note")] = ""


class ChartPoint(Part, frozen=True):
    """A setting and the rate printed beside it [kg/m²]."""

    setting: Annotated[float, say("Setting")]
    rate: Annotated[Typed, u.RATE, say("Rate")]


class Chart(Body, frozen=True):
    """A chart of a drill: its seed, gear, spacing [m] and test weight [kg/m³]."""

    kind: ClassVar = "chart"
    drill: Annotated[Id, say("Drill")]
    points: Annotated[tuple[ChartPoint, ...], say("Chart settings and rates")]
    seed: Annotated[Text, say("Seed")] = ""
    box: Annotated[Text, say("Box")] = ""
    gear: Annotated[Text, say("Gear")] = ""
    spacing: Annotated[Typed | None, u.SPACING, AS_IT_STANDS, say("Row spacing")] = None
    test_weight: Annotated[Typed | None, u.TEST_WEIGHT, AS_IT_STANDS, say("Test weight")] = None
    source: Annotated[Text, say("Source")] = ""
