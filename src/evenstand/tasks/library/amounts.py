"""Amounts of what is to be kept: a text alone is read, a text beside a value must say the same."""

from collections.abc import Mapping
from math import isclose
from typing import Any

from msgspec import Struct

from evenstand.book.carrying import parts
from evenstand.book.seed import Range
from evenstand.book.shape import Typed
from evenstand.engine.parsing.parse import LEAST, MOST, Reading, read
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.quantities.units import SEED_COUNT, SEED_WEIGHT, SHARE, Kind

from ..parsing.writing import RefusalsError
from ..parsing.written import as_written
from ..seed.kept import THOUSAND
from .measures import KINDS, ZERO

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
    done = reader.read(tree, known)
    if reader.refused:
        raise RefusalsError(reader.refused)
    return done


class _Reader:
    """Goes through a body and gathers what is refused."""

    def __init__(self) -> None:
        self.refused: list[MeasurementError] = []

    def read(
        self, tree: Any, known: type[Struct], *, place: str = "", weight: float | None = None
    ) -> Any:
        """Read the amounts of a struct, the test weight first: a rate in bushels needs it."""
        if not isinstance(tree, Mapping):
            return tree
        done = dict(tree)
        for name, kind in sorted(KINDS.get(known, {}).items(), key=_is_test_weight, reverse=True):
            if isinstance(done.get(name), Mapping):
                asked = kind if isinstance(kind, Kind) else kind(done)
                done[name] = self._amounts(done[name], asked, place=place + name, weight=weight)
                weight = _value(done[name]) if name == "test_weight" else weight
        for name, part, many in parts(known):
            if part in (Typed, Range) or not done.get(name):
                continue
            at = place + name
            if many and isinstance(done[name], list):
                done[name] = [
                    self.read(each, part, place=f"{at}[{i}].", weight=weight)
                    for i, each in enumerate(done[name])
                ]
            elif not many:
                done[name] = self.read(done[name], part, place=f"{at}.", weight=weight)
        return done

    def _amounts(self, amount: Any, kind: Kind, *, place: str, weight: float | None) -> Any:
        """Read an amount, or the two ends of a range."""
        ends = [end for end in ("low", "high") if isinstance(amount.get(end), Mapping)]
        if not ends:
            return self._amount(amount, kind, place=place, weight=weight)
        read_ends = {
            end: self._amount(amount[end], kind, place=f"{place}.{end}", weight=weight)
            for end in ends
        }
        return {**amount, **read_ends}

    def _amount(self, amount: Any, kind: Kind, *, place: str, weight: float | None) -> Any:
        try:
            return _read(amount, kind, place=place, weight=weight)
        except MeasurementError as refused:
            self.refused.append(refused)
            return {"value": 1.0, **amount}


def _is_test_weight(item: tuple[str, object]) -> bool:
    return item[0] == "test_weight"


def _value(amount: Any) -> float | None:
    value = amount.get("value")
    return value if _is_number(value) and value > 0 else None


def _is_number(value: object) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool)


def _read(amount: Any, kind: Kind, *, place: str, weight: float | None) -> Any:
    text = amount.get("text", "")
    if not isinstance(text, str) or not _is_number(amount.get("value", 0)):
        return amount
    if "value" not in amount:
        value, limits = _said(text, kind, place=place, weight=weight)
        amount = {**amount, "value": value} | ({"give_or_take": limits} if limits else {})
    _check_size(amount, place, zero=place.rpartition(".")[2] in ZERO)
    typed = Typed(value=amount["value"], give_or_take=_limits(amount), text=text)
    if not text.strip():
        return {**amount, "text": as_written(typed, kind, of=_of(kind))}
    _check_same(typed, _said(text, kind, place=place, weight=weight), place=place, kind=kind)
    return amount


def _said(text: str, kind: Kind, *, place: str, weight: float | None) -> tuple[float, float]:
    """Read a text, into the unit in which its field is kept."""
    zero = kind is SHARE and not text.strip().strip("0.")
    usual = kind.us if kind is SEED_COUNT else None
    found: Reading = read(
        "0 %" if zero and text.strip() else text,
        kind,
        field=place,
        test_weight=weight,
        default_unit=usual,
    )
    return found.value * _of(kind), found.give_or_take * _of(kind)


def _of(kind: Kind) -> int:
    """The weight of seeds is kept for a thousand of them."""
    return THOUSAND if kind is SEED_WEIGHT else 1


def _limits(amount: Any) -> float:
    limits = amount.get("give_or_take", 0.0)
    return limits if _is_number(limits) else 0.0


def _check_size(amount: Any, place: str, *, zero: bool) -> None:
    value = amount["value"]
    if not (value >= 0 if zero else value > 0):
        need = say("give 0 or more") if zero else say("give a value above 0")
        raise MeasurementError(place, value, need)
    if not all(part == 0 or LEAST <= part <= MOST for part in (value, _limits(amount))):
        raise MeasurementError(place, value, say("give an amount that can be true"))


def _check_same(typed: Typed, said: tuple[float, float], *, place: str, kind: Kind) -> None:
    pairs = zip((typed.value, typed.give_or_take), said, strict=True)
    if not all(isclose(kept, read_, rel_tol=SAME) for kept, read_ in pairs):
        raise MeasurementError(place, typed.value, _differ(said[0] / _of(kind), kind))


def _differ(value: float, kind: Kind) -> Phrase:
    return say(
        "its text says {amount}: give the value of that in SI, or the text alone",
        amount=kind(value, 6),
    )
