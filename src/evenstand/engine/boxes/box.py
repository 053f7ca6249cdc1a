"""The boxes of a drill: what each holds and which seed runs from it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from ..quantities.errors import MeasurementError, Of, Path, require_positive, require_share
from ..quantities.phrases import Phrase, say
from ..quantities.written import put
from ..seed.size_class import CLASS_WORDS, SeedClass
from ..statistics.budget import Quantity, nominal
from .portion import Carrier, Portion

BoxKind = Literal["grain", "small seed", "fluffy"]
Fit = Literal["made for it", "makes do", "cannot"]
Classes = frozenset[SeedClass]


@dataclass(frozen=True, slots=True)
class BoxSeed:
    """Seed that a box is made for, and seed it carries at a compromise."""

    takes: Classes
    makes_do: Classes = frozenset()


# NRCS, Five keys (2003): a box for each of fluffy, smooth small and smooth large seed. Millets and
# brassicas in the small box, cereals and peas in the large: a seed seller's article of 2015, read.
# What each makes do with: common practice, no source.
BOX_KINDS: Mapping[BoxKind, BoxSeed] = {
    "grain": BoxSeed(frozenset({"large", "medium"}), frozenset({"small"})),
    "small seed": BoxSeed(frozenset({"small", "medium"})),
    "fluffy": BoxSeed(frozenset({"fluffy"}), frozenset({"medium", "small"})),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """A box of the drill.

    Parameters
    ----------
    volume : Quantity
        What it holds, level full. [m³]
    seed : BoxSeed
        Classes of seed it takes, as in `BOX_KINDS`.
    agitator : bool
        Whether it has an agitator and picker wheels.
    dead : float
        Part of its volume that must stay in, or never flows out. [-]
    least, most : float, optional
        Bulk rates it can meter. [kg/m²]
    own_depth : bool
        Whether its seed can be placed at another depth than other boxes'.
    carrier : Carrier, optional
        What is mixed into whatever this box gets.

    Raises
    ------
    MeasurementError
        For a volume that is not above zero, no class of seed at all, a dead
        part outside 0 to 1, or limits of the rate the wrong way round.
    """

    name: str
    volume: Quantity
    seed: BoxSeed
    agitator: bool = False
    dead: float = 0.0
    least: float | None = None
    most: float | None = None
    own_depth: bool = True
    carrier: Carrier | None = None

    def __post_init__(self) -> None:
        require_positive(Path("volume", Of(self.name)), nominal(self.volume), "m³")
        require_share(Path("dead", Of(self.name)), self.dead)
        if not self.seed.takes:
            need = say("enter at least one of large, medium, small, fluffy")
            raise MeasurementError(Path("takes", Of(self.name)), (), need)
        low, high = self.least, self.most
        for field, limit in (("least", low), ("most", high)):
            if limit is not None:
                require_positive(Path(field, Of(self.name)), limit, "kg/m²")
        if low is not None and high is not None and not low < high:
            raise MeasurementError(
                Path("most", Of(self.name)), high, say("enter more than the minimum")
            )

    @property
    def usable(self) -> Quantity:
        """Volume that flows out from full. [m³]"""
        return self.volume * (1 - self.dead)


def wanted(box: Box, portions: Sequence[Portion]) -> bool:
    """Whether a box is made for any of these seeds."""
    return any(fit(box, each) == "made for it" for each in portions)


def require_boxes(boxes: Sequence[Box]) -> None:
    """Raise MeasurementError for no boxes at all or two of one name."""
    if not boxes:
        raise MeasurementError("boxes", (), say("enter at least one box for the drill"))
    names = [box.name for box in boxes]
    for name in names:
        if names.count(name) > 1:
            raise MeasurementError("boxes", name, say("use a different name for each box"))


def fit(box: Box, portion: Portion) -> Fit:
    """Tell how well a seed goes with a box."""
    seed_class = portion.sized.seed_class
    if seed_class == "fluffy" and not box.agitator:
        return "cannot"
    if seed_class in box.seed.takes:
        return "made for it"
    return "makes do" if seed_class in box.seed.makes_do else "cannot"


def refusal(box: Box, portion: Portion) -> Phrase | None:
    """Say why a seed cannot go in a box; None where it can.

    References
    ----------
    Picker wheels, agitators and oversized tubes for fluffy seed: USDA NRCS,
    Five keys to successful grass seeding (2003), key 3.
    """
    if fit(box, portion) != "cannot":
        return None
    sized = portion.sized
    if sized.seed_class == "fluffy":
        text = "{seed} is fluffy and will bridge in {box}, which has no agitator with picker wheels"
        if box.agitator:
            text = "{seed} is fluffy, and {box} is not built for fluffy seed"
        return say(text, seed=portion.name, box=box.name)
    return say(
        "{seed} is {class_} ({why}), and {box} handles {classes}",
        seed=portion.name,
        class_=CLASS_WORDS[sized.seed_class],
        why=sized.why,
        box=box.name,
        classes=_listed(box.seed.takes | box.seed.makes_do),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Refusal:
    """A seed that a box cannot take, and why."""

    KEYS = (put("species", "seed"), "box", "say")

    seed: str
    box: str
    say: Phrase


def refusals(boxes: Sequence[Box], portions: Sequence[Portion]) -> tuple[Refusal, ...]:
    """Every seed that a box cannot take, species by species."""
    return tuple(
        Refusal(seed=each.name, box=box.name, say=why)
        for each in portions
        for box in boxes
        if (why := refusal(box, each)) is not None
    )


def _listed(classes: Classes) -> Phrase:
    ordered = [words for name, words in CLASS_WORDS.items() if name in classes]
    values = {f"c{i}": words for i, words in enumerate(ordered)}
    return Phrase(", ".join(f"{{{name}}}" for name in values), values)
