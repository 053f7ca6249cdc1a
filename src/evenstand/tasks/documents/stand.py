"""A stand as a document: plants, what came up, the mix, what others publish."""

from dataclasses import replace

from evenstand.engine.quantities.units import PLANTS, SHARE
from evenstand.engine.stand.species import SpeciesPart
from evenstand.report.document import Document, Points, Section
from evenstand.report.pen import Pen

from ..stand.stand import OfSpecies, Stood
from .parts import document, listed, number, points, table, taken, working


def stand_shown(found: Stood, pen: Pen) -> Document:
    """Tell what came up and what is advised."""
    value = pen.write(PLANTS(found.stand.range.value))
    return replace(
        document(pen, found.advice, title="Stand", about=value),
        sections=(
            _species(found, pen),
            *_mix(found, pen),
            Section("", (points(pen, found.surer),)),
            *_next_season(found, pen),
            *listed(pen, "What others have published", found.published),
            *taken(pen, found.assumed),
        ),
        working=working(pen, found.working, "stand"),
    )


def _species(found: Stood, pen: Pen) -> Section:
    """List each species with what came up of its seed."""
    if len(found.species) < 2:
        return Section("", (points(pen, (text for each in found.species for text in each.say)),))
    shown = table(
        ["", "stand", "from", "to", "came up", "from", "to"],
        ["", *[pen.style.unit(PLANTS).symbol] * 3, *["%"] * 3],
        [_came_up(each, pen) for each in found.species],
    )
    said = (f"{each.name}: {pen.write(text)}" for each in found.species for text in each.say[1:])
    return Section("Species", (shown, Points(tuple(said))))


def _came_up(each: OfSpecies, pen: Pen) -> list[str]:
    ranged, share = each.stand.range, each.emergence
    cells = [number(pen, x, PLANTS) for x in (ranged.value, ranged.low, ranged.high)]
    if share is None:
        return [each.name, *cells, "", "", ""]
    parts = (share.share.value, share.share.low, share.share.high)
    return [each.name, *cells, *(number(pen, part, SHARE) for part in parts)]


def _next_season(found: Stood, pen: Pen) -> list[Section]:
    """Tell what the counts teach for the next seed."""
    said = tuple(
        f"{each.name}: {pen.write(text)}" if each.name else pen.write(text)
        for each in found.species
        if each.coming
        for text in each.coming.say
    )
    return [Section("Next season", (Points(said),))] if said else []


def _mix(found: Stood, pen: Pen) -> list[Section]:
    """Put the parts seen beside those to be looked for."""
    if found.mix is None:
        return []
    shown = table(
        ["", "seen", "looked for", "from", "to", ""],
        ["", *["%"] * 4, ""],
        [_part(part, pen) for part in found.mix.parts],
    )
    return [Section("Share of the plants", (shown,))]


def _part(part: SpeciesPart, pen: Pen) -> list[str]:
    values = (part.seen.value, part.expected.value, part.expected.low, part.expected.high)
    return [part.name, *(number(pen, x, SHARE) for x in values), part.verdict]
