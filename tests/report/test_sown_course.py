"""The drawing of a rate along the acres: its marks lie where the numbers say."""

import re
from xml.etree import ElementTree

import pytest

import labels
from evenstand.engine.catch.target import Target
from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import ACRE, POUND, POUND_PER_ACRE
from evenstand.engine.seeding.balance import follow
from evenstand.engine.seeding.change_point import find_turning
from evenstand.engine.seeding.events import Change, Level, bags
from evenstand.engine.seeding.level import InBox
from evenstand.engine.seeding.steps import Known
from evenstand.engine.statistics.budget import uncertain
from evenstand.report.curve import BOTTOM, LEFT, RIGHT, TOP
from evenstand.report.sown_course import course_chart

TARGET = Target(rate=60 * POUND_PER_ACRE, tolerance=0.05, on="field")
KNOWN = Known(target=TARGET, expected=uncertain(60 * POUND_PER_ACRE, 1.8 * POUND_PER_ACRE, "c"))


def read(at, pounds):
    return Level(at=at * ACRE, seed=InBox(weight=pounds * POUND, u=5 * POUND, by_volume=False))


def load(at, count=10):
    return bags(at * ACRE, count=count, weight=50 * POUND)


def drawn(events, **more):
    balance = follow(events, KNOWN)
    return balance, ElementTree.fromstring(
        course_chart(balance, TARGET, Style(system="us"), ground=40 * ACRE, **more)
    )


def across(acres):
    return LEFT + acres / 40 * (RIGHT - LEFT)


def found(tree, name, kind=""):
    return [e for e in tree.iter() if e.tag.endswith("}" + name) and kind in e.get("class", "")]


def test_loads_stand_at_their_acres():
    _, tree = drawn([load(0, 20), read(8, 520), load(8, 9), read(16, 490)])
    assert [float(dot.get("cx")) for dot in found(tree, "circle")] == pytest.approx(
        [across(0), across(8)], abs=0.01
    )


def test_each_stretch_is_a_dash_at_its_own_rate():
    balance, tree = drawn([load(0, 20), read(8, 520), load(8, 9), read(16, 410)])
    dashes = [e for e in found(tree, "path", "line soft")]
    places = [[float(x) for x in re.findall(r"-?[\d.]+", e.get("d"))] for e in dashes]
    assert [p[0] for p in places] == pytest.approx([across(0), across(8)], abs=0.01)
    assert [p[2] for p in places] == pytest.approx([across(8), across(16)], abs=0.01)
    # 60 lb/ac lies in the middle of the band, 70 above it: a smaller y.
    assert places[1][1] < places[0][1]
    assert balance.stretches[1].rate.value == pytest.approx(70 * POUND_PER_ACRE)


def test_the_band_is_five_per_cent_either_way():
    _, tree = drawn([load(0, 20), read(8, 520)])
    (band,) = found(tree, "rect", "band")
    (line,) = [e for e in found(tree, "line", "rust")]
    middle = float(band.get("y")) + float(band.get("height")) / 2
    assert middle == pytest.approx(float(line.get("y1")), abs=0.02)


def test_a_lever_that_was_moved_is_a_line_with_its_setting():
    moved = Change(at=8 * ACRE, factor=1.05, setting=33)
    _, tree = drawn([load(0, 20), read(8, 520), moved, read(12, 270)])
    lines = [e for e in found(tree, "line", "rust") if e.get("x1") == e.get("x2")]
    assert float(lines[0].get("x1")) == pytest.approx(across(8), abs=0.01)
    assert "33" in [e.text for e in found(tree, "text")]


def test_a_change_that_was_found_is_shaded_over_its_range():
    box, events = 0.0, []
    for fill in range(10):
        rate = 60 if fill < 4 else 72
        events += [read(8 * fill, box)] if fill else []
        events.append(load(8 * fill, 12))
        box += 600 - rate * 8
    balance = follow(events, KNOWN)
    turning = find_turning(balance)
    tree = ElementTree.fromstring(
        course_chart(balance, TARGET, Style(system="us"), turning=turning)
    )
    (line,) = [e for e in found(tree, "line", "rust") if e.get("x1") == e.get("x2")]
    whole = balance.points[-1].ground
    expected = LEFT + turning.place.value / whole * (RIGHT - LEFT)
    assert float(line.get("x1")) == pytest.approx(expected, abs=0.5)
    assert re.search(labels.A_CHANGE_AT.like(), found(tree, "desc")[0].text)


def test_before_a_reading_there_is_no_line_and_all_stays_on_the_paper():
    _, tree = drawn([load(0, 20)])
    assert found(tree, "path") == []
    _, tree = drawn([load(0, 20), read(8, 60)])  # 117 lb/ac: far beyond what is drawn
    for path in found(tree, "path"):
        ys = [float(y) for y in re.findall(r"-?[\d.]+", path.get("d"))][1::2]
        assert min(ys) >= TOP - 0.01
        assert max(ys) <= BOTTOM + 0.01
