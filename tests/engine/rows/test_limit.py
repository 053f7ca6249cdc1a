"""The user's own limit: what crosses it, and that chance alone does so often."""

import random
from math import sqrt

import pytest

from evenstand.engine.rows.limit import crossing
from evenstand.engine.rows.odd import Spread


def test_by_hand():
    # ± 2 sd leave 4.55 % outside (NIST TN 1297, 95.45 % inside); of two rows one or both:
    # 1 − 0.9545² = 0.0889.
    crossed = crossing({1: 0.11, 2: -0.1}, 0.10, Spread(sd=0.05))
    assert crossed.rows == (1,)  # on the limit is not outside it
    assert crossed.by_chance == pytest.approx(0.0889, abs=5e-5)


def test_ten_percent_is_crossed_by_nearly_half_of_sound_drills():
    """24 rows that differ by 4 % and a catch of 2 %: simulated by another program, 40 to 48 %."""
    draw, sd, crossed = random.Random(5), sqrt(0.04 * 0.04 + 0.02 * 0.02), 0
    for _ in range(2000):
        rows = [draw.gauss(1, 0.04) + draw.gauss(0, 0.02) for _ in range(24)]
        mean = sum(rows) / 24
        crossed += any(abs(row / mean - 1) > 0.10 for row in rows)
    assert 0.40 < crossed / 2000 < 0.48
    told = crossing(dict.fromkeys(range(1, 25), 0.0), 0.10, Spread(sd=sd)).by_chance
    assert told == pytest.approx(crossed / 2000, abs=0.045)
