"""Amounts of what is to be kept: a text alone is read, a text beside a value must say the same."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from math import isclose
from typing import Any, TypeGuard

from msgspec import Struct

from evenstand.book.kinds.details import Detail, details
from evenstand.book.kinds.seed import Range
from evenstand.book.kinds.shape import Typed
from evenstand.engine.parsing.parse import LEAST, MOST, Reading, read
from evenstand.engine.quantities.errors import MeasurementError, Path
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.quantities.units import SEED_COUNT, SHARE, Kind

from ..parsing.writing import RefusalsError
from ..parsing.written import as_written

SAME = 1e-3  # between a value and a text that was rounded for its reader


def read_amounts(tree: Any, known: type[Struct]) -> Any:
    """Read every amount in a body that came as JSON, before it is made into its type.

    An amount that is a text alone gets its value, one that is a value alone
    its text. What is no amount at all is left to whoever makes the type.

    Parameters
    ----------
    tree : object
        As decoded.
    known : type
        Of the body.

    Raises
    ------
    RefusalsError
        Each under the place of its amount, such as ``bags[0].weight``.
    """
    reader = _Reader()
    done = reader.read(tree, known, place=Path())
    if reader.refused:
        raise RefusalsError(reader.refused)
    return done


class _Reader:
    """Goes through a body and gathers what is refused."""

    def __init__(self) -> None:
        self.refused: list[MeasurementError] = []

    def read(
        self, tree: Any, known: type[Struct], *, place: Path, weight: float | None = None
    ) -> Any:
        """Read the amounts of a struct, the test weight first: a rate in bushels needs it."""
        if not isinstance(tree, Mapping):
            return tree
        done = dict(tree)
        for each in sorted(details(known), key=lambda detail: detail.name != "test_weight"):
            found, at = done.get(each.name), place.part(each.name)
            if each.part is None or found is None:
                continue
            read = self._way(each, done, weight)
            if each.many and isinstance(found, list):
                done[each.name] = [read(one, at.part(i)) for i, one in enumerate(found, start=1)]
            elif not each.many:
                done[each.name] = read(found, at)
            if each.name == "test_weight":
                weight = _value(done[each.name])
        return done

    def _way(
        self, detail: Detail, beside: Mapping[str, Any], weight: float | None
    ) -> Callable[[Any, Path], Any]:
        """Return how to read what stands in a field, at a place."""
        part = detail.part
        if part is Typed:
            return lambda found, at: self._amount(found, detail, beside, place=at, weight=weight)
        if part is Range:
            return lambda found, at: self._range(found, detail, place=at, weight=weight)
        return lambda found, at: part and self.read(found, part, place=at, weight=weight)

    def _range(self, found: Any, detail: Detail, *, place: Path, weight: float | None) -> Any:
        """Read the two ends of a range."""
        if not isinstance(found, Mapping):
            return found
        ends = {
            end: self._amount(found[end], detail, {}, place=place.part(end), weight=weight)
            for end in ("low", "high")
            if end in found
        }
        return {**found, **ends}

    def _amount(
        self,
        amount: Any,
        detail: Detail,
        beside: Mapping[str, Any],
        *,
        place: Path,
        weight: float | None,
    ) -> Any:
        if not isinstance(amount, Mapping):
            return amount
        kind = detail.kind(str(amount.get("text")), lambda field: str(beside.get(field)))
        try:
            return _read(amount, _Asked(place, kind, detail, weight))
        except MeasurementError as refused:
            self.refused.append(refused)
            return {"value": 1.0, **amount}


@dataclass(frozen=True, slots=True)
class _Asked:
    """What an amount is read as: its place, what it measures, the test weight of its seed."""

    place: Path
    kind: Kind
    detail: Detail
    weight: float | None

    def refuse(self, given: object, need: Phrase) -> MeasurementError:
        return MeasurementError(self.place, given, need)


def _value(amount: Any) -> float | None:
    value = amount.get("value") if isinstance(amount, Mapping) else None
    return value if _is_number(value) and value > 0 else None


def _is_number(value: Any) -> TypeGuard[float]:
    return isinstance(value, int | float) and not isinstance(value, bool)


def _read(amount: Any, asked: _Asked) -> Any:
    text = amount.get("text", "")
    if not isinstance(text, str) or not _is_number(amount.get("value", 0)):
        return amount
    if "value" not in amount:
        value, limits = _said(text, asked)
        amount = {**amount, "value": value} | ({"give_or_take": limits} if limits else {})
    _check_size(amount, asked)
    typed = Typed(value=amount["value"], give_or_take=_limits(amount), text=text)
    if not text.strip():
        return {**amount, "text": as_written(typed, asked.kind, of=asked.detail.of)}
    _check_same(typed, _said(text, asked), asked)
    return amount


def _said(text: str, asked: _Asked) -> tuple[float, float]:
    """Read a text, into the unit in which its field is kept."""
    zero = asked.kind is SHARE and not text.strip().strip("0.")
    found: Reading = read(
        "0%" if zero and text.strip() else text,
        asked.kind,
        field=asked.place,
        test_weight=asked.weight,
        default_unit=asked.kind.us if asked.kind is SEED_COUNT else None,
    )
    return found.value * asked.detail.of, found.give_or_take * asked.detail.of


def _limits(amount: Any) -> float:
    limits = amount.get("give_or_take", 0.0)
    return limits if _is_number(limits) else 0.0


def _check_size(amount: Any, asked: _Asked) -> None:
    value, zero = amount["value"], asked.detail.zero
    if not (value >= 0 if zero else value > 0):
        raise asked.refuse(value, say("enter 0 or more") if zero else say("enter a value above 0"))
    if not all(part == 0 or LEAST <= part <= MOST for part in (value, _limits(amount))):
        raise asked.refuse(value, say("enter a realistic amount"))


def _check_same(typed: Typed, said: tuple[float, float], asked: _Asked) -> None:
    pairs = zip((typed.value, typed.give_or_take), said, strict=True)
    if not all(isclose(kept, read_, rel_tol=SAME) for kept, read_ in pairs):
        need = say(
            "its text says {amount}: enter that value in SI, or the text alone",
            amount=asked.kind(said[0] / asked.detail.of, 6),
        )
        raise asked.refuse(typed.value, need)
