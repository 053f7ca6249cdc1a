"""A tag as a document."""

from dataclasses import replace

from evenstand.engine.quantities.units import DENSITY, PRICE, RATE, SHARE, Kind
from evenstand.engine.statistics.budget import Estimate
from evenstand.report.document import Document, Section
from evenstand.report.drawn import Columns
from evenstand.report.pen import Pen

from ..seed.tag import TagRead
from .parts import document, makings, points, rate, span, taken, working


def tag_shown(found: TagRead, pen: Pen) -> Document:
    """Tell what a tag comes to."""
    name = found.species.name if found.species else ""
    return replace(
        document(pen, found.advice, title="Tag", about=name),
        sections=(
            Section("", (_results(found, pen),)),
            *makings(pen, found.result.shares),
            Section("", (points(pen, found.result.cautions, alert=True),)),
            *taken(pen, found.assumed),
        ),
        working=working(pen, found.result.working, "tag"),
    )


def _results(found: TagRead, pen: Pen) -> Columns:
    result = found.result
    other = "without hard and dormant" if result.count_hard else "with hard and dormant"
    differs = result.pls_other_way and result.pls_other_way.value != result.pls.value
    named: list[tuple[str, Estimate | None, Kind]] = [
        ("pure live seed", result.pls, SHARE),
        (other, result.pls_other_way if differs else None, SHARE),
        ("PLS to seed", result.pls_rate, RATE),
        ("bulk to seed", result.bulk_rate, RATE),
        ("live seeds per area", result.seeds_per_area, DENSITY),
        ("price of live seed", result.price_per_pls, PRICE),
    ]
    rows = tuple(
        (name, rate(pen, value, kind), span(pen, value, kind) if value.u else "")
        for name, value, kind in named
        if value is not None
    )
    return Columns(rows, right=(1,))
