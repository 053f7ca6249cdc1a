"""A drill as it is typed: into what is kept, and back into the fields of its form."""

import re
from collections.abc import Iterator
from functools import partial
from typing import Literal, cast

from evenstand.book.machine import Box, Drill, Gear, Scale
from evenstand.engine.drill.drill import number
from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import NUMBER, RATE, ROWS, SHARE, SPACING, TRAVEL, VOLUME
from evenstand.engine.statistics.budget import nominal

from ..parsing.given import Given, listed
from ..parsing.writing import Writing
from ..parsing.written import percent
from .rules import check_drill, wheel_refusals

SLACKS = ("below", "above", "none")
SEEDS = ("grain", "small seed", "fluffy")
MOST_GEARS, MOST_BOXES = 8, 6
_TEETH = re.compile(r"\s*(\d+)\s*:\s*(\d+)\s*")


def read_drill(given: Given) -> Drill:
    """Read a drill from the fields of its form.

    Raises
    ------
    RefusalsError
        Each under the field it was typed in.
    """
    form = Writing(given)
    drill = Drill(
        name=form.name("name"),
        rows=form.attempt(lambda: given.count("rows", ROWS), otherwise=1),
        spacing=form.needed("spacing", SPACING),
        scale=_scale(form),
        gears=tuple(_gears(form)),
        boxes=tuple(_boxes(form)),
        rolled=form.amount("rolled", TRAVEL),
        taped=form.amount("taped", TRAVEL),
        slip=form.zero_or_more("slip", SHARE),
        crank_per_wheel=form.amount("crank_per_wheel", NUMBER),
        row_cv=form.amount("row_cv", SHARE),
        note=form.text("note"),
    )
    _check_wheel(form)
    form.done()
    with given.pointing(scale_high="scale_high", taped="taped"):
        check_drill(drill)
    return drill


def _scale(form: Writing) -> Scale | None:
    given = form.given
    ends = [key for key in ("scale_low", "scale_high") if key in given]
    if not ends:
        others = [key for key in ("scale_stops", "scale_closed") if key in given]
        for key in others:
            form.refuse(given.refuse(key, say("give the low and high end of the scale too")))
        return None
    for key in ("scale_low", "scale_high"):
        form.name(key)
    return Scale(
        low=form.number("scale_low", otherwise=0.0),
        high=form.number("scale_high", otherwise=1.0),
        step=form.number("scale_step", otherwise=1.0),
        stops=form.attempt(lambda: _stops(given), otherwise=()),
        reversed=form.text("scale_reversed") == "yes",
        closed=form.number("scale_closed", otherwise=0.0) if "scale_closed" in given else None,
        slack=_slack(form),
        levers=form.count("scale_levers", NUMBER, otherwise=1, least=1),
    )


def _slack(form: Writing) -> Literal["below", "above", "none"]:
    word = form.text("scale_slack") or "below"
    found = form.attempt(
        lambda: Given({"scale_slack": word}, str).one_of("scale_slack", SLACKS), otherwise="below"
    )
    return cast(Literal["below", "above", "none"], found)


def _stops(given: Given) -> tuple[float, ...]:
    if "scale_stops" not in given:
        return ()
    texts = listed(given.text("scale_stops"))
    return tuple(sorted(given.part(t, "scale_stops", NUMBER).value for t in texts))


def _gears(form: Writing) -> Iterator[Gear]:
    """Read lines of name and ratio; teeth stand as ``12:24``, driver first."""
    seen: set[str] = set()
    for i in range(1, MOST_GEARS + 1):
        name, ratio = form.text(f"gear{i}_name"), form.text(f"gear{i}_ratio")
        if not name and not ratio:
            continue
        gear = Gear(name=form.name(f"gear{i}_name"), ratio=1.0)
        if gear.name in seen:
            need = say("give each gear a name of its own")
            form.refuse(form.given.refuse(f"gear{i}_name", need))
        seen.add(gear.name)
        read_it = partial(_gear, form.given, f"gear{i}_ratio", name=gear.name)
        yield form.attempt(read_it, otherwise=gear)


