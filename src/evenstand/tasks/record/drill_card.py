"""The card of a drill for its tool box: wheel, turns, and the settings it has learned."""

from collections.abc import Iterator
from dataclasses import dataclass

from evenstand.book.book import Book
from evenstand.book.kinds import machine, work
from evenstand.book.storage.thing import Thing
from evenstand.engine.catch.target import odds_in_words
from evenstand.engine.drill.drill import number
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Figure, Phrase, Value, say
from evenstand.engine.quantities.units import (
    FIELD,
    LENGTH,
    NUMBER,
    RATE,
    SHARE,
    SPACING,
    TRAVEL,
    TURNS,
    VOLUME,
)
from evenstand.engine.statistics.budget import nominal, ranged
from evenstand.report.code import code_to_scan
from evenstand.report.document import Block, Cell, Code, Printed, Section, Table, Words
from evenstand.report.pen import Pen

from ..calibration.turning import GROUNDS, heading
from ..calibration.turns import turns
from ..drill.machines import engine_drill, engine_wheel
from ..job.calibration import target
from ..job.kept import Kept, chosen_of, find
from ..parsing.given import Given
from ..whole_job.field_ratios import OwnField, own_fields
from ..whole_job.made_at import moment
from .frame import Reader, before_turning

MOST_JOBS, MOST_LINES = 40, 12
Named = tuple[Value, Value | Cell | None]
AGAIN = say(
    "A setting works only for its seed, gear and tire. Make one catch before you "
    "seed, and one with every new lot."
)
SLACK = {
    "below": say("from below"),
    "above": say("from above"),
    "none": say("from either side"),
}


@dataclass(frozen=True)
class Learned:
    """A setting that was taken in a job, for the seed of one box."""

    kept: Kept
    chosen: work.Chosen
    entry: Thing


@dataclass(frozen=True, kw_only=True)
class LearnedOfDrill:
    """What a drill has learned: settings, and field ratios of fields that are closed."""

    settings: list[Learned]
    fields: tuple[OwnField, ...]


def drill_card(book: Book, drill: str, reader: Reader, *, address: str) -> Printed:
    """Write the card of a drill.

    Parameters
    ----------
    drill : str
        Id of the drill.
    address : str
        Of the drill's page, for the code to scan; empty for none.

    Raises
    ------
    MeasurementError
        For a drill that is not there.
    """
    thing = book.get(drill)
    body = thing.body
    if not isinstance(body, machine.Drill):
        raise MeasurementError("drill", drill, say("enter the ID of a drill"))
    learned, pen = _learned(book, drill), reader.pen
    known = LearnedOfDrill(settings=learned, fields=own_fields(book, drill))
    entries = [thing, *(each.entry for each in learned), *_ends(book, known)]
    return reader.document(
        "card",
        title=say("Drill card"),
        about=body.name,
        lead=_lead(learned),
        facts=[pen.fact(name, value) for name, value in _facts(body, pen)],
        sections=list(_sections(body, known, reader, address=address)),
        foot=(AGAIN,),
        made=moment(max(each.entry.made.ms for each in entries)),
    )


def _ends(book: Book, known: LearnedOfDrill) -> Iterator[Thing]:
    """Yield the entries that closed the fields of a card."""
    for job in dict.fromkeys(field.job for field in known.fields):
        yield from book.things("finished", of=job, limit=1)


def _learned(book: Book, drill: str) -> list[Learned]:
    found = []
    for thing in book.things("job", of=drill, limit=MOST_JOBS):
        if not isinstance(thing.body, work.Job):
            continue
        for wanted in thing.body.wanted:
            kept = find(book, thing.id, box=wanted.box)
            chosen = chosen_of(book, kept)
            if chosen and isinstance(chosen.body, work.Chosen):
                found.append(Learned(kept, chosen.body, chosen))
    return found[:MOST_LINES]


def _lead(learned: list[Learned]) -> Phrase:
    if not learned:
        return say("No settings used yet: each job with this drill adds one.")
    if len(learned) == 1:
        return say("1 setting learned with this drill.")
    return say("{n} settings learned with this drill.", n=len(learned))


