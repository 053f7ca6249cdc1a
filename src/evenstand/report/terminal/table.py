"""Ruled tables that fit the paper: where they are too wide, each name gets a line of its own."""

from collections.abc import Sequence

from rich.text import Text

from .notebook import Lines, Sheet, columns

INDENT, UNDER = 1, 4  # columns before a row, and before what stands under its name
Row = Sequence[str]


def table(
    sheet: Sheet, heads: Sequence[Row], rows: Sequence[Row], *, foot: Row | None = None
) -> Lines:
    """Set rows under their heads, the first column a name, all others numbers.

    Parameters
    ----------
    heads : sequence of rows
        What stands over the columns, such as words and units.
    foot : row, optional
        A last row under a rule, such as a total.
    """
    every = [*heads, *rows, *([foot] if foot else [])]
    numbers = range(1, len(every[0]))
    lines = columns(every, right=numbers)
    if max(map(len, lines)) + INDENT <= sheet.width:
        return _ruled(
            [[f"{'':{INDENT}}{line}"] for line in lines], heads=len(heads), foot=bool(foot)
        )
    under = columns([row[1:] for row in every], right=range(len(every[0]) - 1))
    stacked = [
        [*([f"{'':{INDENT}}{row[0]}"] if row[0] else []), f"{'':{UNDER}}{line}"]
        for row, line in zip(every, under, strict=True)
    ]
    return _ruled(stacked, heads=len(heads), foot=bool(foot))


def _ruled(blocks: Sequence[Sequence[str]], *, heads: int, foot: bool) -> Lines:
    width = max(len(line) for block in blocks for line in block)
    rule = Text(f"{'':{INDENT}}{'─' * (width - INDENT)}", style="faint")
    lines: Lines = []
    for i, block in enumerate(blocks):
        last = foot and i == len(blocks) - 1
        if last or i == heads:
            lines.append(rule)
        style = "faint" if i < heads else "ink" if last else ""
        lines += [Text(line, style=style) for line in block]
    return lines


def shares(sheet: Sheet, bars: Sequence[tuple[str, Sequence[float]]], *, marks: str) -> Lines:
    """Draw wholes side by side, each member's part as so many of its letters.

    Parameters
    ----------
    bars : sequence of name and shares
        Parts of one whole each, in the same order. [-]
    marks : str
        A letter for each member.
    """
    names = max(len(name) for name, _ in bars)
    cells = sheet.width - names - INDENT - 2
    lines = []
    for name, parts in bars:
        drawn, done = "", 0.0
        for mark, part in zip(marks, parts, strict=True):
            done += part
            drawn += mark * (round(done * cells) - len(drawn))
        lines.append(Text.assemble(f"{'':{INDENT}}{name:<{names}}  ", (drawn, "rust")))
    return lines
