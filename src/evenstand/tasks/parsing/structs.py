"""Structs of the book, read from what was typed and written back: each field by what it says.

A form and a table of a job file are inputs called as the fields are. What is
particular to one of them, as lines of several parts, is read where it belongs.
"""

from collections.abc import Callable, Collection, Iterable, Mapping
from functools import partial
from typing import Any, Literal, TypeVar, get_args, get_origin

from msgspec import Struct
from msgspec.structs import replace

from evenstand.book.kinds.details import Detail, details
from evenstand.book.kinds.seed import Range
from evenstand.book.kinds.shape import MOST_TEXT, Count, Day, Id, Month, Name, Share, Some, Typed
from evenstand.engine.drill.drill import number
from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import NUMBER, RATE, SHARE, Kind

from .dates import day, month
from .given import Given, listed
from .writing import Writing, as_typed
from .written import percent

Known = TypeVar("Known", bound=Struct)


def read(form: Writing, known: type[Known], *, line: str = "", **own: Any) -> Known:
    """Read a struct from inputs that are called as its fields.

    Parameters
    ----------
    line : str
        What stands before the name of each input: ``box1_``.
    **own
        Fields that are read in another way: what stands in them, or a function
        that reads it in its turn. Parts without one stay as the struct has them.
    """
    return known(**_Reader(form, known, line=line, own=own).read())


class _Reader:
    """Reads the fields of a struct; the test weight before the rate that needs it."""

    def __init__(
        self, form: Writing, known: type[Struct], *, line: str, own: Mapping[str, Any]
    ) -> None:
        self._form, self._line, self._own = form, line, own
        self._details = {each.name: each for each in details(known)}
        self._found: dict[str, Any] = {}

    def read(self) -> dict[str, Any]:
        for name, detail in self._details.items():
            if name in self._own or _alone(detail):
                self._value(name)
        return self._found

    def _value(self, name: str) -> Any:
        if name not in self._found:
            self._found[name] = self._own_or_read(name)
        return self._found[name]

    def _own_or_read(self, name: str) -> Any:
        if name in self._own:
            own = self._own[name]
            return own() if callable(own) else own
        detail = self._details[name]
        if detail.unless and self._line + detail.key in self._form.given:
            detail = replace(detail, unless="")  # asked for itself, as in a job file
        key = self._line + (detail.unless or detail.key)
        if detail.part is Range:
            return _range(self._form, key, detail)
        if detail.part is not Typed:
            return _plain(self._form, key, detail)
        kind = detail.kind(self._form.text(key), lambda beside: str(self._value(beside)))
        of_seed = kind is RATE and "test_weight" in self._details
        weight = self._value("test_weight") if of_seed else None
        return amount(self._form, key, detail, kind=kind, test_weight=weight)


def _alone(detail: Detail) -> bool:
    """Whether a field is one input."""
    return detail.part in (None, Typed, Range) and not detail.many


def amount(
    form: Writing,
    key: str,
    detail: Detail,
    *,
    kind: Kind | None = None,
    test_weight: Typed | None = None,
) -> Typed | None:
    """Read an amount as its field has it, None where it was left empty and may be.

    Parameters
    ----------
    kind : Kind, optional
        What it measures, where a field beside it tells.
    """
    if detail.needed:
        form.attempt(lambda: form.given.text(key), otherwise="")
    found = form.amount(
        key,
        kind or detail.kind(form.text(key), str),
        zero=detail.zero,
        exact=detail.exact,
        of=detail.of,
        test_weight=test_weight.value if test_weight else None,
    )
    return found or (Typed(value=1.0) if detail.needed else None)


def _range(form: Writing, key: str, detail: Detail) -> Range | None:
    """Read a range: two amounts, the lower first, or one that is both."""
    if key not in form.given:
        return None
    kind, given = detail.kind("", str), form.given

    def end(text: str) -> Typed:
        found = given.piece(key, text).reading(key, kind)
        if not found.value >= 0:
            raise given.refuse(key, say("enter 0 or more"))
        return as_typed(found)

    def read() -> Range:
        ends = listed(form.text(key).replace("–", ";").replace(" to ", ";"))
        if not 1 <= len(ends) <= 2:
            raise given.refuse(key, say("enter two amounts, the lower first"))
        low, high = (end(text) for text in (ends * 2)[:2])
        if low.value > high.value:
            raise given.refuse(key, say("enter two amounts, the lower first"))
        return Range(low=low, high=high)

    return form.attempt(read, otherwise=None)


def _plain(form: Writing, key: str, detail: Detail) -> Any:
    """Read what is no amount."""
    if get_origin(detail.type) is Literal:
        return _word(form, key, detail)
    reads = (read for known, read in _READ if known == detail.type)
    return next(reads, _text)(form, key, detail)


