"""A stand as a page of a notebook: plants, what came up, the mix, what others publish."""

from collections.abc import Iterator

from evenstand.engine.quantities.units import PLANTS, SHARE
from evenstand.engine.stand.species import Part
from evenstand.report.notebook import Lines
from evenstand.report.table import table
from evenstand.tasks.stand.stand import OfSpecies, Stood

from .output import Out
from .pages import tag, taken, worksheet_part


def stand_page(found: Stood, out: Out) -> Iterator[Lines]:
    """Write what came up and what is advised."""
    value = out.write(PLANTS(found.stand.range.value))
    yield [*out.sheet.heading("Stand", value), *tag(out, found.advice)]
    yield species_part(found, out)
    yield mix_part(found, out)
    yield out.sheet.points([out.write(each) for each in found.surer])
    yield next_season_part(found, out)
    if found.published:
        points = out.sheet.points([out.write(each) for each in found.published])
        yield [*out.sheet.heading("What others publish"), *points]
    yield taken(out, found.assumed)
    yield worksheet_part(out, found.working, "stand")


def species_part(found: Stood, out: Out) -> Lines:
    """List each species with what came up of its seed."""
    if len(found.species) < 2:
        return out.sheet.points([out.write(text) for each in found.species for text in each.say])
    unit = out.style.unit(PLANTS).symbol
    heads = [["", "stand", "from", "to", "came up", "from", "to"], ["", *[unit] * 3, *["%"] * 3]]
    rows = [_species(each, out) for each in found.species]
    said = [f"{each.name}: {out.write(text)}" for each in found.species for text in each.say[1:]]
    return [
        *out.sheet.heading("Species"),
        *table(out.sheet, heads, rows),
        *out.sheet.points(said),
    ]


def _species(each: OfSpecies, out: Out) -> list[str]:
    ranged, share = each.stand.range, each.emergence
    size = out.style.unit(PLANTS).size
    cells = [out.style.number(x / size) for x in (ranged.value, ranged.low, ranged.high)]
    if share is None:
        return [each.name, *cells, "", "", ""]
    parts = (share.share.value, share.share.low, share.share.high)
    return [each.name, *cells, *(out.style.number(100 * part) for part in parts)]


def next_season_part(found: Stood, out: Out) -> Lines:
    """Say what the counts teach for the next seed."""
    said = [
        f"{each.name}: {out.write(text)}" if each.name else out.write(text)
        for each in found.species
        if each.coming
        for text in each.coming.say
    ]
    return [*out.sheet.heading("Next season"), *out.sheet.points(said)] if said else []


def mix_part(found: Stood, out: Out) -> Lines:
    """Put the parts seen beside those to be looked for."""
    if found.mix is None:
        return []
    heads = [["", "seen", "looked for", "from", "to", ""], ["", *["%"] * 4, ""]]
    rows = [_part(part, out) for part in found.mix.parts]
    return [*out.sheet.heading("Parts of the plants"), *table(out.sheet, heads, rows)]


def _part(part: Part, out: Out) -> list[str]:
    values = (part.seen.value, part.expected.value, part.expected.low, part.expected.high)
    return [part.name, *(out.style.number(x / SHARE.us.size) for x in values), part.verdict]
