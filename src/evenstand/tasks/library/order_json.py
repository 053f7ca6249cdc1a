"""An order as JSON. Keys stay; more may come."""

from evenstand.engine.order.bags import Bags
from evenstand.engine.order.batches import BatchSheet
from evenstand.engine.order.inoculant import RULES, Inoculation
from evenstand.engine.order.loads import Loads, PlannedLoad
from evenstand.engine.order.purchase import OrderLine
from evenstand.engine.order.work_rate import WorkRate
from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import CATCH, FIELD, HOURS, LENGTH, LOAD
from evenstand.report.json import Document, quantity, sentences, shares, working

from ..order.order import Ordered
from .set_json import warned


def order_document(found: Ordered, style: Style) -> Document:
    """Write what to buy, to mix and to load."""
    bought = found.order
    return {
        "species": [_line(each, style) for each in bought.lines],
        "total": {
            "cost": bought.cost,
            "odds": bought.odds,
            "odds_at_least": bought.odds_at_least,
            "ground": quantity(found.job.ground, FIELD, style),
        },
        "batches": [_sheet(each, style) for each in found.sheets],
        "inoculants": [_inoculation(each, style) for each in found.inoculations],
        "inoculant_rules": sentences(RULES if found.inoculations else (), style),
        "loads": [_loads(each, style) for each in found.loads],
        "time": _time(found.time, style) if found.time else None,
        "say": " ".join(sentences(found.advice, style)),
        "notes": sentences(found.minded, style),
        "working": working(found.working, style),
        "taken_as": list(dict.fromkeys(sentences(found.assumed, style))),
        "warnings": warned(found.warnings, style),
    }


def _line(found: OrderLine, style: Style) -> Document:
    need = found.need
    return {
        "name": found.name,
        "box": need.box,
        "field": quantity(need.field, LOAD, style),
        "overlap": quantity(need.overlap, LOAD, style),
        "heel": quantity(need.heel, LOAD, style),
        "catches": quantity(need.catches, LOAD, style),
        "need": quantity(need.range, LOAD, style),
        "wanted": quantity(found.wanted, LOAD, style),
        "on_hand": quantity(found.on_hand, LOAD, style),
        "to_buy": quantity(found.to_buy, LOAD, style),
        "bags": _bags(found.bags, style) if found.bags else None,
        "bought": quantity(found.bought, LOAD, style),
        "left": quantity(found.left, LOAD, style),
        "cost": found.cost,
        "odds": found.odds,
        "budget": shares(need.shares),
        "say": style.write(found.say),
    }


def _bags(found: Bags, style: Style) -> list[Document]:
    return [
        {"count": n, "weight": quantity(size.weight, LOAD, style), "price": size.price}
        for size, n in found.counts
        if n
    ]


def _sheet(found: BatchSheet, style: Style) -> Document:
    return {
        "box": found.box,
        "batches": found.batches,
        "weight": quantity(found.weight, LOAD, style),
        "ground": quantity(found.ground, FIELD, style),
        "layers": [
            {"name": each.name, "weight": quantity(each.weight, LOAD, style), "premix": each.premix}
            for each in found.layers
        ],
        "steps": sentences(found.steps, style),
        "say": style.write(found.say),
    }


def _inoculation(found: Inoculation, style: Style) -> Document:
    return {
        "species": found.seed,
        "inoculant": found.inoculant,
        "amount": quantity(found.amount, CATCH, style),
        "packs": found.packs,
        "times": found.times,
        "each_time": quantity(found.each_time, CATCH, style),
        "say": style.write(found.say),
        "notes": sentences(found.warnings, style),
    }


def _loads(found: Loads, style: Style) -> Document:
    return {
        "box": found.box,
        "per_load": quantity(found.per_load, FIELD, style),
        "weight": quantity(found.weight, LOAD, style),
        "loads": [_load(each, style) for each in found.loads],
        "say": style.write(found.say),
    }


def _load(found: PlannedLoad, style: Style) -> Document:
    return {
        "number": found.number,
        "weight": quantity(found.weight, LOAD, style),
        "ends": quantity(found.end, FIELD, style),
        "field_done": quantity(found.field, FIELD, style),
        "pass": found.place.number if found.place else None,
        "along": quantity(found.place.along, LENGTH, style) if found.place else None,
        "say": style.write(found.say),
    }


def _time(found: WorkRate, style: Style) -> Document:
    return {
        "hours": quantity(found.hours, HOURS, style),
        "sowing": quantity(found.sowing, HOURS, style),
        "stops": found.stops,
        "refilling": quantity(found.refilling, HOURS, style),
        "say": style.write(found.say),
    }
