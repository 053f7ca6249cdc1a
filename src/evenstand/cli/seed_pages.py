"""A tag and a species as pages of a notebook."""

from collections.abc import Iterator, Sequence

from rich.text import Text

from evenstand.engine.quantities.units import (
    DENSITY,
    PERCENT,
    PRICE,
    RATE,
    SEED_COUNT,
    SHARE,
    SPACING,
    TEST_WEIGHT,
    Kind,
)
from evenstand.engine.seed.species import CountSource, Sourced, Species, SpeciesTable
from evenstand.engine.statistics.budget import Estimate, Share
from evenstand.report.notebook import Lines, columns
from evenstand.tasks.seed.tag import TagRead

from .output import Out
from .pages import FULL, range_text, rate_text, tag, taken, worksheet_part

MEMORY = "from memory"
PLURALS = {
    "grass": "grasses",
    "legume": "legumes",
    "broadleaf": "broadleaf species",
    "brassica": "brassicas",
}
COUNT_ROOM = 20  # columns for a count and the space behind it


def tag_page(found: TagRead, out: Out) -> Iterator[Lines]:
    """Write what a tag comes to."""
    name = found.species.name if found.species else ""
    yield [*out.sheet.heading("Tag", name), *tag(out, found.advice)]
    yield _results(found, out)
    yield shares_part(found.result.shares, out)
    yield out.sheet.points([out.write(each) for each in found.result.cautions], sign="!")
    yield taken(out, found.assumed)
    yield worksheet_part(out, found.result.working, "tag")


def _results(found: TagRead, out: Out) -> Lines:
    result = found.result
    with_hard, without = "with hard and dormant", "without hard and dormant"
    other = without if result.count_hard else with_hard
    differs = result.pls_other_way and result.pls_other_way.value != result.pls.value
    named: list[tuple[str, Estimate | None, Kind]] = [
        ("pure live seed", result.pls, SHARE),
        (other, result.pls_other_way if differs else None, SHARE),
        ("live seed to sow", result.pls_rate, RATE),
        ("bulk to sow", result.bulk_rate, RATE),
        ("live seeds on the ground", result.seeds_per_area, DENSITY),
        ("price of live seed", result.price_per_pls, PRICE),
    ]
    rows = [
        (name, rate_text(value, out, kind), _reach(value, out, kind))
        for name, value, kind in named
        if value is not None
    ]
    return [Text(f" {line}") for line in columns(rows, right=(1,))]


def _reach(value: Estimate, out: Out, kind: Kind) -> str:
    return range_text(value, out, kind) if value.u else ""


def shares_part(shares: Sequence[Share], out: Out, title: str = "What makes the range") -> Lines:
    """Draw what makes a range, each cause with its part of it."""
    shown = [share for share in shares if share.part >= PERCENT]
    if not shown:
        return []
    names = max(len(share.name) for share in shown)
    lines = out.sheet.heading(title)
    for share in shown:
        part = out.style.amount(SHARE(share.part, 2))
        bar = "█" * max(1, round(share.part * FULL))
        lines.append(Text.assemble(f" {share.name:<{names}} {part:>6}  ", (bar, "rust")))
    return lines


def species_page(found: Species, out: Out) -> Iterator[Lines]:
    """Write what the table knows of a species."""
    kind = f"{found.season}-season {found.group}, {found.life_cycle}"
    said = f"{found.scientific}. {kind[0].upper()}{kind[1:]}."
    if found.also:
        said += f" Also called {', '.join(found.also)}."
    yield [*out.sheet.heading("Species", found.group), *out.sheet.tag(found.name, said)]
    yield _known(found, out)
    yield _counts(found, out)
    yield _beware(found, out)


def _known(found: Species, out: Out) -> Lines:
    lines: Lines = []
    for name, known, kind in (
        ("drilled alone", found.rate, RATE),
        ("depth", found.depth, SPACING),
        ("test weight", found.test_weight, TEST_WEIGHT),
    ):
        value = "not known here" if known is None else _span(known, out, kind)
        lines.append(Text(f" {name:<15}{value}"))
        if known is not None:
            source = known.source if known.read else MEMORY
            lines += out.sheet.paragraph(source, indent=16, style="faint")
    if found.inoculant is not None:
        read = "" if found.inoculant.read else f" ({MEMORY})"
        lines += out.sheet.paragraph(f"inoculant: {found.inoculant.group}{read}", indent=1)
    return lines


def _span(known: Sourced, out: Out, kind: Kind) -> str:
    unit = out.style.unit(kind)
    low, high = (out.style.number(end / unit.size) for end in (known.low, known.high))
    basis = " of pure live seed" if known.basis == "pls" else ""
    return f"{low if low == high else f'{low} to {high}'} {unit.symbol}{basis}"


def _counts(found: Species, out: Out) -> Lines:
    lines = out.sheet.heading("Seeds in a weight", "count your lot" if found.count_your_lot else "")
    if not found.counts:
        return [*lines, *out.sheet.paragraph("No count is printed: count your lot.", indent=1)]
    for count in found.counts:
        lines += _count(count, out)
    if found.count_your_lot:
        text = "Sources differ so much that only a count of the lot will do."
        lines += out.sheet.paragraph(text, indent=1)
    return lines


def _count(count: CountSource, out: Out) -> Lines:
    number = out.style.amount(SEED_COUNT(count.seeds_per_kg))
    source = count.source if count.read else f"{count.source} ({MEMORY})".strip()
    doubt = f" Left out: {count.doubt}." if count.doubt else ""
    first, *more = out.sheet.paragraph(f"{source}.{doubt}", indent=COUNT_ROOM)
    head = f"{number:>{COUNT_ROOM - 2}}  {first.plain.strip()}"
    return [Text(head), *more]


def _beware(found: Species, out: Out) -> Lines:
    said = [out.write(each) for each in found.beware()]
    if not said:
        return []
    return [*out.sheet.heading("Beware"), *out.sheet.points(said, sign="!")]


def species_list(table: SpeciesTable, out: Out) -> Iterator[Lines]:
    """List all species by group."""
    text = "Show one with: evenstand species NAME"
    yield [*out.sheet.heading("Species", f"{len(table)}"), *out.sheet.paragraph(text, indent=1)]
    for group in dict.fromkeys(each.group for each in table):
        names = [each.name for each in table if each.group == group]
        yield [
            *out.sheet.heading(PLURALS[group].capitalize(), f"{len(names)}"),
            *out.sheet.paragraph(" · ".join(sorted(names, key=str.casefold)), indent=1),
        ]
