"""What is published on how thick a stand should be: advice with its source, open to change.

Whoever has a better table for the place hands it over instead. None of them
orders anything: a date, weeds, seed and money count too.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from ..quantities.errors import MeasurementError, require_positive
from ..quantities.phrases import say
from ..quantities.units import FOOT, SQUARE_FOOT

Basis = Literal["ground", "row", "intended"]
Word = Literal["", "aimed at", "adequate", "keep", "open", "think"]


@dataclass(frozen=True, slots=True)
class YieldStep:
    """From one thickness to another, what is said of it.

    ``low`` and ``high`` are plants per ground [1/m²], per length of row [1/m]
    or a share of the stand intended [-]; ``least`` and ``most`` the part of the
    full yield, where the source gives it; else ``word`` is what it says:
    aimed at, adequate, keep, left open, or think of sowing again.
    """

    low: float
    high: float
    least: float | None = None
    most: float | None = None
    word: Word = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class YieldTable:
    """One source's steps, the thickest first."""

    crop: str
    source: str
    basis: Basis
    steps: tuple[YieldStep, ...]

    def __post_init__(self) -> None:
        lows = [step.low for step in self.steps]
        if not lows or lows != sorted(lows, reverse=True):
            raise MeasurementError("steps", lows, say("enter the thickest stand first"))


def _yields(*rows: tuple[float, float, float, float]) -> tuple[YieldStep, ...]:
    return tuple(YieldStep(a / SQUARE_FOOT, b / SQUARE_FOOT, p, q) for a, b, p, q in rows)


def _two(aimed: tuple[float, float], adequate: tuple[float, float]) -> tuple[YieldStep, ...]:
    (a, b), (c, d) = aimed, adequate
    return (
        YieldStep(a / SQUARE_FOOT, b / SQUARE_FOOT, word="aimed at"),
        YieldStep(c / SQUARE_FOOT, d / SQUARE_FOOT, word="adequate"),
    )


def _per_foot(*rows: tuple[float, float]) -> tuple[YieldStep, ...]:
    highs = [None, *(plants for plants, _ in rows[:-1])]
    return tuple(
        YieldStep(a / FOOT, (a if high is None else high) / FOOT, part, part)
        for (a, part), high in zip(rows, highs, strict=True)
    )


TABLES = (
    YieldTable(
        crop="winter wheat",
        source="Penn State Extension",
        basis="ground",
        steps=(
            *_yields(
                (30, 35, 1.0, 1.0),
                (22, 28, 1.0, 1.0),
                (18, 21, 0.90, 0.95),
                (15, 18, 0.75, 0.80),
                (12, 14, 0.60, 0.70),
            ),
            YieldStep(0.0, 12 / SQUARE_FOOT, word="think"),
        ),
    ),
    YieldTable(
        crop="winter wheat",
        source="University of Guelph and Ontario field crop advisers, rows 7 to 7.5 in apart",
        basis="row",
        steps=_per_foot((20, 1.0), (10, 0.95), (7, 0.90), (6, 0.85), (5, 0.80)),
    ),
    YieldTable(
        crop="winter wheat",
        source="Kansas State University",
        basis="intended",
        steps=(
            YieldStep(0.50, 1.0, word="keep"),
            YieldStep(0.40, 0.50, word="open"),
            YieldStep(0.0, 0.40, word="think"),
        ),
    ),
    YieldTable(
        crop="canola",
        source="Canola Council of Canada",
        basis="ground",
        steps=_two((5, 8), (3, 4)),
    ),
    YieldTable(
        crop="alfalfa, seeded this spring",
        source="University of Wisconsin and seed growers' guides",
        basis="ground",
        steps=_two((25, 40), (12, 20)),
    ),
    YieldTable(
        crop="alfalfa, first hay year",
        source="University of Wisconsin and seed growers' guides",
        basis="ground",
        steps=_two((12, 20), (6, 10)),
    ),
)

Water = Literal["dryland", "irrigated"]
JUDGED_IRRIGATED = 90 * 86_400.0  # s after sowing, NRCS Montana, MT-5 (2009)
JUDGED_SOURCE = "NRCS Montana, MT-5 (2009)"


def tables_for(crop: str, tables: Sequence[YieldTable] = TABLES) -> tuple[YieldTable, ...]:
    """Those of a crop, by the beginning of its name."""
    return tuple(table for table in tables if table.crop.startswith(crop))


def step_of(
    table: YieldTable, stand: float, *, spacing: float | None = None, wish: float | None = None
) -> YieldStep | None:
    """Find where a stand lies in a table; None where it is thinner than the table goes.

    Parameters
    ----------
    stand : float
        [1/m²]
    spacing : float, optional
        For a table by length of row. [m]
    wish : float, optional
        Stand intended, for a table that speaks of that. [1/m²]

    Raises
    ------
    MeasurementError
        Where what the table needs is missing; ``field`` names it.
    """
    size = thickness(table, stand, spacing=spacing, wish=wish)
    return next((step for step in table.steps if size >= step.low), None)


def thickness(
    table: YieldTable, stand: float, *, spacing: float | None = None, wish: float | None = None
) -> float:
    """Turn a stand into what the table is written in.

    Parameters
    ----------
    stand : float
        [1/m²]
    spacing : float, optional
        [m]
    wish : float, optional
        [1/m²]
    """
    if table.basis == "row":
        require_positive("spacing", spacing or 0.0, "m")
        return stand * (spacing or 0.0)
    if table.basis == "intended":
        require_positive("wish", wish or 0.0, "plants/m²")
        return stand / (wish or 1.0)
    return stand
