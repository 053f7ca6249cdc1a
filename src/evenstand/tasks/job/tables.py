"""Tables of a job file, each as what was written in it under its own names."""

from collections.abc import Mapping, Sequence
from contextlib import AbstractContextManager
from dataclasses import dataclass
from difflib import get_close_matches
from typing import Any

from evenstand.book.kinds.machine import Box, Chart, Drill, Gear, Scale
from evenstand.book.kinds.seed import Member, Mix
from evenstand.book.kinds.sown import Ground, Load
from evenstand.book.kinds.work import Catch, Field, Inoculant, Order, Place, Wanted
from evenstand.engine.quantities.errors import MeasurementError, Path
from evenstand.engine.quantities.phrases import Phrase, say

from ..parsing import reading
from ..parsing.given import Given, Written, placing
from ..parsing.keys import LOT, keys_of

CHART = keys_of(Chart, but=("drill", "seed", "source"))
BASES = ("share", "seeds", "pls", "bulk")
MEMBER = keys_of(Member, "full_rate", "full_seeds", "box", but=("basis", "rate", "full"))
NOT_IN_CATCH = ("job", "drill", "bags", "crank_per_wheel", "resolution", "counted")
FILLED = ("takes", "makes_do", "test_weight", "full", "heel", "catches", "scale")
KEYS: Mapping[str, tuple[str, ...]] = {
    "drill": keys_of(Drill, "blocked", "blocked_end", but=("crank_per_wheel", "boxes", "note")),
    "drill.scale": keys_of(Scale),
    "drill.gears": keys_of(Gear),
    "chart": CHART,
    "history": CHART,
    "seed": ("name", "test_weight"),
    "target": keys_of(Wanted, but=("box", "seed", "test_weight", "chart")),
    "weighing": ("resolution", "tolerance"),
    "field": keys_of(Field, "ratio", "pass_length", but=("note", "outline")),
    "catch": keys_of(Catch, "rows_caught", "net", "weights", but=NOT_IN_CATCH),
    "lots": LOT,
    "mix": tuple(dict.fromkeys((*BASES, "rest", *MEMBER, *LOT))),
    "mix_whole": (*BASES, *keys_of(Mix, but=("name", "members", "whole", "whole_basis", "note"))),
    "mix_goal": ("goal", "published", "least_seeds", "seconds", "limits"),
    "mix_goal.limits": ("what", "of", "at_least", "at_most"),
    "boxes": keys_of(Box, *FILLED, but=("seed",)),
    "order": keys_of(
        Order, but=("job", "area", "pass_length", "heels", "catches", "inoculants", "note")
    ),
    "inoculant": keys_of(Inoculant),
    "sow": (
        *("box", "rate", "tolerance", "promised", "setting", "gear", "volume", "test_weight"),
        *("at_edge", "heel", "pass_length", "done", "static"),
        *keys_of(Ground, but=("job", "length", "note")),
    ),
    "loads": keys_of(Load, "setting", "gear", but=("job", "edge", "day", "note")),
    "stand": ("spacing", "wish", "crop", "days", "perennial", "water", "seeds", "kind"),
    "counts": keys_of(Place, "spacing", "frame", but=("sides", "looked")),
    "species": ("name", "seeds", "kind"),
    "emerged": ("field", "species", "share", "seeds"),
}
MANY = (
    "drill.gears",
    "chart",
    "history",
    "catch",
    "lots",
    "mix",
    "mix_goal.limits",
    "boxes",
    "inoculant",
    "sow",
    "loads",
    "counts",
    "species",
    "emerged",
)
MOSTLY_ONE = ("sow",)  # asked for as one, where there is none
# Where the engine's own names stand in a file, but for those of the drill.
OF_ENGINE = {
    "target": ("target", "rate"),
    "tolerance": ("target", "tolerance"),
    "gear": ("target", "gear"),
    "resolution": ("weighing", "resolution"),
    "scale_tolerance": ("weighing", "tolerance"),
    "field_ratio": ("field", "ratio"),
    "wheel": ("drill", "rolled"),
}
TABLES = tuple(name for name in KEYS if "." not in name)


class InTables(Written):
    """Where an input stands in the tables of a job.

    Examples
    --------
    >>> print(InTables("target", "rate"), InTables("boxes", 2, "full"), InTables("mix"), sep=", ")
    [target] rate, [[boxes]] 2 full, [[mix]]
    """

    __slots__ = ()

    @property
    def table(self) -> str:
        """The dotted name of the table."""
        return ".".join(map(str, self[: self._depth]))

    @property
    def number(self) -> int | None:
        """Which table of its name it is in, from 1; None where that is not said."""
        number = self[self._depth] if len(self) > self._depth else None
        return number if isinstance(number, int) else None

    @property
    def inside(self) -> Path:
        """The path within its table."""
        return Path(*self[self._depth + (self.number is not None) :])

    @property
    def _depth(self) -> int:
        """How many of its parts name the table."""
        numbers = (i for i, part in enumerate(self) if isinstance(part, int))
        named = (i for i in range(len(self), 1, -1) if ".".join(map(str, self[:i])) in KEYS)
        return next(numbers, next(named, 1))

    def __str__(self) -> str:
        whole = not self.inside and self.table in MANY and self.table not in MOSTLY_ONE
        many = whole or self.number is not None
        place = f"[[{self.table}]]" if many else f"[{self.table}]"
        number = () if self.number is None else (self.number,)
        return str(Path(place, *number, *self.inside))


