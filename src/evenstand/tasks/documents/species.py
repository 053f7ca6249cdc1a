"""A species as a document, and all of them."""

from evenstand.engine.quantities.units import RATE, SEED_COUNT, SPACING, TEST_WEIGHT, Kind
from evenstand.engine.quantities.working import PRACTICE
from evenstand.engine.seed.species import CountSource, Sourced, Species, SpeciesTable
from evenstand.report.document import Block, Document, Section, Words
from evenstand.report.drawn import Hung
from evenstand.report.pen import Pen

from .parts import listed, number

PLURALS = {
    "grass": "grasses",
    "legume": "legumes",
    "broadleaf": "broadleaf species",
    "brassica": "brassicas",
}
COUNT_ROOM = 20  # columns for a count and the space behind it


def species_shown(found: Species, pen: Pen) -> Document:
    """Tell what the table knows of a species."""
    kind = f"{found.season}-season {found.group}, {found.life_cycle}"
    said = f"{found.scientific}. {kind[0].upper()}{kind[1:]}."
    if found.also:
        said += f" Also called {', '.join(found.also)}."
    return Document(
        title="Species",
        about=found.group,
        lead=found.name,
        also=said,
        sections=(
            _known(found, pen),
            _counts(found, pen),
            *listed(pen, "Beware", found.beware, alert=True),
        ),
    )


def _known(found: Species, pen: Pen) -> Section:
    blocks: list[Block] = [
        _hung("drilled alone", found.rate, RATE, pen=pen),
        _hung("depth", found.depth, SPACING, pen=pen),
        _hung("test weight", found.test_weight, TEST_WEIGHT, pen=pen),
    ]
    if found.inoculant is not None:
        read = "" if found.inoculant.read else f" ({PRACTICE})"
        blocks.append(Words(f"inoculant: {found.inoculant.group}{read}"))
    return Section("", tuple(blocks))


def _hung(name: str, known: Sourced | None, kind: Kind, *, pen: Pen) -> Hung:
    if known is None:
        return Hung(name, "not listed")
    low, high = (number(pen, end, kind) for end in (known.low, known.high))
    basis = " of pure live seed" if known.basis == "pls" else ""
    span = low if low == high else f"{low} to {high}"
    source = known.source if known.read else PRACTICE
    return Hung(name, f"{span} {pen.style.unit(kind).symbol}{basis}", source)


def _counts(found: Species, pen: Pen) -> Section:
    blocks: list[Block] = [_count(count, pen) for count in found.counts]
    if not found.counts:
        blocks.append(Words("No published count: count your lot."))
    elif found.count_your_lot:
        blocks.append(Words("Sources disagree too much: count the lot."))
    about = "count your lot" if found.count_your_lot else ""
    return Section("Seeds per weight", tuple(blocks), about)


def _count(count: CountSource, pen: Pen) -> Hung:
    number = pen.write(SEED_COUNT(count.seeds_per_kg))
    source = count.source if count.read else f"{count.source} ({PRACTICE})".strip()
    doubt = f" Left out: {count.doubt}." if count.doubt else ""
    return Hung(number, f"{source}.{doubt}", column=COUNT_ROOM, right=True)


def species_list(table: SpeciesTable) -> Document:
    """List all species by group."""
    sections = []
    for group in dict.fromkeys(each.group for each in table):
        names = sorted((each.name for each in table if each.group == group), key=str.casefold)
        listed = Words(" · ".join(names))
        sections.append(Section(PLURALS[group].capitalize(), (listed,), f"{len(names)}"))
    return Document(
        title="Species",
        about=f"{len(table)}",
        notes=(Words("Show one with: evenstand species NAME"),),
        sections=tuple(sections),
    )
