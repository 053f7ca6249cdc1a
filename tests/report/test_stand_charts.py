"""The drawings of a stand show its numbers."""

import re
from xml.etree import ElementTree

import pytest

import labels
from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import SQUARE_FOOT
from evenstand.engine.stand.place import Place
from evenstand.engine.stand.stand import stand
from evenstand.report.stand_charts import FOOT, LEFT, TOP, WIDE, places_chart, stand_strip

COUNTS = (31, 27, 35, 22, 29, 33, 26, 30, 38, 24, 28, 34)
US = Style(system="us")
SVG = "{http://www.w3.org/2000/svg}"
WISH = 15 / SQUARE_FOOT


def places(counts=COUNTS):
    return [Place(area=1.875 * SQUARE_FOOT, plants=n) for n in counts]


def parts(drawing, name):
    return list(ElementTree.fromstring(drawing).iter(SVG + name))


def text(drawing):
    return [each.text for each in parts(drawing, "text")]


def number(mark, key):
    return float(mark.get(key))


def test_the_strip_has_its_value_inside_its_range_and_beyond_the_wish():
    drawing = stand_strip(stand(places()).range, WISH, US)
    ranged, tick = parts(drawing, "line")[1:3]
    assert number(ranged, "x1") < number(tick, "x1") < number(ranged, "x2")
    middle = (number(ranged, "x1") + number(ranged, "x2")) / 2
    assert number(tick, "x1") == pytest.approx(middle, abs=0.02)  # t is the same on both sides
    wish = parts(drawing, "line")[0]
    # From 14.27 to 17.46 the wish of 15 lies at 23 % of the bar.
    part = (number(wish, "x1") - number(ranged, "x1")) / (
        number(ranged, "x2") - number(ranged, "x1")
    )
    assert part == pytest.approx((15 - 14.27) / (17.46 - 14.27), abs=0.003)
    (band,) = parts(drawing, "rect")
    assert number(band, "x") + number(band, "width") == WIDE
    assert labels.WISHED_FOR(stand=15) in text(drawing)


def test_the_strip_tells_its_numbers_to_those_who_cannot_see_it():
    drawing = stand_strip(stand(places()).range, WISH, US)
    (told,) = parts(drawing, "desc")
    assert told.text == (
        labels.WISHED_FOR_RANGE_STAND(
            range=labels.RANGE_TO(
                value="15.9 plants/ft²", low="14.3 plants/ft²", high="17.5 plants/ft²"
            ),
            stand="15 plants/ft²",
        )
    )


def test_without_a_wish_nothing_is_shaded():
    drawing = stand_strip(stand(places()).range, None, US)
    assert parts(drawing, "rect") == []
    assert "wished" not in drawing


def test_each_place_is_a_dot_at_its_own_height():
    found = places()
    drawing = places_chart(found, stand(found).range, wish=WISH, style=US)
    dots = parts(drawing, "circle")
    assert len(dots) == 12
    heights = [FOOT - number(dot, "cy") for dot in dots]
    # Heights go with the counts from nothing on.
    assert [h / heights[0] for h in heights] == pytest.approx([n / 31 for n in COUNTS], abs=0.001)
    across = [number(dot, "cx") for dot in dots]
    assert across == sorted(across)
    assert across[0] > LEFT
    assert across[-1] < WIDE
    mean = next(line for line in parts(drawing, "line") if number(line, "stroke-width") == 2.5)
    # 29.75 plants is the mean of a place.
    assert (FOOT - number(mean, "y1")) / heights[0] == pytest.approx(29.75 / 31, abs=0.001)
    (told,) = parts(drawing, "desc")
    assert told.text == labels.PLACES_FROM_TO(n=12, low="11.7 plants/ft²", high="20.3 plants/ft²")


@pytest.mark.parametrize("counts", [(0, 0, 0), (7,), (0,), tuple(range(100)), (100_000, 0)])
def test_all_stays_on_the_paper(counts):
    found = places(counts)
    ranged = stand(found).range
    for drawing in (
        places_chart(found, ranged, wish=None, style=US),
        stand_strip(ranged, WISH, US),
    ):
        assert "nan" not in drawing
        for key, most in (("cy", 210), ("cx", WIDE), ("x1", WIDE), ("x2", WIDE), ("y1", 210)):
            found_at = [float(each) for each in re.findall(rf' {key}="([^"]+)"', drawing)]
            assert all(0 <= each <= most for each in found_at)
    assert all(
        number(dot, "cy") >= TOP
        for dot in parts(places_chart(found, ranged, wish=None, style=US), "circle")
    )
