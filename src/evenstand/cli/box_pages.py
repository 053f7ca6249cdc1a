"""Boxes as a page of a notebook."""

from collections.abc import Iterator

from evenstand.engine.boxes.filled import FilledBox
from evenstand.engine.boxes.portion import Portion
from evenstand.engine.boxes.sorting import SortedSpecies, Sorting
from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import (
    DENSITY,
    FIELD,
    LOAD,
    PERCENT,
    RATE,
    SEEDS,
    SHARE,
    Amount,
)
from evenstand.engine.seed.size_class import CLASS_WORDS
from evenstand.engine.statistics.budget import estimate
from evenstand.report.notebook import Lines
from evenstand.report.table import table
from evenstand.tasks.boxes.boxes import Boxed

from .output import Out
from .pages import range_text, tag, taken, worksheet_part

GRADES = {1: "slight", 2: "real", 3: "grave"}
OTHERS = 2  # ways shown beside the one taken
LEAST_P = 0.0001


def boxes_page(found: Boxed, out: Out) -> Iterator[Lines]:
    """Write which seed goes in which box, and what each is set to."""
    boxes = found.boxes
    heading = out.sheet.heading(" · ".join(["Boxes", *boxes.mixed.names]), _ways(found))
    yield [*heading, *tag(out, found.advice), *_notes(found, out)]
    for filled in boxes.used:
        yield box_part(filled, out)
    yield achieved_part(found, out)
    for each in found.sampled:
        yield sample_part(each, out)
    yield given_up_part(found, out)
    yield refused_part(found, out)
    yield others_part(found, out)
    yield taken(out, found.assumed)
    yield worksheet_part(out, found.working, "boxes")


def _ways(found: Boxed) -> str:
    n = found.boxes.splits.feasible
    return "one way" if n == 1 else f"best of {n:,} ways"


def _notes(found: Boxed, out: Out) -> Lines:
    """Note a better way than the file's own, and what to order, weigh or count."""
    better = found.boxes.best
    said = [] if better is None else [say("Less is given up so: {way}", way=better.say)]
    return [
        *out.sheet.points([out.write(each) for each in said], sign="!"),
        *out.sheet.points([out.write(each) for each in found.boxes.split.advice]),
    ]


def box_part(filled: FilledBox, out: Out) -> Lines:
    """Write what one box is set to, what is in it and how far a fill goes."""
    rate = out.write(RATE(filled.rate))
    unit = out.style.unit(RATE).symbol
    rows = [_row(filled, each, out) for each in filled.portions]
    carrier = filled.box.carrier
    if carrier is not None:
        share = filled.shares[carrier.name]
        rows.append([f"{carrier.name} (carrier)", *_rates(carrier.weighed, share, out), ""])
    lines = [
        *out.sheet.heading(filled.box.name.capitalize(), f"set to {rate}"),
        *table(out.sheet, [["", "bulk", "weight", "class"], ["", unit, "%", ""]], rows),
        *out.sheet.paragraph(_holds(filled, out), indent=1),
    ]
    feared = [out.write(each.say) for each in filled.risks if each.level != "little"]
    return [
        *lines,
        *out.sheet.points(feared, sign="!"),
        *out.sheet.points([out.write(each) for each in filled.cures]),
    ]


def _row(filled: FilledBox, portion: Portion, out: Out) -> list[str]:
    words = out.write(CLASS_WORDS[portion.sized.seed_class]).removesuffix(" seed")
    return [portion.name, *_rates(portion.weighed, filled.shares[portion.name], out), words]


def _rates(weighed: float, share: float, out: Out) -> list[str]:
    return [
        out.style.number(weighed / out.style.unit(RATE).size),
        out.style.number(share / PERCENT, 2),
    ]


