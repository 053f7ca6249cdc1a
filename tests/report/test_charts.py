"""Charts as SVG: what is drawn lies where its number says, and is said in words too."""

import re
from xml.etree import ElementTree

import pytest

import labels
from evenstand.engine.calibration.chart import Chart, curve_from_charts
from evenstand.engine.calibration.choose import CaughtAt, choose
from evenstand.engine.catch.target import Target
from evenstand.engine.drill.drill import Drill, Scale
from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import GRAM, INCH, KG_PER_HECTARE, POUND_PER_ACRE
from evenstand.engine.rows.evenness import evenness
from evenstand.engine.statistics.budget import Estimate
from evenstand.report import svg
from evenstand.report.charts import result_strip, row_chart
from evenstand.report.curve import curve_chart, points_chart

LB = POUND_PER_ACRE
US, METRIC = Style(), Style(system="metric")
TARGET = Target(rate=54 * LB, tolerance=0.05)
DRILL = Drill(rows=20, spacing=7.5 * INCH, scale=Scale(low=0, high=60))


class Drawing:
    """A drawing, read back: elements by name, numbers written on it with their places."""

    def __init__(self, text):
        self.root = ElementTree.fromstring(text)

    def all(self, name, **having):
        found = (each for each in self.root.iter() if each.tag.rpartition("}")[2] == name)
        return [each for each in found if having.items() <= each.attrib.items()]

    @property
    def said(self):
        return self.all("desc")[0].text

    def number_at(self, axis):
        """The scale of an axis: what stands at a place, from two of the numbers written."""
        across = axis == "x"
        labels = [
            (float(each.attrib["x" if across else "y"]), float(each.text.replace("−", "-")))
            for each in self.all("text")
            if re.fullmatch(r"−?[\d.]+", each.text or "") and self._on(each, across)
        ]
        (x1, v1), *_, (x2, v2) = sorted(labels)
        shift = 0 if across else 5  # a label stands half its height below its line
        return lambda place: v1 + (place - x1 + shift) * (v2 - v1) / (x2 - x1)

    def _on(self, label, across):
        return (label.attrib["text-anchor"] == "middle") == across


def test_the_strip_shows_its_numbers():
    rate = Estimate(50.5 * LB, 48.8 * LB, 52.3 * LB, 0.9 * LB)
    drawn = Drawing(result_strip(rate, TARGET, US))
    value = drawn.number_at("x")
    (band,) = drawn.all("rect")
    low = value(float(band.attrib["x"]))
    high = value(float(band.attrib["x"]) + float(band.attrib["width"]))
    # 5 % either side of 54.
    assert (low, high) == (pytest.approx(51.3, abs=0.02), pytest.approx(56.7, abs=0.02))
    bar, tick = drawn.all("line")[1:3]
    assert value(float(tick.attrib["x1"])) == pytest.approx(50.5, abs=0.02)
    assert value(float(bar.attrib["x1"])) == pytest.approx(48.8, abs=0.02)
    assert value(float(bar.attrib["x2"])) == pytest.approx(52.3, abs=0.02)
    assert drawn.said == (
        labels.RANGE_TO(value="50.5 lb/ac", low="48.8 lb/ac", high="52.3 lb/ac")
        + "; "
        + labels.WANTED_TO(low="51.3 lb/ac", high="56.7 lb/ac")
    )


def test_the_strip_in_metric_and_without_a_target():
    rate = Estimate(60 * KG_PER_HECTARE, 58 * KG_PER_HECTARE, 62 * KG_PER_HECTARE, KG_PER_HECTARE)
    drawn = Drawing(result_strip(rate, None, METRIC))
    assert (
        drawn.said
        == labels.RANGE_TO(value="60 kg/ha", low="58 kg/ha", high="62 kg/ha")
        + "; "
        + labels.NO_TARGET
    )
    assert drawn.all("rect") == []


def test_the_strip_of_an_exact_rate():
    assert (
        "54 lb/ac" in Drawing(result_strip(Estimate(54 * LB, 54 * LB, 54 * LB, 0), None, US)).said
    )


@pytest.fixture
def curve():
    """A chart of 1.8 lb/ac a notch and a catch of 48.6 at 30, where it says 54."""
    chart = Chart(points=((20, 36 * LB), (30, 54 * LB), (40, 72 * LB)))
    start = curve_from_charts([chart], DRILL)
    (gear,) = DRILL.gears
    catches = [CaughtAt(setting=30, gear=gear, rate=48.6 * LB, cv=0.01)]
    choice = choose(start, catches, TARGET)
    text = curve_chart(choice, start=start, catches=catches, target=TARGET, factor=1.0, style=US)
    return choice, Drawing(text)


