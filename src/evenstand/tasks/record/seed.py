"""The seed of a record: every tag with its photos, and the mix as it was planned."""

from collections.abc import Iterator

from evenstand.book.book import Book
from evenstand.book.kinds.bodies import Photo
from evenstand.book.kinds.seed import Lot
from evenstand.book.storage.thing import Thing
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.quantities.units import DENSITY, RATE, SEED_COUNT, SHARE
from evenstand.engine.seed.tag import Month
from evenstand.report.document import Block, Cell, Drawing, Picture, Section, Table, Words
from evenstand.report.mix_strip import mix_strip
from evenstand.report.pen import Pen

from ..mix.kept import lots_of
from ..mix.lines import MixLine, letters, mix_lines, mix_total
from ..seed.kept import lot_body
from ..seed.sheet import lot_sheet
from ..whole_job.gather import JobSoFar
from .frame import Reader

TAG_DIGITS = 4
NOT_WRITTEN = say("not recorded")


def why_not(job: JobSoFar) -> Phrase:
    """Say why nothing is known of the mix on the ground."""
    if job.lacking is None:
        return NOT_WRITTEN
    return say("can't be calculated yet: {need}", need=job.lacking)


def seed_section(job: JobSoFar, reader: Reader, *, today: Month) -> Section:
    """Write every tag, and show its photos."""
    lots = lots_of(job.book, job.mix) if job.mix else []
    if not lots:
        return reader.section(say("Seed and its tags"), Words(reader.pen.write(NOT_WRITTEN)))
    pen = reader.pen
    table = Table(
        caption=pen.write(say("What each tag says")),
        heads=tuple(
            pen.write(head)
            for head in (
                *(say("Species, lot"), say("Pure seed, %"), say("Germination, %")),
                *(say("Hard or dormant, %"), say("PLS, %"), say("Test date")),
                *(say("Other crop, %"), say("Weed seed, %"), say("Inert, %")),
            )
        ),
        rows=tuple(_tag_row(job, thing, pen, today=today) for thing in lots),
    )
    noted = (Words(text, quiet=True) for thing in lots for text in _notes(thing, pen))
    photos = (photo for thing in lots for photo in _photos(job.book, thing, pen))
    return reader.section(say("Seed and its tags"), table, *noted, *photos)


def called(lot: Lot, pen: Pen, species: str = "") -> str:
    """Name a species and its lot."""
    named = pen.write(say("{name}", name=species or lot.species))
    if not lot.name:
        return named
    return pen.write(say("{species}, lot {lot}", species=named, lot=lot.name))


def _tag_row(job: JobSoFar, thing: Thing, pen: Pen, *, today: Month) -> tuple[Cell, ...]:
    lot = lot_body(thing)
    tag = lot.tag
    state = job.kept.field.state if job.kept.field else ""
    try:
        read = lot_sheet(job.book, thing, today=today, state=state).read
        species, pls = read.species_name, pen.ranged(read.result.pls, SHARE)
    except MeasurementError:
        species, pls = lot.species, pen.cell(None)
    return (
        Cell(called(lot, pen, species)),
        pen.number(tag.purity, SHARE, TAG_DIGITS),
        pen.number(tag.germination, SHARE, TAG_DIGITS),
        pen.number(tag.hard + tag.dormant, SHARE, TAG_DIGITS),
        pls,
        pen.cell(pen.style.dated(tag.tested) if tag.tested else None),
        *(pen.number(part, SHARE, TAG_DIGITS) for part in (tag.other_crop, tag.weed, tag.inert)),
    )


def _notes(thing: Thing, pen: Pen) -> Iterator[str]:
    """Say what else stands on a tag: noxious weeds, a coating, a treatment."""
    lot = lot_body(thing)
    said: list[Phrase] = [
        say("{n} of noxious weed {name}", n=SEED_COUNT(weed.per_kg.value), name=weed.name)
        for weed in lot.tag.noxious
    ]
    if lot.tag.coating:
        coating = SHARE(lot.tag.coating, TAG_DIGITS)
        said.append(say("{coating} coating, included in inert matter", coating=coating))
    if lot.tag.treated or lot.treated_with:
        said.append(
            say("treated with {what}: do not use for food, feed or oil", what=lot.treated_with)
            if lot.treated_with
            else say("treated: do not use for food, feed or oil")
        )
    for each in said:
        yield pen.write(say("{lot}: {what}.", lot=called(lot, pen), what=each))


def _photos(book: Book, thing: Thing, pen: Pen) -> Iterator[Picture]:
    lot = lot_body(thing)
    for photo in reversed(book.things("photo", of=thing.id)):
        if isinstance(photo.body, Photo):
            told = photo.body.caption or pen.write(
                say("Photo of the tag for {lot}", lot=called(lot, pen))
            )
            yield Picture(photo.id, photo.body.media, photo.body.data, told)


def mix_section(job: JobSoFar, reader: Reader) -> Section:
    """Write the mix as it was planned, every member on every basis."""
    pen, title = reader.pen, say("The mix as planned")
    if job.mixed is None or job.mix is None:
        return reader.section(title, *_without_mix(job, reader))
    mix = job.mixed.mix
    total = pen.write(say("total"))
    table = Table(
        caption=pen.write(say("Planned seeding")),
        heads=(
            pen.write(say("Species")),
            pen.write(say("live {unit}", unit=pen.unit(DENSITY))),
            pen.write(say("PLS {unit}", unit=pen.unit(RATE))),
            pen.write(say("bulk {unit}", unit=pen.unit(RATE))),
            pen.write(say("by seed, %")),
            pen.write(say("by weight, %")),
        ),
        rows=(
            *(_mix_row(line, pen) for line in mix_lines(job.mixed, job.mix.members)),
            _mix_row(mix_total(mix), pen, name=total),
        ),
    )
    if len(mix.sown) == 1:
        return reader.section(title, table)
    drawn = mix_strip(mix, letters(mix), reader.style)
    return reader.section(title, table, Drawing(drawn, pen.write(mix.say)))


def _without_mix(job: JobSoFar, reader: Reader) -> tuple[Block, ...]:
    """Write the rates that are wanted where there is no mix, or it cannot be worked out."""
    pen = reader.pen
    if job.mix or not job.kept.body.wanted:
        return (Words(pen.write(why_not(job))),)
    return (
        pen.facts(
            (
                say("{seed} from {box}", seed=each.seed or say("Seed"), box=each.box)
                if each.box
                else (each.seed or say("Seed")),
                pen.typed(each.rate, RATE),
            )
            for each in job.kept.body.wanted
        ),
    )


def _mix_row(line: MixLine, pen: Pen, *, name: str = "") -> tuple[Cell, ...]:
    letter = f"{line.letter}  " if line.letter else ""
    member = pen.write(say("{name}", name=line.name)) if line.name else ""
    return (
        Cell(name or f"{letter}{member}"),
        pen.ranged(line.seeds, DENSITY),
        pen.ranged(line.pls, RATE),
        pen.ranged(line.bulk, RATE),
        pen.number(line.seed_share, SHARE, 2),
        pen.number(line.weight_share, SHARE, 2),
    )
