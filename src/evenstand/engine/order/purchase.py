"""What to buy for a job: bags, what is left over, what it costs, and whether it suffices."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Annotated

from ..boxes.filled import FilledBox
from ..boxes.split import Split
from ..catch.target import odds_in_words
from ..quantities.errors import MeasurementError, Of, Path
from ..quantities.phrases import Phrase, join, say
from ..quantities.units import LOAD, MONEY, SHARE
from ..quantities.working import Line
from ..quantities.written import OR_NULL, inside, put
from ..statistics.budget import nominal
from .bags import Bags, BagSize, buy
from .need import Need, OrderJob, box_needs, enough_at, require_known, together

TIGHT = 0.90  # odds below which running short is worth a warning
ROUNDING = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Purchase:
    """What to buy of one lot for the area, and what stays over.

    Attributes
    ----------
    sown : float
        [kg]
    on_hand : float
        What of it comes out of the shed. [kg]
    bought : float
        [kg]
    bags : int or None
        None where it is bought by weight.
    left : float
        Of what was bought, beyond what is sown. [kg]
    cost : float or None
        None without a price. [$]
    """

    KEYS = ("name", "lot", "sown", "on_hand", "bought", "bags", "left", "cost")

    name: str
    lot: Annotated[str, OR_NULL]
    sown: Annotated[float, LOAD]
    on_hand: Annotated[float, LOAD]
    bought: Annotated[float, LOAD]
    bags: int | None
    left: Annotated[float, LOAD]
    cost: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderLine:
    """One species or carrier in the order. [kg]

    ``wanted`` is what must be at hand, for the odds asked; ``to_buy`` that
    less what is on hand. ``bags`` is None where no bag size is known: then
    exactly ``to_buy`` is bought. ``odds`` are those that it suffices.
    """

    KEYS = (
        "name",
        *inside(("need",), "box", "field", "overlap", "heel", "catches"),
        *(put("need", "need", "range"), "wanted", "on_hand", "to_buy"),
        *(put("bags", "bags", "sizes"), "bought", "left", "cost", "odds"),
        *(put("budget", "need", "shares"), "say"),
    )

    need: Need
    wanted: Annotated[float, LOAD]
    on_hand: Annotated[float, LOAD]
    to_buy: Annotated[float, LOAD]
    bags: Bags | None
    bought: Annotated[float, LOAD]
    left: Annotated[float, LOAD]
    odds: float
    say: Phrase

    @property
    def name(self) -> str:
        """Name of the species or carrier."""
        return self.need.name

    @property
    def cost(self) -> float | None:
        """What it costs; None without a price."""
        if self.bags is None:
            return None if self.to_buy else 0.0
        return self.bags.cost


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """All that a job needs.

    ``cost`` is None where a price is missing; ``odds`` are those of the
    species most likely to run short, and ``odds_at_least`` bounds the odds
    that none does.
    """

    lines: tuple[OrderLine, ...]
    cost: float | None
    odds: float
    odds_at_least: float
    say: Phrase
    next: Phrase
    warnings: tuple[Phrase, ...]
    assumed: tuple[Phrase, ...]
    working: tuple[Line, ...]

    def of(self, name: str) -> OrderLine:
        """Find a line by name."""
        return next(line for line in self.lines if line.name == name)


def order(
    split: Split,
    job: OrderJob,
    *,
    bags: Mapping[str, Sequence[BagSize]] | None = None,
    on_hand: Mapping[str, float] | None = None,
    sure: float = 0.5,
) -> Order:
    """Work out what to buy.

    Parameters
    ----------
    split : Split
        Which seed goes in which box.
    bags : mapping of str to sequence of BagSize, optional
        By species, the bags it is sold in.
    on_hand : mapping of str to float, optional
        By species, seed that is there already; more than needed is fine. [kg]
    sure : float
        Odds that the seed of each species is to suffice with; at even odds
        the need itself is bought. [-]

    Raises
    ------
    MeasurementError
        For an unknown species, seed on hand below zero, odds outside 50 to
        100%, or bags that cannot be bought.

    Notes
    -----
    An allowance of 5 to 10% for overlap, calibration and heel is often
    added, common practice, no source; here each is given its own place.
    """
    bags, on_hand = bags or {}, on_hand or {}
    needs = together([need for filled in split.boxes for need in box_needs(filled, job)])
    names = [need.name for need in needs]
    require_known("bags", list(bags), names)
    require_known("on_hand", list(on_hand), names)
    require_known("catches", list(job.catches or {}), [filled.box.name for filled in split.boxes])
    require_known("heel", list(job.heels or {}), [filled.box.name for filled in split.boxes])
    for name, weight in on_hand.items():
        if not weight >= 0:
            field = Path("on_hand", Of(name))
            raise MeasurementError(field, weight, say("enter a weight of 0 or more"))
    lines = tuple(
        _line(need, sizes=bags.get(need.name), on_hand=on_hand.get(need.name, 0.0), sure=sure)
        for need in needs
    )
    cost = _cost(lines)
    return Order(
        lines=lines,
        cost=cost,
        odds=min(line.odds for line in lines),
        odds_at_least=_all_suffice(lines),
        say=_headline(lines, cost),
        next=_next(lines),
        warnings=_warnings(lines),
        assumed=_assumed(split.boxes, job),
        working=tuple(each for need in needs for each in need.working) + _bought(lines),
    )


def _line(need: Need, *, sizes: Sequence[BagSize] | None, on_hand: float, sure: float) -> OrderLine:
    range_ = need.range
    wanted = enough_at(range_, sure)
    to_buy = max(0.0, wanted - on_hand)
    bought = None if sizes is None else _buy(need.name, to_buy, sizes)
    weight = to_buy if bought is None else bought.weight
    at_hand = on_hand + weight
    return OrderLine(
        need=need,
        wanted=wanted,
        on_hand=on_hand,
        to_buy=to_buy,
        bags=bought,
        bought=weight,
        left=at_hand - range_.value,
        odds=range_.below(at_hand) if range_.u else float(at_hand >= range_.value),
        say=_line_words(need.name, to_buy, bought),
    )


def _buy(name: str, weight: float, sizes: Sequence[BagSize]) -> Bags:
    try:
        return buy(weight, sizes)
    except MeasurementError as refused:
        raise refused.at(Path("bags", Of(name))) from None


def _line_words(name: str, to_buy: float, bought: Bags | None) -> Phrase:
    if not to_buy:
        return say("{name}: enough on hand", name=name)
    if bought is None:
        return say("{name}: {weight}", name=name, weight=LOAD(to_buy))
    return say("{name}: {bags}", name=name, bags=bought.say)


def _cost(lines: Sequence[OrderLine]) -> float | None:
    whole = 0.0
    for line in lines:
        if line.cost is None:
            return None
        whole = whole + line.cost
    return whole


def _all_suffice(lines: Sequence[OrderLine]) -> float:
    """Bound from below: what can fail, added up as if it never failed together."""
    fail = 0.0
    for line in lines:
        fail = fail + (1 - line.odds)
    return max(0.0, 1 - fail)


def _headline(lines: Sequence[OrderLine], cost: float | None) -> Phrase:
    values = {f"l{i}": line.say for i, line in enumerate(lines)}
    listed = Phrase("; ".join(f"{{{name}}}" for name in values), values)
    if all(not line.to_buy for line in lines):
        return say("You have all the seed you need.")
    start = say("Buy {lines}.", lines=listed)
    if cost is None:
        return start
    return join([start, say("That costs {cost}.", cost=MONEY(cost, 5))])


def _next(lines: Sequence[OrderLine]) -> Phrase:
    tight = min(lines, key=lambda line: line.odds)
    odds = odds_in_words(tight.odds)
    if tight.odds >= TIGHT - ROUNDING:
        return say(
            "Order it, and ask for a tag with every lot: {odds} odds or better "
            "that each one is enough.",
            odds=odds,
        )
    text = (
        "{odds} odds that {name} is enough. For 9 in 10 odds, have {enough} on hand, "
        "which is {more} more."
    )
    enough = enough_at(tight.need.range, TIGHT)
    more = enough - tight.on_hand - tight.bought
    return say(text, odds=odds, name=tight.name, enough=LOAD(enough), more=LOAD(more))


def _warnings(lines: Sequence[OrderLine]) -> tuple[Phrase, ...]:
    return tuple(
        say(
            "{name}: {left} left over, {share} of what you need; retest it before you seed it",
            name=line.name,
            left=LOAD(line.left),
            share=SHARE(line.left / line.need.range.value, 2),
        )
        for line in lines
        if line.bags is not None and line.to_buy and line.left > line.need.range.value
    )


def _assumed(filled_boxes: Sequence[FilledBox], job: OrderJob) -> tuple[Phrase, ...]:
    spread = SHARE(job.rate_spread, 2)
    said = [
        say(
            "assumes each box drops its rate, give or take {spread} (one standard deviation)",
            spread=spread,
        )
    ]
    for filled in filled_boxes:
        if filled.portions and filled.box.dead and filled.packed is None and job.heel(filled) == 0:
            text = "nothing added for what stays in {box}: its test weight is unknown"
            said.append(say(text, box=filled.box.name))
    return tuple(said)


def _bought(lines: Sequence[OrderLine]) -> tuple[Line, ...]:
    return tuple(
        Line(
            say("{name} left over: on hand + bought − needed", name=line.name),
            LOAD(line.left),
            LOAD(line.on_hand) + LOAD(line.bought) - LOAD(nominal(line.need.total)),
        )
        for line in lines
    )
