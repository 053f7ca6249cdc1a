"""What happens while a field is sown, as it is kept: each entry only adds."""

from typing import Annotated, ClassVar, Literal

from evenstand.engine.quantities import units as u

from .details import OR_ZERO
from .shape import Body, Count, Day, Id, Part, Text, Typed

Soil = Literal["", "firm", "loose", "wet", "residue"]


class Load(Body, frozen=True):
    """Seed that was put into a box.

    ``at`` is what the area meter showed [m²]. One of ``bags`` of ``bag`` net
    each [kg], ``weight`` as weighed [kg], ``tote`` by its ticket [kg]; or only
    ``mark``, how full the box was then, a share. ``left`` [kg] or ``level``, a
    share, is what was in it before; ``edge`` what still waits for this box at
    the edge of the field [kg].
    """

    kind: ClassVar = "load"
    job: Id
    at: Annotated[Typed, u.FIELD, OR_ZERO]
    box: Text = ""
    bags: Annotated[Typed | None, u.NUMBER] = None
    bag: Annotated[Typed | None, u.LOAD] = None
    weight: Annotated[Typed | None, u.LOAD] = None
    tote: Annotated[Typed | None, u.LOAD] = None
    mark: Annotated[Typed | None, u.SHARE] = None
    left: Annotated[Typed | None, u.LOAD, OR_ZERO] = None
    level: Annotated[Typed | None, u.SHARE, OR_ZERO] = None
    edge: Annotated[Typed | None, u.LOAD, OR_ZERO] = None
    day: Day | None = None
    note: Text = ""


class Level(Body, frozen=True):
    """Seed that is in a box: weighed out, ``left`` [kg], or read, ``level``, a share.

    ``at`` is what the area meter showed [m²]. ``filled`` says that a load at
    the same place was in it already.
    """

    kind: ClassVar = "level"
    job: Id
    at: Annotated[Typed, u.FIELD, OR_ZERO]
    box: Text = ""
    left: Annotated[Typed | None, u.LOAD, OR_ZERO] = None
    level: Annotated[Typed | None, u.SHARE, OR_ZERO] = None
    filled: bool = False
    note: Text = ""


class Ground(Body, frozen=True):
    """The area meter held against ground that is known.

    ``shown`` is what it showed for it [m²]; the ground is ``known`` [m²], or
    ``passes`` of ``length`` [m], each ``lap`` over the one before [m].
    """

    kind: ClassVar = "area"
    job: Id
    shown: Annotated[Typed, u.FIELD]
    known: Annotated[Typed | None, u.FIELD] = None
    passes: Annotated[Typed | None, u.NUMBER] = None
    length: Annotated[Typed | None, u.LENGTH] = None
    lap: Annotated[Typed | None, u.SPACING, OR_ZERO] = None
    note: Text = ""


class Moved(Body, frozen=True):
    """The lever moved on the way; ``at`` is what the area meter showed [m²]."""

    kind: ClassVar = "moved"
    job: Id
    at: Annotated[Typed, u.FIELD, OR_ZERO]
    setting: float
    box: Text = ""
    gear: Text = ""
    note: Text = ""


class Dug(Part, frozen=True):
    """Depths of the seeds dug up in one row [m]."""

    depths: Annotated[tuple[Typed, ...], u.SPACING, OR_ZERO]


class Check(Body, frozen=True):
    """Seeds uncovered behind the drill, in ``length`` of each row [m], and how deep they lay.

    ``seeds`` are those of each row; ``seeds_per_kg`` those in a weight [1/kg];
    ``wanted`` is the depth that is wanted [m].
    """

    kind: ClassVar = "check"
    job: Id
    box: Text = ""
    at: Annotated[Typed | None, u.FIELD, OR_ZERO] = None
    length: Annotated[Typed | None, u.LENGTH] = None
    seeds: tuple[Count, ...] = ()
    seeds_per_kg: Annotated[Typed | None, u.SEED_COUNT] = None
    dug: tuple[Dug, ...] = ()
    wanted: Annotated[Typed | None, u.SPACING] = None
    note: Text = ""


class Left(Part, frozen=True):
    """Seed weighed out of a box at the end [kg]; ``box`` is empty where the job names none."""

    weight: Annotated[Typed, u.LOAD, OR_ZERO]
    box: Text = ""


class Finished(Body, frozen=True):
    """The end of a field: what was left in each box.

    ``at`` is what the area meter showed, ``area`` the ground by the map [m²];
    ``soil`` how the ground was.
    """

    kind: ClassVar = "finished"
    job: Id
    at: Annotated[Typed, u.FIELD, OR_ZERO]
    left: tuple[Left, ...]
    area: Annotated[Typed | None, u.FIELD] = None
    soil: Soil = ""
    day: Day | None = None
    note: Text = ""
