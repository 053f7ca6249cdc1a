"""Area of a field from its outline on the map, as GeoJSON, on the ellipsoid."""

import json
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import fsum, isfinite
from typing import Any

from geographiclib.geodesic import Geodesic

from evenstand.book.kinds.shape import Typed
from evenstand.book.log.nesting import is_too_deep
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase, System, say
from evenstand.engine.quantities.units import FIELD, HECTARE, LENGTH

Position = tuple[float, float]  # longitude, latitude, as GeoJSON has them [degree]
Ring = tuple[Position, ...]
Edge = tuple[Position, Position]

LARGEST = 20_000 * HECTARE  # a field beyond this has its numbers mixed up
FIELD_NAME = "outline"
MOST_CORNERS = 10_000  # of a ring


@dataclass(frozen=True, slots=True, kw_only=True)
class Outline:
    """A field on the map.

    ``area`` is without its holes [m²], ``perimeter`` that of the outer edges [m].
    """

    area: float
    perimeter: float
    parts: int
    holes: int
    say: Phrase


def read_outline(document: str | bytes | dict[str, Any]) -> Outline:
    """Measure a field whose outline is given as GeoJSON.

    Parameters
    ----------
    document : str, bytes or dict
        A Polygon or MultiPolygon, or a Feature or FeatureCollection of them;
        positions are longitude, then latitude.

    Raises
    ------
    MeasurementError
        For what is no GeoJSON, a ring that is open or crosses itself,
        coordinates that are no place or the wrong way round, a hole outside
        its edge, or a field too large to be one.

    References
    ----------
    RFC 7946 (2016), The GeoJSON Format, 3.1.6. C. F. F. Karney (2013),
    Algorithms for geodesics, Journal of Geodesy 87, 43–55, as in geographiclib.
    """
    polygons = [_rings(rings) for rings in _polygons(_parsed(document))]
    if not polygons:
        raise _refused("nothing", say("enter the field boundary as a polygon"))
    area = fsum(_area(rings) for rings in polygons)
    if area > LARGEST:
        need = say(
            "check the boundary: {area} can't be a field; are latitude and longitude swapped?",
            area=FIELD(area),
        )
        raise _refused(area, need)
    holes = sum(len(rings) - 1 for rings in polygons)
    perimeter = fsum(ring_size(rings[0])[1] for rings in polygons)
    return Outline(
        area=area,
        perimeter=perimeter,
        parts=len(polygons),
        holes=holes,
        say=say(
            "The boundary encloses {area}; its edge is {edge} long.",
            area=FIELD(area, 4),
            edge=LENGTH(perimeter, 4),
        ),
    )


def kept_outline(text: str, *, units: System) -> tuple[str, Typed]:
    """Return an outline as a field keeps it, and its area as one would write it.

    The outer edges run counterclockwise and the holes clockwise, as RFC 7946
    wants them (3.1.6).

    Raises
    ------
    MeasurementError
        As `read_outline`.
    """
    found = read_outline(text)
    polygons = [
        [_wound([list(p) for p in ring], hole=i > 0) for i, ring in enumerate(rings)]
        for rings in _polygons(_parsed(text))
    ]
    shape: dict[str, Any] = {"type": "MultiPolygon", "coordinates": polygons}
    if len(polygons) == 1:
        shape = {"type": "Polygon", "coordinates": polygons[0]}
    unit = FIELD.us if units == "us" else FIELD.metric
    number = f"{found.area / unit.size:.4g}"
    area = Typed(value=float(number) * unit.size, text=f"{number} {unit.symbol}")
    return json.dumps(shape, separators=(",", ":")), area


def _wound(ring: list[list[float]], *, hole: bool) -> list[list[float]]:
    """Turn a ring the way it should run, by its area on the flat map."""
    twice = fsum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise(ring))
    return ring if (twice < 0) == hole else ring[::-1]


def ring_size(ring: Sequence[Position]) -> tuple[float, float]:
    """Area and perimeter of a closed ring on the ellipsoid, whichever way it runs.

    Parameters
    ----------
    ring : sequence of (longitude, latitude)
        The last position repeats the first. [degree]

    Returns
    -------
    tuple of float [m²], [m]
    """
    polygon = Geodesic.WGS84.Polygon()
    for longitude, latitude in ring[:-1]:
        polygon.AddPoint(latitude, longitude)
    _, perimeter, area = polygon.Compute(False, True)
    return abs(area), perimeter


def _area(rings: Sequence[Ring]) -> float:
    outer, *holes = (ring_size(ring)[0] for ring in rings)
    return outer - fsum(holes)


def _refused(given: object, need: Phrase) -> MeasurementError:
    return MeasurementError(FIELD_NAME, given, need)


def _parsed(document: str | bytes | dict[str, Any]) -> Any:
    if isinstance(document, dict):
        return document
    text = document.encode() if isinstance(document, str) else document
    if is_too_deep(text):
        raise _refused("nested too deep", say("it is nested too deep"))
    try:
        return json.loads(document)
    except ValueError as error:
        raise _refused("no JSON", say("enter the boundary as GeoJSON")) from error


