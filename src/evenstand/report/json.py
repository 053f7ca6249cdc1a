"""Results as JSON: every amount in its reader's unit, keys that stay.

A result names its keys, and marks its amounts, as `engine.quantities.written` tells.
"""

import inspect
from collections.abc import Mapping
from functools import cache, reduce
from math import isfinite
from types import GenericAlias
from typing import Annotated, Any, get_args, get_origin, get_type_hints

from uncertainties import UFloat

from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase, Style
from evenstand.engine.quantities.units import Amount, Kind
from evenstand.engine.quantities.written import (
    AS_TEXT,
    HELD,
    OF_HOLDER,
    ONCE,
    OR_NULL,
    Bare,
    Key,
    put,
)
from evenstand.engine.statistics.budget import Estimate, Quantity, nominal, ranged

Document = dict[str, Any]
NUMBERS = (float, int, UFloat, Estimate)
RANGE = ("value", "low", "high", "u")  # what of an estimate is written, beside its unit


@cache
def keys(result: Any) -> tuple[tuple[Key, Any], ...]:
    """Return the keys of a result, in their order, each with the type of its part."""
    named = (each if isinstance(each, Key) else put(each) for each in result.KEYS)
    return tuple((each, reduce(_each, each.path, result)) for each in named)


def _each(of: Any, name: str) -> Any:
    """Return the type of a part of what is here once, or many times, or perhaps."""
    arguments = get_args(of)
    if get_origin(of) is Annotated:
        return _each(arguments[0], name)
    if get_origin(of) is tuple:
        return GenericAlias(tuple, (_each(arguments[0], name), ...))
    if type(None) in arguments:
        (there,) = (each for each in arguments if each is not type(None))
        return _each(there, name) | None
    return _declared(of, name)


@cache
def _hints(owner: Any) -> dict[str, Any]:
    return get_type_hints(owner, include_extras=True)


def _declared(owner: Any, name: str) -> Any:
    if name == HELD:
        return Kind
    if name in (hints := _hints(owner)):
        return hints[name]
    member = inspect.getattr_static(owner, name)
    function = getattr(member, "fget", None) or getattr(member, "func", member)
    return _hints(function)["return"]


def mark_of(of: Any) -> Any:
    """Return how the type of a part says that it is written, None where it does not."""
    if get_origin(of) is Annotated:
        return of.__metadata__[0]
    return next((mark for each in get_args(of) if (mark := mark_of(each)) is not None), None)


def as_json(result: Any, style: Style, kind: Kind | None = None) -> Document:
    """Write a result.

    Parameters
    ----------
    result
        Of a class with ``KEYS``.
    style : Style
        Whose units and language it is written in.
    kind : Kind, optional
        What its holder says that it measures.
    """
    found: Document = {}
    parts, own = {(): result, (HELD,): kind}, Bare(kind)
    for each, mark in _marked(result.__class__):
        value = _at(each.path, parts)
        into = found.setdefault(each.within, {}) if each.within else found
        if each.added:
            into |= as_json(value, style)
        elif value is not None or not each.optional:
            into[each.name] = _written(value, own if mark is OF_HOLDER else mark, style)
    return found


@cache
def _marked(result: Any) -> tuple[tuple[Key, Any], ...]:
    return tuple((each, mark_of(of)) for each, of in keys(result))


def _at(path: tuple[str, ...], parts: dict[tuple[str, ...], Any]) -> Any:
    """Look a part up by its path; each step of it is asked for once."""
    if path not in parts:
        of, name = _at(path[:-1], parts), path[-1]
        several = isinstance(of, tuple)
        parts[path] = tuple(_part(each, name) for each in of) if several else _part(of, name)
    return parts[path]


def _part(of: Any, name: str) -> Any:
    return None if of is None else getattr(of, name)


def _written(value: Any, mark: Any, style: Style) -> Any:
    if mark is OR_NULL:
        return value or None
    if isinstance(value, NUMBERS):
        return _number(value, mark, style)
    if value is None or isinstance(value, str):
        return value
    if isinstance(value, tuple | list):
        return _listed([_written(each, mark, style) for each in value], mark)
    if isinstance(value, Mapping):
        return {name: _written(each, mark, style) for name, each in value.items()}
    return _told(value, mark, style)


def _number(value: Any, mark: Any, style: Style) -> Any:
    if isinstance(mark, Bare) and mark.kind:
        return _finite(nominal(value) / style.unit(mark.kind).size)
    if isinstance(mark, Kind):
        return quantity(value, mark, style)
    return nominal(value) if isinstance(value, UFloat) else value


def _listed(found: list[Any], mark: Any) -> Any:
    if mark is AS_TEXT:
        return " ".join(found)
    return list(dict.fromkeys(found)) if mark is ONCE else found


def _told(value: Any, mark: Any, style: Style) -> Any:
    if isinstance(value, Phrase):
        return style.write(value)
    if isinstance(value, Kind):
        return style.unit(value).symbol
    if isinstance(value, Amount):
        return _number(value.value, Bare(value.kind), style)
    return value(style) if callable(value) else as_json(value, style, mark)


def quantity(value: Estimate | Quantity, kind: Kind, style: Style) -> Document:
    """Write a value with its 95% range and standard uncertainty; what is exact has no range."""
    known = value if isinstance(value, Estimate) else ranged(value)
    unit = style.unit(kind)
    sized = {part: _finite(getattr(known, part) / unit.size) for part in RANGE}
    return sized | {"unit": unit.symbol}


def _finite(number: float) -> float | None:
    """JSON has no infinity: a range without end is null."""
    return number if isfinite(number) else None


def refusal(error: MeasurementError, style: Style) -> Document:
    """Write what was refused: the field, what was given, what is needed."""
    given = error.given
    return {"field": error.field, "given": _plain(given), "need": style.write(error.need)}


def _plain(given: object) -> Any:
    """Write what was given as JSON knows it; no number there is infinite or NaN."""
    if given is None or isinstance(given, str | bool | int):
        return given
    if isinstance(given, float) and isfinite(given):
        return given
    return str(given)
