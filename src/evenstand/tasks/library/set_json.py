"""Results as JSON, for commands and for programs that ask the pages. Keys stay; more may come."""

from collections.abc import Iterable

from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import CATCH, LENGTH, PERCENT, RATE, SECONDS, SHARE, TURNS
from evenstand.engine.rows.evenness import Evenness
from evenstand.report.json import (
    Document,
    candidate,
    cure,
    quantity,
    sentences,
    working,
)

from ..calibration.catch import Caught
from ..calibration.rows import Rows
from ..calibration.setting import Setting
from ..calibration.turns import Turns
from ..parsing.warned import Warned

LEAVE_IT = "leave it: it hardly matters"


def warned(warnings: Iterable[Warned], style: Style) -> list[Document]:
    """Write questions about what is rarely meant."""
    return [{"field": each.field, "say": style.write(each.say)} for each in warnings]


def turns_document(found: Turns, style: Style) -> Document:
    """Write what to turn."""
    course = found.course
    document = {
        "width": quantity(course.width, LENGTH, style),
        "distance": quantity(course.distance, LENGTH, style),
        "turns": quantity(course.turns, TURNS, style),
        "working": working(course.working, style),
        "taken_as": sentences(found.assumed, style),
        "warnings": warned(found.warnings, style),
    }
    if found.seconds is not None:
        document["seconds_per_turn"] = quantity(found.seconds, SECONDS, style)
    return document


def catch_document(found: Caught, style: Style) -> Document:
    """Write what a catch says."""
    measured, verdict = found.measured, found.measured.verdict
    cures = {each.name: style.write(each.say) for each in found.cures}
    return {
        "static_rate": quantity(measured.static, RATE, style),
        "field_rate": quantity(measured.field, RATE, style),
        "verdict": verdict.word if verdict else None,
        "odds_within": verdict.odds_within if verdict else None,
        "odds_light": verdict.odds_light if verdict else None,
        "odds_heavy": verdict.odds_heavy if verdict else None,
        "budget": [
            {
                "name": share.name,
                "share": share.part,
                "common": share.common,
                "cure": cures.get(share.name, LEAVE_IT),
            }
            for share in measured.shares
        ],
        "surer": [cure(each, style) for each in found.cures],
        "say": " ".join(sentences(found.advice, style)),
        "catch": quantity(measured.catch, CATCH, style),
        "rows_caught": measured.rows_caught,
        "repeats": measured.repeats,
        "working": working(measured.working, style),
        "taken_as": sentences(found.assumed, style),
        "warnings": warned(found.warnings, style),
    }


def rows_document(found: Rows, style: Style) -> Document:
    """Write how even the rows are."""
    return evenness_document(found.even, style) | {
        "taken_as": sentences(found.assumed, style),
        "warnings": warned(found.warnings, style),
    }


def evenness_document(even: Evenness, style: Style) -> Document:
    """Write rows, odd rows and patterns."""
    return {
        "mean": quantity(even.mean, CATCH, style),
        "cv": quantity(even.cv, SHARE, style),
        "odd_rows": [
            {"row": odd.row, "percent": odd.off / PERCENT, "p": odd.p, "plugged": odd.plugged}
            for odd in even.odd_rows
        ],
        "outside_limit": [
            {"row": row.row, "percent": row.off / PERCENT} for row in even.outside_limit
        ],
        "patterns": [
            {
                "name": style.write(each.name),
                "percent": each.off / PERCENT,
                "p": each.p,
                "rows": list(each.rows),
                "period": each.period or None,
            }
            for each in even.patterns
        ],
        "say": style.write(even.say),
        "next": style.write(even.next),
        "surer": style.write(even.surer),
        "rows": [
            {
                "row": row.row,
                "weight": quantity(row.weight, CATCH, style),
                "percent": row.off / PERCENT,
                "low": row.low / PERCENT,
                "high": row.high / PERCENT,
            }
            for row in even.rows
        ],
        "check": [
            {
                "say": style.write(finding.say),
                "check": [style.write(each.say) for each in finding.checks],
            }
            for finding in even.findings
        ],
        "working": working(even.working, style),
    }


def set_document(found: Setting, style: Style) -> Document:
    """Write where the lever goes next, and every catch so far."""
    choice = found.choice
    last = found.caught[-1:]
    return {
        "choose": candidate(choice.best, style),
        "stop": found.stop,
        "ending": choice.ending,
        "say": style.write(found.say),
        "candidates": [candidate(each, style) for each in choice.candidates],
        "catches": [_catch(found, i, style) for i in range(len(found.caught))],
        "target": {
            "rate": quantity(found.job.target.rate, RATE, style),
            "low": quantity(found.job.target.low, RATE, style),
            "high": quantity(found.job.target.high, RATE, style),
            "on": found.job.target.on,
            "bench_rate": quantity(found.bench.rate, RATE, style),
        },
        "working": working([line for each in last for line in each.measured.working], style),
        "taken_as": sentences(found.assumed, style),
        "warnings": warned(found.job.warnings, style),
    }


def _catch(found: Setting, index: int, style: Style) -> Document:
    made, measured = found.job.catches[index], found.caught[index].measured
    verdict = measured.verdict
    return {
        "setting": made.setting,
        "gear": made.gear.name,
        "static_rate": quantity(measured.static, RATE, style),
        "field_rate": quantity(measured.field, RATE, style),
        "verdict": verdict.word if verdict else None,
        "odds_within": verdict.odds_within if verdict else None,
        "fits": all(odd.catch != index + 1 for odd in found.choice.odd),
        "note": made.note,
    }
