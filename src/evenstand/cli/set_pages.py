"""The Set step as a page: the next thing, the catches, the curve, the notches, the rows."""

from collections.abc import Collection, Iterator, Sequence

from rich.text import Text

from evenstand.engine.calibration.choose import Candidate
from evenstand.engine.catch.target import odds_in_words
from evenstand.engine.catch.weighing import Catch
from evenstand.engine.drill.drill import number
from evenstand.engine.rows.evenness import Evenness, evenness
from evenstand.report.notebook import Lines, columns
from evenstand.report.plot import curve_plot
from evenstand.report.strip import Bar, strip
from evenstand.tasks.calibration.setting import Setting

from .output import Out
from .pages import range_text, rate_text, rows_part, tag, taken, worksheet_part

NOTCHES = 5  # shown in the table
FEWEST_ROWS = 3


def set_page(found: Setting, out: Out) -> Iterator[Lines]:
    """Write where the lever goes next and all that speaks for it."""
    yield next_part(found, out)
    yield catches_part(found, out)
    yield curve_part(found, out)
    yield notches_part(found, out)
    yield row_part(found, out)
    yield taken(out, found.assumed)
    if found.caught:
        title = f"catch {len(found.caught)}"
        yield worksheet_part(out, found.caught[-1].measured.working, title)


def next_part(found: Setting, out: Out, *, said: Collection[str] = ()) -> Lines:
    """Draw the tag with the one next thing, and note what else must be known.

    Notes that were ``said`` before are not said again.
    """
    names = " · ".join(found.job.names) or "Set"
    made = len(found.caught)
    return [
        *out.sheet.heading(names, f"Set, catch {made}" if made else "Set, before any catch"),
        *tag(out, found.advice),
        *out.sheet.points([note for note in notes(found, out) if note not in said], sign="!"),
    ]


def notes(found: Setting, out: Out) -> list[str]:
    """Write what else must be known."""
    return [out.write(note) for note in found.notes]


def catches_part(found: Setting, out: Out) -> Lines:
    """Draw every catch and the notch that was chosen, against the band."""
    target, best = found.job.target, found.choice.best
    bars = []
    for i, (made, caught) in enumerate(zip(found.job.catches, found.caught, strict=True), 1):
        measured = caught.measured
        rate = measured.static if target.on == "static" else measured.field
        word = measured.verdict.word if measured.verdict else ""
        gear = "" if made.gear == best.gear else f" {made.gear.name}"
        bars.append(
            Bar(f"{i} at {number(made.setting)}{gear}", rate, f"{rate_text(rate, out)}  {word}")
        )
    odds = out.write(odds_in_words(best.odds))
    said = f"{rate_text(best.rate, out)}  {odds}"
    bars.append(Bar(f"◆ at {number(best.setting)}", best.rate, said, strong=True))
    kind = "field rate" if target.on == "field" else "stand rate"
    return [
        *out.sheet.heading("Catches and next notch" if found.caught else "First notch", kind),
        *strip(out.sheet, bars, target, style=out.style),
    ]


def curve_part(found: Setting, out: Out) -> Lines:
    """Draw the curve with its chart, catches, range and the notch."""
    gear = found.choice.best.gear.name if len(found.job.drill.gears) > 1 else ""
    return [
        *out.sheet.heading("The curve", f"gear {gear}" if gear else ""),
        *curve_plot(
            out.sheet,
            found.choice,
            start=found.start,
            catches=found.at,
            target=found.job.target,
            factor=found.factor,
            style=out.style,
        ),
    ]


def notches_part(found: Setting, out: Out) -> Lines:
    """List the notches that come nearest."""
    best = found.choice.best
    shown = list(found.choice.candidates[:NOTCHES])
    if best not in shown:
        shown = [best, *shown[:-1]]
    shown.sort(key=lambda c: (c.gear.name, c.setting))
    head = [("", "notch", "gives", "from … to", "within tolerance")]
    lines = columns(head + [_notch(c, c == best, out) for c in shown], right=(1, 2))
    styles = ["faint", *("ink" if c == best else "" for c in shown)]
    return [Text(f" {line}", style=style) for line, style in zip(lines, styles, strict=True)]


def _notch(candidate: Candidate, best: bool, out: Out) -> tuple[str, ...]:
    gears = "" if candidate.gear.name == "only" else f" {candidate.gear.name}"
    caught = f", caught {candidate.caught}×" if candidate.caught else ""
    return (
        "◆" if best else "",
        number(candidate.setting) + gears,
        rate_text(candidate.rate, out),
        range_text(candidate.rate, out),
        out.write(odds_in_words(candidate.odds)) + caught,
    )


def row_part(found: Setting, out: Out) -> Lines:
    """Draw the rows of the latest catch, where each was weighed apart."""
    if not found.job.catches:
        return []
    even = row_by_row(found.job.catches[-1].bags, resolution=found.job.scale.resolution)
    if even is None:
        return []
    made = found.job.catches[-1]
    return [
        *out.sheet.heading("Rows caught", f"catch {len(found.caught)}, at {number(made.setting)}"),
        *rows_part(even, out),
        *out.sheet.paragraph(out.write(even.say), indent=1),
    ]


def row_by_row(bags: Catch, *, resolution: float) -> Evenness | None:
    """Judge the rows of a catch; None where rows were not weighed apart."""
    weights: Sequence[float] = [bag.weight for bag in bags]
    running = [weight for weight in weights if weight > 0]
    if len(running) < FEWEST_ROWS or any(bag.rows > 1 for bag in bags):
        return None
    return evenness([weights], resolution=resolution)
