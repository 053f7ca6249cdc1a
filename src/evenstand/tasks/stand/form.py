"""Counts of plants as people write them down: into what is kept, and back into their form."""

import re
from collections.abc import Mapping, Sequence
from typing import Any

from evenstand.book.kinds.shape import Typed
from evenstand.book.kinds.work import Place, Seen, StandCount
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Iso, say
from evenstand.engine.quantities.units import GROUND, LENGTH, SPACING, Kind
from evenstand.engine.statistics.budget import Quantity

from ..parsing.dates import day
from ..parsing.given import Given, lent, listed
from ..parsing.structs import read
from ..parsing.writing import Writing, as_typed
from .count import check_count

MOST_SPECIES, MOST_PLACES, MOST_PLANTS = 24, 500, 100_000
WAYS: Mapping[str, tuple[tuple[str, Kind], ...]] = {
    "row": (("length", LENGTH),),
    "hoop": (("hoop", SPACING),),
    "around": (("around", SPACING),),
    "frame": (("side1", LENGTH), ("side2", LENGTH)),
    "area": (("area", GROUND),),
}
_APART = re.compile(r"[\s,;/]+")
_NONE = ("", "0", "-", "–", "—")
# What the engine refuses of a count, by the field of the form that holds it.
_FIELDS = {"length": "length", "spacing": "spacing", "diameter": "hoop", "around": "around"}
_FIELDS |= {"side": "side1", "area": "area", "gaps": "gaps", "row": "length"}


def read_places_form(
    given: Given, job: str, *, spacing: Quantity | None, sown: str | None = None
) -> StandCount:
    """Read counts of plants from the fields of their form.

    Parameters
    ----------
    given : Given
        ``way`` and the size that goes with it; ``plants``, a number for each
        place, or for each species ``species1`` with ``plants1``…; ``gaps`` with
        a line for each place, ``measured`` in a unit; ``spacing``, ``day``, ``note``.
    job : str
        Id of the job.
    spacing : Quantity or None
        Of the drill's rows. [m]
    sown : str, optional
        Day on which it was sown.

    Raises
    ------
    MeasurementError
        Each under the field it was typed in.
    """
    with Writing(given) as form:
        way = form.attempt(lambda: _way(given), otherwise="row")
        size = _size(form, way)
        seen = _seen(form)
        gaps = _gaps(form, len(seen)) if way == "row" else []
        own: dict[str, Any] = {} if way == "row" else {"spacing": None}
        count = read(
            form,
            StandCount,
            job=job,
            places=tuple(
                Place(plants=plants, **size, gaps=gaps[i] if gaps else (), looked=bool(gaps))
                for i, plants in enumerate(seen)
            ),
            day=lambda: _day(form, sown),
            **own,
        )
    _check(count, given, spacing)
    return count


def _way(given: Given) -> str:
    way = given.texts.get("way", "row")
    if way not in WAYS:
        raise given.refuse("way", say("choose one of {choices}", choices=", ".join(WAYS)))
    return way


def _size(form: Writing, way: str) -> dict[str, Any]:
    found = {key: form.needed(key, kind) for key, kind in WAYS[way]}
    return {"sides": tuple(found.values())} if way == "frame" else found


def _seen(form: Writing) -> list[tuple[Seen, ...]]:
    """Read what was seen in each place."""
    names = {f"plants{i}": form.text(f"species{i}") for i in range(1, MOST_SPECIES + 1)}
    keys = {key: name for key, name in names.items() if name} or {"plants": ""}
    columns = {key: _column(form, key) for key in keys}
    if not all(columns.values()):
        return []
    places = max(len(column) for column in columns.values())
    short = [key for key in keys if len(columns[key]) < places]
    for key in short:
        need = say(
            "{n} of {places} spots: enter a number for each spot, 0 if it has no plants",
            n=len(columns[key]),
            places=places,
        )
        form.refuse(form.given.refuse(key, need))
    rows = [] if short else zip(*columns.values(), strict=True)
    return [
        tuple(Seen(plants=n, species=name) for name, n in zip(keys.values(), row, strict=True))
        for row in rows
    ]


def _column(form: Writing, key: str) -> list[int]:
    none: list[int] = []
    return form.attempt(lambda: _numbers(form.given, key), otherwise=none)


