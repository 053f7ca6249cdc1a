"""The worksheet: the lines of arithmetic behind a result, as with a pencil."""

from collections.abc import Sequence

from rich.text import Text

from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.working import Line

from .notebook import Lines, Sheet

INDENT = 4


def worksheet(sheet: Sheet, lines: Sequence[Line], style: Style) -> Lines:
    """Write each line's words, its sum, and what it comes to at the right."""
    written: Lines = []
    for line in lines:
        value = Text(f"= {style.amount(line.value)}", style="ink")
        words, sum_ = style.write(line.say), line.sum(style)
        if not sum_:
            *over, last = sheet.paragraph(words, indent=1)
            written += [*over, sheet.apart(last, value, fill=".")]
            continue
        written += sheet.paragraph(words, indent=1)
        *over, last = sheet.paragraph(sum_, indent=INDENT)
        written += [*over, sheet.apart(last, value, fill=".")]
    sources = list(dict.fromkeys(line.source for line in lines if line.source))
    return written + sheet.paragraph(f"After: {'; '.join(sources)}", indent=1, style="faint")
