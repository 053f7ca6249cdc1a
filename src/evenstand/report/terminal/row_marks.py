"""The rows of a drill side by side: how far each is from their mean."""

from collections.abc import Collection, Sequence
from math import ceil

from rich.text import Text

from evenstand.engine.quantities.units import PERCENT

from ..axis import Axis, round_step
from .notebook import Lines, Sheet

LABELS = 8
LINES = 8  # above and below the mean together, about
LEAST = 3.0  # per cent above and below that the paper always shows


def row_marks(
    sheet: Sheet, offs: Sequence[float], *, odd: Collection[int] = (), band: float = 0.0
) -> Lines:
    """Draw each row as a mark on a stem from the mean.

    Parameters
    ----------
    offs : sequence of float
        Row ÷ mean − 1, from the first row. [-]
    odd : collection of int
        Rows that stand out, counted from 1; their mark says so.
    band : float
        What catching and weighing alone do to a row (±), shaded. [-]
    """
    top = max([LEAST, *(off / PERCENT for off in offs)])
    bottom = min([-LEAST, *(off / PERCENT for off in offs)])
    step = round_step((top - bottom) / LINES)
    up, down = ceil(top / step), ceil(-bottom / step)
    axis = Axis(-down * step, up * step, up + down + 1)
    wide = 3 if 3 * len(offs) <= sheet.width - LABELS else 2
    fit = (sheet.width - LABELS) // wide
    panels = ceil(len(offs) / fit)
    share = ceil(len(offs) / panels)
    lines: Lines = []
    for first in range(0, len(offs), share):
        part = list(enumerate(offs, 1))[first : first + share]
        lines += _panel(axis, part, odd, band=band, wide=wide)
    return lines


def _panel(
    axis: Axis,
    rows: Sequence[tuple[int, float]],
    odd: Collection[int],
    *,
    band: float,
    wide: int,
) -> Lines:
    mean = axis.cell(0.0)
    lines = []
    for cell in reversed(range(axis.cells)):
        signs = [
            (_sign(axis.cell(off / PERCENT), cell, mean, odd=row in odd), row in odd)
            for row, off in rows
        ]
        shaded = abs(cell - mean) <= axis.cell(band / PERCENT) - mean
        blank = "─" if cell == mean else "░" if shaded and band else " "
        parts = [(f"{_label(axis, cell, mean):>{LABELS - 2}} ┤", "faint")]
        for sign, strong in signs:
            parts.append((blank * (wide - 1), "faint"))
            parts.append((sign or blank, "rust" if strong else "" if sign else "faint"))
        lines.append(Text.assemble(*parts))
    numbers = "".join(f"{row:>{wide}}" for row, _ in rows)
    if wide == 2:
        numbers = "".join(f"{row % 100:>2}" if row % 2 else "  " for row, _ in rows)
    return [*lines, Text(f"{'row':>{LABELS - 2}}  {numbers}", style="faint")]


def _sign(own: int, cell: int, mean: int, *, odd: bool) -> str:
    """Sign of a row on one line: its mark, its stem, or nothing."""
    if cell == own:
        return "✕" if odd else "●"
    between = min(own, mean) < cell < max(own, mean)
    return "│" if between else "┼" if cell == mean and own != mean else ""


def _label(axis: Axis, cell: int, mean: int) -> str:
    if cell == mean:
        return "mean"
    off = axis.low + (axis.high - axis.low) * cell / (axis.cells - 1)
    return f"{off:+.4g}%".replace("-", "−") if (cell - mean) % 2 else ""
