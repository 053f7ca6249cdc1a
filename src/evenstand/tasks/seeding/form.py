"""What happens while a field is sown, as it is typed: into what is kept, and back."""

from collections.abc import Callable, Mapping, Sequence

from evenstand.book.shape import Body, Typed
from evenstand.book.sown import Check, Dug, Finished, Ground, Left, Level, Load, Moved, Soil
from evenstand.engine.drill.drill import number
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import (
    FIELD,
    LENGTH,
    LOAD,
    NUMBER,
    SEED_COUNT,
    SHARE,
    SPACING,
)

from ..job.kept import Kept, job_drill
from ..parsing.dates import day
from ..parsing.given import Given, listed
from ..parsing.writing import RefusalsError, Writing, as_typed
from .rules import LOADS, check_sown

SOILS: tuple[Soil, ...] = ("firm", "loose", "wet", "residue")
MOST_ROWS = 200  # counted, or dug, at once


def read_sown(
    given: Given, kept: Kept, kind: str, *, boxes: Sequence[str], latest: float = 0.0
) -> Body:
    """Read an entry from the fields of its form.

    Parameters
    ----------
    given : Given
        Fields as the body names them; ``seeds`` and ``dug`` as lists.
    kept : Kept
        The job, with the box that it is about.
    kind : str
        Of the body: ``load``, ``level``…
    boxes : sequence of str
        All boxes that a rate is wanted from, for the end of the field.
    latest : float
        What the area meter showed before; less is refused, unless ``late`` says
        that it is written down late. [m²]

    Raises
    ------
    RefusalsError
        Each under the field it was typed in.
    """
    form = Writing(given)
    body = _READ[kind](form, kept, boxes)
    _in_order(form, body, latest)
    form.done()
    try:
        check_sown(body, kept)
    except MeasurementError as refused:
        raise RefusalsError([given.refuse(refused.field, refused.need)]) from None
    return body


def _in_order(form: Writing, body: Body, latest: float) -> None:
    """Refuse an area that goes backwards, unless it is written down late."""
    at = getattr(body, "at", None)
    if at is None or "late" in form.given or "at" not in form.given:
        return
    if at.value < latest * (1 - 1e-9):
        need = say(
            "it went back from {before}: give what the meter shows, or say that it is written"
            " down late",
            before=FIELD(latest),
        )
        form.refuse(form.given.refuse("at", need))


def _at(form: Writing) -> Typed:
    form.attempt(lambda: form.given.text("at"), otherwise="")
    return form.zero_or_more("at", FIELD) or Typed(value=0.0)


def _load(form: Writing, kept: Kept, boxes: Sequence[str]) -> Load:
    given = form.given
    if all(key not in given for key in (*LOADS, "mark")):
        form.refuse(given.refuse("weight", say("say what was put in")))
    return Load(
        job=kept.thing.id,
        at=_at(form),
        box=kept.box,
        bags=form.amount("bags", NUMBER),
        bag=form.amount("bag", LOAD) if "bags" in given else None,
        weight=form.amount("weight", LOAD),
        tote=form.amount("tote", LOAD),
        mark=form.amount("mark", SHARE),
        left=form.zero_or_more("left", LOAD),
        level=form.zero_or_more("level", SHARE),
        edge=form.zero_or_more("edge", LOAD),
        day=day(form, "day"),
        note=form.text("note"),
    )


def _level(form: Writing, kept: Kept, boxes: Sequence[str]) -> Level:
    if "left" not in form.given and "level" not in form.given:
        form.refuse(form.given.refuse("left", say("say what is in the box")))
    return Level(
        job=kept.thing.id,
        at=_at(form),
        box=kept.box,
        left=form.zero_or_more("left", LOAD),
        level=form.zero_or_more("level", SHARE),
        filled=form.text("filled") == "yes",
        note=form.text("note"),
    )


def _ground(form: Writing, kept: Kept, boxes: Sequence[str]) -> Ground:
    given = form.given
    if "known" not in given and "passes" not in given:
        form.refuse(given.refuse("known", say("give the ground, or passes and their length")))
    return Ground(
        job=kept.thing.id,
        shown=form.needed("shown", FIELD),
        known=form.amount("known", FIELD),
        passes=form.amount("passes", NUMBER),
        length=form.amount("length", LENGTH) if "passes" in given else None,
        lap=form.zero_or_more("lap", SPACING) if "passes" in given else None,
        note=form.text("note"),
    )


def _moved(form: Writing, kept: Kept, boxes: Sequence[str]) -> Moved:
    return Moved(
        job=kept.thing.id,
        at=_at(form),
        box=kept.box,
        setting=form.attempt(lambda: form.given.number("setting"), otherwise=0.0),
        gear=form.attempt(lambda: _gear(form.given, kept), otherwise=""),
        note=form.text("note"),
    )


