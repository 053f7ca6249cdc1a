"""The worksheet of one Set: the arithmetic as with a pencil, catch by catch."""

from collections.abc import Iterator

from evenstand.book.book import Book
from evenstand.engine.catch.target import odds_in_words
from evenstand.engine.drill.drill import number
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Figure, Phrase, Value, say
from evenstand.engine.quantities.units import CATCH, LENGTH, RATE, SHARE, SPACING, TRAVEL, TURNS
from evenstand.engine.statistics.budget import nominal
from evenstand.report.charts import result_strip, row_chart
from evenstand.report.curve import curve_chart
from evenstand.report.document import Block, Cell, Drawing, Points, Printed, Section, Table, Words
from evenstand.report.pen import Pen

from ..calibration.row_by_row import last_rows
from ..calibration.setting import Setting, where_next
from ..calibration.turning import heading, turning
from ..job.kept import Kept, chosen_of, find, job_drill, job_wheel
from ..whole_job.calibration import set_job
from ..whole_job.made_at import newest
from .frame import RANGES, Reader, before_turning
from .frozen import Version, reason

Named = tuple[Value, Value | Cell | None]
CHECK = say("Redo each calculation before you trust it: every number is shown.")


def worksheet(
    book: Book,
    job: str,
    reader: Reader,
    *,
    box: str | None = None,
    locked_in: Version | None = None,
) -> Printed:
    """Write the worksheet of one box of a job.

    Parameters
    ----------
    job : str
        Id of the job.
    box : str, optional
        The first that a rate is wanted from where it is left out.
    locked_in : Version, optional
        What the setting rests on, where the book is as it stood then.

    Raises
    ------
    MeasurementError
        For a job or box that is not there, and where Set has not what it needs.
    """
    kept = find(book, job, box=box)
    found, pen = where_next(set_job(book, kept)), reader.pen
    where = (kept.body.name, kept.drill.name if kept.drill else "", kept.box)
    return reader.document(
        "worksheet",
        title=say("Worksheet"),
        about=" · ".join(part for part in where if part),
        lead=_lead(book, kept, found),
        facts=[
            *(pen.fact(name, value) for name, value in _facts(kept, found, pen)),
            *(pen.fact(name, value) for name, value in _locked_in(locked_in)),
        ],
        sections=list(_sections(kept, found, reader)),
        foot=(CHECK, RANGES),
        made=newest(book, kept),
    )


def _locked_in(version: Version | None) -> Iterator[tuple[Phrase, Value]]:
    """Say when the setting was locked in, and why only now where an earlier release did it."""
    if version:
        yield say("Locked in"), version.made.date()
        if version.body.why:
            yield say("Why"), reason(version)


def _lead(book: Book, kept: Kept, found: Setting) -> Phrase:
    chosen = chosen_of(book, kept)
    setting = getattr(chosen.body, "setting", None) if chosen else None
    if setting is None:
        return found.advice[0]
    return say("The lever is at {setting}.", setting=Figure(number(setting)))


def _facts(kept: Kept, found: Setting, pen: Pen) -> Iterator[Named]:
    drill, wheel, target = job_drill(kept), job_wheel(kept), found.job.target
    yield say("Seed"), pen.style.listed(kept.wanted.seed) if kept.wanted else None
    yield (
        say("Target rate, field") if target.on == "field" else say("Target rate, stationary"),
        say("{rate} ± {tolerance}", rate=RATE(target.rate), tolerance=SHARE(target.tolerance)),
    )
    yield say("Rows seeding"), str(drill.open_rows)
    yield say("Row spacing"), pen.amount(nominal(drill.spacing), SPACING, 4)
    yield say("Width"), pen.amount(nominal(drill.width), LENGTH, 4)
    if wheel:
        yield say("Distance per turn"), pen.amount(nominal(wheel.ground), TRAVEL, 4)
    if found.job.catches:
        yield say("Scale step"), pen.amount(found.job.catches[-1].scale.resolution, CATCH, 2)
    elif kept.body.resolution:
        yield say("Scale step"), pen.amount(kept.body.resolution.value, CATCH, 2)


