"""Trade units as their size in SI, the kinds of amount people read, and amounts.

Multiply to come in, divide to go out. Inside the engine everything is SI:
kg, m, m², m/turn, kg/m², 1/m², m/s, s, m³; a share is a plain fraction.

References
----------
NIST SP 811 (2008), appendix B: exact factors. The acre is that of the
international foot. A US bushel is 2150.42 in³ and a US gallon 231 in³
(NIST Handbook 44, appendix C). The short hundredweight and ton are the US ones.
"""

from dataclasses import dataclass
from typing import Literal, cast

Operator = Literal["×", "÷", "+", "−"]

MILLIMETRE = 0.001
CENTIMETRE = 0.01
METRE = 1.0
KILOMETRE = 1000.0
INCH = 0.0254
FOOT = 0.3048
YARD = 0.9144
MILE = 1609.344

SQUARE_INCH = 0.00064516
SQUARE_FOOT = 0.09290304
SQUARE_YARD = 0.83612736
SQUARE_METRE = 1.0
ACRE = 4046.8564224
HECTARE = 10_000.0
SQUARE_KILOMETRE = 1_000_000.0

MILLIGRAM = 1e-6
GRAM = 0.001
KILOGRAM = 1.0
TONNE = 1000.0
OUNCE = 0.028349523125
POUND = 0.45359237
HUNDREDWEIGHT = 45.359237
SHORT_TON = 907.18474

MILLILITRE = 1e-6
LITRE = 0.001
HECTOLITRE = 0.1
CUBIC_METRE = 1.0
CUBIC_INCH = 0.000016387064
CUBIC_FOOT = 0.028316846592
GALLON = 0.003785411784
BUSHEL = 0.03523907016688

SECOND = 1.0
MINUTE = 60.0
HOUR = 3600.0

POUND_PER_ACRE = POUND / ACRE
KG_PER_HECTARE = 1 / HECTARE
POUND_PER_BUSHEL = POUND / BUSHEL
KG_PER_HECTOLITRE = 1 / HECTOLITRE
MILE_PER_HOUR = MILE / HOUR
KM_PER_HOUR = KILOMETRE / HOUR
PERCENT = 0.01


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit of the trade: how it is written and its size in SI.

    ``noun`` marks a counted thing (``rows``): it is written with a plural.
    """

    symbol: str
    size: float
    noun: bool = False


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of amount: its dimension and the unit each system reads it in.

    A dimension is a name or one name over another, ``mass/area``; what is
    counted has its own, so that plants are not taken for seeds.
    """

    name: str
    dimension: str
    us: Unit
    metric: Unit

    def __call__(self, value: float, digits: int | None = None) -> "Amount":
        """Return ``value``, in SI, as an amount of this kind."""
        return Amount(value, self, digits)


class _Joined:
    """What can be joined with amounts to a line of arithmetic, as it is written on paper.

    Nothing is computed: ``RATE(60) / SHARE(0.8)`` are the terms of a line,
    joined from left to right.
    """

    __slots__ = ()

    def __mul__(self, amount: "Amount") -> "Terms":
        return self._join("×", amount)

    def __truediv__(self, amount: "Amount") -> "Terms":
        return self._join("÷", amount)

    def __add__(self, amount: "Amount") -> "Terms":
        return self._join("+", amount)

    def __sub__(self, amount: "Amount") -> "Terms":
        return self._join("−", amount)

    def _join(self, operator: Operator, amount: "Amount") -> "Terms":
        """Put an amount behind what is joined already, or behind this amount alone."""
        before = self if isinstance(self, Terms) else Terms(cast(Amount, self))
        return Terms(before.first, (*before.rest, (operator, amount)))


@dataclass(frozen=True, slots=True)
class Amount(_Joined):
    """A number of some kind, in SI, written in the unit its reader chose.

    ``digits`` are significant digits; None leaves them to what it is written
    in. A whole number of things shows them all.
    """

    value: float
    kind: Kind
    digits: int | None = None


@dataclass(frozen=True, slots=True)
class Terms(_Joined):
    """Amounts joined by × and ÷, or by + and −, from left to right."""

    first: Amount
    rest: tuple[tuple[Operator, Amount], ...] = ()


def _same(name: str, dimension: str, unit: Unit) -> Kind:
    return Kind(name, dimension, unit, unit)


SPACING = Kind("spacing", "length", Unit("in", INCH), Unit("cm", CENTIMETRE))
LENGTH = Kind("length", "length", Unit("ft", FOOT), Unit("m", METRE))
TRAVEL = Kind("travel", "length/turns", Unit("ft/turn", FOOT), Unit("m/turn", METRE))
GROUND = Kind("ground", "area", Unit("ft²", SQUARE_FOOT), Unit("m²", 1.0))
FIELD = Kind("field", "area", Unit("ac", ACRE), Unit("ha", HECTARE))
CATCH = Kind("catch", "mass", Unit("oz", OUNCE), Unit("g", GRAM))
SCALE_STEP = _same("scale step", "mass", Unit("g", GRAM))
LOAD = Kind("load", "mass", Unit("lb", POUND), Unit("kg", KILOGRAM))
RATE = Kind("rate", "mass/area", Unit("lb/ac", POUND_PER_ACRE), Unit("kg/ha", KG_PER_HECTARE))
DENSITY = Kind("density", "seeds/area", Unit("seeds/ft²", 1 / SQUARE_FOOT), Unit("seeds/m²", 1.0))
PLANTS = Kind("plants", "plants/area", Unit("plants/ft²", 1 / SQUARE_FOOT), Unit("plants/m²", 1.0))
SEED_COUNT = Kind("seed count", "seeds/mass", Unit("seeds/lb", 1 / POUND), Unit("seeds/kg", 1.0))
SEED_WEIGHT = _same("seed weight", "mass/seeds", Unit("g per 1,000", GRAM / 1000))
TEST_WEIGHT = Kind(
    "test weight",
    "mass/volume",
    Unit("lb/bu", POUND_PER_BUSHEL),
    Unit("kg/hL", KG_PER_HECTOLITRE),
)
VOLUME = Kind("volume", "volume", Unit("bu", BUSHEL), Unit("L", LITRE))
SPEED = Kind("speed", "length/time", Unit("mph", MILE_PER_HOUR), Unit("km/h", KM_PER_HOUR))
WORK_RATE = Kind("work rate", "area/time", Unit("ac/h", ACRE / HOUR), Unit("ha/h", HECTARE / HOUR))
SECONDS = _same("seconds", "time", Unit("s", SECOND))
MINUTES = _same("minutes", "time", Unit("min", MINUTE))
HOURS = _same("hours", "time", Unit("h", HOUR))
SHARE = _same("share", "share", Unit("%", PERCENT))
NUMBER = _same("number", "number", Unit("", 1.0))
TURNS = _same("turns", "turns", Unit("turns", 1.0, noun=True))
ROWS = _same("rows", "rows", Unit("rows", 1.0, noun=True))
CATCHES = _same("catches", "catches", Unit("catches", 1.0, noun=True))
SEEDS = _same("seeds", "seeds", Unit("seeds", 1.0, noun=True))
BAGS = _same("bags", "bags", Unit("bags", 1.0, noun=True))
MONEY = _same("money", "money", Unit("$", 1.0))
COST = Kind("cost", "money/area", Unit("$/ac", 1 / ACRE), Unit("$/ha", 1 / HECTARE))
PRICE = Kind("price", "money/mass", Unit("$/lb", 1 / POUND), Unit("$/kg", 1.0))
