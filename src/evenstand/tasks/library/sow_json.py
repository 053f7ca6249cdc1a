"""Sow as JSON. Keys stay; more may come."""

from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import FIELD, LOAD, NUMBER, RATE
from evenstand.engine.seeding.balance import Point, Stretch
from evenstand.engine.seeding.change_point import Turning
from evenstand.engine.seeding.closing import Closed
from evenstand.engine.seeding.lever import LeverMove
from evenstand.engine.seeding.runout import RunOut
from evenstand.engine.statistics.budget import nominal
from evenstand.report.json import Document, quantity, sentences, shares, working

from ..seeding.seeding import SownBox, SownField


def sow_document(found: SownField, style: Style) -> Document:
    """Write every box of a field."""
    return {"boxes": [_box(each, style) for each in found.boxes]}


def _box(each: SownBox, style: Style) -> Document:
    found, verdict = each.found, each.found.verdict
    return {
        "box": each.name,
        "target": quantity(each.target.rate, RATE, style),
        "tolerance": each.target.tolerance,
        "ground": quantity(nominal(found.balance.ground), FIELD, style),
        "rate": quantity(found.rate, RATE, style),
        "verdict": verdict.word,
        "odds_within": verdict.odds_within,
        "odds_light": verdict.odds_light,
        "odds_heavy": verdict.odds_heavy,
        "alarm": found.alarm,
        "budget": shares(found.shares),
        "points": [_point(point, style) for point in found.balance.points],
        "stretches": [_stretch(stretch, style) for stretch in found.balance.stretches],
        "change": _turning(found.turning, style) if found.turning else None,
        "until_empty": quantity(found.until, FIELD, style),
        "run_out": _run_out(found.run_out, style) if found.run_out else None,
        "lever": _lever(found.lever, style) if found.lever else None,
        "closed": _closed(each.closed, style) if each.closed else None,
        "say": " ".join(sentences(each.advice, style)),
        "warnings": sentences(found.warnings, style),
        "working": working(each.closed.working if each.closed else found.working, style),
        "taken_as": sentences(found.assumed, style),
    }


def _point(point: Point, style: Style) -> Document:
    return {
        "ground": quantity(point.ground, FIELD, style),
        "rate": quantity(point.rate, RATE, style),
        "in_box": quantity(point.in_box, LOAD, style),
        "misfit": point.z,
    }


def _stretch(stretch: Stretch, style: Style) -> Document:
    return {
        "from": quantity(stretch.start, FIELD, style),
        "to": quantity(stretch.end, FIELD, style),
        "rate": quantity(stretch.rate, RATE, style),
    }


def _turning(found: Turning, style: Style) -> Document:
    return {
        "place": quantity(found.place, FIELD, style),
        "before": quantity(found.before, RATE, style),
        "after": quantity(found.after, RATE, style),
        "odds": found.odds,
        "by_chance": found.by_chance,
        "say": style.write(found.say),
    }


def _run_out(found: RunOut, style: Style) -> Document:
    return {
        "odds": found.odds,
        "need": quantity(found.need, LOAD, style),
        "short": quantity(found.short, LOAD, style),
        "more": quantity(found.more, LOAD, style),
        "say": style.write(found.say),
    }


def _lever(found: LeverMove, style: Style) -> Document:
    return {
        "setting": found.setting,
        "leave": found.leave,
        "rate": quantity(found.rate, RATE, style),
        "odds": found.verdict.odds_within,
        "say": style.write(found.say),
    }


def _closed(found: Closed, style: Style) -> Document:
    return {
        "used": quantity(found.used, LOAD, style),
        "ground": quantity(found.ground, FIELD, style),
        "rate": quantity(found.rate, RATE, style),
        "budget": shares(found.shares),
        "field_ratio": None if found.ratio is None else quantity(found.ratio, NUMBER, style),
        "area_meter": None if found.meter is None else quantity(found.meter.factor, NUMBER, style),
        "say": style.write(found.say),
    }
