"""The metering curve in characters: chart, what is expected now, catches, the notch chosen."""

from collections.abc import Iterator, Sequence

from rich.text import Text

from evenstand.engine.calibration.chart import Curve
from evenstand.engine.calibration.choose import CaughtAt, Choice
from evenstand.engine.calibration.meter import expected_rate
from evenstand.engine.catch.target import Target
from evenstand.engine.drill.drill import Gear, number
from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import RATE
from evenstand.engine.statistics.vectors import dot

from ..axis import Axis
from .notebook import Lines, Sheet
from .strip import Ruler

HEIGHT, LABELS = 14, 7
MARKS = "123456789"


class Canvas:
    """Cells over settings and rates; what is put later lies on top."""

    def __init__(self, x: Axis, y: Axis) -> None:
        self.x, self.y = x, y
        self.cells = [[(" ", "")] * x.cells for _ in range(y.cells)]

    def put(self, column: int, rate: float, sign: str, *, style: str = "") -> None:
        """Put a sign where a rate lies, if it lies on the paper."""
        if self.y.low <= rate <= self.y.high:
            self.cells[self.y.cells - 1 - self.y.cell(rate)][column] = (sign, style)

    def band(self, low: float, high: float) -> None:
        """Shade every line whose middle lies between two rates."""
        for cell in range(self.y.cell(low), self.y.cell(high) + 1):
            self.cells[self.y.cells - 1 - cell] = [("░", "rust")] * self.x.cells

    def rows(self) -> Iterator[Text]:
        """Yield the lines from the top."""
        for row in self.cells:
            yield Text.assemble(*row)


def curve_plot(
    sheet: Sheet,
    choice: Choice,
    *,
    start: Curve,
    catches: Sequence[CaughtAt],
    target: Target,
    factor: float,
    style: Style,
) -> Lines:
    """Draw the rate over the lever's settings in the gear that was chosen.

    Parameters
    ----------
    start : Curve
        The chart, before any catch.
    catches : sequence of CaughtAt
        Static rates; those of another gear are drawn at what they mean in this.
    factor : float
        Wanted kind of rate ÷ static rate. [-]
    """
    size, gear = style.unit(RATE).size / factor, choice.best.gear
    x = _settings(choice, catches, cells=sheet.width - LABELS - 2)
    rates = [c.rate * gear.ratio / c.gear.ratio / size for c in catches]
    y = _rates(choice, rates, target, size=style.unit(RATE).size)
    canvas = Canvas(x, y)
    canvas.band(target.low / style.unit(RATE).size, target.high / style.unit(RATE).size)
    for column in range(x.cells):
        at = x.low + (x.high - x.low) * column / (x.cells - 1)
        if start.trusted and column % 2 == 0:
            canvas.put(
                column, dot(start.at(at, gear), start.belief.mean) / size, "·", style="faint"
            )
        _draw_at(canvas, column, _at(choice.curve, at, gear=gear, size=size))
    _mark_notch(canvas, choice.best.setting, choice.best.rate.value / style.unit(RATE).size)
    for mark, caught, rate in zip(MARKS, catches, rates, strict=False):
        canvas.put(x.cell(caught.setting), rate, mark, style="ink")
    wanted = target.rate / style.unit(RATE).size
    return _frame(canvas, choice, wanted, style=style) + _legend(sheet, start, catches, style=style)


def _at(curve: Curve, setting: float, *, gear: Gear, size: float) -> tuple[float, float, float]:
    rate = expected_rate(curve.belief, curve.at(setting, gear))
    return rate.low / size, rate.value / size, rate.high / size


def _draw_at(canvas: Canvas, column: int, range_: tuple[float, float, float]) -> None:
    low, middle, high = range_
    if column % 2 == 0:
        canvas.put(column, low, "˙", style="faint")
        canvas.put(column, high, ".", style="faint")
    canvas.put(column, middle, "━")


def _mark_notch(canvas: Canvas, setting: float, rate: float) -> None:
    column = canvas.x.cell(setting)
    for cell in range(canvas.y.cell(rate)):
        canvas.cells[canvas.y.cells - 1 - cell][column] = ("│", "rust")
    canvas.put(column, rate, "◆", style="rust")


def _settings(choice: Choice, catches: Sequence[CaughtAt], *, cells: int) -> Axis:
    """Show the settings that matter, with some of the scale on both sides."""
    scale = choice.curve.scale
    shown = [choice.best.setting, *(c.setting for c in catches)]
    shown += [c.setting for c in choice.candidates if c.gear == choice.best.gear]
    pad = 0.1 * (max(shown) - min(shown))
    return Axis(max(scale.low, min(shown) - pad), min(scale.high, max(shown) + pad), cells)


def _rates(choice: Choice, rates: Sequence[float], target: Target, *, size: float) -> Axis:
    same = [c.rate.value / size for c in choice.candidates if c.gear == choice.best.gear]
    edges = [target.low / size, target.high / size, *rates, *same]
    pad = 0.15 * (max(edges) - min(edges))
    return Axis(max(0.0, min(edges) - pad), max(edges) + pad, HEIGHT)


def _frame(canvas: Canvas, choice: Choice, wanted: float, *, style: Style) -> Lines:
    labels = {canvas.y.cell(tick): style.number(tick, 4) for tick in canvas.y.ticks(5)}
    near = canvas.y.cell(wanted)
    labels = {cell: text for cell, text in labels.items() if abs(cell - near) > 1}
    labels[near] = style.number(wanted)
    lines = []
    for i, row in enumerate(canvas.rows()):
        label = labels.get(canvas.y.cells - 1 - i, "")
        edge = "┤" if label else "│"
        lines.append(Text.assemble((f"{label:>{LABELS - 1}} {edge}", "faint"), row))
    ruler = Ruler(canvas.x)
    for setting in [choice.best.setting, *canvas.x.ticks(canvas.x.cells // 10)]:
        ruler.mark(setting, number(setting))
    lead = " " * LABELS
    return [
        *lines,
        Text(f"{lead}└{ruler.line}", style="faint"),
        Text(f"{lead} {ruler.numbers}"),
    ]


def _legend(sheet: Sheet, start: Curve, catches: Sequence[CaughtAt], *, style: Style) -> Lines:
    parts = [f"{style.unit(RATE).symbol} over setting", "░ wanted", "━ expected", ". ˙ its range"]
    parts += ["· chart"] if start.trusted else []
    parts += [f"1–{len(catches)} catches" if len(catches) > 1 else "1 catch"] if catches else []
    return sheet.paragraph("   ".join([*parts, "◆ notch"]), indent=1, style="faint")
