"""A batch sheet: what to tip in for each batch, on a tarp or in a mixer."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil
from typing import Annotated

from ..boxes.filled import FilledBox
from ..quantities.errors import MeasurementError, require_positive
from ..quantities.phrases import Phrase, say
from ..quantities.units import CATCH, FIELD, LOAD, NUMBER
from ..quantities.working import Line
from .inoculant import Inoculation

MOST_BATCHES = 10_000
LITTLE = 0.02  # of a batch by weight: what is less is mixed with some of the bulk first, ours
ROUNDING = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Layer:
    """One thing to tip in, in its place. [kg]"""

    KEYS = ("name", "weight", "premix")

    name: str
    weight: Annotated[float, LOAD]
    premix: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class BatchSheet:
    """Equal batches for one box.

    ``layers`` are those of one batch, bottom first; ``ground`` is what one
    batch sows [m²]; ``steps`` say how to go about it.
    """

    KEYS = ("box", "batches", "weight", "ground", "layers", "steps", "say")

    box: str
    batches: int
    weight: Annotated[float, LOAD]
    ground: Annotated[float, FIELD]
    layers: tuple[Layer, ...]
    inoculants: tuple[Inoculation, ...]
    steps: tuple[Phrase, ...]
    say: Phrase
    working: tuple[Line, ...]

    @property
    def total(self) -> float:
        """All batches together. [kg]"""
        return self.batches * self.weight


def batch_sheet(
    filled: FilledBox,
    total: float,
    *,
    most: float,
    inoculants: Sequence[Inoculation] = (),
) -> BatchSheet:
    """Divide what goes in a box into equal batches.

    batches = total ÷ most, to the next whole number; of each species its
    share of the weight

    Parameters
    ----------
    total : float
        Seed and carrier that go into the box for the whole job. [kg]
    most : float
        What the tarp, the mixer or a fill of the box takes at once. [kg]
    inoculants : sequence of Inoculation
        For legumes in this box.

    Raises
    ------
    MeasurementError
        For an empty box, a weight not above zero, or batches without number.

    References
    ----------
    Weigh each species per batch, layer, turn, refill part-full: common
    practice, no source. Seed and hulls are mixed in a concrete mixer at the
    Forest Preserve District of Will County (2019).
    """
    if not filled.portions:
        raise MeasurementError("box", filled.box.name, say("choose a box with seed in it"))
    require_positive("total", total, "kg")
    require_positive("most", most, "kg")
    if total / most > MOST_BATCHES:
        raise MeasurementError("most", most, say("enter how much the mixer holds at once"))
    batches = ceil(total / most - ROUNDING)
    weight = total / batches
    layers = _layers(filled, weight)
    return BatchSheet(
        box=filled.box.name,
        batches=batches,
        weight=weight,
        ground=weight / filled.rate,
        layers=layers,
        inoculants=tuple(inoculants),
        steps=_steps(filled, layers, inoculants=inoculants, batches=batches),
        say=_headline(filled, batches, weight),
        working=_working(filled, layers, total=total, batches=batches),
    )


def _layers(filled: FilledBox, weight: float) -> tuple[Layer, ...]:
    """Most first, so that little lies on much and is turned into it."""
    parts = [
        Layer(name=name, weight=share * weight, premix=share < LITTLE)
        for name, share in filled.shares.items()
    ]
    return tuple(sorted(parts, key=lambda layer: (-layer.weight, layer.name)))


def _headline(filled: FilledBox, batches: int, weight: float) -> Phrase:
    text = "{box}: {batches} batches of {weight} each"
    if batches == 1:
        text = "{box}: one batch of {weight}"
    return say(text, box=filled.box.name, batches=batches, weight=LOAD(weight, 4))


def _steps(
    filled: FilledBox, layers: Sequence[Layer], *, inoculants: Sequence[Inoculation], batches: int
) -> tuple[Phrase, ...]:
    damp = _damp(layers, inoculants, batches)
    if len(layers) == 1:
        text = "no mixing needed: fill {box} straight from the bag"
        if damp:
            text = "no more mixing needed: fill {box} with it"
        return (*damp, say(text, box=filled.box.name))
    text = "first mix {name} with a bucketful of {most}"
    steps = [say(text, name=each.name, most=layers[0].name) for each in layers if each.premix]
    steps.append(say("spread it in layers in this order, heaviest at the bottom"))
    steps.append(say("turn the whole pile over from one end to the other, three times"))
    if filled.sorts:
        text = (
            "fill {box} only partway each time, and stir it at every stop, with the drill shut off"
        )
        steps.append(say(text, box=filled.box.name))
    return (*damp, *steps)


def _damp(layers: Sequence[Layer], inoculants: Sequence[Inoculation], batches: int) -> list[Phrase]:
    """Say which seed gets its inoculant in a batch, before it is mixed."""
    names = {layer.name for layer in layers}
    batch = say("for each batch") if batches > 1 else say("for the batch")
    text = "dampen {seed} and mix in {amount} of inoculant, {batch}"
    return [
        say(text, seed=each.seed, amount=CATCH(each.amount / batches), batch=batch)
        for each in inoculants
        if each.seed in names
    ]


def _working(
    filled: FilledBox, layers: Sequence[Layer], *, total: float, batches: int
) -> tuple[Line, ...]:
    first = Line(
        say("One batch for {box}: total ÷ batches", box=filled.box.name),
        LOAD(total / batches),
        LOAD(total) / NUMBER(batches),
    )
    text = "{name} in one batch"
    return (first, *(Line(say(text, name=layer.name), LOAD(layer.weight)) for layer in layers))