def _gear(given: Given, key: str, *, name: str) -> Gear:
    if teeth := _TEETH.fullmatch(given.text(key)):
        driver, driven = int(teeth[1]), int(teeth[2])
        if not (driver and driven):
            raise given.refuse(key, say("a sprocket has one tooth or more"))
        return Gear(name=name, ratio=driver / driven, driver=driver, driven=driven)
    return Gear(name=name, ratio=given.exact(key, NUMBER))


def _boxes(form: Writing) -> Iterator[Box]:
    seen: set[str] = set()
    for i in range(1, MOST_BOXES + 1):
        line = f"box{i}_"
        if name := form.text(f"{line}name"):
            if name in seen:
                need = say("give each box a name of its own")
                form.refuse(form.given.refuse(f"{line}name", need))
            seen.add(name)
            yield _box(form, line)
        elif any(form.text(f"{line}{key}") for key in ("volume", "dead", "least", "most")):
            form.name(f"{line}name")


def _box(form: Writing, line: str) -> Box:
    seed, dead = form.text(f"{line}seed") or "grain", f"{line}dead"
    least, most = form.amount(f"{line}least", RATE), form.amount(f"{line}most", RATE)
    if least and most and not least.value < most.value:
        form.refuse(form.given.refuse(f"{line}most", say("give more than the least")))
    share = 0.0
    if dead in form.given:
        share = form.attempt(lambda: nominal(form.given.share(dead, tag=dead)), otherwise=0.0)
    return Box(
        name=form.text(f"{line}name"),
        seed=cast(Literal["grain", "small seed", "fluffy"], seed if seed in SEEDS else "grain"),
        volume=form.amount(f"{line}volume", VOLUME),
        agitator=form.text(f"{line}agitator") == "yes" or seed == "fluffy",
        dead=share,
        least=least,
        most=most,
        own_depth=form.text(f"{line}shared_depth") != "yes",
    )


def _check_wheel(form: Writing) -> None:
    given = form.given
    written = {key: key in given for key in ("rolled", "taped", "slip")}
    for key, need in wheel_refusals(**written):
        form.refuse(given.refuse(key, need))


def drill_texts(drill: Drill) -> dict[str, str]:
    """Return the fields of the form as they were filled in."""
    amounts = ("spacing", "rolled", "taped", "slip", "crank_per_wheel", "row_cv")
    texts = {name: kept.text for name in amounts if (kept := getattr(drill, name))}
    texts |= {"name": drill.name, "rows": str(drill.rows), "note": drill.note}
    if drill.scale:
        texts |= _scale_texts(drill.scale)
    for i, gear in enumerate(drill.gears, 1):
        teeth = f"{gear.driver}:{gear.driven}" if gear.driver else number(gear.ratio)
        texts |= {f"gear{i}_name": gear.name, f"gear{i}_ratio": teeth}
    for i, box in enumerate(drill.boxes, 1):
        texts |= _box_texts(box, f"box{i}_")
    return texts


def _box_texts(box: Box, line: str) -> dict[str, str]:
    amounts = {"volume": box.volume, "least": box.least, "most": box.most}
    texts = {f"{line}name": box.name, f"{line}seed": box.seed}
    texts |= {f"{line}{key}": kept.text for key, kept in amounts.items() if kept}
    texts |= {f"{line}dead": percent(box.dead)} if box.dead else {}
    texts |= {f"{line}agitator": "yes"} if box.agitator else {}
    return texts | ({} if box.own_depth else {f"{line}shared_depth": "yes"})


def _scale_texts(scale: Scale) -> dict[str, str]:
    texts = {
        "scale_low": number(scale.low),
        "scale_high": number(scale.high),
        "scale_step": number(scale.step),
        "scale_stops": "; ".join(number(stop) for stop in scale.stops),
        "scale_slack": scale.slack,
        "scale_levers": str(scale.levers),
        "scale_reversed": "yes" if scale.reversed else "",
    }
    return texts if scale.closed is None else texts | {"scale_closed": number(scale.closed)}
