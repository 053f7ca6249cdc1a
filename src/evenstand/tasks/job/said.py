"""What is said of a drill, a run and a target by flags or in a job file: structs of the book."""

from typing import Any

from evenstand.book.kinds.details import detail
from evenstand.book.kinds.machine import Drill
from evenstand.book.kinds.shape import Typed
from evenstand.book.kinds.work import Catch, Job, Wanted
from evenstand.engine.drill import drill as engine
from evenstand.engine.drill.travel import Run, Wheel
from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import NUMBER, RATE

from ..drill.form import check_wheel
from ..drill.machines import run_of, value_of, wheel_of
from ..parsing.given import Given, is_bare
from ..parsing.reading import RUNS, only_one
from ..parsing.structs import amount, read
from ..parsing.writing import Writing


def drill_in(given: Given, **own: Any) -> tuple[Drill, Job]:
    """Read a drill, and what a job says of it; ``own`` as in `structs.read`."""
    with Writing(given) as form:
        return read(form, Drill, name=form.text("name"), **own), read(form, Job, name="")


def wheel_in(given: Given) -> Wheel | None:
    """Read the drive wheel, rolled or taped; None where neither was written."""
    with Writing(given) as form:
        check_wheel(form)
    with given.pointing():
        return wheel_of(*drill_in(given))


def test_weight_in(given: Given) -> Typed | None:
    """Read what a measure of this seed weighs, None where it was not written."""
    with Writing(given) as form:
        return amount(form, "test_weight", detail(Wanted, "test_weight"))


def wanted_in(given: Given, key: str, *, of_seed: Given) -> Wanted:
    """Read the rate wanted, under ``key``, and what is said of it and of its seed."""
    weight = test_weight_in(of_seed)
    with Writing(given) as form:
        rate = form.needed(key, RATE, test_weight=value_of(weight))
        own: dict[str, Any] = {"rate": rate, "test_weight": weight, "box": "", "chart": None}
        return read(form, Wanted, seed="", **own)


def run_in(given: Given, drill: engine.Drill, wheel: Wheel | None) -> Run:
    """Read what was turned, pulled or sown for one catch, one of `RUNS`.

    A bare ``per_turn`` is crank turns for one of the wheel.
    """
    only_one(given, RUNS, say("enter the turns or the distance of the catch"))
    bare = "crank_turns" in given and is_bare(given.text("per_turn"))
    own: dict[str, Any] = dict.fromkeys(("gross", "tare", "resolution"))
    with Writing(given) as form:
        if bare:
            ratio = form.amount("per_turn", NUMBER, exact=True)
            own |= {"crank_per_wheel": ratio, "per_turn": None}
        catch = read(form, Catch, job="", setting=0.0, bags=(), **own)
    return run_of(catch, drill=drill, wheel=wheel)
