"""How people write units: one table, English and Spanish.

A unit is one spelled name, or one over another: ``lb/ac``, ``seeds per sq ft``.
"""

import re
from dataclasses import dataclass
from difflib import get_close_matches

from ..quantities import units as u
from ..quantities.phrases import System


@dataclass(frozen=True, slots=True)
class Measure:
    """What a spelled unit measures, and its size in SI."""

    dimension: str
    size: float

    def per(self, below: "Measure") -> "Measure":
        """Return this unit over another."""
        return Measure(f"{self.dimension}/{below.dimension}", self.size / below.size)


_TABLE: dict[str, tuple[tuple[float, str], ...]] = {
    "length": (
        (u.MILLIMETRE, "mm, millimetre, millimetres, millimeter, millimeters"),
        (u.MILLIMETRE, "milimetro, milimetros"),
        (u.CENTIMETRE, "cm, centimetre, centimetres, centimeter, centimeters"),
        (u.CENTIMETRE, "centimetro, centimetros"),
        (u.METRE, "m, metre, metres, meter, meters, metro, metros"),
        (u.KILOMETRE, "km, kilometre, kilometres, kilometer, kilometers, kilometro, kilometros"),
        (u.INCH, 'in, inch, inches, ", pulgada, pulgadas, pulg'),
        (u.FOOT, "ft, foot, feet, ', pie, pies"),
        (u.YARD, "yd, yds, yard, yards, yarda, yardas"),
        (u.MILE, "mi, mile, miles, milla, millas"),
    ),
    "area": (
        (u.SQUARE_INCH, "in2, sq in, square inch, square inches, pulgadas cuadradas"),
        (u.SQUARE_FOOT, "ft2, sq ft, sqft, square foot, square feet, pie cuadrado, pies cuadrados"),
        (u.SQUARE_YARD, "yd2, sq yd, square yard, square yards, yardas cuadradas"),
        (u.SQUARE_METRE, "m2, sq m, square metre, square metres, square meter, square meters"),
        (u.SQUARE_METRE, "metro cuadrado, metros cuadrados"),
        (u.SQUARE_KILOMETRE, "km2"),
        (u.ACRE, "ac, acre, acres"),
        (u.HECTARE, "ha, hectare, hectares, hectarea, hectareas"),
    ),
    "mass": (
        (u.MILLIGRAM, "mg, milligram, milligrams, miligramo, miligramos"),
        (u.GRAM, "g, gram, grams, gramme, grammes, gramo, gramos"),
        (u.KILOGRAM, "kg, kgs, kilo, kilos, kilogram, kilograms, kilogramo, kilogramos"),
        (u.TONNE, "t, tonne, tonnes, metric ton, metric tons, tonelada, toneladas"),
        (u.OUNCE, "oz, ounce, ounces, onza, onzas"),
        (u.POUND, "lb, lbs, #, pound, pounds, libra, libras"),
        (u.HUNDREDWEIGHT, "cwt, hundredweight"),
        (u.SHORT_TON, "short ton, short tons"),
    ),
    "volume": (
        (u.MILLILITRE, "ml, cm3, cc, millilitre, millilitres, milliliter, milliliters"),
        (u.LITRE, "l, litre, litres, liter, liters, litro, litros"),
        (u.HECTOLITRE, "hl, hectolitre, hectolitres, hectoliter, hectoliters"),
        (u.HECTOLITRE, "hectolitro, hectolitros"),
        (u.CUBIC_METRE, "m3, cubic metre, cubic metres, cubic meter, cubic meters"),
        (u.CUBIC_METRE, "metro cubico, metros cubicos"),
        (u.CUBIC_INCH, "in3, cu in, cubic inch, cubic inches"),
        (u.CUBIC_FOOT, "ft3, cu ft, cubic foot, cubic feet, pie cubico, pies cubicos"),
        (u.GALLON, "gal, gallon, gallons, galon, galones"),
        (u.BUSHEL, "bu, bushel, bushels"),
    ),
    "time": (
        (u.SECOND, "s, sec, secs, second, seconds, segundo, segundos"),
        (u.MINUTE, "min, mins, minute, minutes, minuto, minutos"),
        (u.HOUR, "h, hr, hrs, hour, hours, hora, horas"),
    ),
    "length/time": ((u.MILE_PER_HOUR, "mph"), (u.KM_PER_HOUR, "kph, kmh, kmph")),
    "share": ((u.PERCENT, "%, percent, per cent, pct, por ciento"),),
    "money": ((1.0, "$, usd, dollar, dollars, dolar, dolares"), (0.01, "¢, cent, cents")),
    "seeds": ((1.0, "seeds, seed, kernels, kernel, semilla, semillas, grano, granos"),),
    "plants": ((1.0, "plants, plant, planta, plantas"),),
    "turns": ((1.0, "turns, turn, rev, revs, revolution, revolutions, vuelta, vueltas"),),
    "rows": ((1.0, "rows, row, hilera, hileras, surco, surcos"),),
    "catches": ((1.0, "catches, catch, muestra, muestras"),),
    "bags": ((1.0, "bags, bag, bolsa, bolsas, saco, sacos"),),
}
SPELLINGS = {
    spelling: Measure(dimension, size)
    for dimension, rows in _TABLE.items()
    for size, spellings in rows
    for spelling in spellings.split(", ")
}
COUNTED = ("number", "seeds", "plants", "turns", "rows", "catches", "bags")

_MEASURED = ("length", "area", "mass", "volume")
_SPELLED = re.compile(
    rf"(?<![^\W\d_])(?:{'|'.join(sorted(map(re.escape, SPELLINGS), key=len, reverse=True))})(?!\w)"
)


