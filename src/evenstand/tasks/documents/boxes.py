"""Boxes as a document: which seed goes in which, and what each is set to."""

from dataclasses import replace

from evenstand.engine.boxes.filled import FilledBox
from evenstand.engine.boxes.portion import Portion
from evenstand.engine.boxes.rates import BoxRates
from evenstand.engine.boxes.sorting import SortedSpecies, Sorting
from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import DENSITY, FIELD, LOAD, RATE, SEEDS, SHARE
from evenstand.engine.seed.size_class import CLASS_WORDS
from evenstand.engine.statistics.budget import nominal
from evenstand.report.document import Document, Points, Section, Words
from evenstand.report.pen import Pen

from ..boxes.boxes import Boxed
from .parts import document, listed, number, points, span, table, taken, working

GRADES = {1: "slight", 2: "real", 3: "grave"}
OTHERS = 2  # ways shown beside the one taken
LEAST_P = 0.0001


def boxes_shown(found: Boxed, pen: Pen) -> Document:
    """Tell which seed goes in which box, and what each is set to."""
    boxes = found.boxes
    ways = boxes.splits.feasible
    others = (each.say for each in boxes.splits.best[1 : 1 + OTHERS])
    return replace(
        document(
            pen,
            found.advice,
            title=" · ".join(["Boxes", *boxes.mixed.names]),
            about="one way" if ways == 1 else f"best of {ways:,} ways",
            notes=_notes(found, pen),
        ),
        sections=(
            *(filled_box(filled, pen) for filled in boxes.used),
            *([] if found.achieved is None else [_achieved(found.achieved, pen)]),
            *(_sample(each, pen) for each in found.sampled),
            *given_up(found, pen),
            *listed(pen, "What won't work", (each.say for each in boxes.splits.refusals)),
            *listed(pen, "Other plans, best first", others),
            *taken(pen, found.assumed),
        ),
        working=working(pen, found.working, "boxes"),
    )


def _notes(found: Boxed, pen: Pen) -> tuple[Points, Points]:
    """Note a better way than the file's own, and what to order, weigh or count."""
    better = found.boxes.best
    said = [] if better is None else [say("This plan has fewer trade-offs: {way}", way=better.say)]
    return points(pen, said, alert=True), points(pen, found.boxes.split.advice)


def filled_box(filled: FilledBox, pen: Pen) -> Section:
    """Tell what one box is set to, what is in it and how far a fill goes."""
    rows = [_row(filled, each, pen) for each in filled.portions]
    carrier = filled.box.carrier
    if carrier is not None:
        share = filled.shares[carrier.name]
        rows.append([f"{carrier.name} (carrier)", *_rates(carrier.weighed, share, pen), ""])
    units = ["", pen.style.unit(RATE).symbol, "%", ""]
    feared = (each.say for each in filled.risks if each.level != "little")
    return Section(
        filled.box.name.capitalize(),
        (
            table(["", "bulk", "weight", "class"], units, rows),
            Words(_holds(filled, pen)),
            points(pen, feared, alert=True),
            points(pen, filled.cures),
        ),
        f"set to {pen.write(RATE(filled.rate))}",
    )


def _row(filled: FilledBox, portion: Portion, pen: Pen) -> list[str]:
    weighed, share = portion.weighed, filled.shares[portion.name]
    words = pen.write(CLASS_WORDS[portion.sized.seed_class]).removesuffix(" seed")
    return [portion.name, *_rates(weighed, share, pen), words]


def _rates(weighed: float, share: float, pen: Pen) -> list[str]:
    return [number(pen, weighed, RATE), number(pen, share, SHARE, digits=2)]


def _holds(filled: FilledBox, pen: Pen) -> str:
    """Say what flows out of a full box and how much ground that sows."""
    if filled.holds is None or filled.per_load is None:
        return "We don't know how much it holds."
    holds, ground = nominal(filled.holds), filled.per_load
    text = f"A full box: {pen.write(LOAD(holds))}, "
    text += f"{pen.write(FIELD(ground.value))} ({span(pen, ground, FIELD)})."
    if filled.depth is not None:
        depth = pen.write(filled.depth.say)
        text += f" {depth[0].upper()}{depth[1:]}."
    return text


def _achieved(reached: BoxRates, pen: Pen) -> Section:
    """List what every species gets at the rates that boxes reach."""
    units = [pen.style.unit(kind).symbol for kind in (RATE, RATE, SHARE, DENSITY, DENSITY)]
    units = [unit.removeprefix("seeds") for unit in units]
    rows = []
    for each in reached.species:
        off = number(pen, each.off, SHARE, digits=2)
        rows.append(
            [
                each.name,
                number(pen, each.wanted, RATE),
                number(pen, each.rate.value, RATE),
                f"+{off}" if each.off > 0 else off,
                number(pen, each.wanted_live, DENSITY),
                number(pen, each.live.value, DENSITY),
            ]
        )
    total, wanted = (
        pen.write(DENSITY(value)) for value in (reached.live.value, reached.wanted_live)
    )
    said = f"All live seeds: {total} ({span(pen, reached.live, DENSITY)}), {wanted} wanted."
    heads = ["", "wanted", "gets", "off", "live wanted", "live"]
    return Section("Rates reached", (table(heads, ["", *units], rows), Words(said)))


def _sample(found: Sorting, pen: Pen) -> Section:
    """List the species of a sample against what the box was filled with."""
    seeds = SEEDS(float(sum(each.seeds for each in found.species)))
    test = found.test
    odds = f"p {pen.style.number(test.p, 2)}" if test.p >= LEAST_P else f"p below {LEAST_P}"
    chi = f"Chi-square {pen.style.number(test.statistic)} on {test.dof:g}, {odds}."
    species = table(
        ["", "seeds", "found", "filled", "shows at", "runs"],
        ["", "", "%", "%", "± %", ""],
        [_sampled(each, pen) for each in found.species],
    )
    return Section("Sample", (species, Words(f"{pen.write(found.say)} {chi}")), pen.write(seeds))


def _sampled(each: SortedSpecies, pen: Pen) -> list[str]:
    found, expected = (number(pen, share, SHARE) for share in (each.found, each.expected))
    would_show = number(pen, each.would_show, SHARE, digits=2)
    return [each.name, f"{each.seeds:,}", found, expected, would_show, each.runs]


def given_up(found: Boxed, pen: Pen) -> list[Section]:
    """List what this way gives up, the gravest first."""
    worst_first = sorted(found.boxes.split.compromises, key=lambda each: -each.grade)
    said = (f"{GRADES[each.grade]}: {pen.write(each.say)}" for each in worst_first)
    return [Section("Given up", (Points(tuple(said), alert=True),))] if worst_first else []