def _facts(drill: machine.Drill, pen: Pen) -> Iterator[Named]:
    yield say("Rows"), str(drill.rows)
    yield say("Row spacing"), pen.typed(drill.spacing, SPACING)
    yield say("Width"), pen.amount(nominal(engine_drill(drill).width), LENGTH, 4)
    if drill.taped and not drill.rolled:
        yield say("Tape around the tire"), pen.typed(drill.taped, LENGTH)
        yield say("Slip"), pen.typed(drill.slip, SHARE) if drill.slip else None
    else:
        yield (
            say("Rolled distance per turn"),
            pen.typed(drill.rolled, TRAVEL) if drill.rolled else None,
        )
    if drill.crank_per_wheel:
        yield say("Crank turns per wheel turn"), pen.typed(drill.crank_per_wheel, NUMBER)
    scale = drill.scale
    if scale:
        low, high, step = (Figure(number(each)) for each in (scale.low, scale.high, scale.step))
        yield say("Lever"), say("{low} to {high}, step {step}", low=low, high=high, step=step)
        yield say("Approach a notch"), SLACK[scale.slack]
    for gear in drill.gears:
        yield say("Gear {name}", name=gear.name), Figure(number(gear.ratio))
    for box in drill.boxes:
        yield (
            say("Box {name}", name=box.name),
            pen.typed(box.volume, VOLUME) if box.volume else None,
        )


def _sections(
    drill: machine.Drill, known: LearnedOfDrill, reader: Reader, *, address: str
) -> Iterator[Section]:
    yield reader.section(say("Learned settings"), _settings(known.settings, reader.pen))
    if known.fields:
        title = say("Field rate compared with stationary rate")
        yield reader.section(title, _ratios(known.fields, reader.pen))
    yield before_turning(reader)
    turns_table = _turns(drill, reader)
    if turns_table:
        by_crank = drill.crank_per_wheel is not None
        yield reader.section(heading(by_crank=by_crank), turns_table)
    if address:
        told = reader.pen.write(say("QR code that opens the page for {name}", name=drill.name))
        yield reader.section(say("Its page"), Code(code_to_scan(address), told, address))


def _ratios(fields: tuple[OwnField, ...], pen: Pen) -> Table:
    return Table(
        caption=pen.write(say("Field ratio: field rate ÷ stationary rate")),
        heads=(
            pen.write(say("Seed")),
            pen.write(say("Box")),
            pen.write(say("Job")),
            pen.write(say("Field ratio")),
        ),
        rows=tuple(
            (
                pen.cell(pen.style.listed(each.seed) or None),
                pen.cell(each.box or None),
                Cell(each.name),
                pen.ranged(ranged(each.ratio), NUMBER),
            )
            for each in fields[:MOST_LINES]
        ),
        words=(1, 2),
    )


def _settings(learned: list[Learned], pen: Pen) -> Block:
    if not learned:
        return Words(pen.write(say("not recorded")))
    return Table(
        caption=pen.write(say("Settings used, newest first")),
        heads=(
            pen.write(say("Seed")),
            pen.write(say("Box")),
            pen.write(say("Gear")),
            pen.write(say("Lever")),
            pen.write(say("Target rate, {unit}", unit=pen.unit(RATE))),
            pen.write(say("Within tolerance")),
            pen.write(say("Job")),
        ),
        rows=tuple(_setting(each, pen) for each in learned),
        words=(1, 2, 5, 6),
    )


def _setting(found: Learned, pen: Pen) -> tuple[Cell, ...]:
    wanted, chosen = found.kept.wanted, found.chosen
    rate = Cell("–")
    if wanted:
        aim = target(wanted)
        tolerance = pen.write(SHARE(aim.tolerance))
        rate = Cell(f"{pen.bare(aim.rate, RATE)} ± {tolerance}")
    odds = odds_in_words(chosen.odds) if chosen.odds else None
    return (
        pen.cell(pen.style.listed(wanted.seed) if wanted and wanted.seed else None),
        pen.cell(wanted.box if wanted and wanted.box else None),
        pen.cell(chosen.gear or None),
        pen.cell(Figure(number(chosen.setting))),
        rate,
        pen.cell(odds),
        Cell(found.kept.body.name),
    )


def _turns(drill: machine.Drill, reader: Reader) -> Table | None:
    wheel = engine_wheel(drill.rolled, drill.taped, drill.slip)
    if wheel is None:
        return None
    pen, counts = reader.pen, {}
    each = drill.crank_per_wheel.value if drill.crank_per_wheel else 1.0
    for ground in GROUNDS[reader.style.system]:
        area = Given({"ground": ground}).exact("ground", FIELD)
        laid = turns(engine_drill(drill), wheel, area=area)
        counts[ground] = each * nominal(laid.course.turns)
    rows = (
        (pen.cell(ground), pen.number(counts[ground], TURNS))
        for ground in sorted(counts, key=counts.__getitem__)
    )
    return Table(
        caption=pen.write(say("Turns for an area, all rows open")),
        heads=(pen.write(say("Area")), pen.write(say("Turns"))),
        rows=tuple(rows),
    )