def systems(text: str) -> set[System]:
    """Return of which systems the units in a text are; those of both count for none.

    Examples
    --------
    >>> sorted(systems("7 ft 11 in")), sorted(systems("40 kg/ha, 60 lb/ac")), systems("5%, 2 h")
    (['us'], ['metric', 'us'], set())
    """
    spelled = (SPELLINGS[each] for each in _SPELLED.findall(text.casefold()))
    return {_system(each) for each in spelled if each.dimension in (*_MEASURED, "length/time")}


def _system(unit: Measure) -> System:
    """Metric units are powers of ten in SI, km/h aside."""
    mantissa, _, _ = f"{unit.size:.12e}".partition("e")
    return "metric" if unit.size == u.KM_PER_HOUR or float(mantissa) == 1 else "us"


# Written alike by people who mean different things.
AMBIGUOUS = {
    "ton": "t (1,000 kg) or short ton (2,000 lb)",
    "tons": "t (1,000 kg) or short tons (2,000 lb)",
    "T": "t (1,000 kg) or short ton (2,000 lb)",
    "Mg": "mg or t",
    "MG": "mg or t",
    "gr": "g",
    "grain": "seed or g",
    "grains": "seeds or g",
}

NAMES = {
    "length": "a length",
    "area": "an area",
    "mass": "a weight",
    "volume": "a volume",
    "time": "a time",
    "share": "a share",
    "money": "an amount of money",
    "number": "a number",
    "seeds": "a number of seeds",
    "plants": "a number of plants",
    "turns": "a number of turns",
    "rows": "a number of rows",
    "catches": "a number of catches",
    "bags": "a number of bags",
    "mass/area": "a rate by weight",
    "volume/area": "a rate by volume",
    "1/area": "a number per area",
    "seeds/area": "a number of seeds per area",
    "plants/area": "a number of plants per area",
    "1/mass": "a number per weight",
    "seeds/mass": "a number of seeds per weight",
    "mass/seeds": "a weight per 1,000 seeds",
    "mass/volume": "a test weight",
    "length/time": "a speed",
    "area/time": "an area per time",
    "length/turns": "a length per turn",
    "money/area": "a cost per area",
    "money/mass": "a price by weight",
    "money/volume": "a price by volume",
}

# A usual amount of each kind, in its US unit; of a kind not named here, ten.
USUAL = {
    "spacing": 7.5,
    "length": 8.0,
    "travel": 8.0,
    "ground": 400.0,
    "field": 40.0,
    "catch": 8.0,
    "load": 500.0,
    "rate": 60.0,
    "density": 22.0,
    "plants": 16.0,
    "seed count": 18_000.0,
    "seed weight": 25.0,
    "test weight": 56.0,
    "speed": 5.0,
    "seconds": 45.0,
    "minutes": 20.0,
    "hours": 2.0,
    "share": 5.0,
    "catches": 3.0,
    "money": 180.0,
    "cost": 40.0,
    "price": 3.5,
}

_OVER = re.compile(r"\s*/\s*|(?:^|\s+)(?:per|por)\s+")
_POWER = re.compile(r"\s+([a-z]+[23]?)-1$")
_THOUSAND = re.compile(r"(?:1,?000|thousand|mil)(?: (?:seeds|kernels|semillas|granos))?")
_PLAIN = str.maketrans("áéíóúüñ²³⁻¹", "aeiouun23-1", "^.")


def measure(text: str) -> Measure | None:
    """Return what a written unit measures, None where it is not known.

    Examples
    --------
    >>> measure("seeds per sq. ft.").dimension
    'seeds/area'
    """
    if ambiguous(text):
        return None
    text = _fold(text)
    if text in SPELLINGS:
        return SPELLINGS[text]
    above, *rest = _OVER.split(text)
    if len(rest) != 1:
        return None
    top = SPELLINGS.get(above) if above else Measure("1", 1.0)
    below = Measure("seeds", 1000.0) if _THOUSAND.fullmatch(rest[0]) else SPELLINGS.get(rest[0])
    return top.per(below) if top and below else None


def fit(found: Measure, dimension: str) -> float | None:
    """Return the size of a unit where ``dimension`` is wanted, None where it does not fit.

    What is counted need not be named (``22/ft²``), nor that a length is one
    per turn, nor that so many grams are those of 1,000 seeds.
    """
    above, _, below = dimension.partition("/")
    unnamed = above in COUNTED and found.dimension == f"1/{below}"
    of_a_turn = dimension == "length/turns" and found.dimension == "length"
    if found.dimension == dimension or unnamed or of_a_turn:
        return found.size
    of_a_thousand = dimension == "mass/seeds" and found == SPELLINGS["g"]
    return found.size / 1000 if of_a_thousand else None


def ambiguous(text: str) -> tuple[str, str] | None:
    """Return the part of a unit that can mean two things, and what to write."""
    for part in re.split(r"\s*/\s*|\s+per\s+", text.strip()):
        for spelled in (part.rstrip("."), _fold(part)):
            if spelled in AMBIGUOUS:
                return spelled, AMBIGUOUS[spelled]
    return None


def nearest(text: str) -> tuple[str, str] | None:
    """Return the part of a unit that is not known, and the spelling nearest to it."""
    parts = [part for part in _OVER.split(_fold(text)) if part]
    strange = [p for p in parts if p not in SPELLINGS and not _THOUSAND.fullmatch(p)]
    if len(parts) > 2 or not strange:
        return None
    near = get_close_matches(strange[0], SPELLINGS, n=1)
    return (strange[0], near[0]) if near else None


def _fold(text: str) -> str:
    """Drop what does not tell units apart: capitals, accents, full stops, powers' dress."""
    return _POWER.sub(r"/\1", " ".join(text.casefold().translate(_PLAIN).split()))
