"""Ground measured by a phone's position: how far a wheel rolled, how large a field is.

A position is known to a few metres: good for a field, poor for a wheel, and
the answer says so.
"""

import json
import re
from dataclasses import dataclass
from math import fsum, hypot, isfinite, sqrt
from typing import Any

from geographiclib.geodesic import Geodesic

from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.quantities.units import FIELD, LENGTH, SHARE, TRAVEL, TURNS, Amount
from evenstand.engine.quantities.working import Line
from evenstand.engine.statistics.budget import Estimate, estimate, uncertain
from evenstand.engine.statistics.budget import budget as shares_of

from .outline import Position, read_outline

# A circle that holds 95 % of what scatters alike both ways: √(−2 ln 0.05) standard deviations.
PER_CIRCLE = 2.4477
MOST_FIXES = 500
TAPE = 0.005  # what a tape does for a wheel without pains; common practice, no source
CAUSE = "GPS point"

_FIX = re.compile(r"(-?\d+(?:\.\d+)?)[\s,;]+(-?\d+(?:\.\d+)?)[\s,;]*±?\s*(\d+(?:\.\d+)?)\s*m?")


@dataclass(frozen=True, slots=True)
class Fix:
    """A position as a phone tells it [degree], and the radius that holds it 19 times in 20. [m]"""

    latitude: float
    longitude: float
    accuracy: float

    @property
    def u(self) -> float:
        """Standard uncertainty along any one line. [m]"""
        return self.accuracy / PER_CIRCLE


@dataclass(frozen=True, kw_only=True)
class Rolled:
    """Ground for one turn [m], what is best done about it, and the arithmetic."""

    per_turn: Estimate
    text: str
    say: Phrase
    working: tuple[Line, ...]


@dataclass(frozen=True, kw_only=True)
class Walked:
    """A field walked round: its area [m²], its outline as GeoJSON, the arithmetic."""

    area: Estimate
    outline: str
    say: Phrase
    working: tuple[Line, ...]


def read_fixes(text: str, *, least: int) -> tuple[Fix, ...]:
    """Read positions, one to a line: latitude, longitude, ± radius in metres.

    Raises
    ------
    MeasurementError
        Naming the line, and for too few or too many.
    """
    lines = [line for line in text.splitlines() if line.strip()]
    if not least <= len(lines) <= MOST_FIXES:
        need = say("enter {least} to {most} GPS points, one per line", least=least, most=MOST_FIXES)
        raise MeasurementError("points", len(lines), need)
    return tuple(_fix(line) for line in lines)


def _fix(line: str) -> Fix:
    found = _FIX.fullmatch(line.strip())
    numbers = [float(part) for part in found.groups()] if found else [0.0, 0.0, 0.0]
    latitude, longitude, accuracy = numbers
    good = abs(latitude) <= 90 and abs(longitude) <= 180 and 0 < accuracy < 10_000
    if not good or not all(isfinite(number) for number in numbers):
        need = say("enter a GPS point as latitude, longitude ± meters, such as 45.1234, -108.5 ± 4")
        raise MeasurementError("points", line, need)
    return Fix(latitude, longitude, accuracy)


def rolled(start: Fix, end: Fix, *, turns: int) -> Rolled:
    """Work out the ground for one turn from where it began and ended.

    per turn = distance ÷ turns, u = √(u₁² + u₂²) ÷ turns: what both positions
    are off alike falls out, so that this is rather too much than too little.

    Raises
    ------
    MeasurementError
        For turns below 1, and where both ends are one place.

    References
    ----------
    C. F. F. Karney (2013), Algorithms for geodesics, Journal of Geodesy 87,
    43–55. W3C Geolocation: accuracy at 95% (not read).
    """
    if turns < 1:
        raise MeasurementError(
            "turns", turns, say("enter a whole number of {least} or more", least=1)
        )
    distance = _apart(start, end)
    u = hypot(start.u, end.u)
    if not distance > u:
        need = say("roll farther: both ends are within the GPS error")
        raise MeasurementError("points", round(distance, 1), need)
    quantity = uncertain(distance, u, CAUSE)
    found = estimate(quantity / turns, shares_of(quantity / turns, {}))
    reach = (found.high - found.low) / 2
    share = SHARE(found.u / found.value)
    near = found.u / found.value <= 2 * TAPE
    advice = (
        say("One turn rolls {ground}, good to ± {share}.", ground=_m(found.value), share=share)
        if near
        else say(
            "One turn rolls {ground}, good to only ± {share}. A tape over five "
            "turns is better. Use the tape, or roll much farther.",
            ground=_m(found.value),
            share=share,
        )
    )
    return Rolled(
        per_turn=found,
        text=f"{found.value:.3f} ± {reach:.3f} m",
        say=advice,
        working=(
            Line(
                say("Distance between the two GPS points, on the ellipsoid"),
                LENGTH(distance),
                source="Karney (2013)",
            ),
            Line(
                say("Distance per turn: distance ÷ turns"),
                TRAVEL(found.value),
                LENGTH(distance) / TURNS(turns),
            ),
        ),
    )


def walked(fixes: tuple[Fix, ...]) -> Walked:
    """Work out a field from the positions along its edge, in the order walked.

    u(area) = ½ √Σ (uᵢ · distance between the neighbours of i)²

    Raises
    ------
    MeasurementError
        As `outline.read_outline`, under ``points``.

    References
    ----------
    Propagation of JCGM 100:2008 (GUM), 5.1.2, through the area of a polygon by
    its corners.
    """
    outline = json.dumps(_polygon(fixes), separators=(",", ":"))
    try:
        area = read_outline(outline).area
    except MeasurementError as refused:
        raise MeasurementError("points", refused.given, refused.need) from None
    around = zip(fixes[-1:] + fixes[:-1], fixes, fixes[1:] + fixes[:1], strict=True)
    u = sqrt(fsum((fix.u * _apart(a, b)) ** 2 for a, fix, b in around)) / 2
    quantity = uncertain(area, u, CAUSE)
    found = estimate(quantity, shares_of(quantity, {}))
    told = say(
        "As walked, the field is {area} ({low} to {high}). That range does not "
        "include corners you cut or edge strips you don't seed.",
        area=FIELD(area, 4),
        low=FIELD(found.low),
        high=FIELD(found.high),
    )
    return Walked(
        area=found,
        outline=outline,
        say=told,
        working=(
            Line(
                say("Area inside the GPS points, on the ellipsoid"),
                FIELD(area),
                source="Karney (2013)",
            ),
            Line(say("Good to ±, one standard deviation"), FIELD(u, 2), source="GUM 5.1.2"),
        ),
    )


def _polygon(fixes: tuple[Fix, ...]) -> dict[str, Any]:
    ring: list[Position] = [(fix.longitude, fix.latitude) for fix in fixes]
    return {"type": "Polygon", "coordinates": [[*ring, ring[0]]]}


def _apart(a: Fix, b: Fix) -> float:
    """Return how far two positions lie apart on the ellipsoid. [m]"""
    found = Geodesic.WGS84.Inverse(a.latitude, a.longitude, b.latitude, b.longitude)
    return found["s12"]


def _m(length: float) -> Amount:
    return TRAVEL(length)
