"""Amounts as people write them, read into SI.

A number, a unit, and if need be ± with its limits: ``60 lb/ac``, ``18 1/3 in``,
``7'11"``, ``2 lb 3 oz``, ``3 ± 2%``. See ``numerals`` for the rule on commas
and ``spelling`` for the units.
"""

import re
from dataclasses import dataclass, replace
from itertools import pairwise
from math import fsum

from ..quantities.errors import MeasurementError, Path, require_positive
from ..quantities.phrases import Phrase, Value, say
from ..quantities.units import PERCENT, Kind, Unit
from ..statistics.budget import Quantity, give_or_take
from .numerals import NUMBER, last_place, number, rewritten, tidy
from .spelling import COUNTED, NAMES, USUAL, Measure, ambiguous, fit, measure, nearest

LONGEST = 80  # characters; no amount needs more
LEAST, MOST = 1e-15, 1e15  # in SI: no amount of the trade comes near either
MIXED = ("length", "mass", "time")  # dimensions written in two units, as 8 ft 3 in

_FLAGS = re.ASCII | re.IGNORECASE
_ONE = re.compile(rf"\s*([+-]?)\s*(\$?)\s*({NUMBER})\s*(.*?)\s*", _FLAGS | re.DOTALL)
_PIECE = rf"({NUMBER})\s*([a-z'\"#]+\.?)"
_PIECES = re.compile(_PIECE, _FLAGS)
_BETWEEN = r"(?:\s*(?:,|and\b|y\b)|(?<=')\s*-)?\s*"
_SEVERAL = re.compile(rf"\s*[+-]?\s*{_PIECE}(?:{_BETWEEN}{_PIECE})+\s*", _FLAGS)
_GIVE_OR_TAKE = re.compile(
    r"±|\+\s*/?\s*-|\b(?:give or take|plus or minus|m[aá]s o menos)\b", re.IGNORECASE
)
_NUMBER_APART = re.compile(r"(?<![a-z])\d", _FLAGS)


@dataclass(frozen=True, slots=True)
class Reading:
    """What was read: a value and its limits, both in SI.

    ``give_or_take`` is the half width that was written after ±, 0 where there
    was none; ``unit`` and ``text`` stand as they were typed, save that numbers
    with a decimal comma are written with a point. ``step`` is 1 in the last
    digit of the value and ``of`` one of the unit behind it, both in SI.
    """

    value: float
    give_or_take: float
    unit: str
    text: str
    step: float
    of: float

    def quantity(self, tag: str) -> Quantity:
        """Return the value with every point within its limits equally likely."""
        return give_or_take(self.value, self.give_or_take, tag)


@dataclass(frozen=True, slots=True)
class _Part:
    """A number and the unit behind it, as typed; empty where none was."""

    number: float
    unit: str
    text: str
    place: float


@dataclass(frozen=True, slots=True)
class _Question:
    """What is being asked for, and how it was answered."""

    text: str
    kind: Kind
    field: str | Path
    test_weight: float | None
    default_unit: Unit | None
    decimal: str

    def refuse(self, template: str, **values: str | Phrase) -> MeasurementError:
        """Refuse the answer; a template can speak of what is wanted and of an example."""
        usual = USUAL.get(self.kind.name, 10.0) * self.kind.us.size
        given: dict[str, Value] = {
            "wanted": say(NAMES[self.kind.dimension]),
            "example": self.kind(usual, 2),
        }
        given.update(values)
        return MeasurementError(self.field, self.text, say(template, **given))

    def number(self, text: str) -> float:
        value = number(text, self.decimal)
        if isinstance(value, Phrase):
            raise MeasurementError(self.field, self.text, value)
        return value

    def part(self, digits: str, unit: str, *, sign: float, side: str) -> _Part:
        value = sign * self.number(digits)
        return _Part(value, unit, side.strip(), last_place(digits, self.decimal))


def read(
    text: str,
    kind: Kind,
    *,
    field: str | Path,
    test_weight: float | None = None,
    default_unit: Unit | None = None,
    decimal: str = ".",
) -> Reading:
    """Read an amount of some kind, as a person writes it.

    Parameters
    ----------
    text : str
        A percentage after ± is one of the value, unless the value is a share.
    kind : Kind
        What the amount measures.
    field : str or Path
        What a refusal points at.
    test_weight : float, optional
        Weight of a volume of this seed, without which no volume is read as a
        weight. [kg/m³]
    default_unit : Unit, optional
        The unit of a number without one, shown beside where it is typed.
    decimal : str
        The decimal sign of the writer, ``.`` or ``,``.

    Raises
    ------
    MeasurementError
        For whatever is not one amount of this kind. Its sign is the caller's to check.

    Examples
    --------
    >>> from evenstand.engine.quantities.units import FOOT, RATE, TRAVEL
    >>> read("8 ft 3 in ± 1 in", TRAVEL, field="rolled").value / FOOT
    8.25
    >>> read("8 ft", RATE, field="rate")
    Traceback (most recent call last):
        ...
    evenstand.engine.quantities.errors.MeasurementError: rate is '8 ft': 8 ft is a length; this \
needs a rate by weight, such as 60 lb/ac
    """
    asked = _Question(text, kind, field, test_weight, default_unit, decimal)
    if len(text) > LONGEST:
        raise asked.refuse("enter something shorter, such as {example}")
    sides = [_parts(asked, side) for side in _GIVE_OR_TAKE.split(tidy(text))]
    if len(sides) > 2:
        raise asked.refuse("use ± only once, after the value")
    main, spread = sides[0], sides[-1] if len(sides) == 2 else ()
    if spread and not _relative(asked, spread):
        main, spread = _lend_unit(asked, main, spread)
    value = _total(asked, main)
    limits = _limits(asked, spread, value) if spread else 0.0
    if not all(part == 0 or LEAST <= abs(part) <= MOST for part in (value, limits)):
        raise asked.refuse("enter a realistic amount")
    unit = " ".join(part.unit for part in main)
    unit = unit or (default_unit.symbol if default_unit else "")
    kept = text if decimal == "." else rewritten(text, decimal=decimal, into=".")
    of = _size(asked, main[-1])
    return Reading(value, limits, unit, kept, step=main[-1].place * of, of=of)


