"""A chart as it is typed or pasted: into what is kept, and back into the fields of its form."""

import re
from collections.abc import Sequence
from dataclasses import replace
from functools import partial

from evenstand.book.kinds.details import detail
from evenstand.book.kinds.machine import Chart, ChartPoint, Drill
from evenstand.book.kinds.shape import Typed
from evenstand.engine.drill.drill import number
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import RATE

from ..parsing.given import Given, lent
from ..parsing.structs import amount, read, texts
from ..parsing.writing import Writing, as_typed
from .rules import check_chart

_CELLS = re.compile(r"\t|;|\s{2,}|,\s+")
_PAIR = re.compile(r"\s*(\S+)\s+(.+?)\s*")


def read_chart(given: Given, *, drill_id: str, drill: Drill, lines: Sequence[Given] = ()) -> Chart:
    """Read a chart: lines of setting and rate, as typed or pasted from a spreadsheet.

    Parameters
    ----------
    given : Given
        What is said of the chart.
    drill_id : str
    drill : Drill
    lines : sequence of Given
        Its ``setting`` and ``rate`` line by line, where they are apart already.

    Raises
    ------
    RefusalsError or MeasurementError
        Each under the field it was typed in; a line of the table by its number.
    """
    with Writing(given) as form:
        test_weight = amount(form, "test_weight", detail(Chart, "test_weight"))
        weight, unit = test_weight.value if test_weight else None, form.text("unit")
        none: tuple[ChartPoint, ...] = (ChartPoint(setting=1.0, rate=Typed(value=1.0)),)

        def points() -> tuple[ChartPoint, ...]:
            if not lines:
                return chart_points(given, unit=unit, test_weight=weight)
            read = (partial(_point, line, test_weight=weight) for line in lines)
            return tuple(form.attempt(each, otherwise=none[0]) for each in read)

        chart = read(
            form,
            Chart,
            drill=drill_id,
            points=form.attempt(points, otherwise=none),
            gear=form.text("gear") or (drill.gears[0].name if len(drill.gears) == 1 else ""),
            test_weight=test_weight,
        )
    with given.pointing(chart_points="points"):
        check_chart(chart, drill)
    return chart


def chart_points(given: Given, *, unit: str, test_weight: float | None) -> tuple[ChartPoint, ...]:
    """Read the table of a chart; a rate without a unit takes the one chosen beside it.

    Headings, lines of words alone, are passed over.
    """
    points: list[ChartPoint] = []
    for i, line in enumerate(given.text("points").splitlines(), 1):
        cells = [cell.strip() for cell in _CELLS.split(line.strip()) if cell.strip()]
        if len(cells) == 1 and (pair := _PAIR.fullmatch(cells[0])):
            cells = [pair[1], pair[2]]
        if not any(letter.isdigit() for letter in line):
            continue
        if len(cells) != 2:
            need = say("line {n}: enter a setting and its rate, such as 30 48", n=i)
            raise given.refuse("points", need)
        here = replace(given, texts={"setting": cells[0], "rate": lent(cells[1], unit)})
        try:
            points.append(_point(here, test_weight=test_weight))
        except MeasurementError as refused:
            need = say("line {n}: {need}", n=i, need=refused.need)
            raise given.refuse("points", need) from None
    if not points:
        raise given.refuse("points", say("enter at least one setting and its rate"))
    if len({point.setting for point in points}) < len(points):
        raise given.refuse("points", say("enter each setting only once"))
    return tuple(points)


def _point(given: Given, *, test_weight: float | None) -> ChartPoint:
    setting = given.number("setting")
    found = given.reading("rate", RATE, test_weight=test_weight)
    if not found.value > 0:
        raise given.refuse("rate", say("enter a rate above 0"))
    return ChartPoint(setting=setting, rate=as_typed(found))


def chart_texts(chart: Chart) -> dict[str, str]:
    """Return the fields of the form as they were filled in."""
    lines = [f"{number(point.setting)}\t{point.rate.text}" for point in chart.points]
    return texts(chart) | {"points": "\n".join(lines)}
