"""A drill as it is typed: into what is kept, and back into the fields of its form."""

import re
from collections.abc import Iterator
from functools import partial

from msgspec.structs import replace

from evenstand.book.kinds.machine import Box, Drill, Gear, Scale
from evenstand.engine.drill.drill import number
from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import NUMBER

from ..parsing.given import Given, listed
from ..parsing.structs import numbered, read, texts
from ..parsing.writing import Writing
from .rules import check_drill, wheel_refusals

MOST_GEARS, MOST_BOXES = 8, 6
_TEETH = re.compile(r"\s*(\d+)\s*:\s*(\d+)\s*")


def read_drill(given: Given) -> Drill:
    """Read a drill from the fields of its form.

    Raises
    ------
    RefusalsError
        Each under the field it was typed in.
    """
    with Writing(given) as form:
        drill = read(
            form,
            Drill,
            scale=lambda: _scale(form),
            gears=lambda: tuple(_gears(form)),
            boxes=lambda: tuple(_boxes(form)),
        )
        check_wheel(form)
    with given.pointing(scale_high="scale_high", taped="taped"):
        check_drill(drill)
    return drill


def _scale(form: Writing) -> Scale | None:
    given = form.given
    ends = [key for key in ("scale_low", "scale_high") if key in given]
    if not ends:
        others = [key for key in ("scale_stops", "scale_closed") if key in given]
        for key in others:
            form.refuse(given.refuse(key, say("enter the low and high ends of the scale too")))
        return None
    return read_scale(form, line="scale_")


def read_scale(form: Writing, *, line: str = "") -> Scale:
    """Read the scale of a lever, with its notches in any order.

    Parameters
    ----------
    line : str
        What stands before the name of each input.
    """
    given, key = form.given, f"{line}stops"
    none: tuple[float, ...] = ()

    def stops() -> tuple[float, ...]:
        texts = listed(given.text(key)) if key in given else []
        return tuple(sorted(given.part(text, key, NUMBER).value for text in texts))

    return read(form, Scale, line=line, stops=lambda: form.attempt(stops, otherwise=none))


def _gears(form: Writing) -> Iterator[Gear]:
    """Read lines of name and ratio; teeth stand as ``12:24``, driver first."""
    seen: set[str] = set()
    for i in numbered(form.given, "gear", ("name", "ratio"), most=MOST_GEARS):
        gear = Gear(name=form.name(f"gear{i}_name"), ratio=1.0)
        if gear.name in seen:
            need = say("use a different name for each gear")
            form.refuse(form.given.refuse(f"gear{i}_name", need))
        seen.add(gear.name)
        read_it = partial(_gear, form.given, f"gear{i}_ratio", name=gear.name)
        yield form.attempt(read_it, otherwise=gear)


def _gear(given: Given, key: str, *, name: str) -> Gear:
    if teeth := _TEETH.fullmatch(given.text(key)):
        driver, driven = int(teeth[1]), int(teeth[2])
        if not (driver and driven):
            raise given.refuse(key, say("enter at least one tooth for each sprocket"))
        return Gear(name=name, ratio=driver / driven, driver=driver, driven=driven)
    return Gear(name=name, ratio=given.exact(key, NUMBER))


def _boxes(form: Writing) -> Iterator[Box]:
    seen: set[str] = set()
    filled = ("name", "volume", "dead", "least", "most")
    for i in numbered(form.given, "box", filled, most=MOST_BOXES):
        box = read(form, Box, line=f"box{i}_")
        if box.name in seen:
            need = say("use a different name for each box")
            form.refuse(form.given.refuse(f"box{i}_name", need))
        seen.add(box.name)
        if box.least and box.most and not box.least.value < box.most.value:
            form.refuse(form.given.refuse(f"box{i}_most", say("enter more than the minimum")))
        yield replace(box, agitator=box.agitator or box.seed == "fluffy")


def check_wheel(form: Writing) -> None:
    """Refuse what is wrong with what was written of a wheel."""
    given = form.given
    written = {key: key in given for key in ("rolled", "taped", "slip")}
    for key, need in wheel_refusals(**written):
        form.refuse(given.refuse(key, need))


def drill_texts(drill: Drill) -> dict[str, str]:
    """Return the fields of the form as they were filled in."""
    written = texts(drill)
    if drill.scale:
        written |= _scale_texts(drill.scale)
    for i, gear in enumerate(drill.gears, 1):
        teeth = f"{gear.driver}:{gear.driven}" if gear.driver else number(gear.ratio)
        written |= {f"gear{i}_name": gear.name, f"gear{i}_ratio": teeth}
    for i, box in enumerate(drill.boxes, 1):
        written |= texts(box, line=f"box{i}_")
    return written


def _scale_texts(scale: Scale) -> dict[str, str]:
    stops = "; ".join(number(stop) for stop in scale.stops)
    usual = {"scale_step": number(scale.step), "scale_levers": str(scale.levers)}
    return texts(scale, line="scale_") | usual | {"scale_stops": stops}
