"""The pencil lines of a stand: what stands on the paper gives what it says."""

import re

import pytest

import labels
from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import SQUARE_FOOT
from evenstand.engine.stand.emergence import emergence, emergence_lines, live_seeds
from evenstand.engine.stand.place import Place
from evenstand.engine.stand.stand import stand, stand_lines
from evenstand.engine.stand.usual import USUAL

TWELVE = [31, 27, 35, 22, 29, 33, 26, 30, 38, 24, 28, 34]


def of(counts):
    return stand([Place(area=1.875 * SQUARE_FOOT, plants=count) for count in counts])


def lines(found):
    style = Style()
    return [(style.write(x.say), x.sum(style), style.amount(x.value)) for x in found]


def test_a_worked_field():
    """357 ÷ 22.5 = 15.87; t(11) = 2.201 × 0.7255 = 1.597."""
    assert lines(stand_lines(of(TWELVE))) == [
        (
            labels.STAND_PLANTS_COUNTED(n=12),
            "357 ÷ 22.5 ft²",
            "15.87 plants/ft²",
        ),
        (
            labels.STANDARD_UNCERTAINTY_HOW,
            "",
            "0.7255 plants/ft²",
        ),
        (
            labels.HALF_RANGE_STUDENT,
            "2.201 × 0.7255 plants/ft²",
            "1.597 plants/ft²",
        ),
    ]


def test_few_places_and_none():
    assert lines(stand_lines(of([31])))[1][0].endswith(labels.STANDARD_UNCERTAINTY_HOW_PLACES)
    assert len(stand_lines(of([0, 0]))) == 1


def test_emergence():
    """15.87 ÷ 22 = 72.12%."""
    counted, seeds = of(TWELVE), live_seeds(22 / SQUARE_FOOT, u=0.66 / SQUARE_FOOT)
    bare = emergence(counted, seeds=seeds)
    assert lines(emergence_lines(bare, stand=counted, seeds=seeds)) == [
        (labels.EMERGENCE_STAND_LIVE, "15.87 plants/ft² ÷ 22 seeds/ft² × 100", "72.12%")
    ]
    found = emergence(counted, seeds=seeds, usual=USUAL["small grain"])
    (said, _, value) = lines(emergence_lines(found, stand=counted, seeds=seeds))[1]
    assert said == labels.WHAT_USUAL_COUNTS(mean="85%", n=129)
    assert float(value.removesuffix("%")) == pytest.approx(73.85, abs=0.01)


def test_species_are_named():
    places = [Place(area=SQUARE_FOOT, plants={"rye": 9 + i, "vetch": 2}) for i in range(6)]
    rye = stand(places, species="rye")
    seeds = live_seeds(20 / SQUARE_FOOT, u=0.0)
    found = [
        *stand_lines(rye),
        *emergence_lines(emergence(rye, seeds=seeds), stand=rye, seeds=seeds),
    ]
    said = [str(line.say) for line in found]
    assert said[0] == labels.STAND_PLANTS_COUNTED_GROUND(name="rye", n=6)
    assert said[-1] == labels.EMERGENCE_STAND_LIVE_SEEDS(name="rye")


def test_a_wide_range_goes_by_a_factor():
    """3 and 9 in turn: mean 6, sd 3.286, u 1.342 = 22.36%; e ^ (2.571 × 0.2236) = 1.777."""
    line = lines(stand_lines(of([3, 9] * 3)))[2]
    assert re.match(labels.RANGE_STAND_FACTOR.like(), line[0])
    assert "t 2.571" in line[0]
    assert float(line[2]) == pytest.approx(1.777, abs=0.001)
