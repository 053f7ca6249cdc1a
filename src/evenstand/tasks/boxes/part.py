"""The part of a job file that is one box's: its scale, its charts, what was caught from it."""

from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Any

from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase, say, series

from ..job.tables import InTables, JobTable, many
from ..seed.names import named
from .boxes import Boxes

OF_A_BOX = ("chart", "history", "catch")


@dataclass(frozen=True)
class BoxPart:
    """Tables of one box, and where each of them stands in the whole file.

    ``places`` are the numbers, by table, that the tables kept have there;
    ``scale`` leads to the box's own scale, None where it has none.
    """

    file: Mapping[str, Any]
    places: Mapping[str, Sequence[int]]
    scale: InTables | None
    assumed: tuple[Phrase, ...]

    @contextmanager
    def named(self) -> Iterator[None]:
        """Let what is refused inside be named as it stands in the whole file."""
        try:
            yield
        except MeasurementError as refused:
            raise self._placed(refused) from None

    def _placed(self, refused: MeasurementError) -> MeasurementError:
        match refused.path:
            case (str(name), int(number), *inside) if name in self.places:
                return refused.at(InTables(name, self.places[name][number - 1], *inside))
            case ("drill", "scale", str(key)) if self.scale:
                need = say("{key}: {need}", key=key, need=refused.need)
                return MeasurementError(self.scale, refused.given, need)
            case _:
                return refused


def boxes_named(file: Mapping[str, Any]) -> tuple[str, ...]:
    """Return the boxes that charts, earlier rates and catches name, as written."""
    tables = (table for name in OF_A_BOX for table in many(file, name))
    written = (table.given.text("box") for table in tables if "box" in table.given)
    return tuple(dict.fromkeys(written))


def part_of(file: Mapping[str, Any], boxes: Boxes, box: str) -> BoxPart:
    """Leave out of a file what is another box's.

    Parameters
    ----------
    box : str
        Name of the box.

    Raises
    ------
    MeasurementError
        For a name that no box has, and a table that names no box beside
        others of its kind that do.
    """
    names = [each.name for each in boxes.read]
    kept: dict[str, Any] = {}
    places: dict[str, list[int]] = {}
    bare: list[str] = []
    for name in OF_A_BOX:
        tables = many(file, name)
        of = [_box_of(table, names) for table in tables]
        if None in of and set(of) != {None}:
            need = say(
                "choose the box it belongs to, like the others: {names}", names=", ".join(names)
            )
            raise tables[of.index(None)].given.refuse("box", need)
        bare += [name] if None in of else []
        places[name] = [i for i, where in enumerate(of, start=1) if where in (None, box)]
        if name in file:
            kept[name] = [dict(tables[i - 1].whole) for i in places[name]]
    number = names.index(box) + 1
    own = boxes.read[number - 1].said.scale
    drill = {**file.get("drill", {}), **({"scale": own} if own else {})}
    return BoxPart(
        file={**file, **kept, "drill": drill},
        places=places,
        scale=InTables("boxes", number, "scale") if own else None,
        assumed=_shared(bare, boxes, box),
    )


def _box_of(table: JobTable, names: Sequence[str]) -> str | None:
    if "box" not in table.given:
        return None
    return named(table.given, "box", table.given.text("box"), names=names)


def _shared(bare: Sequence[str], boxes: Boxes, box: str) -> tuple[Phrase, ...]:
    """Say that what names no box is taken for this one's, where there are others."""
    if not bare or len(boxes.read) < 2:
        return ()
    text = "{names} without a box: {box} is assumed"
    return (say(text, names=series(bare), box=box),)
