"""A document as pages of a notebook in characters."""

from collections.abc import Iterable, Iterator

from rich.text import Text

from ..document import (
    Block,
    Code,
    Document,
    Drawing,
    Fact,
    Facts,
    Picture,
    Points,
    Signatures,
    Table,
    Words,
    Work,
)
from ..drawn import Columns, Drawn, Hung, Part, Parts, Plot, RowMarks, SideBySide, Strip
from .notebook import Lines, Sheet, columns
from .row_marks import row_marks
from .strip import strip
from .table import shares, table
from .worksheet import worksheet

INDENT, UNDER, LINE = 1, 4, 40
FULL = 20  # columns of a bar that stands for the whole
ADVISED = (20, 5)  # columns of a name and of a share that has a line of advice below it
NO_BREAK = "\N{NO-BREAK SPACE}"


def pages(document: Document, sheet: Sheet, *, working: bool = False) -> Iterator[Lines]:
    """Write a document part by part, its working where that is asked for.

    A drawing made for paper is what is told of it.
    """
    yield _plain([*_head(document, sheet), *_blocks(document.notes, sheet)])
    yield _plain(_facts(document.facts, sheet))
    for section in (*document.sections, *(document.working if working else ())):
        heading = sheet.heading(section.title, section.about) if section.title else []
        yield _plain([*heading, *_blocks(section.blocks, sheet)])
    yield _plain(line for text in document.foot for line in sheet.paragraph(text, style="faint"))


def _head(document: Document, sheet: Sheet) -> Lines:
    heading = sheet.heading(document.title, document.about) if document.title else []
    return [*heading, *(sheet.tag(document.lead, document.also) if document.lead else [])]


def _plain(lines: Iterable[Text]) -> Lines:
    """Let a terminal break lines as it likes."""
    written = list(lines)
    for line in written:
        line.plain = line.plain.replace(NO_BREAK, " ")
    return written


def _blocks(blocks: Iterable[Block], sheet: Sheet) -> Lines:
    return [line for block in blocks for line in _block(block, sheet)]


def _block(block: Block, sheet: Sheet) -> Lines:
    match block:
        case Facts(facts):
            return [*_facts(facts, sheet), Text()]
        case Words(text, quiet):
            return sheet.paragraph(text, indent=INDENT, style="faint" if quiet else "")
        case Points(points, alert):
            return sheet.points(points, sign="!" if alert else "·")
        case Table():
            return _table(block, sheet)
        case Work():
            return worksheet(sheet, block)
        case Signatures() | Drawing() | Picture() | Code():
            return _of_paper(block, sheet)
        case _:
            return _drawn(block, sheet)


def _of_paper(block: Signatures | Drawing | Picture | Code, sheet: Sheet) -> Lines:
    match block:
        case Signatures(lines, day):
            return [
                line for name in lines for line in (Text(), Text(f"{'_' * LINE}  {name}, {day}:"))
            ]
        case Drawing(caption=caption) if not caption:
            return []
        case Drawing(told=told) | Picture(told=told) | Code(told=told):
            return sheet.paragraph(told, indent=INDENT, style="faint")


def _drawn(block: Drawn, sheet: Sheet) -> Lines:
    match block:
        case Columns():
            return _columns(block)
        case Hung():
            return _hung(block, sheet)
        case Parts(parts):
            return _parts(parts, sheet)
        case SideBySide(wholes, marks):
            return shares(sheet, wholes, marks=marks)
        case Strip(bars, target, style):
            return strip(sheet, bars, target, style=style)
        case RowMarks(offs, odd, band):
            return row_marks(sheet, offs, odd=odd, band=band)
        case Plot():
            return _plot(block, sheet)


def _plot(block: Plot, sheet: Sheet) -> Lines:
    from .plot import curve_plot  # with all of the calibration, which few documents show

    return curve_plot(
        sheet,
        block.choice,
        start=block.start,
        catches=block.catches,
        target=block.target,
        factor=block.factor,
        style=block.style,
    )


def _columns(block: Columns) -> Lines:
    lines = columns([*([block.head] if block.head else []), *block.rows], right=block.right)
    styles = ["ink" if i == block.strong else "" for i in range(len(block.rows))]
    styles = [*(["faint"] if block.head else []), *styles]
    return [Text(f" {line}", style=style) for line, style in zip(lines, styles, strict=True)]


def _hung(block: Hung, sheet: Sheet) -> Lines:
    room = block.column
    name = f"{block.name:>{room - 2}}  " if block.right else f" {block.name:<{room - 1}}"
    first, *more = sheet.paragraph(block.text, indent=room)
    under = sheet.paragraph(block.under, indent=room, style="faint")
    return [Text(f"{name}{first.plain[room:]}"), *more, *under]


def _parts(parts: tuple[Part, ...], sheet: Sheet) -> Lines:
    names, room = max(len(part.name) for part in parts), 6
    if any(part.advice for part in parts):
        names, room = ADVISED
    lines: Lines = []
    for part in parts:
        bar = "█" * max(1, round(part.share * FULL))
        lines.append(Text.assemble(f" {part.name:<{names}} {part.text:>{room}}  ", (bar, "rust")))
        lines += sheet.paragraph(part.advice, indent=3, style="faint")
    return lines


def _facts(facts: tuple[Fact, ...], sheet: Sheet) -> Lines:
    return [line for fact in facts for line in _named(fact.name, fact.cell.text, sheet)]


def _named(name: str, text: str, sheet: Sheet, *, indent: int = INDENT) -> Lines:
    """Write a name and what belongs to it, below it where both do not fit beside each other."""
    left = f"{'':{indent}}{name} "
    if len(left) + len(text) < sheet.width:
        return [sheet.apart(Text(left), Text(text), fill=".")]
    return [Text(left), *sheet.paragraph(text, indent=UNDER)]


def _table(block: Table, sheet: Sheet) -> Lines:
    """Set a table; one with a caption stands apart from what comes after it."""
    rows = [[cell.text for cell in row] for row in block.rows]
    foot = [cell.text for cell in block.foot]
    heads = [block.heads, *([block.units] if block.units else [])]
    lines = table(sheet, heads, rows, foot=foot or None)
    if max(line.cell_len for line in lines) > sheet.width:
        named = [", ".join(filter(None, each)) for each in zip(*heads, strict=True)]
        lines = [line for row in (*rows, foot) if row for line in _row(named, row, sheet)]
    return [*lines, *([Text()] if block.caption else [])]


def _row(heads: list[str], row: list[str], sheet: Sheet) -> Lines:
    """Write a row of a table that is too wide as a name with its facts."""
    lines = [Text(f"{'':{INDENT}}{row[0]}", style="ink")]
    for head, cell in zip(heads[1:], row[1:], strict=True):
        lines += _named(head, cell, sheet, indent=UNDER)
    return lines