@dataclass(frozen=True)
class JobTable:
    """One table: its scalars as texts, its lists and tables as they are."""

    given: Given
    whole: Mapping[str, Any]

    def lists(self, key: str) -> list[Any]:
        """Return a list that must be one."""
        value = self.whole.get(key, [])
        if not isinstance(value, list):
            raise self.given.refuse(key, say("enter a list, in square brackets"))
        return value


def in_tables(file: Mapping[str, Any]) -> AbstractContextManager[None]:
    """Let what is refused of a job inside be named as it stands in its file."""

    def placed(refused: MeasurementError) -> MeasurementError:
        table, key = _place(file, refused.path)
        given = table.given.texts.get(key, refused.given)
        return MeasurementError(table.given.path(key), given, refused.need)

    return placing(placed)


def _place(file: Mapping[str, Any], path: Path) -> tuple[JobTable, str]:
    """Find the table and key of what the engine calls ``target`` or ``catch 2 rows_caught``."""
    match path:
        case ("catch", int(number), str(key)):
            found = many(file, "catch")[number - 1]
            weights = next((key for key in reading.WEIGHTS if key in found.given), "net")
            return found, weights if key == "catch" else key
        case (str(key),) if key in OF_ENGINE:
            name, its_key = OF_ENGINE[key]
            return one(file, name), its_key
        case ("drill", "scale"):
            return one(file, "drill.scale"), "low"
        case ("scale", str(key)):
            return one(file, "drill.scale"), key
        case _:
            return one(file, "drill"), "_".join(map(str, path))


def check_tables(file: Mapping[str, Any]) -> None:
    """Refuse every table and key that is not known here."""
    check_names(file)
    for name in KEYS:
        if name in MANY:
            many(file, name)
        else:
            one(file, name)


def check_names(file: Mapping[str, Any]) -> None:
    """Refuse tables that are not known here, naming the nearest that is."""
    for name in file:
        if name not in TABLES:
            raise MeasurementError(InTables(name), name, _unknown(name, TABLES))


def one(file: Mapping[str, Any], name: str) -> JobTable:
    """Return a table by its dotted name; one that is not there is empty."""
    found: Any = file
    for part in name.split("."):
        found = found.get(part, {}) if isinstance(found, Mapping) else {}
    return table(found, name)


def many(file: Mapping[str, Any], name: str) -> list[JobTable]:
    """Return the tables of one name in their order, written once or many times."""
    found: Any = file
    for part in name.split("."):
        found = found.get(part, []) if isinstance(found, Mapping) else []
    if isinstance(found, Mapping):
        return [table(found, name)]
    if not isinstance(found, Sequence) or isinstance(found, str):
        need = say("enter a table for each, [[{n}]]", n=name)
        raise MeasurementError(InTables(*name.split(".")), found, need)
    return [table(each, name, number=i) for i, each in enumerate(found, 1)]


def table(content: Any, name: str, *, number: int = 0) -> JobTable:
    """Take a table's texts; what is not known here is refused.

    Parameters
    ----------
    content : object
        As parsed.
    name : str
        Its dotted name.
    number : int
        Which of that name it is, from 1; 0 where there is only one.
    """
    at = InTables(*name.split("."), *([number] if number else []))
    if not isinstance(content, Mapping):
        raise MeasurementError(at, content, say("enter it as a table, [{name}]", name=name))
    for key in content:
        if key not in KEYS[name]:
            raise MeasurementError(at.part(key), content[key], _unknown(key, KEYS[name]))
    texts = {key: text for key, value in content.items() if (text := _text(value)) is not None}
    return JobTable(Given(texts, at.part), content)


def _text(value: Any) -> str | None:
    """Write a value as a person would; lists of amounts with semicolons between."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, list):
        texts = [_text(each) for each in value if not isinstance(each, list | Mapping)]
        return "; ".join(text for text in texts if text is not None)
    return None if isinstance(value, Mapping) else str(value)


def _unknown(name: str, known: Sequence[str]) -> Phrase:
    near = get_close_matches(name, known, n=1)
    if near:
        return say("{name} is not known here; did you mean {near}?", name=name, near=near[0])
    return say("{name} is not known here: use one of {known}", name=name, known=", ".join(known))
