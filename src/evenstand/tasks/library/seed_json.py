"""Tags, species and mixes as JSON. Keys stay; more may come."""

from evenstand.engine.mix.totals import Part, Sown
from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import (
    COST,
    DENSITY,
    NUMBER,
    PRICE,
    RATE,
    SEED_COUNT,
    SHARE,
    SPACING,
    TEST_WEIGHT,
    Kind,
)
from evenstand.engine.seed.species import Sourced, Species
from evenstand.engine.statistics.budget import Estimate, Quantity, nominal
from evenstand.report.json import Document, quantity, sentences, shares, working

from ..mix.mix import Mixed
from ..seed.tag import TagRead
from .set_json import warned


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


def mix_document(found: Mixed, style: Style) -> Document:
    """Write a mix on every basis."""
    mix = found.mix
    return {
        "species": [_member(each, style) for each in mix.sown],
        "total": {
            "pls_rate": quantity(mix.range_of(mix.rates.pls), RATE, style),
            "bulk_rate": quantity(mix.range_of(mix.bulk_rate), RATE, style),
            "seeds": quantity(mix.range_of(mix.seeds), DENSITY, style),
            "cost": _cost(mix.cost, style),
        },
        "cost_unit": style.unit(COST).symbol,
        "say": style.write(mix.say),
        "groups": [_part(each) for each in mix.groups],
        "seasons": [_part(each) for each in mix.seasons],
        "depth": found.depth and quantity(found.depth.depth, SPACING, style),
        "carbon_nitrogen": found.carbon and quantity(found.carbon.range, NUMBER, style),
        "budget": shares(mix.why(mix.seeds)),
        "notes": sentences((*found.minded, *found.noted), style),
        "cautions": sentences([each.say for each in found.cautions], style),
        "working": working(found.working, style),
        "taken_as": list(dict.fromkeys(sentences(found.assumed, style))),
        "warnings": warned(found.warnings, style),
    }


def _member(each: Sown, style: Style) -> Document:
    return {
        "name": each.name,
        "lot": each.lot or None,
        "carrier": each.seed is None,
        "pls_rate": quantity(each.range_of(each.pls_rate), RATE, style),
        "bulk_rate": quantity(each.range_of(each.bulk_rate), RATE, style),
        "seeds": quantity(each.range_of(each.seeds), DENSITY, style),
        "of_full_rate": None if each.of_full is None else nominal(each.of_full),
        "seed_share": nominal(each.seed_share),
        "weight_share": nominal(each.weight_share),
        "cost": _cost(each.cost, style),
    }


def _cost(cost: Quantity | None, style: Style) -> float | None:
    return None if cost is None else nominal(cost) / style.unit(COST).size


def _part(part: Part) -> Document:
    return {
        "name": part.name,
        "species": part.species,
        "seed_share": nominal(part.seed_share),
        "weight_share": nominal(part.weight_share),
    }
