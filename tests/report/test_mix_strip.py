"""The strips of a mix are as wide as the shares they stand for, and are said in words too."""

import re
from xml.etree import ElementTree

import pytest

import labels
from evenstand.engine.mix.member import BulkRate, Carrier, LiveSeeds, Member, PlsRate, Seed
from evenstand.engine.mix.mix import design
from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import POUND, POUND_PER_ACRE, SQUARE_FOOT
from evenstand.report.mix_strip import SEED_TOP, WEIGHT_TOP, WIDE, mix_strip


def seed(name, per_lb):
    return Seed(name=name, pls=1.0, seeds_per_kg=per_lb / POUND)


# By hand below: 89 % of the weight is 25 % of the seeds.
MIX = design(
    [
        Member(seed("oats", 12_800), LiveSeeds(11.1 / SQUARE_FOOT)),
        Member(seed("flowers", 325_000), LiveSeeds(33.2 / SQUARE_FOOT)),
    ]
)


def read(mix, letters, style=None):
    root = ElementTree.fromstring(mix_strip(mix, letters, style or Style()))
    return lambda name: [e for e in root.iter() if e.tag.rpartition("}")[2] == name]


def bar(drawing, top):
    return [
        (float(each.attrib["x"]), float(each.attrib["width"]))
        for each in drawing("rect")
        if float(each.attrib["y"]) == top
    ]


def test_each_part_is_as_wide_as_its_share():
    """Oats 11.1 x 43560 / 12800 = 37.77 lb/ac, flowers 33.2 x 43560 / 325000 = 4.450 lb/ac."""
    drawing = read(MIX, "AB")
    weight, seeds = 37.775 / (37.775 + 4.4498), 11.1 / 44.3
    assert bar(drawing, WEIGHT_TOP) == [
        (0, pytest.approx(WIDE * weight, abs=0.02)),
        (pytest.approx(WIDE * weight, abs=0.02), pytest.approx(WIDE * (1 - weight), abs=0.02)),
    ]
    assert bar(drawing, SEED_TOP) == [
        (0, pytest.approx(WIDE * seeds, abs=0.02)),
        (pytest.approx(WIDE * seeds, abs=0.02), pytest.approx(WIDE * (1 - seeds), abs=0.02)),
    ]


def test_the_way_between_joins_a_part_to_its_own():
    drawing = read(MIX, "AB")
    [of_oats, _] = drawing("path")
    corners = [float(n) for n in re.findall(r"[\d.]+", of_oats.attrib["d"])]
    (_, above), (_, below) = bar(drawing, WEIGHT_TOP)[0], bar(drawing, SEED_TOP)[0]
    assert corners[0::2] == [0, pytest.approx(above), pytest.approx(below), 0]


def test_the_drawing_is_said_in_words():
    drawing = read(MIX, "AB")
    assert drawing("title")[0].text == labels.PARTS_MIX_WEIGHT
    assert drawing("desc")[0].text == (
        " ".join(
            [
                labels.WEIGHT_LIVE_SEEDS(letter="A", name="oats", weight="89%", seeds="25%"),
                labels.WEIGHT_LIVE_SEEDS(letter="B", name="flowers", weight="11%", seeds="75%"),
            ]
        )
    )


def test_a_letter_stands_only_where_it_has_room():
    """1 lb of 99 is 1% of 400: too narrow for a letter; its seeds are 50%."""
    mix = design(
        [
            Member(seed("rye", 10_000), PlsRate(99 * POUND_PER_ACRE)),
            Member(seed("clover", 990_000), PlsRate(1 * POUND_PER_ACRE)),
        ]
    )
    letters = [e.text for e in read(mix, "AB")("text") if len(e.text) == 1]
    assert letters == ["A", "A", "B"]


def test_a_carrier_has_weight_and_no_way_to_the_seeds():
    mix = design(
        [
            Member(seed("rye", 10_000), PlsRate(10 * POUND_PER_ACRE)),
            Member(Carrier(name="rice <hulls>"), BulkRate(10 * POUND_PER_ACRE)),
        ]
    )
    drawing = read(mix, "AB")
    assert [width for _, width in bar(drawing, WEIGHT_TOP)] == [200, 200]
    assert [width for _, width in bar(drawing, SEED_TOP)] == [400, 0]
    assert len(drawing("path")) == 1
    assert (
        labels.WEIGHT_LIVE_SEEDS(letter="B", name="rice <hulls>", weight="50%", seeds="0%")
        in drawing("desc")[0].text
    )
