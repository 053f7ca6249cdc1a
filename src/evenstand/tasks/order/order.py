"""The Order step: what to buy, to mix and to load, and how long it takes."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial
from typing import Annotated

from evenstand.book.kinds.shape import Typed
from evenstand.engine.order.batches import BatchSheet
from evenstand.engine.order.inoculant import RULES, Inoculation
from evenstand.engine.order.loads import Loads, Passes, box_loads
from evenstand.engine.order.need import RATE_SPREAD, OrderJob
from evenstand.engine.order.purchase import Order, order
from evenstand.engine.order.work_rate import WorkRate, work_rate
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.quantities.units import LENGTH, MINUTES, SHARE, SPEED
from evenstand.engine.quantities.working import Line
from evenstand.engine.quantities.written import AS_TEXT, ONCE, put
from evenstand.engine.seed.tag import Month
from evenstand.engine.statistics.budget import Quantity, nominal

from ..boxes.boxes import Boxes, fill
from ..boxes.tables import of_box
from ..drill.machines import quantity
from ..job.tables import InTables
from ..parsing.given import placing
from ..parsing.warned import Warned
from .batches import batches
from .said import OrderSaid
from .sold import bagless, sold


@dataclass(frozen=True, kw_only=True)
class Ordered:
    """All that a job needs, and what to do with it.

    ``time`` is None where no speed was given.
    """

    KEYS = (
        *(put("species", "order", "lines"), put("cost", "order", "cost", within="total")),
        put("odds", "order", "odds", within="total"),
        put("odds_at_least", "order", "odds_at_least", within="total"),
        *(put("ground", "job", "ground", within="total"), put("batches", "sheets")),
        *(put("inoculants", "inoculations"), put("inoculant_rules", "rules"), "loads", "time"),
        *(put("say", "advice"), put("notes", "minded"), "working", put("taken_as", "assumed")),
        "warnings",
    )

    boxes: Boxes
    job: OrderJob
    order: Order
    sheets: tuple[BatchSheet, ...]
    inoculations: tuple[Inoculation, ...]
    loads: tuple[Loads, ...]
    time: WorkRate | None
    warnings: tuple[Warned, ...]

    @property
    def advice(self) -> Annotated[tuple[Phrase, ...], AS_TEXT]:
        """Sentences, the one next thing first."""
        time = () if self.time is None else (self.time.say,)
        return (self.order.say, self.order.next, *time)

    @property
    def minded(self) -> tuple[Phrase, ...]:
        """What asks to be minded."""
        missing = [f.missing for f in self.boxes.used if f.missing is not None]
        inoculant = [each for done in self.inoculations for each in done.warnings]
        time = () if self.time is None else self.time.warnings
        return (*self.order.warnings, *missing, *inoculant, *time)

    @property
    def rules(self) -> tuple[Phrase, ...]:
        """What holds for any inoculant."""
        return RULES if self.inoculations else ()

    @property
    def assumed(self) -> Annotated[tuple[Phrase, ...], ONCE]:
        """What was taken without being written."""
        time = () if self.time is None else self.time.assumed
        return (*self.boxes.assumed, *self.order.assumed, *time)

    @property
    def working(self) -> tuple[Line, ...]:
        """The arithmetic from rates to bags, batches, loads and hours."""
        parts = [
            *(each.working for each in self.inoculations),
            *(each.working for each in self.sheets),
            *(each.working for each in self.loads),
        ]
        time = () if self.time is None else self.time.working
        return (*self.order.working, *(line for part in parts for line in part), *time)


def read_order(said: OrderSaid, *, today: Month) -> Ordered:
    """Work out what a job needs from its boxes, its field and its order.

    Raises
    ------
    MeasurementError
        As `boxes.fill` does, and for a field without its area or an order that cannot be.
    """
    boxes = fill(said.boxes, today=today)
    job, width = _job(said, boxes), nominal(said.drill.width) if said.drill else None
    with placing(partial(_placed, said, boxes)):
        bought = order(
            boxes.split,
            job,
            bags={name: bags for name, bags, _ in sold(boxes) if bags},
            on_hand={name: on_hand for name, _, on_hand in sold(boxes)},
            sure=said.order.sure or 0.5,
        )
        loads = _loads(said, boxes, job, width=width)
        known = loads if len(loads) == len(boxes.used) else ()
        time = _time(said, job, known, width=width)
    inoculations, sheets = batches(said, boxes, job, hours=time.hours if time else 0.0)
    return Ordered(
        boxes=boxes,
        job=job,
        order=bought,
        sheets=sheets,
        inoculations=inoculations,
        loads=loads,
        time=time,
        warnings=(*boxes.warnings, *bagless(boxes)),
    )


def _job(said: OrderSaid, boxes: Boxes) -> OrderJob:
    order = said.order
    if order.area is None:
        raise said.boxes.mix.of_ground.refuse("area", say("this is missing; enter it"))
    heels: dict[str, Quantity] = {b.name: b.heel for b in boxes.read if b.heel is not None}
    return OrderJob(
        area=quantity(order.area, "area"),
        overlap=_share(said, "overlap", order.overlap),
        catches={each.name: each.catches for each in boxes.read},
        heels=heels,
        rate_spread=nominal(_share(said, "spread", order.spread)) if order.spread else RATE_SPREAD,
    )


def _share(said: OrderSaid, key: str, typed: Typed | None) -> Quantity:
    if typed is None:
        return 0.0
    if not typed.value < 1:
        raise said.given.refuse(key, say("enter a share from 0% to less than 100%"))
    return quantity(typed, "variation" if key == "spread" else key)


def _placed(said: OrderSaid, boxes: Boxes, refused: MeasurementError) -> MeasurementError:
    """Name what the engine refuses where it stands."""
    key = str(refused.path[0])
    for each in boxes.tipped:
        if refused.path == (key, each.portion.name) and each.lot is not None:
            return each.lot.given.refuse(key, refused.need)
    keys = {"odds": "sure", "refill": "refill", "efficiency": "efficiency"}
    if refused.field in keys:
        return said.given.refuse(keys[key], refused.need)
    return refused.at(InTables("lots"))


def _loads(
    said: OrderSaid, boxes: Boxes, job: OrderJob, *, width: float | None
) -> tuple[Loads, ...]:
    """Loads of every box of which it is known what it holds."""
    passes = _passes(said, width)
    found = []
    for each in boxes.read:
        filled = boxes.box(each.name)
        if filled.portions and filled.packed is not None:
            with of_box(each.given):
                found.append(box_loads(filled, job, passes=passes, full=each.full))
    return tuple(found)


def _passes(said: OrderSaid, width: float | None) -> Passes | None:
    length = said.order.pass_length
    if length is None:
        return None
    if width is None:
        need = say("enter the drill's rows and row spacing: its width is needed")
        raise MeasurementError(InTables("drill", "rows"), None, need)
    return Passes(width=width, length=said.boxes.mix.of_ground.plain("pass_length", length, LENGTH))


def _time(
    said: OrderSaid, job: OrderJob, loads: Sequence[Loads], *, width: float | None
) -> WorkRate | None:
    """Time at the drill; stops are told where it is known what every box holds."""
    order, given = said.order, said.given
    if order.speed is None:
        for key in ("efficiency", "refill"):
            if getattr(order, key):
                need = say("use it together with {partner}", partner=given.name("speed"))
                raise given.refuse(key, need)
        return None
    if width is None:
        need = say("enter the drill's rows and row spacing too: its width is needed")
        raise given.refuse("speed", need)
    efficiency, refill = order.efficiency, order.refill
    return work_rate(
        nominal(job.ground),
        speed=given.plain("speed", order.speed, SPEED),
        width=width,
        efficiency=given.plain("efficiency", efficiency, SHARE) if efficiency else None,
        per_load=min(each.per_load.value for each in loads) if loads else None,
        refill=given.plain("refill", refill, MINUTES) if refill else None,
    )
