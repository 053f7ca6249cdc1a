"""The Boxes step: which seed goes in which box, at what rate, and what that gives up."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Annotated, Any

from evenstand.engine.boxes.compromise import burden
from evenstand.engine.boxes.filled import FilledBox
from evenstand.engine.boxes.portion import Portion
from evenstand.engine.boxes.rates import BoxRates, rates_achieved
from evenstand.engine.boxes.sample import Sample
from evenstand.engine.boxes.sorting import Sorting, sorting
from evenstand.engine.boxes.sorting_trend import SortingTrend, sorting_trend
from evenstand.engine.boxes.split import BEST, Split, Splits, splits
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.quantities.working import Line
from evenstand.engine.quantities.written import AS_TEXT, ONCE, inside, put
from evenstand.engine.seed.tag import Month
from evenstand.engine.statistics.budget import Quantity

from ..job.tables import InTables
from ..mix.mix import Mixed, read_mix
from ..parsing.given import Given
from ..parsing.warned import Warned
from ..seed.names import named
from .portions import Tipped, carriers, portions
from .said import BoxesSaid
from .samples import in_sample, read_achieved, read_sample
from .tables import BoxRead, read_boxes, with_carriers
from .words import advise


@dataclass(frozen=True, kw_only=True)
class SeedInBox:
    """Seed of one species in its box."""

    KEYS = (
        *(put("name", "portion", "name"), put("box", "filled", "box", "name")),
        *(put("rate", "portion", "weighed"), "weight_share"),
        *inside(("portion", "sized"), "seed_class", "why"),
    )

    filled: FilledBox
    portion: Portion

    @property
    def weight_share(self) -> float:
        """Its part of the weight that the box drops."""
        return self.filled.shares[self.portion.name]


@dataclass(frozen=True, kw_only=True)
class Boxes:
    """Boxes of a job with the seed in each.

    ``split`` is the way taken: the best that leaves in place what the file
    places. ``ways`` are the best of all, whatever is placed; ``best`` is the
    first of them, where it gives up less.
    """

    mixed: Mixed
    tipped: tuple[Tipped, ...]
    read: tuple[BoxRead, ...]
    placed: Mapping[str, str]
    splits: Splits
    split: Split
    ways: Splits
    best: Split | None
    warnings: tuple[Warned, ...]

    def box(self, name: str) -> FilledBox:
        """Return a box by its name."""
        return next(filled for filled in self.split.boxes if filled.box.name == name)

    @property
    def used(self) -> tuple[FilledBox, ...]:
        """Boxes with seed in them."""
        return tuple(filled for filled in self.split.boxes if filled.portions)

    @property
    def seeds(self) -> tuple[SeedInBox, ...]:
        """Seed of every species, box by box."""
        return tuple(
            SeedInBox(filled=filled, portion=each)
            for filled in self.used
            for each in filled.portions
        )

    @property
    def working(self) -> tuple[Line, ...]:
        """The arithmetic of every box."""
        return tuple(line for filled in self.used for line in filled.working)

    @property
    def assumed(self) -> tuple[Phrase, ...]:
        """What was taken without being written."""
        packed = (each for f in self.used if f.packed for each in f.packed.assumed)
        return (*self.mixed.assumed, *packed)


@dataclass(frozen=True, kw_only=True)
class Boxed:
    """What is said of the boxes, with what was caught from them.

    ``advice`` are sentences, the one next thing first.
    """

    KEYS = (
        put("species", "boxes", "seeds"),
        *inside(("boxes", "split"), "boxes", "compromises"),
        *(put("ways", "boxes", "splits", "feasible"), put("others", "boxes", "splits", "others")),
        *(put("better", "boxes", "best"), put("placed", "boxes", "placed")),
        *(put("refused", "boxes", "splits", "refusals"), "achieved", put("samples", "sampled")),
        *("trends", put("say", "advice"), put("advice", "boxes", "split", "advice"), "working"),
        *(put("taken_as", "assumed"), put("warnings", "boxes", "warnings")),
    )

    boxes: Boxes
    achieved: BoxRates | None
    sampled: tuple[Sorting, ...]
    trends: tuple[SortingTrend, ...]
    advice: Annotated[tuple[Phrase, ...], AS_TEXT]
    assumed: Annotated[tuple[Phrase, ...], ONCE]
    working: tuple[Line, ...]


def fill(said: BoxesSaid, *, today: Month, keep: int = BEST) -> Boxes:
    """Work out mix and boxes of a job, and share the seed out.

    Parameters
    ----------
    today : Month
        For the age of tests.
    keep : int
        How many ways to look at, the best first.

    Raises
    ------
    MeasurementError
        For a mix or a box that cannot be used, a species that the file puts
        in a box that cannot take it, or one that no box takes.
    """
    mixed, read = read_mix(said.mix, today=today), read_boxes(said.boxes)
    tipped, names = portions(mixed), [each.name for each in read]
    placed = {
        each.portion.name: named(each.member.given, "box", each.member.said.box, names=names)
        for each in tipped
        if each.member.said.box
    }
    boxes = with_carriers(read, carriers(mixed, names))
    weights = {each.name: each.mixed_weight for each in read if each.mixed_weight is not None}
    found = _splits(tipped, boxes, placed=placed, weights=weights, keep=keep)
    if not found.best:
        raise MeasurementError(InTables("boxes"), None, found.say)
    free = _splits(tipped, boxes, placed={}, weights=weights, keep=keep) if placed else found
    return Boxes(
        mixed=mixed,
        tipped=tipped,
        read=read,
        placed=placed,
        splits=found,
        split=found.best[0],
        ways=free,
        best=_better(free.best[0], found.best[0]),
        warnings=(*mixed.warnings, *_idle(found.best[0])),
    )


def _splits(
    tipped: Sequence[Tipped],
    boxes: Sequence[Any],
    *,
    placed: Mapping[str, str],
    weights: Mapping[str, Quantity],
    keep: int,
) -> Splits:
    """Find the ways; what is refused of a species is named as its member's key."""
    try:
        return splits(
            [each.portion for each in tipped],
            boxes,
            placed=placed,
            mixed_weights=weights,
            keep=keep,
        )
    except MeasurementError as refused:
        for each in tipped:
            if refused.path == ("box", each.portion.name):
                raise each.member.given.refuse("box", refused.need) from None
        raise MeasurementError(InTables("mix"), refused.given, refused.need) from None


