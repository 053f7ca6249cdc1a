"""Results as JSON: every quantity in its reader's unit, keys that stay."""

from collections.abc import Iterable
from math import isfinite
from typing import TYPE_CHECKING, Any

from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase, Style
from evenstand.engine.quantities.units import RATE, Kind
from evenstand.engine.quantities.working import Line
from evenstand.engine.statistics.budget import Estimate, Quantity, Share, budget, estimate

if TYPE_CHECKING:
    from evenstand.engine.calibration.choose import Candidate
    from evenstand.engine.catch.surer import Cure

Document = dict[str, Any]


def quantity(value: Estimate | Quantity, kind: Kind, style: Style) -> Document:
    """Write a value with its 95 % range and standard uncertainty.

    Parameters
    ----------
    value : Estimate or Quantity
        In SI; what is exact has no range.
    style : Style
        Whose unit it is written in.
    """
    ranged = value if isinstance(value, Estimate) else estimate(value, budget(value, {}))
    unit = style.unit(kind)
    parts = {"value": ranged.value, "low": ranged.low, "high": ranged.high, "u": ranged.u}
    sized = {key: _finite(part / unit.size) for key, part in parts.items()}
    return sized | {"unit": unit.symbol}


def _finite(number: float) -> float | None:
    """JSON has no infinity: a range without end is null."""
    return number if isfinite(number) else None


def working(lines: Iterable[Line], style: Style) -> list[Document]:
    """Write the lines of arithmetic."""
    return [
        {
            "say": style.write(line.say),
            "sum": line.sum(style),
            "value": line.value.value / style.unit(line.value.kind).size,
            "unit": style.unit(line.value.kind).symbol,
            "source": line.source,
        }
        for line in lines
    ]


def shares(budget: Iterable[Share]) -> list[Document]:
    """Write where an uncertainty comes from, as parts of the variance."""
    return [{"name": share.name, "share": share.part} for share in budget]


def candidate(notch: "Candidate", style: Style) -> Document:
    """Write a notch and what it would give."""
    return {
        "setting": notch.setting,
        "gear": notch.gear.name,
        "rate": quantity(notch.rate, RATE, style),
        "odds": notch.odds,
        "caught": notch.caught,
    }


def cure(found: "Cure", style: Style) -> Document:
    """Write what would make a result surer, and half the range that it leads to."""
    return {
        "share": found.name,
        "say": style.write(found.say),
        "half_range": found.reach,
        "reaches": found.reaches,
    }


def sentences(said: Iterable[Phrase], style: Style) -> list[str]:
    """Write sentences one by one."""
    return [style.write(text) for text in said]


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