def _text(form: Writing, key: str, detail: Detail) -> str | None:
    limits = (each.max_length for each in get_args(detail.type)[1:])
    most = next(filter(None, limits), MOST_TEXT)
    return form.text(key, most=most) or (None if detail.optional else "")


def _name(form: Writing, key: str, detail: Detail) -> str:
    return form.name(key)


def _word(form: Writing, key: str, detail: Detail) -> str:
    words = get_args(detail.type)
    return one_of(form, key, words, otherwise="" if detail.needed else detail.default)


def one_of(form: Writing, key: str, words: tuple[str, ...], *, otherwise: str = "") -> str:
    """Read one of some words, ``otherwise`` where it was left empty."""
    if key not in form.given:
        return otherwise
    known = tuple(filter(None, words))
    return form.attempt(lambda: form.given.one_of(key, known), otherwise=otherwise)


def _tick(form: Writing, key: str, detail: Detail) -> bool | None:
    """Read a box that may be ticked, or an answer that may be left open."""
    if detail.optional and key not in form.given:
        return None
    ticked = form.attempt(lambda: form.given.yes(key), otherwise=False)
    return ticked is not bool(detail.unless)


def _count(form: Writing, key: str, detail: Detail, *, least: int) -> int | None:
    kind = detail.measure if isinstance(detail.measure, Kind) else NUMBER
    if key in form.given or detail.needed:
        read = partial(form.given.count, key, kind, least=least)
        return form.attempt(read, otherwise=least)
    none: int | None = detail.default
    return none


def _share(form: Writing, key: str, detail: Detail) -> float | None:
    def read() -> float:
        found = form.given.reading(key, SHARE)
        if detail.exact and found.give_or_take:
            raise form.given.refuse(key, say("enter it without ±: it is used as is"))
        if detail.within and found.value not in detail.within:
            raise form.given.refuse(key, detail.within.need)
        return found.value

    if key in form.given or detail.needed:
        return form.attempt(read, otherwise=0.5)
    none: float | None = detail.default
    return none


def _number(form: Writing, key: str, detail: Detail) -> float | None:
    if key in form.given or detail.needed:
        return form.attempt(lambda: form.given.number(key), otherwise=1.0)
    none: float | None = detail.default
    return none


_READ: tuple[tuple[Any, Callable[[Writing, str, Detail], Any]], ...] = (
    (bool, _tick),
    (Name, _name),
    (Day, lambda form, key, detail: day(form, key)),
    (Month, lambda form, key, detail: month_of(form, key)),
    (Count, partial(_count, least=0)),
    (Some, partial(_count, least=1)),
    (Share, _share),
    (float, _number),
)


def month_of(form: Writing, key: str) -> str | None:
    """Read a month, None where it was left empty."""
    if key not in form.given:
        return None
    return form.attempt(lambda: str(month(form.given, key)), otherwise="2000-01")


def keys(known: type[Struct], *, but: Collection[str] = ()) -> tuple[str, ...]:
    """Return what the inputs of a struct are called, without those of its parts."""
    alone = (each for each in details(known) if _alone(each) and each.name not in but)
    return tuple(each.unless or each.key for each in alone)


def numbered(given: Given, name: str, inputs: Iterable[str], *, most: int) -> list[int]:
    """Return the numbers of the lines of a form that have one of some inputs: ``box2_volume``."""
    known = tuple(inputs)
    return [i for i in range(1, most + 1) if any(f"{name}{i}_{key}" in given for key in known)]


def texts(said: Struct, *, line: str = "", but: Collection[str] = ()) -> dict[str, str]:
    """Write the fields of a struct as they were typed, without its parts.

    Parameters
    ----------
    line : str
        What stands before the name of each input.
    but : collection of str
        Fields that are written in another way.
    """
    written: dict[str, str] = {}
    for detail in details(type(said)):
        belongs = detail.type == Id and detail.needed
        if _alone(detail) and not belongs and detail.name not in but:
            text = _written(getattr(said, detail.name), detail)
            written |= {} if text is None else {line + (detail.unless or detail.key): text}
    return written


def _written(value: Any, detail: Detail) -> str | None:
    """Write what stands in a field, None where nothing is to be written."""
    match value:
        case Typed():
            return value.text
        case Range():
            return f"{value.low.text}; {value.high.text}"
        case str():
            return value
        case bool():
            return _answer(value, detail)
        case None:
            return None
    if value == detail.default:
        return None
    if isinstance(value, int):
        return str(value)
    return percent(value) if detail.type == Share else number(value)


def _answer(value: bool, detail: Detail) -> str | None:
    if detail.optional:
        return "yes" if value else "no"
    return "yes" if value is not bool(detail.unless) else None