def test_the_curve_shows_catch_notch_and_band(curve):
    choice, drawn = curve
    setting, rate = drawn.number_at("x"), drawn.number_at("y")
    ring, notch = drawn.all("circle")
    assert setting(float(ring.attrib["cx"])) == pytest.approx(30, abs=0.05)
    assert rate(float(ring.attrib["cy"])) == pytest.approx(48.6, abs=0.2)
    assert setting(float(notch.attrib["cx"])) == pytest.approx(choice.best.setting, abs=0.05)
    assert rate(float(notch.attrib["cy"])) == pytest.approx(choice.best.rate.value / LB, abs=0.2)
    (band,) = drawn.all("rect")
    assert rate(float(band.attrib["y"])) == pytest.approx(56.7, abs=0.2)
    assert f"Setting {choice.best.setting:g} drops" in drawn.said
    assert re.search(labels.SETTING_GIVES_CAUGHT.like(catches="1 catch"), drawn.said)


def test_the_curve_shows_the_chart_it_began_from(curve):
    _, drawn = curve
    setting, rate = drawn.number_at("x"), drawn.number_at("y")
    (dotted,) = drawn.all("path", **{"stroke-dasharray": "2 4"})
    points = [
        tuple(map(float, pair)) for pair in re.findall(r"([\d.]+) ([\d.]+)", dotted.attrib["d"])
    ]
    for x, y in points:
        assert rate(y) == pytest.approx(1.8 * setting(x), abs=0.5)


def test_a_printed_chart_is_drawn_over_the_whole_scale():
    points = [(20, 36 * LB), (40, 72 * LB), (30, 54 * LB)]
    drawn = Drawing(points_chart(points, scale=DRILL.scale, style=US, name="c"))
    setting, rate = drawn.number_at("x"), drawn.number_at("y")
    places = [(float(c.attrib["cx"]), float(c.attrib["cy"])) for c in drawn.all("circle")]
    assert [round(setting(x)) for x, _ in places] == [20, 30, 40]
    assert [rate(y) for _, y in places] == pytest.approx([36, 54, 72], abs=0.3)
    assert setting(48) == pytest.approx(0, abs=0.1)
    assert setting(390) == pytest.approx(60, abs=0.1)
    assert drawn.said == labels.POINTS_FROM_AT(
        n=3, low="36 lb/ac", from_=20, high="72 lb/ac", to=40
    )


def test_a_single_point_without_a_scale():
    drawn = Drawing(points_chart([(30, 54 * LB)], scale=None, style=US, name="c"))
    assert len(drawn.all("circle")) == 1


def test_rows_stand_off_their_mean_and_the_odd_one_is_crossed():
    weights = [50.0 * GRAM] * 20
    weights[12] = 42.0 * GRAM
    found = evenness([weights], resolution=GRAM)
    drawn = Drawing(row_chart(found, US))
    # The mean is 49.6 g; row 13 is 42 ÷ 49.6 − 1 = −15.3 %, which is the drawing's edge.
    assert len(drawn.all("circle")) == 19
    crosses = [each for each in drawn.all("line") if "rust" in each.attrib["class"]]
    assert len(crosses) == 3
    assert float(crosses[0].attrib["y2"]) == pytest.approx(90 + 75)
    (up,) = {float(each.attrib["cy"]) for each in drawn.all("circle")}
    # 50 ÷ 49.6 − 1 = 0.806 %: 75 × 0.806 ÷ 15.3 above the mean.
    assert up == pytest.approx(90 - 75 * 0.00806 / 0.1532, abs=0.05)
    assert drawn.said == labels.ROWS_FURTHEST_MEAN(n=20, row=13, off="-15")
    assert "13" in {each.text for each in drawn.all("text")}


def test_what_is_written_is_text_and_named_once():
    text = svg.drawing(10, 10, svg.words("<b>&", 1, 2), title="a < b", describe='"c"', name="n")
    drawn = Drawing(text)
    assert drawn.all("text")[0].text == "<b>&"
    assert drawn.all("title")[0].text == "a < b"
    assert drawn.root.attrib["role"] == "img"
    assert drawn.root.attrib["aria-labelledby"] == "n-title n-desc"
    assert " style=" not in text
