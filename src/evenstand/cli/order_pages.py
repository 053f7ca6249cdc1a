"""An order as a page of a notebook: bags, batches, inoculant, loads, time."""

from collections.abc import Iterator

from evenstand.engine.catch.target import odds_in_words
from evenstand.engine.order.batches import BatchSheet
from evenstand.engine.order.inoculant import RULES
from evenstand.engine.order.loads import Loads
from evenstand.engine.order.purchase import OrderLine
from evenstand.engine.quantities.units import FIELD, LOAD, MONEY
from evenstand.engine.statistics.budget import nominal
from evenstand.report.notebook import Lines
from evenstand.report.table import table
from evenstand.tasks.order.order import Ordered

from .output import Out
from .pages import tag, taken, worksheet_part

MOST = 6  # loads shown one by one; of more, the first and the last few


def order_page(found: Ordered, out: Out) -> Iterator[Lines]:
    """Write what to buy, to mix and to load."""
    ground = out.write(FIELD(nominal(found.job.area)))
    heading = out.sheet.heading(" · ".join(["Order", *found.boxes.mixed.names]), ground)
    points = out.sheet.points([out.write(each) for each in found.minded], sign="!")
    yield [*heading, *tag(out, found.advice), *points]
    yield need_part(found, out)
    yield bags_part(found, out)
    for sheet in found.sheets:
        yield batch_part(sheet, out)
    yield inoculant_part(found, out)
    for each in found.loads:
        yield loads_part(each, out)
    yield taken(out, found.assumed)
    yield worksheet_part(out, found.working, "order")


def need_part(found: Ordered, out: Out) -> Lines:
    """List what each species is needed for."""
    unit = out.style.unit(LOAD).symbol
    heads = [["", "field", "overlap", "stays", "catches", "in all"], ["", *[unit] * 5]]
    rows = []
    for line in found.order.lines:
        need = line.need
        parts = (need.field, need.overlap, need.heel, need.catches, need.total)
        rows.append([need.name, *(_weight(nominal(part), out) for part in parts)])
    return [*out.sheet.heading("Seed needed"), *table(out.sheet, heads, rows)]


def bags_part(found: Ordered, out: Out) -> Lines:
    """List what to buy, what it costs, what is left over and whether it suffices."""
    unit = out.style.unit(LOAD).symbol
    heads = [
        ["", "on hand", "buy", "left", "cost", "suffices"],
        ["", unit, unit, unit, "$", ""],
    ]
    rows = [_bought(line, out) for line in found.order.lines]
    cost = "?" if found.order.cost is None else _money(found.order.cost, out)
    foot = ["all together", "", "", "", cost, ""]
    bags = [out.write(line.say) for line in found.order.lines]
    return [
        *out.sheet.heading("To buy"),
        *out.sheet.points(bags),
        *table(out.sheet, heads, rows, foot=foot),
    ]


def _bought(line: OrderLine, out: Out) -> list[str]:
    weights = (line.on_hand, line.bought, line.left)
    return [
        line.name,
        *(_weight(each, out) for each in weights),
        "?" if line.cost is None else _money(line.cost, out),
        out.write(odds_in_words(line.odds)),
    ]


def _weight(weight: float, out: Out) -> str:
    return out.style.number(weight / out.style.unit(LOAD).size)


def _money(cost: float, out: Out) -> str:
    return out.write(MONEY(cost, 5)).lstrip("$")


def batch_part(found: BatchSheet, out: Out) -> Lines:
    """Write what to tip in for one batch, the heaviest first."""
    if len(found.layers) == 1:
        return [
            *out.sheet.heading("Batches", found.box),
            *out.sheet.points([out.write(each) for each in found.steps]),
        ]
    ground = out.write(FIELD(found.ground))
    unit = out.style.unit(LOAD).symbol
    said = out.write(found.say).partition(": ")[2]
    rows = [[each.name, _weight(each.weight, out)] for each in found.layers]
    foot = ["together", _weight(found.weight, out)]
    return [
        *out.sheet.heading(f"Batches for {found.box}", f"{said}, {ground}"),
        *table(out.sheet, [["one batch", unit]], rows, foot=foot),
        *out.sheet.points([out.write(each) for each in found.steps]),
    ]


def inoculant_part(found: Ordered, out: Out) -> Lines:
    """Write how much inoculant goes on which seed, and what to mind."""
    if not found.inoculations:
        return []
    return [
        *out.sheet.heading("Inoculant"),
        *out.sheet.points([f"{out.write(each.say)}." for each in found.inoculations]),
        *out.sheet.points([out.write(each) for each in RULES], sign="!"),
    ]


def loads_part(found: Loads, out: Out) -> Lines:
    """List the loads of a box with where each runs out."""
    said = [out.write(each.say) for each in found.loads]
    if len(said) > MOST:
        said = [*said[: MOST - 2], "…", *said[-2:]]
    return [
        *out.sheet.heading(f"Loads of {found.box}"),
        *out.sheet.paragraph(out.write(found.say), indent=1),
        *out.sheet.points(said),
    ]
