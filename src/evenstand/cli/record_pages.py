"""A document as pages of a notebook in characters."""

from collections.abc import Iterator

from rich.text import Text

from evenstand.report.document import (
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
from evenstand.report.notebook import Lines, Sheet
from evenstand.report.table import table

INDENT, UNDER, LINE = 1, 4, 40
NO_BREAK = "\N{NO-BREAK SPACE}"


def record_page(document: Document, sheet: Sheet) -> Iterator[Lines]:
    """Write a document block by block; a drawing is what is told of it."""
    yield [*sheet.heading(document.title, document.about), *sheet.tag(_plain(document.lead), "")]
    yield _facts(document.facts, sheet)
    for section in document.sections:
        lines = sheet.heading(section.title)
        for block in section.blocks:
            lines += _block(block, sheet)
        yield lines
    foot = [*document.foot, document.made_in_words]
    yield [line for text in foot for line in sheet.paragraph(_plain(text), style="faint")]


def _block(block: Block, sheet: Sheet) -> Lines:
    match block:
        case Facts(facts):
            return [*_facts(facts, sheet), Text()]
        case Words(text, quiet):
            return sheet.paragraph(_plain(text), indent=INDENT, style="faint" if quiet else "")
        case Points(points):
            return sheet.points(_plain(point) for point in points)
        case Table():
            return _table(block, sheet)
        case Work():
            return _work(block, sheet)
        case _:
            return _shown(block, sheet)


def _shown(block: Block, sheet: Sheet) -> Lines:
    match block:
        case Signatures(lines, day):
            return [
                line for name in lines for line in (Text(), Text(f"{'_' * LINE}  {name}, {day}:"))
            ]
        case Drawing(caption=caption) if not caption:
            return []
        case Drawing(told=told) | Picture(told=told) | Code(told=told):
            return sheet.paragraph(_plain(told), indent=INDENT, style="faint")
        case _:
            raise AssertionError(block)


def _facts(facts: tuple[Fact, ...], sheet: Sheet) -> Lines:
    return [line for fact in facts for line in _named(fact.name, fact.cell.text, sheet)]


def _named(name: str, text: str, sheet: Sheet, *, indent: int = INDENT) -> Lines:
    """Write a name and what belongs to it, below it where both do not fit beside each other."""
    left, plain = f"{'':{indent}}{_plain(name)} ", _plain(text)
    if len(left) + len(plain) < sheet.width:
        return [sheet.apart(Text(left), Text(plain), fill=".")]
    return [Text(left), *sheet.paragraph(plain, indent=UNDER)]


def _table(block: Table, sheet: Sheet) -> Lines:
    heads = [_plain(head) for head in block.heads]
    rows = [[_plain(cell.text) for cell in row] for row in block.rows]
    lines = table(sheet, [heads], rows)
    if max(line.cell_len for line in lines) > sheet.width:
        lines = [line for row in rows for line in _row(heads, row, sheet)]
    return [*lines, Text()]


def _row(heads: list[str], row: list[str], sheet: Sheet) -> Lines:
    """Write a row of a table that is too wide as a name with its facts."""
    lines = [Text(f"{'':{INDENT}}{row[0]}", style="ink")]
    for head, cell in zip(heads[1:], row[1:], strict=True):
        lines += _named(head, cell, sheet, indent=UNDER)
    return lines


def _work(block: Work, sheet: Sheet) -> Lines:
    lines: Lines = []
    for line in block.lines:
        lines += sheet.paragraph(_plain(line.text), indent=INDENT)
        lines.append(
            sheet.apart(Text(f"    {line.sum} "), Text(f"= {_plain(line.value.text)}"), fill=".")
        )
    return lines


def _plain(text: str) -> str:
    return text.replace(NO_BREAK, " ")
