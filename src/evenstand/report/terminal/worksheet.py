"""The worksheet: the lines of arithmetic behind a result, as with a pencil."""

from rich.text import Text

from ..document import Work
from .notebook import Lines, Sheet

INDENT = 4


def worksheet(sheet: Sheet, work: Work) -> Lines:
    """Write each line's words, its sum, and what it comes to at the right."""
    written: Lines = []
    for line in work.lines:
        *above, last = sheet.paragraph(line.text, indent=1)
        if line.sum:
            above.append(last)
            *over, last = sheet.paragraph(line.sum, indent=INDENT)
            above += over
        value = Text(f"= {line.value.text}", style="ink")
        written += [*above, sheet.apart(last, value, fill=".")]
    return written + sheet.paragraph(work.sources, indent=1, style="faint")