def _polygons(shape: Any) -> Iterator[Any]:
    """Coordinates of each polygon in a GeoJSON object."""
    if not isinstance(shape, dict):
        raise _refused(type(shape).__name__, say("enter the boundary as GeoJSON"))
    match shape.get("type"):
        case "Polygon":
            yield shape.get("coordinates")
        case "MultiPolygon":
            yield from _listed(shape.get("coordinates"))
        case "Feature":
            yield from _polygons(shape.get("geometry"))
        case "FeatureCollection":
            for feature in _listed(shape.get("features")):
                yield from _polygons(feature)
        case other:
            raise _refused(other, say("enter the field boundary as a polygon"))


def _listed(value: Any) -> list[Any]:
    if not isinstance(value, list) or not value:
        raise _refused(value, say("enter the field boundary as a polygon"))
    return value


def _rings(coordinates: Any) -> tuple[Ring, ...]:
    """Read a polygon's rings and check that they make one."""
    rings = tuple(_ring(ring) for ring in _listed(coordinates))
    outer, holes = rings[0], rings[1:]
    for hole in holes:
        if not all(_inside(position, outer) for position in hole[:-1]):
            raise _refused("hole", say("draw each hole inside its edge"))
    edges = [(edge, i) for i, ring in enumerate(rings) for edge in pairwise(ring)]
    if any(edges[i][1] != edges[j][1] for i, j in _meeting([edge for edge, _ in edges])):
        raise _refused("hole", say("draw each hole inside its edge"))
    return rings


def _ring(positions: Any) -> Ring:
    ring = tuple(_position(position) for position in _listed(positions))
    if len(ring) < 4 or ring[0] != ring[-1]:
        raise _refused("open", say("close the boundary: its last corner must match the first"))
    if len(ring) > MOST_CORNERS:
        need = say("draw it with fewer corners: at most {n}", n=MOST_CORNERS)
        raise _refused(len(ring), need)
    if len(set(ring)) < 3 or _crosses_itself(ring):
        raise _refused("crossed", say("draw the boundary again: its edge crosses itself"))
    return ring


def _position(position: Any) -> Position:
    if not isinstance(position, list) or len(position) < 2:
        raise _refused(position, say("enter each corner as longitude, then latitude"))
    longitude, latitude = position[:2]
    numbers = all(
        isinstance(x, int | float) and not isinstance(x, bool) and isfinite(x)
        for x in (longitude, latitude)
    )
    if not numbers:
        raise _refused(position, say("enter each corner as longitude, then latitude"))
    if abs(latitude) > 90 or abs(longitude) > 180:
        raise _refused(position, say("swap them: longitude comes first, then latitude"))
    return float(longitude), float(latitude)


def _crosses_itself(ring: Ring) -> bool:
    """Whether two edges that are no neighbours touch, or neighbours fold back."""
    edges = list(pairwise(ring))
    apart = (abs(i - j) for i, j in _meeting(edges))
    return any(1 < steps < len(edges) - 1 for steps in apart)


def _meeting(edges: Sequence[Edge]) -> Iterator[tuple[int, int]]:
    """Yield pairs of edges that meet: of those whose boxes do, so that it stays quick."""
    west, south = ([min(a[k], b[k]) for a, b in edges] for k in (0, 1))
    east, north = ([max(a[k], b[k]) for a, b in edges] for k in (0, 1))
    open_edges: list[int] = []
    for i in sorted(range(len(edges)), key=west.__getitem__):
        open_edges = [j for j in open_edges if east[j] >= west[i]]
        near = (j for j in open_edges if south[j] <= north[i] and south[i] <= north[j])
        yield from ((j, i) for j in near if _cross(edges[j], edges[i]))
        open_edges.append(i)


def _cross(s: Edge, t: Edge) -> bool:
    """Whether two edges meet, on the flat map: over a field that is close enough."""
    a, b = (_turn(*s, point) for point in t)
    c, d = (_turn(*t, point) for point in s)
    if a == b == c == d == 0:
        return _overlap(s, t)
    return a * b <= 0 and c * d <= 0


def _overlap(s: Edge, t: Edge) -> bool:
    """Whether two edges of one straight line share a part of it."""
    return all(
        max(min(p[k] for p in s), min(p[k] for p in t))
        <= min(max(p[k] for p in s), max(p[k] for p in t))
        for k in (0, 1)
    )


def _turn(start: Position, end: Position, point: Position) -> int:
    """Which side of an edge a point lies on: 1 left, −1 right, 0 on its line."""
    side = (end[0] - start[0]) * (point[1] - start[1]) - (end[1] - start[1]) * (point[0] - start[0])
    return (side > 0) - (side < 0)


def _inside(point: Position, ring: Ring) -> bool:
    """Whether a point lies inside a ring: an odd number of edges to its right."""
    x, y = point
    crossings = 0
    for (x1, y1), (x2, y2) in pairwise(ring):
        if (y1 > y) != (y2 > y):
            crossings += x < x1 + (y - y1) * (x2 - x1) / (y2 - y1)
    return crossings % 2 == 1
