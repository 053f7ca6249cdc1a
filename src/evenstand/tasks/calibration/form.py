"""A catch as it is typed: into what is kept, and back into the fields of its form."""

from typing import Any

from evenstand.book.kinds.details import detail
from evenstand.book.kinds.shape import Typed
from evenstand.book.kinds.work import Bag, Catch
from evenstand.engine.drill.drill import Drill
from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import CATCH

from ..drill.machines import RATIO_NEEDED
from ..job.kept import Kept, job_drill, job_wheel
from ..parsing import reading
from ..parsing.given import Given, lent, listed
from ..parsing.structs import amount, read, texts
from ..parsing.writing import Writing, as_typed

RUNS = ("turns", "crank_turns", "distance", "area")
OF_CRANK = ("per_turn", "crank_per_wheel")


def read_catch(given: Given, kept: Kept) -> Catch:
    """Read a catch from the fields of its form.

    Parameters
    ----------
    given : Given
        ``setting``, ``gear``, one of ``turns``, ``crank_turns``, ``distance`` and
        ``area``; ``rows_caught`` with ``net``, or ``row1``, ``row2``…; ``tare``.
    kept : Kept
        The job it was made for.

    Raises
    ------
    RefusalsError
        Each under the field it was typed in.
    """
    form, drill = Writing(given), job_drill(kept)
    none: tuple[Bag, ...] = ()
    catch = read(
        form,
        Catch,
        job=kept.thing.id,
        drill=kept.drill_id,
        box=kept.box,
        setting=lambda: form.attempt(lambda: reading.setting(given, drill), otherwise=0.0),
        gear=lambda: form.attempt(lambda: _gear(given, drill), otherwise=""),
        bags=lambda: form.attempt(lambda: _bags(given, drill), otherwise=none),
        gross=lambda: form.amount("net", CATCH) if "tare" in given else None,
        **_run(form, kept),
    )
    form.done()
    return catch


def _gear(given: Given, drill: Drill) -> str:
    if len(drill.gears) == 1:
        return drill.gears[0].name if drill.gears[0].name != "only" else ""
    with given.pointing():
        return drill.gear(given.texts.get("gear")).name


def _run(form: Writing, kept: Kept) -> dict[str, Any]:
    """Read which run was made: turns, crank turns, a pull over a course, or an area."""
    given = form.given
    written = [key for key in RUNS if key in given]
    if len(written) != 1:
        need = say("enter how many turns you made")
        if written:
            need = say("enter the turns, the distance or the area, only one of them")
        form.refuse(given.refuse((written or ["turns"])[-1], need))
        return {}
    (key,) = written
    run = dict.fromkeys((*RUNS, *OF_CRANK)) | {key: amount(form, key, detail(Catch, key))}
    if key == "crank_turns":
        per_turn, per_wheel = (amount(form, each, detail(Catch, each)) for each in OF_CRANK)
        if per_turn:
            return run | {"per_turn": per_turn}
        if per_wheel:
            run |= {"crank_per_wheel": per_wheel}
        elif not (kept.drill and kept.drill.crank_per_wheel):
            form.refuse(given.refuse(key, RATIO_NEEDED))
    if key in ("turns", "crank_turns") and job_wheel(kept) is None:
        need = say("this drill's wheel has not been measured yet: enter it on the drill's page")
        form.refuse(given.refuse(key, need))
    return run


def _bags(given: Given, drill: Drill) -> tuple[Bag, ...]:
    rows = [key for i in range(1, drill.rows + 1) if (key := f"row{i}") in given]
    if rows and "net" in given:
        raise given.refuse("net", say("leave it blank: the rows were weighed one by one"))
    if rows:
        return _row_by_row(given, rows, drill)
    if "net" not in given:
        raise given.refuse("net", say("enter what the seed weighed"))
    return _together(given, drill)


def _row_by_row(given: Given, keys: list[str], drill: Drill) -> tuple[Bag, ...]:
    if len(keys) > drill.open_rows:
        need = say(
            "enter at most one weight for each of the {rows} open rows", rows=drill.open_rows
        )
        raise given.refuse(keys[-1], need)
    unit = given.texts.get("unit", "")
    bags = []
    for key in keys:
        found = given.part(lent(given.text(key), unit), key, CATCH)
        if not found.value >= 0:
            raise given.refuse(key, say("enter 0 or more"))
        bags.append(Bag(weight=as_typed(found), row=int(key.removeprefix("row"))))
    if not any(bag.weight.value > 0 for bag in bags):
        raise given.refuse(keys[0], say("enter weights of 0 or more, at least one above 0"))
    return tuple(bags)


def _together(given: Given, drill: Drill) -> tuple[Bag, ...]:
    """Read one bag of some rows, or one for each of equal groups of rows."""
    rows = reading.rows_caught(given, drill=drill, every="area" in given)
    if rows is None:
        raise given.refuse("rows_caught", say("enter how many rows dropped into the bag"))
    texts = listed(given.text("net"))
    if len(texts) == 1:
        weights = [_one_weight(given)]
        found = reading.one_bag(weights[0].value, rows)
    else:
        found = reading.bags_of(given, "net", texts, rows=rows, drill=drill)
        weights = [
            Typed(value=bag.weight, text=text) for bag, text in zip(found, texts, strict=True)
        ]
    return tuple(
        Bag(weight=weight, rows=bag.rows, row=bag.first)
        for bag, weight in zip(found, weights, strict=True)
    )


def _one_weight(given: Given) -> Typed:
    found = as_typed(given.reading("net", CATCH))
    if not found.value > 0:
        raise given.refuse("net", say("enter a weight above 0"))
    if "tare" not in given:
        return found
    tare = given.reading("tare", CATCH).value
    if not found.value > tare:
        raise given.refuse("net", say("no heavier than the tare: the bag has no seed in it"))
    return Typed(value=found.value - tare)


def catch_texts(catch: Catch) -> dict[str, str]:
    """Return the fields of the form as they were filled in."""
    written = texts(catch, but=("drill", "box", "gross"))
    if row_by_row(catch):
        return written | {f"row{bag.row}": bag.weight.text for bag in catch.bags}
    written["rows_caught"] = rows_text(catch)
    net = catch.gross.text if catch.gross else ", ".join(bag.weight.text for bag in catch.bags)
    return written | {"net": net}


def row_by_row(catch: Catch) -> bool:
    """Whether each row was weighed by itself, its number known."""
    return all(bag.row and bag.rows == 1 for bag in catch.bags)


def rows_text(catch: Catch) -> str:
    """Write how many rows were caught, or which where that is known of every bag."""
    bags = catch.bags
    if not all(bag.row for bag in bags):
        return str(sum(bag.rows for bag in bags))
    return ", ".join(
        f"{bag.row}-{bag.row + bag.rows - 1}" if bag.rows > 1 else str(bag.row) for bag in bags
    )
