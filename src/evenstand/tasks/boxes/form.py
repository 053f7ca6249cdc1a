"""The boxes of a job as they are typed: into what is kept, and back into the fields of the form."""

from collections.abc import Mapping, Sequence

from msgspec.structs import replace

from evenstand.book.kinds.details import detail
from evenstand.book.kinds.shape import Typed
from evenstand.book.kinds.work import InBox, Split
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import (
    POUND_PER_BUSHEL,
    RATE,
    TEST_WEIGHT,
)

from ..parsing.given import Given
from ..parsing.structs import amount, read, texts
from ..parsing.writing import Writing

DIGITS = 4  # of a test weight from a sample, more than a pail and a scale tell


def read_split(given: Given, job: str, *, members: Sequence[str], boxes: Sequence[str]) -> Split:
    """Read which member goes in which box, and what is mixed in, from the fields of the form.

    Parameters
    ----------
    job : str
        Id of the job.
    members, boxes : sequence of str
        As they are called, in the order of the form; a member may be left
        without a box.

    Raises
    ------
    RefusalsError
        Each under the field it was typed in.
    """
    with Writing(given) as form:
        places = [_place(form, f"member{i}_box", boxes) for i in range(1, len(members) + 1)]
        found = []
        for number, box in enumerate(boxes, start=1):
            inside = tuple(m for m, place in zip(members, places, strict=True) if place == box)
            said = _in_box(form, f"box{number}_", InBox(box=box, members=inside))
            if said != InBox(box=box, members=()):
                found.append(said)
    return Split(job=job, boxes=tuple(found))


def _place(form: Writing, key: str, boxes: Sequence[str]) -> str:
    place = form.text(key)
    if place and place not in boxes:
        form.refuse(form.given.refuse(key, say("choose one from the list")))
    return place


def _in_box(form: Writing, line: str, box: InBox) -> InBox:
    given = form.given
    measure, sample = (
        amount(form, line + key, detail(InBox, key)) for key in ("measure", "sample")
    )
    said = read(
        form,
        InBox,
        line=line,
        box=box.box,
        members=box.members,
        carrier_rate=lambda: form.amount(f"{line}carrier_rate", RATE),
        test_weight=lambda: _test_weight(form, line, measure, sample=sample),
        measure=measure,
        sample=sample,
    )
    for one, other, need in (
        ("carrier_rate", "carrier", say("this is missing; enter it")),
        ("carrier", "carrier_rate", say("this is missing; enter it")),
        ("carrier_bag", "carrier", say("this is missing; enter it")),
        ("carrier_price", "carrier_bag", say("this is missing; enter it")),
        ("measure", "sample", say("enter this too, or neither one")),
        ("sample", "measure", say("enter this too, or neither one")),
    ):
        if line + one in given and line + other not in given:
            form.refuse(given.refuse(line + other, need))
    return said


def _test_weight(
    form: Writing, line: str, measure: Typed | None, *, sample: Typed | None
) -> Typed | None:
    """Take the test weight as typed, else what a measure of it weighed ÷ the measure."""
    typed = form.amount(f"{line}test_weight", TEST_WEIGHT)
    if measure is None or sample is None:
        return typed
    if typed:
        need = say("leave it blank: the weighed sample below sets it")
        form.refuse(form.given.refuse(f"{line}test_weight", need))
    weight = sample.value / measure.value
    return Typed(value=weight, text=f"{weight / POUND_PER_BUSHEL:.{DIGITS}g} lb/bu")


def placed(
    split: Split | None, job: str, places: Mapping[str, str], *, boxes: Sequence[str]
) -> Split:
    """Return a split with every member where it is to go; what is mixed in stays.

    Parameters
    ----------
    split : Split, optional
        As it was.
    places : mapping of str to str
        Box by member.
    """
    before = {each.box: each for each in split.boxes} if split else {}
    found = []
    for box in boxes:
        inside = tuple(member for member, place in places.items() if place == box)
        said = replace(before.get(box, InBox(box=box, members=())), members=inside)
        if said != InBox(box=box, members=()):
            found.append(said)
    return Split(job=job, boxes=tuple(found))


def split_texts(split: Split, *, members: Sequence[str], boxes: Sequence[str]) -> dict[str, str]:
    """Return the fields of the form as they were filled in."""
    written: dict[str, str] = {}
    for said in split.boxes:
        written |= {
            f"member{i}_box": said.box
            for i, member in enumerate(members, start=1)
            if member in said.members
        }
        if said.box in boxes:
            written |= _box_texts(said, f"box{boxes.index(said.box) + 1}_")
    return written


def _box_texts(said: InBox, line: str) -> dict[str, str]:
    own = ("test_weight",) if said.measure else ()
    return texts(said, line=line, but=("box", *own))


def at_split_field(
    refused: MeasurementError, *, members: int, carriers: Sequence[int]
) -> MeasurementError | None:
    """Return a refusal of a job file under the field of the form that holds it, if one does.

    Parameters
    ----------
    members : int
        Of the mix; the carriers that the form mixes in stand behind them.
    carriers : sequence of int
        Number of the box of each of those.
    """
    match refused.path:
        case ("boxes", int(number), ("test_weight" | "full") as key):
            return refused.at(f"box{number}_{key}")
        case ("mix", int(number), str(key)) if number > members:
            inside = {"bulk": "carrier_rate", "bags": "carrier_bag"}.get(key, "carrier")
            return refused.at(f"box{carriers[number - members - 1]}_{inside}")
        case ("mix", int(number), "box"):
            return refused.at(f"member{number}_box")
        case _:
            return None
