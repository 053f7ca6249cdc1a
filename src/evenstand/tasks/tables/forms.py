"""From the cells of a row to the form that reads a thing: one set of rules for both."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from evenstand.book.book import Book
from evenstand.book.kinds.machine import Drill
from evenstand.book.kinds.shape import Body
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Decimal, System, say
from evenstand.engine.quantities.units import RATE
from evenstand.engine.seed.tag import Month

from ..drill.chart_form import read_chart
from ..drill.form import MOST_GEARS, read_drill
from ..job.form import read_field
from ..parsing.given import Given, is_bare
from ..parsing.writing import RefusalsError
from ..seed.form import read_lot_form

Texts = dict[str, str]
Row = tuple[int, Texts]
OF_CHART = ("chart", "drill", "seed", "box", "gear", "spacing", "test_weight", "source")
_AT = "\n"  # parts the key of a point's cell from the number of its row


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

    def given(self, texts: Texts) -> Given:
        """Make inputs of texts."""
        return Given(texts, decimal=self.decimal)

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

    ``gather`` puts rows together that are about one thing, ``read`` reads it,
    ``place`` tells the row and column of what was refused.
    """

    read: Callable[[Reader, Texts], Body | None]
    gather: Callable[[Iterable[Row]], Iterable[Row]] = iter
    place: Callable[[int, str], tuple[int, str]] = lambda row, key: (row, key)


def _field(reader: Reader, texts: Texts) -> Body | None:
    given = reader.given(texts)
    given.text("field_name")
    return read_field(given, units=reader.units)


def _drill(reader: Reader, texts: Texts) -> Body:
    for i in range(1, MOST_GEARS + 1):
        teeth = [texts.pop(f"gear{i}_{key}", "") for key in ("driver", "driven")]
        if any(teeth):
            texts[f"gear{i}_ratio"] = ":".join(teeth)
    return read_drill(reader.given(texts))


def _lot(reader: Reader, texts: Texts) -> Body:
    if texts.pop("buy", "yes") == "no":
        texts["sold_out"] = "yes"
    return read_lot_form(reader.given(texts), today=reader.today)


def _charts(rows: Iterable[Row]) -> Iterator[Row]:
    """Put the points of each chart together, under the row of its first one."""
    charts: dict[tuple[str, ...], Row] = {}
    for number, texts in rows:
        if not texts:
            continue
        key = tuple(texts.get(name, "") for name in OF_CHART)
        _, chart = charts.setdefault(key, (number, {k: texts[k] for k in OF_CHART if k in texts}))
        chart |= {f"{k}{_AT}{number}": texts[k] for k in ("setting", "rate") if k in texts}
    yield from charts.values()


def _chart(reader: Reader, texts: Texts) -> Body:
    head = {key: text for key, text in texts.items() if _AT not in key and key != "chart"}
    head["points"] = "\n".join(_points(reader, texts))
    given = reader.given(head)
    id, drill = reader.drill(given)
    return read_chart(given, drill_id=id, drill=drill)


def _points(reader: Reader, texts: Texts) -> list[str]:
    """Write all points of a chart, or say all that is wrong with them."""
    found: list[str] = []
    refused: list[MeasurementError] = []
    for row in dict.fromkeys(key.partition(_AT)[2] for key in texts if _AT in key):
        try:
            found.append(_point(reader, texts, row))
        except MeasurementError as error:
            refused.append(error)
    if refused:
        raise RefusalsError(refused)
    return found


def _point(reader: Reader, texts: Texts, row: str) -> str:
    """Write a point as the form has it; it is read here too, so that its own row is named."""
    keys = [f"{name}{_AT}{row}" for name in ("setting", "rate")]
    given = reader.given({key: texts[key] for key in keys if key in texts})
    given.number(keys[0])
    if is_bare(given.text(keys[1])):
        need = say("enter the unit too, such as {example}", example="60 lb/ac")
        raise given.refuse(keys[1], need)
    if "test_weight" not in texts:
        given.reading(keys[1], RATE)
    return "\t".join(" ".join(texts[key].split()) for key in keys)


def _point_place(row: int, key: str) -> tuple[int, str]:
    name, _, number = key.partition(_AT)
    if name == "points":
        return row, "setting"
    return (int(number), name) if number else (row, name)


FORMS = {
    "fields": Form(_field),
    "drills": Form(_drill),
    "charts": Form(_chart, _charts, _point_place),
    "lots": Form(_lot, place=lambda row, key: (row, "buy" if key == "sold_out" else key)),
}
