"""Parts that the documents of several steps have."""

from collections.abc import Iterable, Sequence

from evenstand.engine.quantities.phrases import Phrase
from evenstand.engine.quantities.units import PERCENT, RATE, SHARE, Kind
from evenstand.engine.quantities.working import Line
from evenstand.engine.statistics.budget import Estimate, Quantity, Share, nominal
from evenstand.report.document import Cell, Document, Points, Section, Table, Words
from evenstand.report.drawn import Part, Parts
from evenstand.report.pen import Pen


def document(
    pen: Pen, advice: Iterable[Phrase], *, title: str, about: str, notes: Sequence[Points] = ()
) -> Document:
    """Begin a document: its heading, the one next thing, what goes with it."""
    first, *rest = (pen.write(each) for each in advice)
    return Document(title=title, about=about, lead=first, also=" ".join(rest), notes=tuple(notes))


def points(pen: Pen, said: Iterable[Phrase], *, alert: bool = False) -> Points:
    """List sentences."""
    return Points(tuple(pen.write(each) for each in said), alert)


def listed(pen: Pen, title: str, said: Iterable[Phrase], *, alert: bool = False) -> list[Section]:
    """List sentences under a heading, if there are any."""
    block = points(pen, said, alert=alert)
    return [Section(title, (block,))] if block.points else []


def taken(pen: Pen, assumed: Sequence[Phrase]) -> list[Section]:
    """List what was assumed, nobody having entered it."""
    if not assumed:
        return []
    texts = (pen.write(each).rstrip(".") for each in assumed)
    said = dict.fromkeys(text[0].lower() + text[1:] for text in texts)
    return [Section("", (Words(f"Assumptions: {'; '.join(said)}.", quiet=True),))]


def working(pen: Pen, lines: Iterable[Line], about: str) -> tuple[Section]:
    """Write the lines of arithmetic."""
    return (Section("Worksheet", (pen.work(lines),), about),)


def makings(
    pen: Pen, shares: Sequence[Share], title: str = "Where the uncertainty comes from"
) -> list[Section]:
    """Tell what makes a range, each cause with its part of it."""
    shown = tuple(
        Part(share.name, share.part, pen.write(SHARE(share.part, 2)))
        for share in shares
        if share.part >= PERCENT
    )
    return [Section(title, (Parts(shown),))] if shown else []


def rate(pen: Pen, value: Estimate, kind: Kind = RATE) -> str:
    """Write a rate, or an amount of another kind."""
    return pen.write(kind(value.value))


def span(pen: Pen, value: Estimate, kind: Kind = RATE) -> str:
    """Write a range, in the unit that stands before it."""
    return f"{number(pen, value.low, kind)} to {number(pen, value.high, kind)}"


def number(pen: Pen, value: Quantity | None, kind: Kind, *, digits: int = 3) -> str:
    """Write a number in its reader's unit, a question mark where it is not known."""
    if value is None:
        return "?"
    return pen.style.number(nominal(value) / pen.style.unit(kind).size, digits)


def table(
    heads: Sequence[str],
    units: Sequence[str],
    rows: Iterable[Sequence[str]],
    *,
    foot: Sequence[str] = (),
) -> Table:
    """Set rows under their heads and units."""
    return Table(
        caption="",
        heads=tuple(heads),
        units=tuple(units),
        rows=tuple(tuple(map(Cell, row)) for row in rows),
        foot=tuple(map(Cell, foot)),
    )
