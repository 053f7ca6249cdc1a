"""A result as a strip: the tolerance band, the value as a tick, its range as a bar."""

from collections.abc import Sequence

from rich.text import Text

from evenstand.engine.catch.target import Target
from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import RATE

from ..axis import Axis
from ..drawn import Bar
from .notebook import Lines, Sheet

TEXT = 27  # columns for what is said at the right of a bar
LEAST, MARGIN = 3, 0.06
LEAST_TEXT = 18


def strip(sheet: Sheet, bars: Sequence[Bar], target: Target | None, *, style: Style) -> Lines:
    """Draw ranges below each other over one axis, with the band around the target.

    Parameters
    ----------
    bars : sequence of Bar
        Rates of one kind, field or static. [kg/m²]
    target : Target, optional
        Its band is drawn first; each range can be read against it.
    """
    unit = style.unit(RATE)
    names = max([LEAST, *(len(bar.name) for bar in bars)])
    room = max([LEAST_TEXT, *(len(bar.said) for bar in bars)])
    cells = sheet.width - names - min(room, TEXT) - 4
    edges = [edge / unit.size for bar in bars for edge in (bar.rate.low, bar.rate.high)]
    if target:
        edges += [target.low / unit.size, target.high / unit.size]
    pad = MARGIN * (max(edges) - min(edges)) or 1.0
    axis = Axis(min(edges) - pad, max(edges) + pad, cells)
    lines = [_band(axis, target, style, names=names)] if target else []
    lines += [_bar(axis, bar, unit.size, names=names) for bar in bars]
    return lines + _scale(axis, style, names=names)


def _band(axis: Axis, target: Target, style: Style, *, names: int) -> Text:
    unit = style.unit(RATE)
    left, right = axis.cell(target.low / unit.size), axis.cell(target.high / unit.size)
    label = f" {style.number(target.rate / unit.size)} "
    middle = axis.cell(target.rate / unit.size)
    cells = [" "] * axis.cells
    cells[left : right + 1] = "▒" * (right - left + 1)
    start = middle - len(label) // 2
    if right - left > len(label):
        cells[start : start + len(label)] = label
    said = style.write(RATE(target.rate))
    text = f"target {said}" if right - left <= len(label) else "target"
    return Text.assemble(" " * (names + 2), ("".join(cells), "rust"), (f"  {text}", "rust"))


def _bar(axis: Axis, bar: Bar, size: float, *, names: int) -> Text:
    low, high = axis.cell(bar.rate.low / size), axis.cell(bar.rate.high / size)
    cells = [" "] * axis.cells
    cells[low : high + 1] = "─" * (high - low + 1)
    cells[low], cells[high] = "├", "┤"
    cells[axis.cell(bar.rate.value / size)] = "◆" if bar.strong else "┃"
    weight = "ink" if bar.strong else ""
    return Text.assemble(
        (f" {bar.name.ljust(names)} ", weight), ("".join(cells), weight), (f"  {bar.said}", weight)
    )


def _scale(axis: Axis, style: Style, *, names: int) -> Lines:
    ruler = Ruler(axis)
    for tick in axis.ticks(max(2, axis.cells // 10)):
        ruler.mark(tick, style.number(tick, 4))
    unit = style.unit(RATE).symbol
    lead = " " * (names + 2)
    return [
        Text(lead + ruler.line, style="faint"),
        Text(f"{lead}{ruler.numbers}  {unit}", style="faint"),
    ]


class Ruler:
    """The line under a drawing, with numbers where they find room; the first come first."""

    def __init__(self, axis: Axis) -> None:
        self._axis = axis
        self._line, self._numbers = ["─"] * axis.cells, [" "] * (axis.cells + 4)

    def mark(self, value: float, text: str) -> None:
        """Write a number under its tick."""
        cell = self._axis.cell(value)
        start = max(0, cell - len(text) // 2)
        if not "".join(self._numbers[max(0, start - 1) : start + len(text) + 1]).strip():
            self._line[cell] = "┴"
            self._numbers[start : start + len(text)] = text

    @property
    def line(self) -> str:
        """The line itself."""
        return "".join(self._line)

    @property
    def numbers(self) -> str:
        """The numbers under it."""
        return "".join(self._numbers).rstrip()
