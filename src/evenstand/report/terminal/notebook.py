"""The look of a field notebook in characters: ruled lines, a seed tag, dark ink and rust.

Everything is written so that it reads without colour and in 60 columns.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from io import TextIOBase
from re import sub
from textwrap import wrap

from rich.console import Console
from rich.text import Text
from rich.theme import Theme

WIDEST, NARROWEST = 80, 40
THEME = Theme({"ink": "bold", "rust": "color(130)", "faint": "dim"})
Lines = list[Text]


def console(file: TextIOBase | None = None, *, stderr: bool = False) -> Console:
    """Return a console that writes what it is given and nothing of its own."""
    return Console(
        file=file,  # type: ignore[arg-type]
        stderr=stderr,
        theme=THEME,
        highlight=False,
        markup=False,
        emoji=False,
    )


@dataclass(frozen=True)
class Sheet:
    """How wide the paper is."""

    width: int = WIDEST

    def rule(self, sign: str = "─") -> Text:
        """Draw a line across."""
        return Text(sign * self.width, style="faint")

    def heading(self, left: str, right: str = "") -> Lines:
        """Write a heading on its ruled line, with something at the right."""
        *over, last = fold(left, self.width) or [""]
        return [
            *(Text(line, style="ink") for line in over),
            self.apart(Text(last, style="ink"), Text(right, style="faint")),
            self.rule(),
        ]

    def apart(self, left: Text, right: Text, *, fill: str = " ") -> Text:
        """Write two texts at the two edges, one below the other where both do not fit."""
        if not right:
            return left
        room = self.width - left.cell_len - right.cell_len
        if room < 1:
            return Text.assemble(left, "\n", " " * max(0, self.width - right.cell_len), right)
        between = (
            " " * room if fill == " " else f" {fill * (room - 2)} " if room > 2 else " " * room
        )
        return Text.assemble(left, (between, "faint"), right)

    def paragraph(self, text: str, *, indent: int = 0, style: str = "") -> Lines:
        """Write a text in lines that fit."""
        room = self.width - indent
        return [Text(" " * indent + line, style=style) for line in fold(text, room)]

    def tag(self, first: str, rest: str) -> Lines:
        """Draw a paper seed tag with a punched hole, the one next thing on it."""
        room = self.width - 8
        inside = [Text(line, style="ink") for line in fold(first, room)]
        inside += [Text(line) for line in fold(rest, room)] or [Text()]
        hole = (len(inside) - 1) // 2
        lines = [Text("  ╭" + "─" * (self.width - 4) + "╮", style="rust")]
        for i, text in enumerate(inside):
            edge = " ╱" if i == 0 else " ╲" if i == len(inside) - 1 else " │"
            mark = " ○ " if i == hole else "   "
            pad = " " * (room - text.cell_len)
            lines.append(Text.assemble((edge + mark, "rust"), text, pad + "  ", ("│", "rust")))
        lines.append(Text("  ╰" + "─" * (self.width - 4) + "╯", style="rust"))
        return lines

    def points(self, texts: Iterable[str], *, sign: str = "·") -> Lines:
        """List short texts, each behind its sign."""
        lines: Lines = []
        for text in texts:
            first, *others = fold(text, self.width - 3) or [""]
            lines.append(Text.assemble((f" {sign} ", "rust"), first))
            lines += [Text("   " + other) for other in others]
        return lines


def fold(text: str, room: int) -> list[str]:
    """Break a text into lines, never between a number and what follows it."""
    joined = sub(r"(?<=[\d±×÷]) (?=\S)", "\N{NO-BREAK SPACE}", text)
    return [line.replace("\N{NO-BREAK SPACE}", " ") for line in wrap(joined, room)]


def sheet(console: Console) -> Sheet:
    """Return paper that fits the console."""
    return Sheet(max(NARROWEST, min(console.width, WIDEST)))


def columns(rows: Sequence[Sequence[str]], *, right: Sequence[int] = ()) -> list[str]:
    """Set a table in columns as wide as their widest cell; ``right`` align right."""
    widths = [max(len(row[i]) for row in rows) for i in range(len(rows[0]))]
    return [
        "  ".join(
            cell.rjust(width) if i in right else cell.ljust(width)
            for i, (cell, width) in enumerate(zip(row, widths, strict=True))
        ).rstrip()
        for row in rows
    ]