def _gear(given: Given, kept: Kept) -> str:
    if kept.drill is None or len(kept.drill.gears) < 2 or "gear" not in given:
        return ""
    with given.pointing():
        return job_drill(kept).gear(given.text("gear")).name


def _check(form: Writing, kept: Kept, boxes: Sequence[str]) -> Check:
    given, none, dug = form.given, (), ()
    if "seeds" not in given and "dug" not in given:
        form.refuse(given.refuse("seeds", say("give the seeds of some rows, or their depths")))
    if "seeds" in given:
        form.needed("length", LENGTH)
    if "dug" in given:
        form.needed("wanted", SPACING)
    return Check(
        job=kept.thing.id,
        box=kept.box,
        at=form.zero_or_more("at", FIELD),
        length=form.amount("length", LENGTH),
        seeds=form.attempt(lambda: _seeds(given), otherwise=none),
        seeds_per_kg=form.amount("seeds_per_kg", SEED_COUNT),
        dug=form.attempt(lambda: _dug(given), otherwise=dug),
        wanted=form.amount("wanted", SPACING),
        note=form.text("note"),
    )


def _seeds(given: Given) -> tuple[int, ...]:
    """Read the seeds of each row, as ``33 28 35`` or with commas between."""
    if "seeds" not in given:
        return ()
    texts = given.text("seeds").replace(",", " ").replace(";", " ").split()
    if len(texts) > MOST_ROWS or not all(text.isdecimal() and len(text) < 7 for text in texts):
        need = say("give whole numbers, one for each row, such as {example}", example="33 28 35")
        raise given.refuse("seeds", need)
    return tuple(int(text) for text in texts)


def _dug(given: Given) -> tuple[Dug, ...]:
    """Read depths, each row on a line of its own."""
    if "dug" not in given:
        return ()
    unit = given.texts.get("dug_in", "")
    lines = [line for line in given.text("dug").splitlines() if line.strip()]
    if len(lines) > MOST_ROWS:
        raise given.refuse("dug", say("give at most {n} rows", n=MOST_ROWS))
    return tuple(Dug(depths=tuple(_depths(given, line, unit))) for line in lines)


def _depths(given: Given, line: str, unit: str) -> list[Typed]:
    apart = ";" in line or ", " in line or ("." in line and "," in line)
    texts = listed(line) if apart else line.split()
    found = []
    for text in texts:
        bare = not any(letter.isalpha() or letter in "\"'" for letter in text)
        depth = as_typed(given.part(f"{text} {unit}" if bare else text, "dug", SPACING))
        if not depth.value >= 0:
            raise given.refuse("dug", say("give 0 for seed on the surface, or more"))
        found.append(depth)
    return found


def _finished(form: Writing, kept: Kept, boxes: Sequence[str]) -> Finished:
    left = []
    for i, box in enumerate(boxes, start=1):
        if weight := form.zero_or_more(f"left{i}", LOAD):
            left.append(Left(box=box, weight=weight))
    if not left:
        need = say("weigh what is left in the box, 0 if nothing is")
        form.refuse(form.given.refuse("left1", need))
    soil = form.text("soil")
    return Finished(
        job=kept.thing.id,
        at=_at(form),
        left=tuple(left),
        area=form.amount("area", FIELD),
        soil=next((known for known in SOILS if known == soil), ""),
        day=day(form, "day"),
        note=form.text("note"),
    )


_READ: Mapping[str, Callable[[Writing, Kept, Sequence[str]], Body]] = {
    "load": _load,
    "level": _level,
    "area": _ground,
    "moved": _moved,
    "check": _check,
    "finished": _finished,
}


def sown_texts(body: Body, *, boxes: Sequence[str]) -> dict[str, str]:
    """Return the fields of a form as they were filled in."""
    texts = {
        key: value.text if isinstance(value, Typed) else value
        for key in body.__struct_fields__
        if isinstance(value := getattr(body, key), Typed | str) and key not in ("job", "box")
    }
    match body:
        case Moved():
            texts["setting"] = number(body.setting)
        case Level(filled=True):
            texts["filled"] = "yes"
        case Check():
            texts["seeds"] = " ".join(str(count) for count in body.seeds)
            texts["dug"] = "\n".join("; ".join(d.text for d in row.depths) for row in body.dug)
        case Finished():
            of_box = {left.box: left.weight.text for left in body.left}
            texts |= {f"left{i}": of_box.get(box, "") for i, box in enumerate(boxes, start=1)}
    return texts
