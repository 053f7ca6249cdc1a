"""Which seed goes in which box: every way that can be, and the one that gives up least."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from ..mix.words import listed
from ..quantities.errors import MeasurementError, Of, Path
from ..quantities.phrases import Phrase, join, say, series
from ..quantities.written import put
from ..statistics.budget import Quantity
from .box import Box, Refusal, refusal, refusals, require_boxes, wanted
from .compromise import Compromise
from .depth import common_depth, depth_compromise
from .filled import FilledBox, fill_box
from .portion import Portion
from .search import Block, allowed_boxes, best_ways

MOST_WAYS = 531_441  # twelve species in three boxes: no wait that a person notices
BEST = 3
APART = "USDA NRCS Georgia, plant sheet on switchgrass, 2005"


@dataclass(frozen=True, slots=True, kw_only=True)
class Split:
    """One way to share the seed out.

    ``compromises`` are those of every box and of the drill as a whole;
    ``advice`` is what to mind with this way.
    """

    KEYS = (put("boxes", "seeds"), "compromises", "say")

    boxes: tuple[FilledBox, ...]
    compromises: tuple[Compromise, ...]
    advice: tuple[Phrase, ...]
    say: Phrase

    @property
    def seeds(self) -> dict[str, tuple[str, ...]]:
        """Names of the seed in each box."""
        return {f.box.name: tuple(each.name for each in f.portions) for f in self.boxes}

    def box_of(self, seed: str) -> str:
        """Name of the box that a species goes in."""
        for filled in self.boxes:
            if any(portion.name == seed for portion in filled.portions):
                return filled.box.name
        names = ", ".join(portion.name for filled in self.boxes for portion in filled.portions)
        raise MeasurementError("seed", seed, say("choose one of {names}", names=names))


@dataclass(frozen=True, slots=True, kw_only=True)
class Splits:
    """Every way, as far as it matters.

    ``best`` come first, none where no way exists; ``feasible`` is how many
    ways there are; ``together`` says which species were kept together because
    there are too many to try each by itself.
    """

    best: tuple[Split, ...]
    feasible: int
    refusals: tuple[Refusal, ...]
    together: tuple[tuple[str, ...], ...]
    say: Phrase

    @property
    def others(self) -> tuple[Split, ...]:
        """The best but the first."""
        return self.best[1:]


def splits(
    portions: Sequence[Portion],
    boxes: Sequence[Box],
    *,
    placed: Mapping[str, str] | None = None,
    mixed_weights: Mapping[str, Quantity] | None = None,
    keep: int = BEST,
) -> Splits:
    """Find the ways to fill the boxes that give up least.

    Every assignment of species to boxes that can take them is tried. Grave
    compromises are counted first, then real ones, then slight ones; among
    equals the way that keeps sizes nearest wins. A species is never divided.

    Parameters
    ----------
    portions : sequence of Portion, length ≥ 1
    boxes : sequence of Box, length ≥ 1
    placed : mapping of str to str, optional
        Box of each species that the user has already placed.
    mixed_weights : mapping of str to Quantity, optional
        By box, the measured test weight of the mixture in it. [kg/m³]
    keep : int
        How many ways to return at most.

    Raises
    ------
    MeasurementError
        For no boxes, no seed, two of one name, an unknown name, or a species
        placed in a box that cannot take it.

    Notes
    -----
    Where boxes and species make more than 531,441 ways, species of one class
    that may go in the same boxes are kept together, and this is said.
    """
    require_boxes(boxes)
    _require_names([each.name for each in portions])
    pins = _pins(portions, boxes, placed or {})
    refused = refusals(boxes, portions)
    allowed = allowed_boxes(portions, boxes, pins)
    homeless = [each.name for each, where in zip(portions, allowed, strict=True) if not where]
    if homeless:
        return Splits(
            best=(), feasible=0, refusals=refused, together=(), say=no_way(homeless, refused)
        )
    blocks = _blocks(portions, boxes, allowed)
    ways = best_ways(portions, boxes, blocks=blocks, allowed=allowed, keep=keep)
    best = tuple(
        _split(portions, boxes, way, allowed=allowed, mixed_weights=mixed_weights or {})
        for way in ways
    )
    return Splits(
        best=best,
        feasible=_count(blocks, allowed),
        refusals=refused,
        together=tuple(
            tuple(portions[i].name for i in block) for block in blocks if len(block) > 1
        ),
        say=best[0].say,
    )


def split_as(
    portions: Sequence[Portion],
    boxes: Sequence[Box],
    placed: Mapping[str, str],
    *,
    mixed_weights: Mapping[str, Quantity] | None = None,
) -> Split:
    """Take the boxes as the user fills them, and say what that gives up.

    Raises
    ------
    MeasurementError
        As `splits`, and where a species has no box.
    """
    for each in portions:
        if each.name not in placed:
            names = ", ".join(box.name for box in boxes)
            need = say("choose the box it goes in: one of {names}", names=names)
            raise MeasurementError(Path("box", Of(each.name)), None, need)
    found = splits(portions, boxes, placed=placed, mixed_weights=mixed_weights, keep=1)
    return found.best[0]


def _require_names(names: Sequence[str]) -> None:
    if not names:
        raise MeasurementError("mix", (), say("enter at least one species"))
    for name in names:
        if names.count(name) > 1:
            need = say("combine the lots of one species first, or use different names")
            raise MeasurementError("mix", name, need)


def _pins(
    portions: Sequence[Portion], boxes: Sequence[Box], placed: Mapping[str, str]
) -> list[int | None]:
    seeds = {each.name: each for each in portions}
    places = {box.name: i for i, box in enumerate(boxes)}
    for seed, name in placed.items():
        if seed not in seeds:
            need = say("choose a species in the mix: one of {names}", names=", ".join(seeds))
            raise MeasurementError("boxes", seed, need)
        if name not in places:
            need = say("choose a box on this drill: one of {names}", names=", ".join(places))
            raise MeasurementError(Path("box", Of(seed)), name, need)
        why = refusal(boxes[places[name]], seeds[seed])
        if why is not None:
            raise MeasurementError(Path("box", Of(seed)), name, _instead(why, seeds[seed], boxes))
    return [places[placed[name]] if name in placed else None for name in seeds]


def _instead(why: Phrase, portion: Portion, boxes: Sequence[Box]) -> Phrase:
    others = [box.name for box in boxes if refusal(box, portion) is None]
    if others:
        return say("{why}; put it in {names}", why=why, names=series(others, last="or"))
    return say("{why}; no box on this drill can handle it: seed it some other way", why=why)


def _blocks(
    portions: Sequence[Portion], boxes: Sequence[Box], allowed: Sequence[tuple[int, ...]]
) -> tuple[Block, ...]:
    singles = tuple((i,) for i in range(len(portions)))
    ways = 1
    for _ in portions:
        ways *= len(boxes)
    if ways <= MOST_WAYS:
        return singles
    alike: dict[tuple[str, tuple[int, ...]], list[int]] = {}
    for i, each in enumerate(portions):
        alike.setdefault((each.sized.seed_class, allowed[i]), []).append(i)
    return tuple(tuple(block) for block in alike.values())


def _count(blocks: Sequence[Block], allowed: Sequence[tuple[int, ...]]) -> int:
    ways = 1
    for block in blocks:
        ways *= len(allowed[block[0]])
    return ways


def _split(
    portions: Sequence[Portion],
    boxes: Sequence[Box],
    way: Sequence[int],
    *,
    allowed: Sequence[tuple[int, ...]],
    mixed_weights: Mapping[str, Quantity],
) -> Split:
    filled_boxes = []
    for place, box in enumerate(boxes):
        inside = [i for i, where in enumerate(way) if where == place]
        filled_boxes.append(
            fill_box(
                box,
                [portions[i] for i in inside],
                elsewhere={
                    portions[i].name: [boxes[other].name for other in allowed[i] if other != place]
                    for i in inside
                },
                mixed_weight=mixed_weights.get(box.name) if inside else None,
            )
        )
    given_up = compromises(filled_boxes, portions)
    return Split(
        boxes=tuple(filled_boxes),
        compromises=given_up,
        advice=advice(filled_boxes),
        say=headline(filled_boxes, given_up),
    )


def compromises(
    filled_boxes: Sequence[FilledBox], portions: Sequence[Portion]
) -> tuple[Compromise, ...]:
    """All that is given up: in each box, at openers that boxes share, by an empty box."""
    return (
        *(each for filled in filled_boxes for each in filled.compromises),
        *_shared_depth(filled_boxes),
        *_empty(filled_boxes, portions),
    )


def _shared_depth(filled_boxes: Sequence[FilledBox]) -> tuple[Compromise, ...]:
    together = [
        each for filled in filled_boxes if not filled.box.own_depth for each in filled.portions
    ]
    return depth_compromise(common_depth(together))


def _empty(
    filled_boxes: Sequence[FilledBox], portions: Sequence[Portion]
) -> tuple[Compromise, ...]:
    return tuple(
        Compromise(about="empty", grade=1, say=say("{box} is left empty", box=filled.box.name))
        for filled in filled_boxes
        if not filled.portions and wanted(filled.box, portions)
    )


def advice(filled_boxes: Sequence[FilledBox]) -> tuple[Phrase, ...]:
    """Say what to mind: what to order apart, to weigh, to count.

    References
    ----------
    To order species apart, because their settings differ: USDA NRCS Georgia,
    plant sheet on switchgrass (2005).
    """
    used = [filled for filled in filled_boxes if filled.portions]
    doubts = [
        say("{seed}: {doubt}", seed=each.name, doubt=each.sized.doubt)
        for filled in used
        for each in filled.portions
        if each.sized.doubt is not None
    ]
    missing = [filled.missing for filled in used if filled.missing is not None]
    apart: list[Phrase] = []
    if len(used) > 1:
        text = "order the seed for each box separately, not pre-mixed"
        if any(each.native for filled in used for each in filled.portions):
            text = "order the seed for each box separately, not pre-mixed ({source})"
        apart.append(say(text, source=APART))
    return (*apart, *missing, *doubts)


def headline(filled_boxes: Sequence[FilledBox], compromises: Sequence[Compromise]) -> Phrase:
    """Say which seed goes in which box, and what that gives up."""
    parts = [
        say(
            "In {box}: {names}.",
            box=filled.box.name,
            names=listed([say("{name}", name=each.name) for each in filled.portions]),
        )
        for filled in filled_boxes
        if filled.portions
    ]
    if not compromises:
        return join([*parts, say("No trade-offs.")])
    gravest = max(compromises, key=lambda each: each.grade)
    text = (
        "Trade-off: {gravest}."
        if len(compromises) == 1
        else ("{count} trade-offs, the biggest: {gravest}.")
    )
    return join([*parts, say(text, count=len(compromises), gravest=gravest.say)])


def no_way(homeless: Sequence[str], refusals: Sequence[Refusal]) -> Phrase:
    """Say which seed has no box, why, and what to do."""
    reasons = [say("{why}.", why=each.say) for each in refusals if each.seed in homeless]
    text = (
        "No box on this drill can handle {names}: leave it out, seed it in a "
        "separate pass, or use a drill with another box."
    )
    return join([say(text, names=", ".join(homeless)), *reasons])
