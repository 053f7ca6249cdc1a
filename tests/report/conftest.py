"""A document with a block of each kind, and one to fill."""

from datetime import UTC, datetime

import pytest

from evenstand.engine.quantities.phrases import Style, say
from evenstand.engine.quantities.units import RATE, Terms
from evenstand.engine.quantities.working import Line
from evenstand.report.code import code_to_scan
from evenstand.report.document import (
    Cell,
    Code,
    Drawing,
    Picture,
    Points,
    Printed,
    Section,
    Signatures,
    Table,
    Words,
)
from evenstand.report.pen import Pen
from evenstand.report.svg import drawing, words

PEN = Pen(Style())


def _whole(*blocks, **changes):
    known = {
        "kind": "record",
        "title": "Seeding record",
        "about": "Alder Bench",
        "lead": "Sown.",
        "facts": (PEN.fact("Farm", ""), PEN.fact("Field", "Alder Bench")),
        "sections": (Section("Seed", blocks),),
        "foot": ("Keep the tags.",),
        "made": datetime(2026, 11, 25, 12, tzinfo=UTC),
        "made_in_words": "As the book stood on 2026-11-25 12:00 UTC.",
        "author": "Ada",
        "language": "en",
        "page_of": "page {page} of {pages}",
    }
    return Printed(**{**known, **changes})


@pytest.fixture
def pen():
    """Writes in English and US units."""
    return PEN


@pytest.fixture
def whole():
    """Make a document of some blocks, with changes to the rest of it."""
    return _whole


@pytest.fixture
def every_block():
    """A block of each kind."""
    svg = drawing(40, 20, words("12", 5, 5), title="t", describe="d", name="n")
    line = Line(say("Rate"), RATE(1.0), Terms(RATE(2.0)), source="NIST")
    return (
        PEN.facts((("Farm", "1889"),)),
        Words("What was done."),
        Points(("One.", "Two.")),
        Table(caption="Tags", heads=("Lot", "PLS"), rows=((Cell("R-26"), PEN.cell(None)),)),
        PEN.work([line]),
        Drawing(svg, "Twelve"),
        Code(code_to_scan("http://farm.example"), "Scan it", "http://farm.example"),
        Picture("p1", "image/png", b"\x89PNG", "A tag"),
        Signatures(("Ada",), "Day"),
    )
