"""The drawing of a box shows the numbers of what is in it."""

import re
from itertools import pairwise
from xml.etree import ElementTree

import pytest

import labels
from evenstand.engine.boxes.box import BOX_KINDS, Box
from evenstand.engine.boxes.filled import fill_box
from evenstand.engine.boxes.portion import Portion
from evenstand.engine.quantities.phrases import Style
from evenstand.report.hopper import LINE, hopper

SVG = "{http://www.w3.org/2000/svg}"


def drawn(**rates):
    """A box with seed at these rates, all of one size."""
    box = Box(name="grain", volume=1.0, seed=BOX_KINDS["grain"])
    seeds = [Portion(name=name, rate=rate, seeds_per_kg=35_000.0) for name, rate in rates.items()]
    return ElementTree.fromstring(hopper(fill_box(box, seeds), Style(), name="h"))


def layers(tree):
    return [float(rect.get("height")) for rect in tree.iter(f"{SVG}rect")]


def words(tree):
    return [text.text for text in tree.iter(f"{SVG}text")]


def test_each_layer_is_as_thick_as_its_part_of_the_weight():
    tree = drawn(rye=40.0, vetch=12.0, radish=2.0)
    # 2, 12 and 40 of 54, the least on top.
    whole = sum(layers(tree))
    assert [tall / whole for tall in layers(tree)] == pytest.approx(
        [2 / 54, 12 / 54, 40 / 54], abs=1e-3
    )
    assert words(tree) == ["radish 3.7%", "vetch 22%", "rye 74%"]


def test_words_stand_apart_where_layers_are_thin():
    tree = drawn(**{f"seed {i}": 1.0 for i in range(6)}, rye=994.0)
    heights = [float(text.get("y")) for text in tree.iter(f"{SVG}text")]
    assert all(b - a >= LINE - 0.01 for a, b in pairwise(heights))
    assert heights[-1] < float(tree.get("viewBox").split()[3])


def test_it_is_told_to_those_who_cannot_see_it():
    tree = drawn(rye=30.0, vetch=10.0)
    assert tree.find(f"{SVG}title").text == labels.WHAT_IS_IN(box="grain")
    assert tree.find(f"{SVG}desc").text == " ".join(
        [
            labels.OF_THE_WEIGHT_NAME_SHARE(name="rye", share="75%"),
            labels.OF_THE_WEIGHT_NAME_SHARE(name="vetch", share="25%"),
        ]
    )


def test_names_are_escaped():
    box = Box(name="<b>", volume=1.0, seed=BOX_KINDS["grain"])
    seed = Portion(name="a & b", rate=1.0, seeds_per_kg=35_000.0)
    drawing = hopper(fill_box(box, [seed]), Style(), name="h")
    assert "&lt;b&gt;" in drawing
    assert re.search(r"a &amp; b", drawing)