def _sections(kept: Kept, found: Setting, reader: Reader) -> Iterator[Section]:
    yield before_turning(reader)
    turns = _turns(kept, reader)
    if turns:
        yield turns
    for i in range(len(found.caught)):
        yield _catch(found, i, reader)
    yield reader.section(say("Where to set the lever"), *_choice(found, reader))
    if found.assumed:
        taken = tuple(dict.fromkeys(reader.pen.write(each) for each in found.assumed))
        yield reader.section(say("Assumptions"), Points(taken))


def _turns(kept: Kept, reader: Reader) -> Section | None:
    pen = reader.pen
    try:
        laid = turning(kept, "", style=reader.style)
    except MeasurementError:
        return None
    if laid is None:
        return None
    lead = say("{turns} cover {ground}.", turns=TURNS(laid.turns), ground=laid.ground)
    title = heading(by_crank=laid.by_crank)
    return reader.section(title, Words(pen.write(lead)), pen.work(laid.working))


def _catch(found: Setting, index: int, reader: Reader) -> Section:
    pen = reader.pen
    made, caught = found.job.catches[index], found.caught[index]
    measured, target = caught.measured, found.job.target
    rate = measured.static if target.on == "static" else measured.field
    last = index == len(found.caught) - 1
    bags = ", ".join(pen.write(CATCH(bag.weight, 4)) for bag in made.bags)
    facts = pen.facts(
        (
            (say("Weighed"), bags),
            (say("Rows caught"), str(measured.rows_caught)),
            (say("Rate"), pen.amount(rate, RATE)),
            (say("Result"), say(measured.verdict.word) if measured.verdict else None),
        )
    )
    strip = result_strip(rate, target, reader.style, name=f"strip-{index + 1}")
    told = pen.write(
        say("Catch {n}, {rate}, against the target", n=index + 1, rate=RATE(rate.value))
    )
    blocks: list[Block] = [facts, Drawing(strip, told), pen.work(measured.working)]
    if last and caught.cures:
        cure = caught.cures[0]
        sure = say(
            "To be more certain, {cure}: that makes it ± {reach}.",
            cure=cure.say,
            reach=SHARE(cure.reach, 2),
        )
        blocks.append(Words(pen.write(sure)))
    setting = Figure(number(made.setting))
    return reader.section(say("Catch {n}, at {setting}", n=index + 1, setting=setting), *blocks)


def _choice(found: Setting, reader: Reader) -> Iterator[Block]:
    pen, choice, target = reader.pen, found.choice, found.job.target
    for sentence in (*found.advice, *found.notes):
        yield Words(pen.write(sentence))
    yield Table(
        caption=pen.write(
            say(
                "Odds that this notch puts the rate within {tolerance} of {rate}.",
                tolerance=SHARE(target.tolerance),
                rate=RATE(target.rate),
            )
        ),
        heads=(
            pen.write(say("Notch")),
            pen.write(say("Gear")),
            pen.write(say("expected, {unit}", unit=pen.unit(RATE))),
            pen.write(say("within")),
        ),
        rows=tuple(
            (
                pen.cell(Figure(number(each.setting))),
                pen.cell(None if each.gear.name == "only" else each.gear.name),
                pen.ranged(each.rate, RATE),
                pen.cell(odds_in_words(each.odds)),
            )
            for each in sorted(choice.candidates[:5], key=lambda each: each.setting)
        ),
        words=(1,),
    )
    yield from _drawn(found, reader)


def _drawn(found: Setting, reader: Reader) -> Iterator[Block]:
    pen = reader.pen
    curve = curve_chart(
        found.choice,
        start=found.start,
        catches=found.at,
        target=found.job.target,
        factor=found.factor,
        style=reader.style,
    )
    best = found.choice.best
    told = say(
        "Rate by lever setting: {setting} drops {rate}.",
        setting=Figure(number(best.setting)),
        rate=RATE(best.rate.value),
    )
    yield Drawing(curve, pen.write(told), pen.write(told))
    rows = last_rows(found.job)
    if rows:
        yield Drawing(row_chart(rows, reader.style), pen.write(rows.say), pen.write(rows.say))