def _better(best: Split, taken: Split) -> Split | None:
    """Return the best way where it gives up less than the way taken."""
    return best if _burden(best) < _burden(taken) else None


def _burden(split: Split) -> int:
    return burden(each.grade for each in split.compromises)


def _idle(split: Split) -> list[Warned]:
    """Ask about a carrier in a box that gets no seed."""
    return [
        Warned(
            InTables("boxes"),
            say(
                "{box} gets no seed, so its carrier {carrier} is left out: put "
                "the carrier in another box",
                box=filled.box.name,
                carrier=filled.box.carrier.name,
            ),
        )
        for filled in split.boxes
        if filled.box.carrier is not None and not filled.portions
    ]


def boxed(boxes: Boxes, *, achieved: Given | None = None, samples: Sequence[Given] = ()) -> Boxed:
    """Say what goes where, what boxes reach, and whether they sort.

    Parameters
    ----------
    achieved : Given, optional
        With ``achieved``: ``grain 58 lb/ac``.
    samples : sequence of Given
        Each with ``sample``: ``rye 160, vetch 41``.
    """
    rates = read_achieved(achieved, boxes.split) if achieved else None
    reached = rates_achieved(boxes.split, rates) if rates else None
    sampled, trends = _sorting(boxes, samples, rates or {})
    return Boxed(
        boxes=boxes,
        achieved=reached,
        sampled=sampled,
        trends=trends,
        advice=advise(boxes.used, boxes.split.say, reached, sampled=sampled, trends=trends),
        assumed=(*boxes.assumed, *(each for found in sampled for each in found.assumed)),
        working=(
            *boxes.working,
            *(line for each in (reached.species if reached else ()) for line in each.working),
            *(line for found in sampled for line in found.working),
        ),
    )


def _sorting(
    boxes: Boxes, samples: Sequence[Given], rates: Mapping[str, Quantity]
) -> tuple[tuple[Sorting, ...], tuple[SortingTrend, ...]]:
    """Judge each sample, and the samples of one box against each other."""
    sampled: list[Sorting] = []
    of_boxes: dict[str, list[Sample]] = {}
    for given in samples:
        filled, sample = read_sample(given, boxes.split)
        with in_sample(given):
            sampled.append(sorting(filled, sample, rate=rates.get(filled.box.name)))
        of_boxes.setdefault(filled.box.name, []).append(sample)
    trends = tuple(
        sorting_trend(boxes.box(name), found) for name, found in of_boxes.items() if len(found) > 1
    )
    return tuple(sampled), trends
