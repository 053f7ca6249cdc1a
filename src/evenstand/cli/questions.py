"""The questions of the Set step, one by one, and what an answer must pass."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import ROWS, SCALE_STEP, TEST_WEIGHT, TRAVEL
from evenstand.tasks.job.calibration import target
from evenstand.tasks.job.file import charts, read_drill
from evenstand.tasks.job.said import wanted_in, wheel_in
from evenstand.tasks.job.tables import in_tables, one
from evenstand.tasks.parsing.given import Given, listed

Answers = dict[str, Any]
Check = Callable[[Answers], object]
LAST_PART = 2  # a gear is a name and a ratio, a point a setting and a rate


@dataclass(frozen=True)
class Question:
    """One question: where its answer goes, how it is asked, when, and with what default.

    ``path`` is the key in the job file; of a catch, the key in the latest.
    ``optional`` answers are left out by Enter, ``many`` are asked again until
    they are.
    """

    path: tuple[str, ...]
    ask: str
    check: Check
    like: str = ""
    section: str = ""
    default: Callable[[Answers], str | None] = lambda _: None
    when: Callable[[Answers], bool] = lambda _: True
    put: Callable[[Answers, str], None] | None = None
    optional: bool = False
    many: bool = False

    @property
    def key(self) -> str:
        """The last part of the path."""
        return self.path[-1]

    def given(self, answers: Answers) -> Any:
        """Return the answer so far, None where there is none."""
        found: Any = answers
        for part in self.path:
            found = found.get(part) if isinstance(found, Mapping) else None
        return found

    def answer(self, answers: Answers, text: str) -> None:
        """Put an answer in its place."""
        if self.put is not None:
            self.put(answers, text)
            return
        table = answers
        for part in self.path[:-1]:
            table = table.setdefault(part, {})
        table[self.key] = plain(text)


def plain(text: str) -> str | int | float:
    """Keep a plain number as a number, all else as it was written."""
    if text.isascii() and text.isdigit():
        return int(text)
    try:
        return float(text) if text.isascii() and text.lstrip("-")[:1].isdigit() else text
    except ValueError:
        return text


def _drill(answers: Answers) -> Given:
    return one(answers, "drill").given


def _scale(answers: Answers) -> Given:
    return one(answers, "drill.scale").given


def has(*path: str) -> Callable[[Answers], bool]:
    """Whether an answer is there."""
    question = Question(path, "", lambda _: None)
    return lambda answers: question.given(answers) is not None


def is_chart(answers: Answers) -> bool:
    """Whether there are points of a chart."""
    return bool(one(answers, "chart").lists("points"))


def gears(answers: Answers) -> list[str]:
    """Name the gears, if there is more than one."""
    found = answers.get("drill", {}).get("gears", [])
    return [str(gear["name"]) for gear in found] if len(found) > 1 else []


def _always(default: str) -> Callable[[Answers], str]:
    return lambda _: default


def _put_gears(answers: Answers, text: str) -> None:
    """Take gears apart: ``full 1, half 0.5``."""
    found = []
    for piece in listed(text):
        parts = piece.replace("=", " ").rsplit(maxsplit=1)
        if len(parts) < LAST_PART:
            need = say("enter each gear with its ratio, such as full 1, half 0.5")
            raise MeasurementError("gears", text, need)
        found.append({"name": parts[0], "ratio": plain(parts[1])})
    answers.setdefault("drill", {})["gears"] = found


def _put_point(answers: Answers, text: str) -> None:
    """Take a point of a chart apart: ``30: 48 lb/ac``."""
    parts = text.replace(":", " ", 1).replace("=", " ", 1).split(maxsplit=1)
    if len(parts) < LAST_PART:
        need = say("enter a setting and its rate, such as 30: 48 lb/ac")
        raise MeasurementError("points", text, need)
    points = answers.setdefault("chart", {}).setdefault("points", [])
    points.append([plain(parts[0].rstrip(",")), parts[1]])


def _check_point(answers: Answers) -> object:
    """Check a chart as if it needed no gear yet: that is asked next."""
    names = gears(answers)
    chart = dict(answers["chart"]) | ({"gear": names[0]} if names else {})
    return charts(answers | {"chart": chart}, "chart", read_drill(answers))


def _chart_again(answers: Answers) -> object:
    return charts(answers, "chart", read_drill(answers))


def _target(answers: Answers) -> object:
    seed, wanted = (one(answers, name).given for name in ("seed", "target"))
    with in_tables(answers):
        return target(wanted_in(wanted, "rate", of_seed=seed))


def _sown_in(answers: Answers) -> object:
    return read_drill(answers).gear(one(answers, "target").given.text("gear"))


DRILL = (
    Question(
        ("drill", "rows"),
        "Rows on the drill",
        lambda a: _drill(a).count("rows", ROWS),
        like="20",
        section="The drill",
    ),
    Question(("drill", "spacing"), "Row spacing", read_drill, like="7.5 in, 15 cm"),
    Question(
        ("drill", "blocked"),
        "Rows shut off between seeding rows",
        read_drill,
        default=_always("0"),
    ),
    Question(
        ("drill", "rolled"),
        "Distance per drive-wheel turn, rolled in the field (Enter: tape only)",
        lambda a: wheel_in(_drill(a)),
        like="95 in, 8 ft 3 in, 2.41 m",
        optional=True,
    ),
    Question(
        ("drill", "taped"),
        "Tape measurement around the tire",
        lambda a: _drill(a).quantity("taped", TRAVEL, tag="tape"),
        like="95 in",
        when=lambda a: not has("drill", "rolled")(a),
    ),
    Question(
        ("drill", "slip"),
        "Wheel slip in the field",
        lambda a: wheel_in(_drill(a)),
        default=_always("5 ± 4%"),
        when=has("drill", "taped"),
    ),
    Question(
        ("drill", "scale", "low"),
        "Lowest number on the lever scale",
        lambda a: _scale(a).number("low"),
        default=_always("0"),
        section="Lever scale",
    ),
    Question(("drill", "scale", "high"), "Highest number on it", read_drill, like="60"),
    Question(("drill", "scale", "step"), "Step between notches", read_drill, default=_always("1")),
    Question(
        ("drill", "scale", "reversed"),
        "Does the low number give the most seed?",
        read_drill,
        default=_always("no"),
    ),
    Question(
        ("drill", "scale", "slack"),
        "Which side do you approach a notch from: below, above or none",
        read_drill,
        default=_always("below"),
    ),
    Question(
        ("drill", "gears"),
        "Drive gears, each with its ratio (Enter: only one)",
        read_drill,
        like="full 1, half 0.5",
        put=_put_gears,
        optional=True,
    ),
)
CHART = (
    Question(
        ("chart", "points"),
        "A setting and its rate in the chart (Enter: no more)",
        _check_point,
        like="30: 48 lb/ac",
        section="The chart in the operator's manual",
        put=_put_point,
        optional=True,
        many=True,
    ),
    Question(
        ("chart", "gear"),
        "Gear the chart is for",
        _chart_again,
        default=lambda a: gears(a)[0],
        when=lambda a: is_chart(a) and bool(gears(a)),
    ),
    Question(
        ("chart", "spacing"),
        "Row spacing the chart is for",
        _chart_again,
        default=lambda a: str(a["drill"]["spacing"]),
        when=is_chart,
    ),
    Question(
        ("chart", "test_weight"),
        "Test weight of the chart's seed (Enter: not printed)",
        lambda a: one(a, "chart").given.exact("test_weight", TEST_WEIGHT),
        like="60 lb/bu",
        when=is_chart,
        optional=True,
    ),
    Question(
        ("seed", "test_weight"),
        "Test weight of your seed",
        _chart_again,
        like="58 lb/bu",
        when=has("chart", "test_weight"),
    ),
)
TARGET = (
    Question(
        ("target", "rate"), "Rate wanted", _target, like="60 lb/ac, 67 kg/ha", section="The target"
    ),
    Question(("target", "tolerance"), "Tolerance", _target, default=_always("5%")),
    Question(
        ("target", "on"),
        "Which rate has to hit the target: field or static (stationary)",
        _target,
        default=_always("field"),
    ),
    Question(
        ("target", "gear"),
        "Gear you'll seed in (Enter: any)",
        _sown_in,
        when=lambda a: bool(gears(a)),
        optional=True,
    ),
    Question(
        ("target", "dearer"),
        "Which costs you more: thin stand, wasted seed or neither",
        _target,
        default=_always("neither"),
    ),
    Question(
        ("weighing", "resolution"),
        "Smallest step of the scale you weigh seed on",
        lambda a: one(a, "weighing").given.exact("resolution", SCALE_STEP),
        default=_always("1 g"),
    ),
)
SETUP = (*DRILL, *CHART, *TARGET)
