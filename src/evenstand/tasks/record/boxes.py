"""The boxes of a record: where the lever stood, what was caught, what went out of each."""

from collections.abc import Iterator

from evenstand.engine.catch.target import odds_in_words
from evenstand.engine.drill.drill import number
from evenstand.engine.quantities.phrases import Figure, Phrase, Value, say
from evenstand.engine.quantities.units import CATCHES, FIELD, LOAD, RATE, SHARE
from evenstand.engine.statistics.budget import nominal, ranged
from evenstand.report.charts import result_strip
from evenstand.report.document import Block, Cell, Drawing, Facts, Section, Table, Words
from evenstand.report.pen import Pen

from ..whole_job.gather import BoxSet, JobSoFar
from .frame import Reader
from .seed import NOT_WRITTEN

Named = tuple[Value, Value | Cell | None]


def set_section(job: JobSoFar, reader: Reader) -> Section:
    """Write what each box was set to and how it was found, catch by catch."""
    title = say("Boxes, settings and catches")
    if not job.sets:
        return reader.section(title, Words(reader.pen.write(NOT_WRITTEN)))
    blocks = [
        block
        for number, each in enumerate(job.sets, start=1)
        for block in _box(each, reader, name=f"strip-{number}")
    ]
    return reader.section(title, *blocks)


def _box(found: BoxSet, reader: Reader, *, name: str) -> Iterator[Block]:
    pen = reader.pen
    yield Facts(tuple(pen.fact(name, value) for name, value in _set_facts(found, pen)))
    if found.found is None or not found.found.caught:
        return
    job = found.found.job
    yield Table(
        caption=pen.write(say("Catches from {box}", box=found.name or say("the box"))),
        heads=(
            pen.write(say("Catch")),
            pen.write(say("Lever")),
            pen.write(say("Gear")),
            pen.write(say("stationary rate, {unit}", unit=pen.unit(RATE))),
            pen.write(say("field rate, {unit}", unit=pen.unit(RATE))),
            pen.write(say("By itself")),
        ),
        rows=tuple(
            (
                Cell(str(i)),
                pen.cell(Figure(number(made.setting))),
                pen.cell(_gear(made.gear.name)),
                pen.ranged(caught.measured.static, RATE),
                pen.ranged(caught.measured.field, RATE),
                pen.cell(say(caught.measured.verdict.word) if caught.measured.verdict else None),
            )
            for i, (made, caught) in enumerate(
                zip(job.catches, found.found.caught, strict=True), start=1
            )
        ),
        words=(2, 5),
    )
    measured = found.found.caught[-1].measured
    rate = measured.static if job.target.on == "static" else measured.field
    svg = result_strip(rate, job.target, reader.style, name=name)
    told = say("The last catch, {rate}, compared with the target.", rate=RATE(rate.value))
    yield Drawing(svg, pen.write(told), pen.write(told))


def _gear(name: str) -> Value | None:
    return None if name == "only" else name


def _set_facts(found: BoxSet, pen: Pen) -> Iterator[Named]:
    wanted, chosen = found.kept.wanted, found.chosen
    if found.name:
        yield say("Box"), found.name
    if wanted:
        yield say("Seed"), pen.style.listed(wanted.seed)
        yield say("Target rate"), _wanted(found, pen)
    yield say("Set to"), _setting(found)
    if chosen:
        yield say("Within tolerance"), odds_in_words(chosen.odds) if chosen.odds else None
    candidate = found.set_to
    if candidate:
        yield say("What that puts down"), pen.amount(candidate.rate, RATE)
    n = len(found.kept.catches)
    yield say("Calibrated with"), CATCHES(n) if n else None


def _wanted(found: BoxSet, pen: Pen) -> Value | None:
    wanted = found.kept.wanted
    if wanted is None:
        return None
    if found.found is None:
        return pen.typed(wanted.rate, RATE)
    target = found.found.job.target
    return say(
        "{rate} ± {tolerance} in the field"
        if target.on == "field"
        else "{rate} ± {tolerance} stationary",
        rate=RATE(target.rate),
        tolerance=SHARE(target.tolerance),
    )


def _setting(found: BoxSet) -> Value | None:
    chosen = found.chosen
    if chosen is None:
        return None
    at = Figure(number(chosen.setting))
    return say("{setting}, gear {gear}", setting=at, gear=chosen.gear) if chosen.gear else at


def used_section(job: JobSoFar, reader: Reader) -> Section:
    """Write what was filled in, what was left over, and the rate that follows."""
    pen, title = reader.pen, say("Seed used")
    if all(each.seen is None for each in job.sets):
        return reader.section(title, Words(pen.write(_why_not(job))))
    table = Table(
        caption=pen.write(say("Seed weighed in and out of each box")),
        heads=(
            pen.write(say("Box")),
            pen.write(say("loaded, {unit}", unit=pen.unit(LOAD))),
            pen.write(say("left over, {unit}", unit=pen.unit(LOAD))),
            pen.write(say("used, {unit}", unit=pen.unit(LOAD))),
            pen.write(say("seeded, {unit}", unit=pen.unit(RATE))),
            pen.write(say("of target")),
        ),
        rows=tuple(_used_row(job, each, pen) for each in job.sets if each.seen),
    )
    return reader.section(title, *_area(job, pen), table)


def _area(job: JobSoFar, pen: Pen) -> Iterator[Block]:
    """Say which area the rates are on."""
    if job.ground is not None:
        text = "Rates are on the {ground} seeded, overlap counted once."
        yield Words(pen.write(say(text, ground=FIELD(nominal(job.ground)))), quiet=True)


def _why_not(job: JobSoFar) -> Phrase:
    return NOT_WRITTEN if job.sets else say("No box has a target rate yet.")


def _used_row(job: JobSoFar, found: BoxSet, pen: Pen) -> tuple[Cell, ...]:
    seen, wanted = found.seen, found.kept.wanted
    rate, weighed = job.achieved(found.name)
    laid = ranged(rate) if weighed and rate is not None else None
    part = laid.value / wanted.rate.value if laid and wanted else None
    return (
        Cell(found.name or pen.write(say("the box"))),
        pen.number(seen.loaded if seen else None, LOAD, 4),
        pen.number(seen.left if seen else None, LOAD, 4),
        pen.number(seen.used if seen else None, LOAD, 4),
        pen.ranged(laid, RATE),
        pen.cell(None if part is None else SHARE(part)),
    )
