"""Places where plants were counted, as a job file writes them."""

from collections.abc import Mapping, Sequence
from typing import Any

from evenstand.engine.parsing.parse import read
from evenstand.engine.quantities.errors import MeasurementError, Of
from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import GROUND, LENGTH, NUMBER, SPACING
from evenstand.engine.stand.place import Place, frame_area, hoop_area, row_area
from evenstand.engine.statistics.budget import Quantity

from ..job.tables import InTables, JobTable, many, one
from ..parsing.given import Given, listed

SIZES = ("length", "hoop", "around", "frame", "area")


def read_spacing(file: Mapping[str, Any]) -> Quantity | None:
    """Read the row spacing, of the counts or of the drill; None where neither gives one."""
    for name in ("stand", "drill"):
        given = one(file, name).given
        if "spacing" in given:
            return given.quantity("spacing", SPACING, tag="row spacing")
    return None


def read_places(file: Mapping[str, Any]) -> tuple[Place, ...]:
    """Read the places: one table for each size, with the plants of each place of that size.

    Raises
    ------
    MeasurementError
        Naming the table and key.
    """
    spacing = read_spacing(file)
    own: dict[str, Quantity] = {}
    return tuple(
        place
        for table in many(file, "counts")
        for place in _of_table(table, _own_spacing(table.given, own) or spacing)
    )


def _own_spacing(given: Given, known: dict[str, Quantity]) -> Quantity | None:
    """Read the spacing of a table's own; the same text is one quantity, unsure once for all."""
    if "spacing" not in given:
        return None
    text = given.text("spacing")
    if text not in known:
        known[text] = given.quantity("spacing", SPACING, tag="row spacing")
    return known[text]


def _of_table(table: JobTable, spacing: Quantity | None) -> list[Place]:
    given = table.given
    area = _area(given, spacing)
    row = given.exact("length", LENGTH) if "length" in given else None
    plants = _plants(table)
    gaps = _gaps(table, places=len(plants))
    with given.pointing():
        return [
            Place(area=area, plants=each, row=row if gaps else None, gaps=gaps[i] if gaps else ())
            for i, each in enumerate(plants)
        ]


def _area(given: Given, spacing: Quantity | None) -> Quantity:
    sizes = [key for key in SIZES if key in given]
    if len(sizes) != 1:
        key = sizes[1] if sizes else "length"
        need = say("enter one size: row length, hoop, around, frame or area")
        raise MeasurementError(given.path(key), given.texts.get(key), need)
    match sizes[0]:
        case "length":
            if spacing is None:
                need = say("enter the row spacing")
                raise MeasurementError(InTables("stand", "spacing"), None, need)
            return row_area(given.exact("length", LENGTH), spacing=spacing)
        case "hoop":
            return hoop_area(diameter=given.quantity("hoop", SPACING, tag="hoop"))
        case "around":
            return hoop_area(around=given.quantity("around", SPACING, tag="hoop"))
        case "frame":
            return _frame(given)
        case _:
            return given.exact("area", GROUND)


def _frame(given: Given) -> float:
    sides = [given.part(text, "frame", LENGTH).value for text in listed(given.text("frame"))]
    if len(sides) != 2:
        raise given.refuse("frame", say("enter both sides, such as 50; 50 cm"))
    with given.pointing(side="frame"):
        return frame_area(sides[0], b=sides[1])


def _plants(table: JobTable) -> Sequence[int | Mapping[str, int]]:
    """Read the plants of each place: a list, or a list for each species."""
    written = table.whole.get("plants")
    if not isinstance(written, Mapping):
        return _counts(table.given)
    columns = {name: _counts(_of(table, name, each)) for name, each in written.items()}
    sizes = {len(column) for column in columns.values()}
    if len(sizes) != 1:
        need = say("enter a count of each species for every spot, 0 if it has none")
        raise MeasurementError(table.given.path("plants"), None, need)
    return [dict(zip(columns, row, strict=True)) for row in zip(*columns.values(), strict=True)]


def _of(table: JobTable, species: str, written: Any) -> Given:
    """Take the counts of one species as an input of its own."""
    text = "; ".join(map(str, written)) if isinstance(written, list) else str(written)
    return Given({"plants": text}, lambda key: table.given.path(key).part(Of(species)))


def _counts(given: Given) -> list[int]:
    texts = listed(given.text("plants"))
    found = [given.part(text, "plants", NUMBER).value for text in texts]
    if not all(count >= 0 and count == int(count) for count in found):
        raise given.refuse("plants", say("enter whole numbers, 0 or more, one for each spot"))
    return [int(count) for count in found]


def _gaps(table: JobTable, *, places: int) -> list[tuple[float, ...]]:
    """Read the gaps of each place: a text for each, empty where there is none."""
    written = table.lists("gaps")
    if not written:
        return []
    if len(written) != places:
        need = say("enter something for each of the {n} spots, blank if it has no gap", n=places)
        raise table.given.refuse("gaps", need)
    path = table.given.path("gaps")
    return [
        tuple(read(text, SPACING, field=path).value for text in listed(str(each)))
        for each in written
    ]
