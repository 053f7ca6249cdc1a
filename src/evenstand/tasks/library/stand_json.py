"""A stand as JSON. Keys stay; more may come."""

from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import DENSITY, LENGTH, PLANTS, SHARE
from evenstand.engine.stand.emergence import Emergence
from evenstand.engine.stand.gaps import Gaps
from evenstand.engine.stand.species import Composition
from evenstand.engine.stand.stand import Stand
from evenstand.report.json import Document, quantity, sentences, shares, working

from ..stand.next_season import NextSeason
from ..stand.stand import OfSpecies, Stood


def stand_document(found: Stood, style: Style) -> Document:
    """Write what came up and what is advised."""
    alone = next((each for each in found.species if not each.name), None)
    return {
        **_stand(found.stand, style),
        "wish": None if found.wish is None else quantity(found.wish, PLANTS, style),
        "odds": found.odds,
        "species": [_species(each, style) for each in found.species if each.name],
        "emergence": _emergence(alone.emergence, style) if alone and alone.emergence else None,
        "next_season": _coming(alone.coming, style) if alone and alone.coming else None,
        "mix": _mix(found.mix, style) if found.mix else None,
        "gaps": _gaps(found.gaps, style) if found.gaps else None,
        "say": " ".join(sentences(found.advice, style)),
        "surer": sentences(found.surer, style),
        "published": sentences(found.published, style),
        "working": working(found.working, style),
        "taken_as": sentences(found.assumed, style),
    }


def _stand(found: Stand, style: Style) -> Document:
    seen = found.scatter
    return {
        "stand": quantity(found.range, PLANTS, style),
        "places": found.places,
        "plants": found.plants,
        "range_from": found.basis,
        "variance_to_mean": seen.ratio if seen else None,
        "clumped": seen.clumped if seen else None,
        "budget": shares(found.budget),
    }


def _species(found: OfSpecies, style: Style) -> Document:
    share = found.emergence
    return {
        "name": found.name,
        **_stand(found.stand, style),
        "emergence": _emergence(share, style) if share else None,
        "next_season": _coming(found.coming, style) if found.coming else None,
        "say": sentences(found.say, style),
    }


def _emergence(found: Emergence, style: Style) -> Document:
    return {
        "share": quantity(found.share, SHARE, style),
        "with_usual": quantity(found.updated, SHARE, style) if found.updated else None,
        "budget": shares(found.budget),
    }


def _coming(found: NextSeason, style: Style) -> Document:
    return {
        "emergence": quantity(found.emergence.share, SHARE, style),
        "counts": found.emergence.seasons,
        "fields": found.emergence.fields,
        "usual_counts": found.emergence.usual_counts,
        "seeds": quantity(found.seeds, DENSITY, style) if found.seeds else None,
        "say": sentences(found.say, style),
    }


def _mix(found: Composition, style: Style) -> Document:
    return {
        "plants": found.plants,
        "p_as_usual": found.as_usual,
        "parts": [
            {
                "name": part.name,
                "seen": quantity(part.seen, SHARE, style),
                "expected": quantity(part.expected, SHARE, style),
                "p": part.p,
                "verdict": part.verdict,
            }
            for part in found.parts
        ],
    }


def _gaps(found: Gaps, style: Style) -> Document:
    return {
        "share": quantity(found.share, SHARE, style),
        "number": found.number,
        "longest": quantity(found.longest, LENGTH, style),
    }
