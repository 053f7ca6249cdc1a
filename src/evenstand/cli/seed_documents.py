"""Tags, species and mixes as JSON. Keys stay; more may come."""

from evenstand.engine.budget import Estimate
from evenstand.engine.species import Sourced, Species
from evenstand.engine.units import (
    DENSITY,
    PRICE,
    RATE,
    SEED_COUNT,
    SHARE,
    SPACING,
    TEST_WEIGHT,
    Kind,
)
from evenstand.engine.words import Style
from evenstand.report.json import Document, quantity, sentences, shares, working
from evenstand.tasks.tag import TagRead

from .documents import warned


def tag_document(found: TagRead, style: Style) -> Document:
    """Write what a tag comes to."""
    result = found.result

    def known(value: Estimate | None, kind: Kind) -> Document | None:
        return None if value is None else quantity(value, kind, style)

    return {
        "pls": known(result.pls, SHARE),
        "pls_other_way": known(result.pls_other_way, SHARE),
        "pls_rate": known(result.pls_rate, RATE),
        "bulk_rate": known(result.bulk_rate, RATE),
        "seeds_per_area": known(result.seeds_per_area, DENSITY),
        "price_per_pls": known(result.price_per_pls, PRICE),
        "count_hard": result.count_hard,
        "species": found.species.name if found.species else None,
        "say": " ".join(sentences(found.advice, style)),
        "budget": shares(result.shares),
        "cautions": sentences(result.cautions, style),
        "working": working(result.working, style),
        "taken_as": sentences(found.assumed, style),
        "warnings": warned(found.warnings, style),
    }


def species_document(found: Species, style: Style) -> Document:
    """Write what the table knows of a species."""
    counts = [
        {
            "count": quantity(each.seeds_per_kg, SEED_COUNT, style),
            "source": each.source,
            "read": each.read,
            "doubt": each.doubt or None,
        }
        for each in found.counts
    ]
    return {
        "name": found.name,
        "scientific": found.scientific,
        "also": list(found.also),
        "group": found.group,
        "season": found.season,
        "life_cycle": found.life_cycle,
        "seeds_per_weight": counts,
        "count_your_lot": found.count_your_lot,
        "rate": _sourced(found.rate, RATE, style),
        "depth": _sourced(found.depth, SPACING, style),
        "test_weight": _sourced(found.test_weight, TEST_WEIGHT, style),
        "inoculant": found.inoculant
        and {"group": found.inoculant.group, "read": found.inoculant.read},
        "cautions": sentences(found.beware(), style),
    }


def _sourced(found: Sourced | None, kind: Kind, style: Style) -> Document | None:
    if found is None:
        return None
    unit = style.unit(kind)
    return {
        "low": found.low / unit.size,
        "high": found.high / unit.size,
        "unit": unit.symbol,
        "basis": found.basis or None,
        "source": found.source,
        "read": found.read,
    }
