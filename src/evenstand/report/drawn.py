"""Blocks of a document that are drawn in characters, for a terminal alone."""

from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple, TypeAlias

from evenstand.engine.catch.target import Target
from evenstand.engine.quantities.phrases import Style
from evenstand.engine.statistics.budget import Estimate

if TYPE_CHECKING:
    from evenstand.engine.calibration.chart import Curve
    from evenstand.engine.calibration.choose import CaughtAt, Choice


class Columns(NamedTuple):
    """Rows of few words, the columns of ``right`` set right, one row stronger than the others."""

    rows: tuple[tuple[str, ...], ...]
    right: tuple[int, ...]
    head: tuple[str, ...] = ()
    strong: int | None = None


class Hung(NamedTuple):
    """A name, and what hangs behind it from a column on, its source below; a count stands right."""

    name: str
    text: str
    under: str = ""
    column: int = 16
    right: bool = False


class Part(NamedTuple):
    """A part of a whole with its bar, and what to do about it. [-]"""

    name: str
    share: float
    text: str
    advice: str = ""


class Parts(NamedTuple):
    """What makes a whole, the greatest first."""

    parts: tuple[Part, ...]


class SideBySide(NamedTuple):
    """Wholes under each other: a name, and each member's part under its letter. [-]"""

    wholes: tuple[tuple[str, Sequence[float]], ...]
    marks: str


class Bar(NamedTuple):
    """One range, with its name before and what is said of it behind. [kg/m²]"""

    name: str
    rate: Estimate
    said: str
    strong: bool = False


class Strip(NamedTuple):
    """Ranges over one axis, with the band around the target."""

    bars: tuple[Bar, ...]
    target: Target | None
    style: Style


class Plot(NamedTuple):
    """The curve with its chart and catches; ``factor`` is wanted kind of rate ÷ static rate."""

    choice: "Choice"
    start: "Curve"
    catches: "tuple[CaughtAt, ...]"
    target: Target
    factor: float
    style: Style


class RowMarks(NamedTuple):
    """Rows side by side: how far each is off the mean, which are odd, what weighing does. [-]"""

    offs: tuple[float, ...]
    odd: frozenset[int]
    band: float


Drawn: TypeAlias = Columns | Hung | Parts | SideBySide | Strip | Plot | RowMarks
