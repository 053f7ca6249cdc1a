"""Ground by a phone's position: geodesics checked elsewhere, simulated errors, refusals."""

import math
import random
import re

import pytest

import labels
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.tasks.drill.position import PER_CIRCLE, Fix, read_fixes, rolled, walked

METRE = 1 / 111_132.954  # degree of latitude at 45°: WGS 84, not read


def square(side, accuracy=4.0):
    """A square of a side, at 45° north, where a degree of longitude is shorter."""
    east = side / 78_846.806  # degree of longitude at 45°: WGS 84, not read
    north = side * METRE
    corners = [
        (45.0, -108.0),
        (45.0, -108.0 + east),
        (45 + north, -108.0 + east),
        (45 + north, -108.0),
    ]
    return tuple(Fix(a, b, accuracy) for a, b in corners)


def test_the_circle_of_95_per_cent():
    """A radius that 95 of 100 points with one sd each way lie within: √(−2 ln 0.05)."""
    assert pytest.approx(math.sqrt(-2 * math.log(0.05)), abs=5e-5) == PER_CIRCLE


def test_a_wheel_by_hand():
    """100 m in 40 turns: 2.5 m; ± 4 m each is 4 ÷ 2.4477 × √2 = 2.311 m, ÷ 40 = 0.0578."""
    found = rolled(Fix(45, -108, 4), Fix(45 + 100 * METRE, -108, 4), turns=40)
    assert found.per_turn.value == pytest.approx(2.5, rel=2e-4)
    assert found.per_turn.u == pytest.approx(0.0578, abs=1e-4)
    assert found.text == "2.500 ± 0.113 m"
    assert re.search(labels.ONE_TURN_ROLLS.like(), str(found.say))


def test_a_long_roll_is_good_enough():
    """1 km known to 2.3 m is 0.23%."""
    found = rolled(Fix(45, -108, 4), Fix(45 + 1000 * METRE, -108, 4), turns=400)
    assert "tape" not in str(found.say)


def test_a_field_by_hand():
    """400 m square: 16 ha. A corner moves it by 4 ÷ 2.4477 × 566 ÷ 2 m², four by √4 times that."""
    found = walked(square(400))
    assert found.area.value == pytest.approx(160_000, rel=5e-4)
    assert found.area.u == pytest.approx(4 / PER_CIRCLE * 400 * math.sqrt(2), rel=2e-3)


def test_areas_scatter_as_they_say():
    """The same field walked 400 times with errors of one's own."""
    luck, sd = random.Random(7), 4 / PER_CIRCLE
    truth, corners = walked(square(400)), square(400)

    def off(fix):
        north, east = (luck.gauss(0, sd) for _ in range(2))
        return Fix(fix.latitude + north * METRE, fix.longitude + east / 78_846.806, 4.0)

    areas = [walked(tuple(off(fix) for fix in corners)).area.value for _ in range(400)]
    mean = sum(areas) / len(areas)
    sd_seen = math.sqrt(sum((area - mean) ** 2 for area in areas) / (len(areas) - 1))
    # The sd of 400 is known to 1 ÷ √800 = 3.5 %; three of them.
    assert sd_seen == pytest.approx(truth.area.u, rel=0.11)


def test_positions_are_read_as_they_are_written():
    read = read_fixes("45.1234567, -108.5 ± 4.2 m\n\n 45 -108 4", least=2)
    assert read == (Fix(45.1234567, -108.5, 4.2), Fix(45, -108, 4))


@pytest.mark.parametrize(
    "text", ["", "45, -108 ± 4", "here\nthere", "95, 0 ± 4\n45, 0 ± 4", "45, 0 ± 0\n45, 1 ± 4"]
)
def test_what_is_no_position_is_refused(text):
    with pytest.raises(MeasurementError) as refused:
        read_fixes(text, least=2)
    assert refused.value.field == "points"


def test_a_wheel_that_stood_still_is_refused():
    with pytest.raises(MeasurementError, match="points"):
        rolled(Fix(45, -108, 4), Fix(45, -108, 4), turns=10)


def test_turns_are_needed():
    with pytest.raises(MeasurementError, match="turns"):
        rolled(Fix(45, -108, 4), Fix(46, -108, 4), turns=0)


def test_an_edge_that_crosses_itself_is_refused():
    a, b, c, d = square(400)
    with pytest.raises(MeasurementError) as refused:
        walked((a, c, b, d))
    assert refused.value.field == "points"
