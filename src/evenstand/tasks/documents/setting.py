"""The Set step as a document: the next thing, the catches, the curve, the notches, the rows."""

from collections.abc import Collection, Iterator
from dataclasses import replace

from evenstand.engine.calibration.choose import Candidate
from evenstand.engine.catch.target import odds_in_words
from evenstand.engine.drill.drill import number
from evenstand.engine.drill.safety import BEFORE_TURNING
from evenstand.report.document import Document, Points, Section, Words
from evenstand.report.drawn import Bar, Columns, Plot, Strip
from evenstand.report.pen import Pen

from ..calibration.row_by_row import last_rows
from ..calibration.setting import Setting
from .parts import document, rate, span, taken, working
from .rows import marks

NOTCHES = 5  # shown in the table


def setting_shown(found: Setting, pen: Pen) -> Document:
    """Tell where the lever goes next and all that speaks for it."""
    sections = (
        catches(found, pen),
        curve(found, pen),
        notches(found, pen),
        *rows(found, pen),
        *taken(pen, found.assumed),
    )
    return replace(next_shown(found, pen), sections=sections, working=last_working(found, pen))


def last_working(found: Setting, pen: Pen) -> tuple[Section, ...]:
    """Write the arithmetic of the latest catch."""
    if not found.caught:
        return ()
    return working(pen, found.caught[-1].measured.working, f"catch {len(found.caught)}")


def next_shown(found: Setting, pen: Pen, *, said: Collection[str] = ()) -> Document:
    """Tell the one next thing, and note what else must be known.

    Notes that were ``said`` before are not said again.
    """
    title, made = " · ".join(found.job.names) or "Set", len(found.caught)
    new = Points(tuple(note for note in notes(found, pen) if note not in said), alert=True)
    about = f"Set, catch {made}" if made else "Set: before the first catch"
    return document(pen, found.advice, title=title, about=about, notes=(new,))


def notes(found: Setting, pen: Pen) -> list[str]:
    """Write what else must be known, before the first catch how to go about it."""
    first = () if found.caught else BEFORE_TURNING
    return [pen.write(note) for note in (*first, *found.notes)]


def catches(found: Setting, pen: Pen) -> Section:
    """Draw every catch and the notch that was chosen, against the band."""
    target, best = found.job.target, found.choice.best
    said = f"{rate(pen, best.rate)}  {pen.write(odds_in_words(best.odds))}"
    chosen = Bar(f"◆ at {number(best.setting)}", best.rate, said, strong=True)
    kind = "field rate" if target.on == "field" else "stationary rate"
    title = "Catches and next notch" if found.caught else "First notch"
    return Section(title, (Strip((*_bars(found, pen), chosen), target, pen.style),), kind)


def _bars(found: Setting, pen: Pen) -> Iterator[Bar]:
    target, best = found.job.target, found.choice.best
    for i, (made, caught) in enumerate(zip(found.job.catches, found.caught, strict=True), 1):
        measured = caught.measured
        value = measured.static if target.on == "static" else measured.field
        word = measured.verdict.word if measured.verdict else ""
        gear = "" if made.gear == best.gear else f" {made.gear.name}"
        yield Bar(f"{i} at {number(made.setting)}{gear}", value, f"{rate(pen, value)}  {word}")


def curve(found: Setting, pen: Pen) -> Section:
    """Draw the curve with its chart, catches, range and the notch."""
    gear = found.choice.best.gear.name if len(found.job.drill.gears) > 1 else ""
    plot = Plot(
        choice=found.choice,
        start=found.start,
        catches=tuple(found.at),
        target=found.job.target,
        factor=found.factor,
        style=pen.style,
    )
    return Section("The curve", (plot,), f"gear {gear}" if gear else "")


def notches(found: Setting, pen: Pen) -> Section:
    """List the notches that come nearest."""
    best = found.choice.best
    shown = list(found.choice.candidates[:NOTCHES])
    if best not in shown:
        shown = [best, *shown[:-1]]
    shown.sort(key=lambda c: (c.gear.name, c.setting))
    columns = Columns(
        tuple(_notch(c, c == best, pen) for c in shown),
        right=(1, 2),
        head=("", "notch", "expected", "from … to", "within tolerance"),
        strong=shown.index(best),
    )
    return Section("", (columns,))


def _notch(candidate: Candidate, best: bool, pen: Pen) -> tuple[str, ...]:
    gears = "" if candidate.gear.name == "only" else f" {candidate.gear.name}"
    caught = f", caught {candidate.caught}×" if candidate.caught else ""
    return (
        "◆" if best else "",
        number(candidate.setting) + gears,
        rate(pen, candidate.rate),
        span(pen, candidate.rate),
        pen.write(odds_in_words(candidate.odds)) + caught,
    )


def rows(found: Setting, pen: Pen) -> list[Section]:
    """Draw the rows of the latest catch, where each was weighed apart."""
    even = last_rows(found.job)
    if even is None:
        return []
    about = f"catch {len(found.caught)}, at {number(found.job.catches[-1].setting)}"
    return [Section("Rows caught", (*marks(even), Words(pen.write(even.say))), about)]
