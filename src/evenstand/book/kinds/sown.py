"""What happens while a field is sown, as it is kept: each entry only adds."""

from typing import Annotated, ClassVar, Literal

from evenstand.engine.quantities import units as u
from evenstand.engine.quantities.phrases import say

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
    job: Annotated[Id, say("Job")]
    at: Annotated[Typed, u.FIELD, OR_ZERO, say("Acre meter")]
    box: Annotated[Text, say("Box")] = ""
    bags: Annotated[Typed | None, u.NUMBER, say("Bags")] = None
    bag: Annotated[Typed | None, u.LOAD, say("Bag weight")] = None
    weight: Annotated[Typed | None, u.LOAD, say("Weight")] = None
    tote: Annotated[Typed | None, u.LOAD, say("Tote ticket weight")] = None
    mark: Annotated[Typed | None, u.SHARE, say("Filled to")] = None
    left: Annotated[Typed | None, u.LOAD, OR_ZERO, say("Seed left before")] = None
    level: Annotated[Typed | None, u.SHARE, OR_ZERO, say("Level before")] = None
    edge: Annotated[Typed | None, u.LOAD, OR_ZERO, say("Seed at the field edge")] = None
    day: Annotated[Day | None, say("Date")] = None
    note: Annotated[Text, say("Note")] = ""


class Level(Body, frozen=True):
    """Seed that is in a box: weighed out, ``left`` [kg], or read, ``level``, a share.

    ``at`` is what the area meter showed [m²]. ``filled`` says that a load at
    the same place was in it already.
    """

    kind: ClassVar = "level"
    job: Annotated[Id, say("Job")]
    at: Annotated[Typed, u.FIELD, OR_ZERO, say("Acre meter")]
    box: Annotated[Text, say("Box")] = ""
    left: Annotated[Typed | None, u.LOAD, OR_ZERO, say("Seed left")] = None
    level: Annotated[Typed | None, u.SHARE, OR_ZERO, say("Level")] = None
    filled: Annotated[bool, say("After filling")] = False
    note: Annotated[Text, say("Note")] = ""


class Ground(Body, frozen=True):
    """The area meter held against ground that is known.

    ``shown`` is what it showed for it [m²]; the ground is ``known`` [m²], or
    ``passes`` of ``length`` [m], each ``lap`` over the one before [m].
    """

    kind: ClassVar = "area"
    job: Annotated[Id, say("Job")]
    shown: Annotated[Typed, u.FIELD, say("Acre meter")]
    known: Annotated[Typed | None, u.FIELD, say("Known area")] = None
    passes: Annotated[Typed | None, u.NUMBER, say("Passes")] = None
    length: Annotated[Typed | None, u.LENGTH, say("Pass length")] = None
    lap: Annotated[Typed | None, u.SPACING, OR_ZERO, say("Overlap")] = None
    note: Annotated[Text, say("Note")] = ""


class Moved(Body, frozen=True):
    """The lever moved on the way; ``at`` is what the area meter showed [m²]."""

    kind: ClassVar = "moved"
    job: Annotated[Id, say("Job")]
    at: Annotated[Typed, u.FIELD, OR_ZERO, say("Acre meter")]
    setting: Annotated[float, say("Setting")]
    box: Annotated[Text, say("Box")] = ""
    gear: Annotated[Text, say("Gear")] = ""
    note: Annotated[Text, say("Note")] = ""


class Dug(Part, frozen=True):
    """Depths of the seeds dug up in one row [m]."""

    depths: Annotated[tuple[Typed, ...], u.SPACING, OR_ZERO, say("Depths")]


class Check(Body, frozen=True):
    """Seeds uncovered behind the drill, in ``length`` of each row [m], and how deep they lay.

    ``seeds`` are those of each row; ``seeds_per_kg`` those in a weight [1/kg];
    ``wanted`` is the depth that is wanted [m].
    """

    kind: ClassVar = "check"
    job: Annotated[Id, say("Job")]
    box: Annotated[Text, say("Box")] = ""
    at: Annotated[Typed | None, u.FIELD, OR_ZERO, say("Acre meter")] = None
    length: Annotated[Typed | None, u.LENGTH, say("Row length")] = None
    seeds: Annotated[tuple[Count, ...], say("Seeds counted")] = ()
    seeds_per_kg: Annotated[Typed | None, u.SEED_COUNT, say("Seeds per weight")] = None
    dug: Annotated[tuple[Dug, ...], say("Seed depths")] = ()
    wanted: Annotated[Typed | None, u.SPACING, say("Target depth")] = None
    note: Annotated[Text, say("Note")] = ""


class Left(Part, frozen=True):
    """Seed weighed out of a box at the end [kg]; ``box`` is empty where the job names none."""

    weight: Annotated[Typed, u.LOAD, OR_ZERO, say("Weight")]
    box: Annotated[Text, say("Box")] = ""


class Finished(Body, frozen=True):
    """The end of a field: what was left in each box.

    ``at`` is what the area meter showed, ``area`` the ground by the map [m²];
    ``soil`` how the ground was.
    """

    kind: ClassVar = "finished"
    job: Annotated[Id, say("Job")]
    at: Annotated[Typed, u.FIELD, OR_ZERO, say("Acre meter")]
    left: Annotated[tuple[Left, ...], say("Seed left")]
    area: Annotated[Typed | None, u.FIELD, say("Map area")] = None
    soil: Annotated[Soil, say("Soil")] = ""
    day: Annotated[Day | None, say("Date")] = None
    note: Annotated[Text, say("Note")] = ""
