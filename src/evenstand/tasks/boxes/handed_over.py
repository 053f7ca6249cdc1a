"""What the boxes ask of Set: a rate wanted from each, and what of it the job has already."""

from collections.abc import Sequence
from dataclasses import dataclass

from msgspec.structs import replace

from evenstand.book.kinds.shape import Typed
from evenstand.book.kinds.work import Job, Wanted
from evenstand.engine.boxes.filled import FilledBox
from evenstand.engine.parsing.parse import read
from evenstand.engine.quantities.phrases import Phrase, Style, System, say
from evenstand.engine.quantities.units import RATE, TEST_WEIGHT, Kind
from evenstand.engine.statistics.budget import nominal

from ..parsing.writing import as_typed
from .boxes import Boxes

NEAR = 0.005  # rates that differ by less than this agree: a notch of no lever tells them apart
DIGITS = 4


@dataclass(frozen=True)
class Asked:
    """What one box asks for, and the line of the job that stands for it, if there is one."""

    filled: FilledBox
    wanted: Wanted | None

    @property
    def rate_agrees(self) -> bool:
        """Whether the rate wanted in Set is that of the box."""
        return self.wanted is not None and _near(self.wanted.rate, self.filled.rate)


def asked(job: Job, boxes: Boxes, *, bare: bool = True) -> tuple[Asked, ...]:
    """Put beside each box with seed in it the line of the job that is meant for it.

    Parameters
    ----------
    bare : bool
        Whether a line that names no box may be taken for the first that has none.
    """
    lines = {line.box: line for line in job.wanted if line.box}
    free = [line for line in job.wanted if not line.box and (bare or len(boxes.read) == 1)]
    found = []
    for filled in boxes.used:
        line = lines.get(filled.box.name)
        if line is None and free:
            line = free.pop(0)
        found.append(Asked(filled, line))
    return tuple(found)


def handed_over(job: Job, boxes: Boxes, *, system: System, bare: bool = True) -> Job:
    """Return the job with a rate wanted from each box that has seed in it.

    Rate, test weight and seed of a line become those of its box, where they
    are not so already; what else was set in it stays. A line of a box without
    seed is left out.

    Parameters
    ----------
    system : str
        Units that the rates are written in.
    bare : bool
        As `asked` takes it.
    """
    lines = asked(job, boxes, bare=bare)
    taken = [each.wanted for each in lines if each.wanted]
    empty = {each.name for each in boxes.read}
    others = [line for line in job.wanted if line not in taken and line.box not in empty]
    alone = len(boxes.read) == 1
    new = (_line(each, system=system, alone=alone) for each in lines)
    return replace(job, wanted=(*new, *others))


def _line(each: Asked, *, system: System, alone: bool) -> Wanted:
    filled = each.filled
    before = each.wanted or Wanted(rate=Typed(value=0.0))
    weight = nominal(filled.packed.test_weight) if filled.packed else None
    return replace(
        before,
        box=before.box if alone else filled.box.name,
        seed=seed_of(filled),
        rate=_kept(before.rate, filled.rate, RATE, system=system),
        test_weight=before.test_weight
        if weight is None
        else _kept(before.test_weight, weight, TEST_WEIGHT, system=system),
    )


def seed_of(filled: FilledBox) -> str:
    """Name what is sown from a box."""
    return ", ".join(each.name for each in filled.portions)


def _near(one: Typed, other: float) -> bool:
    return abs(one.value - other) <= NEAR * other


def _kept(before: Typed | None, value: float, kind: Kind, *, system: System) -> Typed:
    """Keep an amount that is near enough; else write the new one as a person would type it."""
    if before is not None and _near(before, value):
        return before
    unit = Style(system=system).unit(kind)
    text = f"{value / unit.size:.{DIGITS}g} {unit.symbol}"
    return as_typed(read(text, kind, field=kind.name))


def changes(before: Sequence[Wanted], after: Sequence[Wanted]) -> tuple[Phrase, ...]:
    """Say what is new in the lines of a job, box by box."""
    old, new = {line.box: line for line in before}, {line.box: line for line in after}
    if "" in old and "" not in new and len(old) <= len(new):
        first = next((box for box in new if box not in old), None)
        old = {first or "": old.pop("")} | old
    return (
        *(_change(old.get(box), line) for box, line in new.items() if old.get(box) != line),
        *(
            say("{box}: gets no seed now, so its rate is removed", box=box)
            for box in old
            if box not in new
        ),
    )


def _change(old: Wanted | None, new: Wanted) -> Phrase:
    box = new.box or say("the box")
    rate = RATE(new.rate.value)
    if old is None:
        return say("{box}: {rate} of {seed}, new", box=box, rate=rate, seed=new.seed)
    if old.rate != new.rate:
        before = RATE(old.rate.value)
        return say("{box}: {rate} instead of {before}", box=box, rate=rate, before=before)
    if old.seed != new.seed:
        return say("{box}: its seed is {seed}", box=box, seed=new.seed)
    if old.test_weight != new.test_weight and new.test_weight:
        weight = TEST_WEIGHT(new.test_weight.value)
        return say("{box}: its seed weighs {weight}", box=box, weight=weight)
    return say("{box}: now has the target that named no box before", box=box)


def apart(wanted: Wanted, job: Job, boxes: Boxes) -> Phrase | None:
    """Say how a rate wanted in Set differs from what its box asks for; None where it does not."""
    for each in asked(job, boxes):
        if each.wanted is wanted:
            if each.rate_agrees:
                return None
            return say(
                "The seed in {box} calls for {rate}, but the target here is {wanted}.",
                box=each.filled.box.name,
                rate=RATE(each.filled.rate),
                wanted=RATE(wanted.rate.value),
            )
    return say("In this job's box plan, {box} gets no seed.", box=wanted.box or say("the box"))
