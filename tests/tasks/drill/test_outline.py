"""Outlines on the ellipsoid: published polygons, a rectangle by hand, holes, refusals."""

import json
import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

import labels
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.units import ACRE
from evenstand.tasks.drill.outline import read_outline, ring_size


def rectangle(west=-93.0, south=45.0, *, wide=0.005, high=0.004):
    """A closed ring, counter-clockwise."""
    east, north = west + wide, south + high
    return [[west, south], [east, south], [east, north], [west, north], [west, south]]


def polygon(*rings):
    return {"type": "Polygon", "coordinates": list(rings)}


def published_polygons():
    lines = (Path(__file__).parents[2] / "reference/geodesic_polygons.csv").read_text().splitlines()
    for line in [text for text in lines if text[0] != "#"][1:]:
        name, corners, area, digits = line.split(",")
        numbers = [float(text) for text in corners.split()]
        pairs = list(zip(numbers[1::2], numbers[::2], strict=True))
        yield pytest.param([*pairs, pairs[0]], float(area), float(digits), id=name)


@pytest.mark.parametrize(("ring", "area", "digits"), list(published_polygons()))
def test_published_polygons(ring, area, digits):
    # Printed digits; half of the earth apart where the ring runs the other way.
    assert ring_size(ring)[0] == pytest.approx(area, abs=digits)


def test_a_small_rectangle_by_hand():
    """At 45°N a degree is 111,132 m north and 78,847 m east (printed tables): 444.5 × 394.2 m."""
    found = read_outline(polygon(rectangle(south=44.998)))
    assert found.area == pytest.approx(0.004 * 111_132 * 0.005 * 78_847, rel=1e-4)
    assert found.perimeter == pytest.approx(2 * (444.53 + 394.24), rel=1e-4)
    assert str(found.say) == labels.OUTLINE_HOLDS_EDGE(area="43.3 ac", edge="5,504 ft")


@given(st.floats(-170, 170), st.floats(-70, 70))
def test_it_does_not_matter_which_way_or_where_it_starts(west, south):
    ring = rectangle(round(west, 3), round(south, 3))
    base = read_outline(polygon(ring)).area
    assert read_outline(polygon(ring[::-1])).area == pytest.approx(base, rel=1e-9)
    turned = [*ring[2:-1], *ring[:3]]
    assert read_outline(polygon(turned)).area == pytest.approx(base, rel=1e-9)


def test_holes_are_left_out_and_parts_added():
    hole = rectangle(-92.999, 45.001, wide=0.001, high=0.001)
    whole, pond = (read_outline(polygon(ring)).area for ring in (rectangle(), hole))
    found = read_outline(polygon(rectangle(), hole))
    assert found.area == pytest.approx(whole - pond)
    assert (found.parts, found.holes) == (1, 1)
    other = rectangle(-92.9)
    both = {"type": "MultiPolygon", "coordinates": [[rectangle(), hole], [other]]}
    assert read_outline(both).area == pytest.approx(2 * whole - pond, rel=1e-9)
    assert read_outline(both).parts == 2


def test_features_and_text_are_read_too():
    feature = {"type": "Feature", "properties": {}, "geometry": polygon(rectangle())}
    collection = {"type": "FeatureCollection", "features": [feature]}
    base = read_outline(polygon(rectangle())).area
    assert read_outline(json.dumps(collection)).area == base
    assert read_outline(json.dumps(feature).encode()).area == base
    assert base / ACRE > 40


BOW_TIE = [[-93, 45], [-92.995, 45.004], [-92.995, 45], [-93, 45.004], [-93, 45]]
SPIKE = [[-93, 45], [-92.99, 45], [-92.99, 45.01], [-92.995, 45], [-93, 45.01], [-93, 45]]


@pytest.mark.parametrize(
    ("document", "words"),
    [
        ("{", labels.GIVE_OUTLINE_GEOJSON),
        ("[]", labels.GIVE_OUTLINE_GEOJSON),
        ({"type": "Point", "coordinates": [0, 0]}, labels.GIVE_OUTLINE_FIELD),
        ({"type": "FeatureCollection", "features": []}, labels.GIVE_OUTLINE_FIELD),
        ({"type": "Feature", "geometry": None}, labels.GIVE_OUTLINE_GEOJSON),
        (polygon(), labels.GIVE_OUTLINE_FIELD),
        (polygon(rectangle()[:-1]), labels.CLOSE_OUTLINE_LAST),
        (polygon([[0, 0], [1, 1], [0, 0]]), labels.CLOSE_OUTLINE_LAST),
        (polygon(BOW_TIE), labels.DRAW_OUTLINE_AGAIN),
        (polygon(SPIKE), labels.DRAW_OUTLINE_AGAIN),
        (polygon([[0, 0], [0.01, 0], [0, 0], [0, 0]]), labels.DRAW_OUTLINE_AGAIN),
        (polygon([[x, y] for y, x in rectangle()]), labels.SWAP_THEM_LONGITUDE),
        (polygon(rectangle(0.0, 0.0, wide=1.0, high=1.0)), "swapped"),
        (polygon(rectangle(), rectangle(-92.9)), labels.DRAW_EACH_HOLE),
        (polygon(rectangle(), rectangle(-92.998, 45.001)), labels.DRAW_EACH_HOLE),
        (polygon([["a", 1], [2, 3], [4, 5], ["a", 1]]), labels.GIVE_EACH_CORNER),
        (polygon([[1], [2, 3], [4, 5], [1]]), labels.GIVE_EACH_CORNER),
    ],
)
def test_refuses_and_says_what_is_wanted(document, words):
    with pytest.raises(MeasurementError) as refusal:
        read_outline(document)
    assert refusal.value.field == "outline"
    assert words in str(refusal.value.need)


def test_a_ring_with_too_many_corners_is_refused():
    ring = [[i * 1e-6, (i % 2) * 1e-6] for i in range(10_001)]
    with pytest.raises(MeasurementError) as refused:
        read_outline({"type": "Polygon", "coordinates": [[*ring, ring[0]]]})
    assert re.search(labels.DRAW_FEWER_CORNERS.like(), str(refused.value.need))


@given(st.lists(st.tuples(*[st.integers(0, 6)] * 2), min_size=3, max_size=9, unique=True))
def test_crossings_are_those_of_looking_at_every_pair(corners):
    """The quick way by boxes finds what every pair of edges shows."""
    from itertools import combinations, pairwise

    from evenstand.tasks.drill.outline import _cross, _meeting

    edges = list(pairwise([*corners, corners[0]]))
    slow = {(i, j) for i, j in combinations(range(len(edges)), 2) if _cross(edges[i], edges[j])}
    assert {tuple(sorted(pair)) for pair in _meeting(edges)} == slow
