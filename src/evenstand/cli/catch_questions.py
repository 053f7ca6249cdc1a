"""The questions of one catch, with what the last answer advised as their defaults."""

import re
from collections.abc import Callable, Mapping
from typing import Any

from evenstand.engine.drill.course import course
from evenstand.engine.drill.drill import number
from evenstand.engine.parsing.parse import read
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import System
from evenstand.engine.quantities.units import ACRE, CATCH, FIELD, HECTARE, LENGTH, Kind
from evenstand.engine.statistics.budget import nominal
from evenstand.tasks.calibration.setting import Setting, where_next
from evenstand.tasks.job.file import read_drill, read_job
from evenstand.tasks.job.said import run_in, wheel_in
from evenstand.tasks.job.tables import in_tables, many, one
from evenstand.tasks.parsing import reading
from evenstand.tasks.parsing.given import Given, listed

from .questions import Answers, Question, gears, plain

USUAL_AREA = {"us": ACRE / 20, "metric": HECTARE / 50}  # ground that one catch stands for
RUN_KINDS: tuple[tuple[str, Kind], ...] = (("distance", LENGTH), ("area", FIELD))
_GROSS_AND_TARE = re.compile(r"(.*?\D)\s*(?:-|−|–|\bless\b|\bminus\b)\s*(\d.*)", re.DOTALL)


def catch_questions(advised: Setting, *, system: System) -> tuple[Question, ...]:
    """Return the questions of the next catch."""
    best = advised.choice.best
    return (
        Question(
            ("catch", "setting"),
            "Where is the lever?",
            _setting,
            default=lambda _: number(best.setting),
            put=_put_setting,
        ),
        Question(
            ("catch", "gear"),
            "Gear for this catch",
            lambda a: read_drill(a).gear(_given(a).text("gear")),
            default=lambda _: best.gear.name,
            when=lambda a: bool(gears(a)),
            put=_put_key("gear"),
        ),
        Question(
            ("catch", "turns"),
            "Drive-wheel turns",
            _run_or_later,
            like="20, or 70 crank, or 150 ft pulled, or 0.5 ac seeded",
            default=lambda a: _as_before(a) or _usual_turns(advised, system),
            put=_put_run,
        ),
        Question(
            ("catch", "per_turn"),
            "Crank turns per wheel turn, or distance per crank turn",
            _run,
            like="3.5, or 27 in",
            default=lambda a: _text(before(a).get("per_turn")),
            when=lambda a: "crank_turns" in current(a),
            put=_put_key("per_turn"),
        ),
        Question(
            ("catch", "rows_caught"),
            "Number of rows caught",
            lambda a: reading.rows_caught(_given(a), drill=read_drill(a)),
            default=lambda a: _text(before(a).get("rows_caught")),
            put=_put_key("rows_caught"),
        ),
        Question(
            ("catch", "weight"),
            "Seed from these rows",
            lambda a: where_next(read_job(a)),
            like="8 oz, or 10 oz − 2 oz for the bag, or each row: 22 g, 23 g",
            put=_put_weight,
        ),
    )


def current(answers: Answers) -> dict[str, Any]:
    """Return the catch that is being asked about."""
    latest: dict[str, Any] = answers["catch"][-1]
    return latest


def is_weighed(catch: dict[str, Any]) -> bool:
    """Whether a catch has all its answers."""
    return any(key in catch for key in reading.WEIGHTS)


def weighed(answers: Answers) -> int:
    """Count the catches that have all their answers."""
    return sum(is_weighed(each) for each in answers.get("catch", []))


def finished(answers: Answers) -> Answers:
    """Return the answers without a catch that is only begun."""
    catches = answers.get("catch", [])
    return answers | {"catch": [each for each in catches if is_weighed(each)]}


def asked_of(catch: dict[str, Any]) -> int:
    """Count the questions about a catch that were answered, those left out too."""
    order = [("setting",), ("gear",), reading.RUNS, ("per_turn",), ("rows_caught",)]
    answered = [i for i, keys in enumerate(order) if any(key in catch for key in keys)]
    return answered[-1] + 1 if answered else 0


def _given(answers: Answers) -> Given:
    return many(answers, "catch")[-1].given


def _setting(answers: Answers) -> None:
    reading.setting(_given(answers), read_drill(answers))


def _put_setting(answers: Answers, text: str) -> None:
    catches = answers.setdefault("catch", [])
    if catches and not is_weighed(catches[-1]):
        catches.pop()
    catches.append({"setting": plain(text)})


def _put_key(key: str) -> Callable[[Answers, str], None]:
    def put(answers: Answers, text: str) -> None:
        current(answers)[key] = plain(text)

    return put


def _put_run(answers: Answers, text: str) -> None:
    """Tell turns of the wheel from crank turns, a pull and an area."""
    catch = current(answers)
    words = text.split()
    if words and words[-1].casefold() in ("crank", "cranks"):
        catch["crank_turns"] = plain(" ".join(words[:-1]))
        return
    for key, kind in RUN_KINDS:
        if _reads_as(text, kind):
            catch[key] = text
            return
    catch["turns"] = plain(text)


def _reads_as(text: str, kind: Kind) -> bool:
    try:
        read(text, kind, field="")
    except MeasurementError:
        return False
    return True


def _run_or_later(answers: Answers) -> None:
    if "crank_turns" not in current(answers):
        _run(answers)


def _run(answers: Answers) -> None:
    wheel = wheel_in(one(answers, "drill").given)
    with in_tables(answers):
        run_in(_given(answers), read_drill(answers), wheel)


def _put_weight(answers: Answers, text: str) -> None:
    """Tell one net weight from gross and tare, and from a weight for each row."""
    catch = current(answers)
    apart = _GROSS_AND_TARE.fullmatch(text)
    if len(listed(text)) > 1:
        catch["weights"] = listed(text)
    elif apart and _reads_as(apart[1], CATCH):
        catch["gross"], catch["tare"] = apart[1].strip(), apart[2].strip()
    else:
        catch["net"] = text


def before(answers: Answers) -> Mapping[str, Any]:
    """Return the last catch that has all its answers."""
    done = finished(answers)["catch"]
    return done[-1] if done else {}


def _as_before(answers: Answers) -> str | None:
    """Write what was turned, pulled or sown for the catch before this."""
    catch = before(answers)
    if "crank_turns" in catch:
        return f"{catch['crank_turns']} crank"
    return next((str(catch[key]) for key in reading.RUNS if key in catch), None)


def _text(value: Any) -> str | None:
    return None if value is None else str(value)


def _usual_turns(advised: Setting, system: System) -> str | None:
    """Return whole turns for about 1/20 acre, or 1/50 hectare."""
    if advised.job.wheel is None:
        return None
    laid = course(advised.job.drill, advised.job.wheel, area=USUAL_AREA[system])
    return str(max(1, round(nominal(laid.turns))))
