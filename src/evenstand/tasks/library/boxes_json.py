"""Boxes as JSON. Keys stay; more may come."""

from evenstand.engine.boxes.compromise import Compromise
from evenstand.engine.boxes.filled import FilledBox
from evenstand.engine.boxes.rates import BoxRates
from evenstand.engine.boxes.sorting import Sorting
from evenstand.engine.boxes.sorting_trend import SortingTrend
from evenstand.engine.boxes.split import Split
from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import (
    DENSITY,
    FIELD,
    LOAD,
    NUMBER,
    RATE,
    SHARE,
    SPACING,
    Kind,
)
from evenstand.engine.statistics.budget import Estimate, Quantity
from evenstand.report.json import Document, quantity, sentences, shares, working

from ..boxes.boxes import Boxed
from .set_json import warned


def boxes_document(found: Boxed, style: Style) -> Document:
    """Write which seed goes in which box."""
    boxes, split = found.boxes, found.boxes.split
    return {
        "species": [each for filled in boxes.used for each in _species(filled, style)],
        "boxes": [_box(filled, style) for filled in split.boxes],
        "compromises": _compromises(split.compromises, style),
        "ways": boxes.splits.feasible,
        "others": [_way(each, style) for each in boxes.splits.best[1:]],
        "better": _way(boxes.best, style) if boxes.best else None,
        "placed": dict(boxes.placed),
        "refused": [
            {"species": each.seed, "box": each.box, "say": style.write(each.say)}
            for each in boxes.splits.refusals
        ],
        "achieved": _achieved(found.achieved, style) if found.achieved else None,
        "samples": [_sorting(each, style) for each in found.sampled],
        "trends": [_trend(each, style) for each in found.trends],
        "say": " ".join(sentences(found.advice, style)),
        "advice": sentences(split.advice, style),
        "working": working(found.working, style),
        "taken_as": list(dict.fromkeys(sentences(found.assumed, style))),
        "warnings": warned(boxes.warnings, style),
    }


def _species(filled: FilledBox, style: Style) -> list[Document]:
    return [
        {
            "name": each.name,
            "box": filled.box.name,
            "rate": quantity(each.weighed, RATE, style),
            "weight_share": filled.shares[each.name],
            "seed_class": each.sized.seed_class,
            "why": style.write(each.sized.why),
        }
        for each in filled.portions
    ]


def _box(filled: FilledBox, style: Style) -> Document:
    box = filled.box
    return {
        "name": box.name,
        "species": [each.name for each in filled.portions],
        "carrier": box.carrier.name if box.carrier else None,
        "rate": quantity(filled.rate, RATE, style) if filled.portions else None,
        "holds": _known(filled.holds, LOAD, style),
        "per_fill": _known(filled.per_load, FIELD, style),
        "depth": filled.depth and quantity(filled.depth.depth, SPACING, style),
        "risks": [
            {
                "level": each.level,
                "size_ratio": each.ratio,
                "small": each.small,
                "large": each.large,
                "say": style.write(each.say),
            }
            for each in filled.risks
        ],
        "cures": sentences(filled.cures, style),
        "compromises": _compromises(filled.compromises, style),
        "missing": style.write(filled.missing) if filled.missing else None,
    }


def _known(value: Estimate | Quantity | None, kind: Kind, style: Style) -> Document | None:
    return None if value is None else quantity(value, kind, style)


def _compromises(found: tuple[Compromise, ...], style: Style) -> list[Document]:
    return [
        {"about": each.about, "grade": each.grade, "say": style.write(each.say)} for each in found
    ]


def _way(split: Split, style: Style) -> Document:
    return {
        "boxes": {f.box.name: [each.name for each in f.portions] for f in split.boxes},
        "compromises": _compromises(split.compromises, style),
        "say": style.write(split.say),
    }


def _achieved(found: BoxRates, style: Style) -> Document:
    return {
        "species": [
            {
                "name": each.name,
                "box": each.box,
                "wanted": quantity(each.wanted, RATE, style),
                "rate": quantity(each.rate, RATE, style),
                "off": each.off,
                "wanted_live": quantity(each.wanted_live, DENSITY, style),
                "live": quantity(each.live, DENSITY, style),
                "budget": shares(each.shares),
            }
            for each in found.species
        ],
        "wanted_live": quantity(found.wanted_live, DENSITY, style),
        "live": quantity(found.live, DENSITY, style),
        "say": style.write(found.say),
    }


def _sorting(found: Sorting, style: Style) -> Document:
    return {
        "sorts": found.found,
        "chi_square": found.test.statistic,
        "dof": found.test.dof,
        "p": found.test.p,
        "pooled": list(found.pooled),
        "species": [
            {
                "name": each.name,
                "seeds": each.seeds,
                "expected": quantity(each.expected, SHARE, style),
                "found": quantity(each.found, SHARE, style),
                "ratio": quantity(each.ratio, NUMBER, style),
                "p": each.p,
                "runs": each.runs,
                "would_show": each.would_show,
                "live": quantity(each.live, DENSITY, style),
            }
            for each in found.species
        ],
        "live": quantity(found.live, DENSITY, style),
        "wanted_live": quantity(found.wanted_live, DENSITY, style),
        "say": style.write(found.say),
        "next": style.write(found.next),
    }


def _trend(found: SortingTrend, style: Style) -> Document:
    return {
        "sorts": found.found,
        "p": found.test.p,
        "species": [
            {
                "name": each.name,
                "shares": list(each.shares),
                "change": quantity(each.change, SHARE, style),
                "p": each.p,
            }
            for each in found.species
        ],
        "say": style.write(found.say),
        "next": style.write(found.next),
    }
