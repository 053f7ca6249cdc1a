"""From the cells of a row to the form that reads a thing: one set of rules for both."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import partial

from evenstand.book.book import Book
from evenstand.book.kinds.machine import Drill
from evenstand.book.kinds.shape import Body
from evenstand.engine.quantities.errors import Path
from evenstand.engine.quantities.phrases import Decimal, System, say
from evenstand.engine.seed.tag import Month

from ..drill.chart_form import read_chart
from ..drill.form import MOST_GEARS, read_drill
from ..job.form import read_field
from ..parsing.given import Given, Written
from ..seed.form import read_lot_form

Texts = dict[str, str]
Row = tuple[int, Texts]
OF_CHART = ("chart", "drill", "seed", "box", "gear", "spacing", "test_weight", "source")


class Reader:
    """What forms need beside their texts.

    Parameters
    ----------
    units : "us" or "metric"
    decimal : str
        Decimal sign of the file.
    """

    def __init__(self, book: Book, *, today: Month, units: System, decimal: Decimal) -> None:
        self.today, self.units, self.decimal = today, units, decimal
        self._drills: dict[str, list[str]] = {}
        self._bodies: dict[str, Drill] = {}
        for thing in book.things("drill"):
            if isinstance(thing.body, Drill):
                self._bodies[thing.id] = thing.body
                self._drills.setdefault(thing.body.name.casefold(), []).append(thing.id)

    def given(self, row: Row) -> Given:
        """Make inputs of the texts of a row, whose number stands before what they are called."""
        number, texts = row
        return Given(texts, partial(Written, number), decimal=self.decimal)

    def drill(self, given: Given) -> tuple[str, Drill]:
        """Find the drill that a row names."""
        text = given.text("drill")
        ids = [text] if text in self._bodies else self._drills.get(text.casefold(), [])
        if not ids:
            raise given.refuse("drill", say("enter the name of a drill in this book"))
        if len(ids) > 1:
            raise given.refuse("drill", say("several drills have this name: use its ID"))
        return ids[0], self._bodies[ids[0]]


@dataclass(frozen=True, slots=True)
class Form:
    """How rows become things.

    ``read`` reads one from its rows, which are those that say the same in the
    columns ``together``; without any, each row is a thing. ``shown`` are
    columns of what was refused, by its input, where they are called otherwise.
    """

    read: Callable[[Reader, Sequence[Row]], Body | None]
    together: tuple[str, ...] = ()
    shown: Mapping[str, str] = field(default_factory=dict)

    def gather(self, rows: Iterable[Row]) -> Iterable[Sequence[Row]]:
        """Put rows together that are about one thing."""
        if not self.together:
            return [[row] for row in rows]
        things: dict[tuple[str, ...], list[Row]] = {}
        for row in rows:
            key = tuple(row[1].get(name, "") for name in self.together)
            things.setdefault(key, []).append(row)
        return things.values()

    def place(self, path: Path, first: Row) -> tuple[int, str]:
        """Return the row and the column of what was refused."""
        row, key = path if len(path) == 2 else (first[0], str(path))
        return int(row), self.shown.get(str(key), str(key))


def _field(reader: Reader, rows: Sequence[Row]) -> Body | None:
    given = reader.given(rows[0])
    given.text("field_name")
    return read_field(given, units=reader.units)


def _drill(reader: Reader, rows: Sequence[Row]) -> Body:
    _, texts = rows[0]
    for i in range(1, MOST_GEARS + 1):
        teeth = [texts.pop(f"gear{i}_{key}", "") for key in ("driver", "driven")]
        if any(teeth):
            texts[f"gear{i}_ratio"] = ":".join(teeth)
    return read_drill(reader.given(rows[0]))


def _lot(reader: Reader, rows: Sequence[Row]) -> Body:
    _, texts = rows[0]
    if texts.pop("buy", "yes") == "no":
        texts["sold_out"] = "yes"
    return read_lot_form(reader.given(rows[0]), today=reader.today)


def _chart(reader: Reader, rows: Sequence[Row]) -> Body:
    head, *_ = lines = [reader.given(row) for row in rows]
    id, drill = reader.drill(head)
    return read_chart(head, drill_id=id, drill=drill, lines=lines)


FORMS = {
    "fields": Form(_field),
    "drills": Form(_drill),
    "charts": Form(_chart, OF_CHART, {"points": "setting"}),
    "lots": Form(_lot, shown={"sold_out": "buy"}),
}
