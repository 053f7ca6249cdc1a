"""What a way to fill the boxes says of itself."""

from collections.abc import Sequence

from ..mix.words import listed
from ..quantities.phrases import Phrase, join, say
from .box import Refusal, wanted
from .compromise import Compromise
from .depth import common_depth, depth_compromise
from .filled import FilledBox
from .portion import Portion

APART = "USDA NRCS Georgia, plant sheet on switchgrass, 2005"


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
        Compromise(about="empty", grade=1, say=say("{box} stays empty", box=filled.box.name))
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
        text = "order the seed of each box apart, not pre-mixed"
        if any(each.native for filled in used for each in filled.portions):
            text = "order the seed of each box apart, not pre-mixed ({source})"
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
        return join([*parts, say("Nothing is given up.")])
    gravest = max(compromises, key=lambda each: each.grade)
    text = (
        "Given up: {gravest}."
        if len(compromises) == 1
        else ("Given up in {count} ways, most of all: {gravest}.")
    )
    return join([*parts, say(text, count=len(compromises), gravest=gravest.say)])


def no_way(homeless: Sequence[str], refusals: Sequence[Refusal]) -> Phrase:
    """Say which seed has no box, why, and what to do."""
    reasons = [say("{why}.", why=each.say) for each in refusals if each.seed in homeless]
    text = (
        "No box of this drill takes {names}: leave it out, sow it in a pass of its own, or use a"
        " drill with another box."
    )
    return join([say(text, names=", ".join(homeless)), *reasons])
