"""What the Boxes page shows of each box, and of each way to fill them."""

from collections.abc import Mapping
from dataclasses import dataclass

from markupsafe import Markup

from evenstand.engine.boxes.filled import FilledBox
from evenstand.engine.boxes.split import Split
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.seed.size_class import CLASS_WORDS
from evenstand.engine.statistics.budget import Estimate, ranged
from evenstand.report.hopper import hopper
from evenstand.tasks.boxes.boxes import Boxes
from evenstand.tasks.boxes.handed_over import Asked
from evenstand.tasks.boxes.words import rate_range
from evenstand.tasks.parsing.warned import Warned

from ..site import here


@dataclass(frozen=True)
class Way:
    """One way to fill the boxes: what it gives up by grade, and the form that takes it."""

    split: Split
    grave: int
    real: int
    slight: int
    places: Mapping[str, str]
    taken: bool


@dataclass(frozen=True)
class OfBox:
    """One box with seed: what it asks of Set, how far its rate is open, what is in it.

    ``place`` is its number on the drill.
    """

    asked: Asked
    place: int
    rate: Estimate
    holds: Estimate | None
    drawn: Markup
    classes: tuple[Phrase, ...]

    @property
    def filled(self) -> FilledBox:
        """The box and what is in it."""
        return self.asked.filled


def of_box(asked: Asked, place: int) -> OfBox:
    """Put beside a box its ranges, its drawing and the sizes of its seed."""
    filled, style = asked.filled, here.style()
    holds, mixed = filled.holds, len(filled.filling) > 1
    drawn = hopper(filled, style, name=f"hopper-{place}") if mixed else ""
    return OfBox(
        asked=asked,
        place=place,
        rate=rate_range(filled),
        holds=None if holds is None else ranged(holds),
        drawn=Markup(drawn),
        classes=tuple(
            say("{class_}, {why}", class_=CLASS_WORDS[sized.seed_class], why=sized.why)
            for sized in (each.sized for each in filled.portions)
        ),
    )


def notes_of(boxes: Boxes) -> list[Phrase | Warned]:
    """Gather what to mind; what to weigh stands with its box."""
    missing = [each.missing for each in boxes.used]
    return [*(each for each in boxes.split.advice if each not in missing), *boxes.warnings]


def example_of(boxes: Boxes) -> str:
    """Write counts as they are typed, of a box in which seed may sort; empty where none may."""
    together = [filled.portions for filled in boxes.used if len(filled.portions) > 1]
    if not together:
        return ""
    first, second = (here.style().write(part.name) for part in together[0][:2])
    return f"{first} 160, {second} 41"


def ways_of(boxes: Boxes) -> list[Way]:
    """Return the ways that were looked at, the one taken among them."""
    taken = places_of(boxes, boxes.split)
    splits = list(boxes.ways.best)
    if all(places_of(boxes, split) != taken for split in splits):
        splits.append(boxes.split)
    return [_way(boxes, split, taken=taken) for split in splits]


def _way(boxes: Boxes, split: Split, *, taken: Mapping[str, str]) -> Way:
    grades = [each.grade for each in split.compromises]
    places = places_of(boxes, split)
    grave, real, slight = (grades.count(grade) for grade in (3, 2, 1))
    return Way(split, grave, real, slight, places, taken=places == taken)


def places_of(boxes: Boxes, split: Split) -> dict[str, str]:
    """Return the fields of the form that put every seed where a split has it."""
    return {f"member{number}_box": split.box_of(name) for number, name in names_of(boxes).items()}


def names_of(boxes: Boxes) -> dict[int, str]:
    """Return what each seed of the mix is called in its box, by its number in the mix."""
    numbers = {id(member): i for i, member in enumerate(boxes.mixed.members, start=1)}
    return {numbers[id(each.member)]: each.portion.name for each in boxes.tipped}
