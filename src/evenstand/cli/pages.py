"""Results of the commands as pages of a notebook."""

from collections.abc import Iterator, Sequence

from rich.text import Text

from evenstand.engine.quantities.phrases import Phrase
from evenstand.engine.quantities.units import (
    CATCHES,
    LENGTH,
    PERCENT,
    RATE,
    ROWS,
    SECONDS,
    SHARE,
    TURNS,
    Amount,
    Kind,
)
from evenstand.engine.quantities.working import Line
from evenstand.engine.rows.evenness import Evenness
from evenstand.engine.statistics.budget import Estimate, nominal
from evenstand.report.notebook import Lines, columns
from evenstand.report.row_marks import row_marks
from evenstand.report.strip import Bar, strip
from evenstand.report.worksheet import worksheet
from evenstand.tasks.calibration.catch import Caught
from evenstand.tasks.calibration.rows import Rows
from evenstand.tasks.calibration.turns import Turns

from .output import Out

FRACTIONS = ((1, 2, "½"), (1, 3, "⅓"), (2, 3, "⅔"), (1, 4, "¼"), (3, 4, "¾"))
NEAR = 0.02  # turns; a mark on the tyre is not read closer
FULL = 20  # columns of a bar that stands for the whole range


def tag(out: Out, sentences: Sequence[Phrase]) -> Lines:
    """Draw the one next thing and what goes with it."""
    first, *rest = (out.write(sentence) for sentence in sentences)
    return out.sheet.tag(first, " ".join(rest))


def taken(out: Out, assumed: Sequence[Phrase]) -> Lines:
    """List what was taken without being written."""
    if not assumed:
        return []
    texts = (out.write(each).rstrip(".") for each in assumed)
    said = list(dict.fromkeys(text[0].lower() + text[1:] for text in texts))
    return out.sheet.paragraph(f"Taken as: {'; '.join(said)}.", indent=1, style="faint")


def worksheet_part(out: Out, lines: Sequence[Line], title: str) -> Lines:
    """Write the arithmetic, where it was asked for."""
    if not out.working:
        return []
    return [*out.sheet.heading("Worksheet", title), *worksheet(out.sheet, lines, out.style)]


def turns_page(found: Turns, out: Out) -> Iterator[Lines]:
    """Write what to turn."""
    course, write = found.course, out.style.amount
    turns = nominal(course.turns)
    distance, width = write(LENGTH(nominal(course.distance), 4)), nominal(course.width)
    rest = f"They stand for {distance} at a width of {write(Amount(width, LENGTH, 4))}."
    if found.seconds is not None:
        rest += f" Take {write(Amount(found.seconds, SECONDS, 2))} for each turn."
    counted = write(TURNS(turns, 4)) + _as_marked(turns)
    tag = out.sheet.tag(f"Make {counted} of the drive wheel.", rest)
    yield [*out.sheet.heading("Turns"), *tag]
    yield taken(out, found.assumed)
    yield worksheet_part(out, course.working, "turns")


def _as_marked(turns: float) -> str:
    """Write a turn count with the fraction of a turn that it is next to."""
    whole, part = divmod(turns, 1)
    for above, below, sign in FRACTIONS:
        if abs(part - above / below) < NEAR:
            return f" ({int(whole)}{sign})"
    return ""


def catch_page(found: Caught, out: Out) -> Iterator[Lines]:
    """Write what a catch says, and what would make it surer."""
    measured, target = found.measured, found.target
    rows = out.write(ROWS(measured.rows_caught))
    times = f", {measured.repeats} times" if measured.repeats > 1 else ""
    yield [*out.sheet.heading("Catch", f"{rows} caught{times}"), *tag(out, found.advice)]
    judged = measured.static if target and target.on == "static" else measured.field
    said = measured.verdict.word if measured.verdict else ""
    yield [
        *_rates(found, out),
        Text(),
        *strip(out.sheet, [Bar("catch", judged, said)], target, style=out.style),
    ]
    if found.bench is not None and found.bench.why is not None:
        yield out.sheet.paragraph(out.write(found.bench.why) + ".", indent=1)
    yield budget_part(found, out)
    yield taken(out, found.assumed)
    yield worksheet_part(out, measured.working, "catch")


def _rates(found: Caught, out: Out) -> Lines:
    pairs = (("in the field", found.measured.field), ("at the stand", found.measured.static))
    rows = [(name, rate_text(rate, out), range_text(rate, out)) for name, rate in pairs]
    return [Text(" " + line) for line in columns(rows, right=(1,))]


def rate_text(rate: Estimate, out: Out, kind: Kind = RATE) -> str:
    """Write a rate, or an amount of another kind."""
    return out.style.amount(kind(rate.value))


def range_text(rate: Estimate, out: Out, kind: Kind = RATE) -> str:
    """Write a range, in the unit that stands before it."""
    size = out.style.unit(kind).size
    low, high = (out.style.number(edge / size) for edge in (rate.low, rate.high))
    return f"{low} to {high}"


def budget_part(found: Caught, out: Out) -> Lines:
    """Write what makes the range, each with its cure."""
    share = out.style.amount(SHARE(found.half, 2))
    wanted = out.style.amount(SHARE(found.wanted, 2))
    lines = out.sheet.heading("What makes the range", f"± {share}, ± {wanted} wanted")
    cures = {cure.name: cure for cure in found.cures}
    for each in found.measured.shares:
        if each.part < PERCENT:
            continue
        bar = "█" * max(1, round(each.part * FULL))
        kind = "shared by all catches" if each.common else "another with each catch"
        head = Text.assemble(
            f" {each.name:<20} {out.style.amount(Amount(each.part, SHARE, 2)):>5}  ", (bar, "rust")
        )
        lines.append(head)
        cure = cures.get(each.name)
        advice = f"{kind}; {out.write(cure.say)}" if cure else kind
        if cure:
            advice += f": then ± {out.style.amount(Amount(cure.reach, SHARE, 2))}"
        lines += out.sheet.paragraph(advice, indent=3, style="faint")
    return lines


def rows_page(found: Rows, out: Out) -> Iterator[Lines]:
    """Write how even the rows are, and what to check."""
    even = found.even
    times = out.write(CATCHES(even.scatter.catches))
    heading = out.sheet.heading("Rows", f"{len(even.rows)} rows, {times}")
    yield [*heading, *out.sheet.tag(out.write(even.next), out.write(even.say))]
    yield rows_part(even, out)
    for finding in even.findings:
        checks = [out.write(each.say) for each in finding.checks]
        yield [
            *out.sheet.paragraph(f"{out.write(finding.say)} Check, in this order:", indent=1),
            *out.sheet.points(checks),
        ]
    yield out.sheet.paragraph(out.write(even.surer), indent=1)
    yield taken(out, found.assumed)
    yield worksheet_part(out, even.working, "rows")


def rows_part(even: Evenness, out: Out) -> Lines:
    """Draw the rows side by side."""
    odd = {each.row for each in even.odd_rows}
    noise = (even.rows[0].high - even.rows[0].low) / 2
    return [
        *row_marks(out.sheet, [row.off for row in even.rows], odd=odd, band=noise),
        *out.sheet.paragraph(
            "● row   ✕ odd row   ░ what catching and weighing alone do", indent=1, style="faint"
        ),
    ]
