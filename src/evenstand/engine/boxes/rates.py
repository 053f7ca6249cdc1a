"""What the rates that boxes really reach mean to each species in them."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated

from ..quantities.errors import MeasurementError, Of, Path, require_positive
from ..quantities.phrases import Phrase, join, say
from ..quantities.units import DENSITY, RATE, SHARE
from ..quantities.working import Line
from ..quantities.written import put
from ..statistics.budget import Estimate, Quantity, Share, budget, estimate, nominal, ranged, total
from .filled import FilledBox
from .portion import Portion
from .split import Split

WORTH_SAYING = 0.01  # off by less than this, a box is said to be at its rate


@dataclass(frozen=True, slots=True, kw_only=True)
class SpeciesRate:
    """One species' part of what a box lays down.

    ``wanted`` and ``rate`` are bulk [kg/m²]; ``wanted_live`` and ``live`` are
    live seeds [1/m²]; ``off`` is rate ÷ wanted − 1. The uncertainty of a
    box's rate is common to all species in it.
    """

    KEYS = ("name", "box", "wanted", "rate", "off", "wanted_live", "live", put("budget", "shares"))

    name: str
    box: str
    wanted: Annotated[float, RATE]
    rate: Annotated[Estimate, RATE]
    off: float
    wanted_live: Annotated[float, DENSITY]
    live: Annotated[Estimate, DENSITY]
    shares: tuple[Share, ...]
    working: tuple[Line, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BoxRates:
    """Every species' rate, and all live seeds together. [1/m²]"""

    KEYS = ("species", "wanted_live", "live", "say")

    species: tuple[SpeciesRate, ...]
    wanted_live: Annotated[float, DENSITY]
    live: Annotated[Estimate, DENSITY]
    shares: tuple[Share, ...]
    say: Phrase

    def of(self, name: str) -> SpeciesRate:
        """Find a species by name."""
        return next(each for each in self.species if each.name == name)


def rates_achieved(split: Split, rates: Mapping[str, Quantity]) -> BoxRates:
    """Tell each species' rate from the rates that its boxes were set to.

    species rate = box rate × weight in it ÷ weight of all in the box;
    live seeds = species rate × live seeds per weight

    Parameters
    ----------
    rates : mapping of str to Quantity
        Bulk rate of each box with seed in it, as measured. [kg/m²]

    Raises
    ------
    MeasurementError
        For a box without a rate, a rate not above zero, or an unknown box.

    Notes
    -----
    The box is taken to be mixed well and to stay so.
    """
    filled_boxes = [filled for filled in split.boxes if filled.portions]
    _require_boxes(filled_boxes, rates)
    inside = [(filled, part) for filled in filled_boxes for part in filled.portions]
    live_seeds = total(
        rates[filled.box.name] * filled.shares[part.name] * part.live_per_kg
        for filled, part in inside
    )
    shares = budget(live_seeds, {})
    return BoxRates(
        species=tuple(_species(filled, part, rates[filled.box.name]) for filled, part in inside),
        wanted_live=_wanted_live(filled_boxes),
        live=estimate(live_seeds, shares),
        shares=shares,
        say=join([_box_words(filled, nominal(rates[filled.box.name])) for filled in filled_boxes]),
    )


def _require_boxes(filled_boxes: list[FilledBox], rates: Mapping[str, Quantity]) -> None:
    names = [filled.box.name for filled in filled_boxes]
    for name in rates:
        if name not in names:
            need = say("choose a box with seed in it: {names}", names=", ".join(names))
            raise MeasurementError("box", name, need)
    for name in names:
        if name not in rates:
            need = say("enter the rate this box was calibrated to")
            raise MeasurementError(Path("rate", Of(name)), None, need)
        require_positive(Path("rate", Of(name)), nominal(rates[name]), "kg/m²")


def _wanted_live(filled_boxes: list[FilledBox]) -> float:
    wanted = 0.0
    for filled in filled_boxes:
        for portion in filled.portions:
            wanted = wanted + portion.weighed * nominal(portion.live_per_kg)
    return wanted


def _species(filled: FilledBox, portion: Portion, box_rate: Quantity) -> SpeciesRate:
    rate = box_rate * filled.shares[portion.name]
    live = rate * portion.live_per_kg
    shares = budget(live, {})
    return SpeciesRate(
        name=portion.name,
        box=filled.box.name,
        wanted=portion.weighed,
        rate=ranged(rate),
        off=nominal(rate) / portion.weighed - 1,
        wanted_live=portion.weighed * nominal(portion.live_per_kg),
        live=estimate(live, shares),
        shares=shares,
        working=(_line(filled, portion, box_rate),),
    )


def _line(filled: FilledBox, portion: Portion, box_rate: Quantity) -> Line:
    achieved = nominal(box_rate)
    return Line(
        say(
            "{name}: rate of {box} × its share of the weight",
            name=portion.name,
            box=filled.box.name,
        ),
        RATE(achieved * filled.shares[portion.name]),
        RATE(achieved) * RATE(portion.weighed) / RATE(filled.rate),
    )


def _box_words(filled: FilledBox, achieved: float) -> Phrase:
    off = achieved / filled.rate - 1
    rate = RATE(achieved)
    if abs(off) < WORTH_SAYING:
        return say("{box} is putting down {rate}, right on target.", box=filled.box.name, rate=rate)
    return say(
        "{box} is putting down {rate}, {off} {way}: {names} {all_alike}.",
        box=filled.box.name,
        rate=rate,
        off=SHARE(abs(off), 2),
        way=say("too high") if off > 0 else say("too low"),
        names=", ".join(each.name for each in filled.portions),
        all_alike=say("by the same percent") if len(filled.portions) > 1 else say("alone"),
    )
