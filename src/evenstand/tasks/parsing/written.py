"""Shares and amounts written as they stand on a tag or were typed."""

from math import isclose

from evenstand.book.kinds.shape import Typed
from evenstand.engine.parsing.parse import read
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.units import PERCENT, SEED_COUNT, Kind, Unit


def percent(share: float) -> str:
    """Write a share as it stands on a tag."""
    return f"{share / PERCENT:.10g}%"


def as_written(typed: Typed, kind: Kind, *, of: int = 1) -> str:
    """Write an amount as it was typed; where its text does not say it, from its value.

    Parameters
    ----------
    of : int
        Things that the value is of, where the kind is of one.
    """
    value, limits = typed.value / of, typed.give_or_take / of
    try:
        found = read(typed.text, kind, field=kind.name, default_unit=_usual(kind))
    except MeasurementError:
        return _from_value(value, limits, kind)
    same = isclose(found.value, value, rel_tol=1e-9) and isclose(
        found.give_or_take, limits, rel_tol=1e-9
    )
    return typed.text if same else _from_value(value, limits, kind)


def _usual(kind: Kind) -> Unit | None:
    return kind.us if kind is SEED_COUNT else None


def _from_value(value: float, limits: float, kind: Kind) -> str:
    unit = kind.metric
    spread = f" ± {limits / unit.size:.12g}" if limits else ""
    return f"{value / unit.size:.12g}{spread} {unit.symbol}"
