"""Fields on the map: GeoJSON out (RFC 7946), and in as a table like any other."""

import json
from collections.abc import Iterator
from typing import Any

from evenstand.book.book import Book
from evenstand.book.kinds.work import Field
from evenstand.book.log.nesting import is_too_deep
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import FIELD

from ..drill.outline import read_outline
from .grid import (
    MOST_COLUMNS,
    MOST_FILE,
    MOST_OUTLINE,
    MOST_ROWS,
    Cell,
    Grid,
    TableError,
    too_many_columns,
    too_many_rows,
)
from .model import DIGITS

OUTLINE = "outline"
MEDIA_TYPE = "application/geo+json"
_WGS84 = ("crs84", "epsg::4326", "epsg:4326", "4979")


def fields_geojson(book: Book, *, units: str = "us") -> bytes:
    """Write the fields of a book as GeoJSON; one without a sound outline has no geometry.

    References
    ----------
    RFC 7946 (2016), The GeoJSON Format, 3.2 and 3.3.
    """
    features = [
        _feature(thing.id, thing.body, units)
        for thing in reversed(book.things("field"))
        if isinstance(thing.body, Field)
    ]
    document = {"type": "FeatureCollection", "features": features}
    return json.dumps(document, ensure_ascii=False, indent=1, allow_nan=False).encode()


def _feature(id: str, field: Field, units: str) -> dict[str, Any]:
    unit = FIELD.us if units == "us" else FIELD.metric
    properties: dict[str, Any] = {"name": field.name}
    if field.area:
        properties[f"area_{unit.symbol}"] = float(f"{field.area.value / unit.size:.{DIGITS}g}")
    properties |= {"state": field.state} if field.state else {}
    properties |= {"note": field.note} if field.note else {}
    geometry = _geometry(field.outline) if field.outline else None
    return {"type": "Feature", "id": id, "properties": properties, "geometry": geometry}


def _geometry(outline: str) -> Any:
    """Return the shape of an outline, None for one that is none: other fields stay on the map."""
    try:
        read_outline(outline)
    except MeasurementError:
        return None
    return json.loads(outline)


def read_geojson(data: bytes) -> Grid:
    """Read GeoJSON as a table: a row for each feature, a column for each property.

    Raises
    ------
    TableError
        For what is no GeoJSON, or not on the map that GeoJSON has.
    """
    if len(data) > MOST_FILE:
        raise TableError(len(data), say("choose a file of at most {n} MB", n=MOST_FILE >> 20))
    document = _parsed(data)
    _check_map(document)
    features = [_opened(feature) for feature in _features(document)]
    if len(features) > MOST_ROWS:
        raise too_many_rows(len(features))
    keys = list(dict.fromkeys(key for properties, _ in features for key in properties))
    if len(keys) >= MOST_COLUMNS:
        raise too_many_columns(len(keys))
    keys = [key for key in keys if key.casefold() != OUTLINE]
    rows = [tuple(_cell(properties.get(key)) for key in keys) for properties, _ in features]
    outlines = [outline for _, outline in features]
    return Grid(
        rows=((*keys, OUTLINE), *((*row, o) for row, o in zip(rows, outlines, strict=True))),
        numbers=tuple(range(len(features) + 1)),  # the first feature is 1
        notes=(say("Rows are features, counted from 1."),),
    )


def _parsed(data: bytes) -> dict[str, Any]:
    if is_too_deep(data):
        raise TableError(None, say("use GeoJSON: this is nested too deeply"))
    try:
        document = json.loads(data.decode("utf-8-sig"), parse_constant=_no_number)
    except ValueError as refused:
        raise TableError(None, say("use GeoJSON in UTF-8: {said}", said=str(refused))) from None
    if not isinstance(document, dict):
        raise TableError(type(document).__name__, say("use GeoJSON: a collection of features"))
    return document


def _no_number(text: str) -> float:
    raise ValueError(text)


def _check_map(document: dict[str, Any]) -> None:
    """Refuse other maps than that of RFC 7946, which an older file may name."""
    crs = document.get("crs")
    if crs and not any(name in json.dumps(crs).casefold() for name in _WGS84):
        raise TableError(json.dumps(crs)[:80], say("save it in longitude and latitude (WGS 84)"))


def _features(document: dict[str, Any]) -> Iterator[dict[str, Any]]:
    kind = document.get("type")
    features = document.get("features")
    if kind == "FeatureCollection" and isinstance(features, list):
        yield from (each for each in features if isinstance(each, dict))
    elif kind == "Feature":
        yield document
    elif kind in ("Polygon", "MultiPolygon"):
        yield {"geometry": document}
    else:
        raise TableError(str(kind)[:80], say("use GeoJSON: a collection of features"))


def _opened(feature: dict[str, Any]) -> tuple[dict[str, Any], str | None]:
    properties, geometry = feature.get("properties"), feature.get("geometry")
    outline = json.dumps(geometry, separators=(",", ":")) if geometry else None
    if outline and len(outline) > MOST_OUTLINE:
        need = say("draw it with fewer corners: at most {n} characters are stored", n=MOST_OUTLINE)
        raise TableError(len(outline), need)
    return (properties if isinstance(properties, dict) else {}), outline


def _cell(value: Any) -> Cell:
    if value is None or isinstance(value, str | int | float | bool):
        return value
    return json.dumps(value, ensure_ascii=False)