def _parts(asked: _Question, side: str) -> tuple[_Part, ...]:
    """Take one side of ± apart: a number with its unit, or two as in 8 ft 3 in."""
    one = _ONE.fullmatch(side)
    if one is None:
        raise asked.refuse("enter {wanted}, such as {example}")
    sign, dollar, digits, unit = one.groups()
    factor = -1.0 if sign == "-" else 1.0
    unit = f"{dollar} {unit}".strip().replace("$ /", "$/")
    if not unit or measure(unit):
        return (asked.part(digits, unit, sign=factor, side=side),)
    if not _SEVERAL.fullmatch(side):
        raise _unknown(asked, unit)
    return tuple(
        asked.part(piece[1], piece[2], sign=factor, side=side) for piece in _PIECES.finditer(side)
    )


def _unknown(asked: _Question, unit: str) -> MeasurementError:
    if unclear := ambiguous(unit):
        need = "{unit} can mean more than one thing: use {better}"
        return asked.refuse(need, unit=unclear[0], better=say(unclear[1]))
    if _NUMBER_APART.search(unit):
        return asked.refuse("enter one number with its unit, such as {example}")
    if near := nearest(unit):
        need = "{unit} is not a unit we know; did you mean {near}?"
        return asked.refuse(need, unit=near[0], near=near[1])
    return asked.refuse(
        "{unit} is not a unit we know: enter {wanted}, such as {example}", unit=unit
    )


def _relative(asked: _Question, spread: tuple[_Part, ...]) -> bool:
    """Whether the limits are a percentage of the value."""
    found = measure(spread[0].unit)
    return found is not None and found.dimension == "share" != asked.kind.dimension


def _lend_unit(
    asked: _Question, main: tuple[_Part, ...], spread: tuple[_Part, ...]
) -> tuple[tuple[_Part, ...], tuple[_Part, ...]]:
    """Let the side of ± that has no unit use that of the other."""
    if not main[0].unit and len(spread) == 1:
        return (replace(main[0], unit=spread[0].unit),), spread
    if not spread[0].unit and len(main) > 1:
        raise asked.refuse("enter the unit after ± too, such as 1 {unit}", unit=main[-1].unit)
    return main, tuple(replace(part, unit=part.unit or main[0].unit) for part in spread)


def _total(asked: _Question, parts: tuple[_Part, ...]) -> float:
    sizes = [_size(asked, part) for part in parts]
    if len(parts) > 1:
        mixed = all((found := measure(part.unit)) and found.dimension in MIXED for part in parts)
        if not mixed or any(big <= small for big, small in pairwise(sizes)):
            raise asked.refuse("enter one number with its unit, such as {example}")
    return fsum(part.number * size for part, size in zip(parts, sizes, strict=True))


def _limits(asked: _Question, spread: tuple[_Part, ...], value: float) -> float:
    relative = _relative(asked, spread)
    limits = abs(value) * spread[0].number * PERCENT if relative else _total(asked, spread)
    if limits < 0:
        raise asked.refuse("enter 0 or more after ±")
    return limits


def _size(asked: _Question, part: _Part) -> float:
    """Return what one of the written unit is in SI."""
    if not part.unit:
        return _size_without_unit(asked)
    found = measure(part.unit)
    if found is None:
        raise _unknown(asked, part.unit)
    size = fit(found, asked.kind.dimension)
    if size is None and found.dimension.replace("volume", "mass") == asked.kind.dimension:
        size = _weigh(asked, part, found)
    if size is None:
        name = NAMES.get(found.dimension)
        need = "{given} is {name}; this needs {wanted}, such as {example}"
        if name is None:
            raise asked.refuse("{given} is not {wanted}, such as {example}", given=part.text)
        raise asked.refuse(need, given=part.text, name=say(name))
    return size


def _size_without_unit(asked: _Question) -> float:
    if asked.default_unit:
        return asked.default_unit.size
    if asked.kind.dimension in COUNTED:
        return 1.0
    if asked.kind.dimension == "share":
        raise asked.refuse("enter it with a percent sign, such as {example}")
    raise asked.refuse("enter the unit too, such as {example}")


def _weigh(asked: _Question, part: _Part, found: Measure) -> float:
    """Return the size by weight of a unit that has a volume in it."""
    if asked.test_weight is None:
        need = "{given} is {name}: enter this seed's test weight too, or enter {wanted}"
        need += ", such as {example}"
        raise asked.refuse(need, given=part.text, name=say(NAMES[found.dimension]))
    require_positive("test_weight", asked.test_weight, "kg/m³")
    above = found.dimension.startswith("volume")
    return found.size * asked.test_weight if above else found.size / asked.test_weight