def _holds(filled: FilledBox, out: Out) -> str:
    """Say what flows out of a full box and how much ground that sows."""
    if filled.holds is None or filled.per_load is None:
        return "What it holds is not known."
    holds, ground = estimate(filled.holds, ()), filled.per_load
    text = f"A full box: {out.write(Amount(holds.value, LOAD))}, "
    text += f"{out.write(Amount(ground.value, FIELD))} ({range_text(ground, out, FIELD)})."
    if filled.depth is not None:
        depth = out.write(filled.depth.say)
        text += f" {depth[0].upper()}{depth[1:]}."
    return text


def achieved_part(found: Boxed, out: Out) -> Lines:
    """List what every species gets at the rates that boxes reach."""
    reached = found.achieved
    if reached is None:
        return []
    units = [out.style.unit(kind).symbol for kind in (RATE, RATE, SHARE, DENSITY, DENSITY)]
    units = [unit.removeprefix("seeds") for unit in units]
    rows = []
    for each in reached.species:
        size, live = out.style.unit(RATE).size, out.style.unit(DENSITY).size
        off = out.style.number(each.off / PERCENT, 2)
        rows.append(
            [
                each.name,
                out.style.number(each.wanted / size),
                out.style.number(each.rate.value / size),
                off if off.startswith("−") or each.off == 0 else f"+{off}",
                out.style.number(each.wanted_live / live),
                out.style.number(each.live.value / live),
            ]
        )
    heads = [["", "wanted", "gets", "off", "live wanted", "live"], ["", *units]]
    total = out.write(DENSITY(reached.live.value))
    wanted = out.write(DENSITY(reached.wanted_live))
    said = f"All live seeds: {total} ({range_text(reached.live, out, DENSITY)}), {wanted} wanted."
    return [
        *out.sheet.heading("Rates reached"),
        *table(out.sheet, heads, rows),
        *out.sheet.paragraph(said, indent=1),
    ]


def sample_part(found: Sorting, out: Out) -> Lines:
    """List the species of a sample against what the box was filled with."""
    seeds = SEEDS(float(sum(each.seeds for each in found.species)))
    rows = [_sampled(each, out) for each in found.species]
    heads = [["", "seeds", "found", "filled", "shows at", "runs"], ["", "", "%", "%", "± %", ""]]
    test, p = found.test, out.style.number(found.test.p, 2)
    odds = f"p {p}" if test.p >= LEAST_P else f"p below {LEAST_P}"
    chi = f"Chi-square {out.style.number(test.statistic)} on {test.dof:g}, {odds}."
    return [
        *out.sheet.heading("Sample", out.write(seeds)),
        *table(out.sheet, heads, rows),
        *out.sheet.paragraph(f"{out.write(found.say)} {chi}", indent=1),
    ]


def _sampled(each: SortedSpecies, out: Out) -> list[str]:
    found, expected = (out.style.number(s / PERCENT) for s in (each.found, each.expected))
    would_show = out.style.number(each.would_show / PERCENT, 2)
    return [each.name, f"{each.seeds:,}", found, expected, would_show, each.runs]


def given_up_part(found: Boxed, out: Out) -> Lines:
    """List what this way gives up, the gravest first."""
    given_up = sorted(found.boxes.split.compromises, key=lambda each: -each.grade)
    if not given_up:
        return []
    said = [f"{GRADES[each.grade]}: {out.write(each.say)}" for each in given_up]
    return [*out.sheet.heading("Given up"), *out.sheet.points(said, sign="!")]


def refused_part(found: Boxed, out: Out) -> Lines:
    """List which box cannot take which seed."""
    said = [out.write(each.say) for each in found.boxes.splits.refusals]
    return [*out.sheet.heading("What cannot be"), *out.sheet.points(said)] if said else []


def others_part(found: Boxed, out: Out) -> Lines:
    """Show the next best ways."""
    others = found.boxes.splits.best[1 : 1 + OTHERS]
    if not others:
        return []
    return [
        *out.sheet.heading("Other ways, in this order"),
        *out.sheet.points([out.write(each.say) for each in others]),
    ]
