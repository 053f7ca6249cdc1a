"""An order as a document: bags, batches, inoculant, loads, time."""

from dataclasses import replace

from evenstand.engine.catch.target import odds_in_words
from evenstand.engine.order.batches import BatchSheet
from evenstand.engine.order.inoculant import RULES
from evenstand.engine.order.loads import Loads
from evenstand.engine.order.purchase import OrderLine
from evenstand.engine.quantities.units import FIELD, LOAD, MONEY
from evenstand.engine.statistics.budget import nominal
from evenstand.report.document import Document, Points, Section, Words
from evenstand.report.pen import Pen

from ..order.order import Ordered
from .parts import document, number, points, table, taken, working

MOST = 6  # loads shown one by one; of more, the first and the last few
SEED = ("field", "overlap", "stays", "catches", "in all")


def order_shown(found: Ordered, pen: Pen) -> Document:
    """Tell what to buy, to mix and to load."""
    ground = pen.write(FIELD(nominal(found.job.area)))
    title = " · ".join(["Order", *found.boxes.mixed.names])
    minded = points(pen, found.minded, alert=True)
    return replace(
        document(pen, found.advice, title=title, about=ground, notes=(minded,)),
        sections=(
            _need(found, pen),
            bags(found, pen),
            *(_batch(sheet, pen) for sheet in found.sheets),
            *_inoculant(found, pen),
            *(loads(each, pen) for each in found.loads),
            *taken(pen, found.assumed),
        ),
        working=working(pen, found.working, "order"),
    )


def _need(found: Ordered, pen: Pen) -> Section:
    """List what each species is needed for."""
    rows = []
    for line in found.order.lines:
        need = line.need
        parts = (need.field, need.overlap, need.heel, need.catches, need.total)
        rows.append([need.name, *(number(pen, part, LOAD) for part in parts)])
    units = [pen.style.unit(LOAD).symbol] * len(SEED)
    return Section("Seed needed", (table(["", *SEED], ["", *units], rows),))


def bags(found: Ordered, pen: Pen) -> Section:
    """List what to buy, what it costs, what is left over and whether it suffices."""
    unit = pen.style.unit(LOAD).symbol
    bought = table(
        ["", "on hand", "buy", "left", "cost", "suffices"],
        ["", unit, unit, unit, pen.style.unit(MONEY).symbol, ""],
        [_bought(line, pen) for line in found.order.lines],
        foot=["all together", "", "", "", _money(found.order.cost, pen), ""],
    )
    return Section("To buy", (points(pen, (line.say for line in found.order.lines)), bought))


def _bought(line: OrderLine, pen: Pen) -> list[str]:
    weights = (line.on_hand, line.bought, line.left)
    return [
        line.name,
        *(number(pen, each, LOAD) for each in weights),
        _money(line.cost, pen),
        pen.write(odds_in_words(line.odds)),
    ]


def _money(cost: float | None, pen: Pen) -> str:
    return "?" if cost is None else pen.bare(cost, MONEY, 5)


def _batch(found: BatchSheet, pen: Pen) -> Section:
    """Tell what to tip in for one batch, the heaviest first."""
    steps = points(pen, found.steps)
    if len(found.layers) == 1:
        return Section("Batches", (steps,), found.box)
    layers = table(
        ["one batch", pen.style.unit(LOAD).symbol],
        [],
        [[each.name, number(pen, each.weight, LOAD)] for each in found.layers],
        foot=["together", number(pen, found.weight, LOAD)],
    )
    weight, ground = (LOAD(found.weight, 4), FIELD(found.ground))
    many = f"{found.batches} batches of {pen.write(weight)} each"
    about = many if found.batches > 1 else f"one batch of {pen.write(weight)}"
    return Section(f"Batches for {found.box}", (layers, steps), f"{about}, {pen.write(ground)}")


def _inoculant(found: Ordered, pen: Pen) -> list[Section]:
    """Tell how much inoculant goes on which seed, and what to mind."""
    if not found.inoculations:
        return []
    said = Points(tuple(f"{pen.write(each.say)}." for each in found.inoculations))
    return [Section("Inoculant", (said, points(pen, RULES, alert=True)))]


def loads(found: Loads, pen: Pen) -> Section:
    """List the loads of a box with where each runs out."""
    said = [pen.write(each.say) for each in found.loads]
    if len(said) > MOST:
        said = [*said[: MOST - 2], "…", *said[-2:]]
    return Section(f"Loads of {found.box}", (Words(pen.write(found.say)), Points(tuple(said))))