def _numbers(given: Given, key: str) -> list[int]:
    texts = [text for text in _APART.split(given.texts.get(key, "").strip()) if text]
    if not texts:
        raise given.refuse(key, say("count the plants in at least one spot"))
    if not all(text.isascii() and text.isdigit() and len(text) < 9 for text in texts):
        raise given.refuse(key, say("enter whole numbers, 0 or more, one for each spot"))
    numbers = [int(text) for text in texts]
    if len(numbers) > MOST_PLACES:
        need = say("enter at most {n} spots at once", n=MOST_PLACES)
        raise given.refuse(key, need)
    if max(numbers) > MOST_PLANTS:
        need = say("{n} plants in one spot can't be right: is a space missing?", n=max(numbers))
        raise given.refuse(key, need)
    return numbers


def _gaps(form: Writing, places: int) -> list[tuple[Typed, ...]]:
    """Read the gaps of each place, a line for each; none where they were not looked for."""
    lines = form.text("gaps").splitlines()
    if not lines:
        return []
    if places and len(lines) != places:
        need = say("enter a line for each of the {n} spots, 0 if it has no gap", n=places)
        form.refuse(form.given.refuse("gaps", need))
        return []
    unit = form.text("measured")
    return form.attempt(lambda: [_line(form.given, line, unit) for line in lines], otherwise=[])


def _line(given: Given, line: str, unit: str) -> tuple[Typed, ...]:
    if line.strip() in _NONE:
        return ()
    pieces = [lent(text, unit) for text in listed(line)]
    found = tuple(as_typed(given.part(text, "gaps", SPACING)) for text in pieces)
    if not all(gap.value > 0 for gap in found):
        raise given.refuse("gaps", say("enter lengths above 0"))
    return found


def _day(form: Writing, sown: str | None) -> str | None:
    counted = day(form, "day")
    if counted and sown and counted < sown:
        need = say("enter a date that is not before seeding, {day}", day=Iso(sown))
        form.refuse(form.given.refuse("day", need))
    return counted


def _check(count: StandCount, given: Given, spacing: Quantity | None) -> None:
    try:
        check_count(count, spacing=spacing)
    except MeasurementError as refused:
        field = _FIELDS.get(refused.field, "plants")
        raise MeasurementError(field, given.texts.get(field), refused.need) from None


def refuse_other_species(count: StandCount, earlier: Sequence[StandCount], given: Given) -> None:
    """See that a count tells the same species apart as the earlier ones.

    Raises
    ------
    MeasurementError
        Under the first field of plants.
    """
    told = [seen.species for seen in count.places[0].plants]
    before = next((each.places[0].plants for each in earlier if each.places), None)
    if before is None or set(told) == {seen.species for seen in before}:
        return
    names = ", ".join(seen.species for seen in before if seen.species)
    key = "plants1" if "species1" in given else "plants"
    if names:
        need = say("the earlier spots count {names} separately: count those here too", names=names)
        raise given.refuse(key, need)
    raise given.refuse(
        key, say("the earlier spots do not separate species: count all plants together")
    )


def places_texts(count: StandCount) -> dict[str, str]:
    """Return the fields of the form as they were filled in; all places have one size."""
    texts = way_texts(count) | {"day": count.day or "", "note": count.note}
    names = [seen.species for seen in count.places[0].plants] if count.places else []
    for i, name in enumerate(names):
        numbers = ", ".join(str(place.plants[i].plants) for place in count.places)
        own = {"plants": numbers} if not name else {f"species{i + 1}": name}
        texts |= own | ({f"plants{i + 1}": numbers} if name else {})
    if any(place.looked or place.gaps for place in count.places):
        lines = ("; ".join(gap.text for gap in place.gaps) or "0" for place in count.places)
        texts["gaps"] = "\n".join(lines)
    return texts


def way_texts(count: StandCount) -> dict[str, str]:
    """Return how one counted last, for the next count."""
    texts = {"spacing": count.spacing.text} if count.spacing else {}
    if not count.places:
        return texts
    place = count.places[0]
    if place.sides:
        return texts | {"way": "frame", "side1": place.sides[0].text, "side2": place.sides[1].text}
    sizes: dict[str, tuple[str, Typed | None]] = {
        "row": ("length", place.length),
        "hoop": ("hoop", place.hoop),
        "around": ("around", place.around),
        "area": ("area", place.area),
    }
    way, (key, size) = next((way, each) for way, each in sizes.items() if each[1])
    return texts | {"way": way, key: size.text if size else ""}
