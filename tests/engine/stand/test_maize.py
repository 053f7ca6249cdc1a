"""Emergence of one sowing from place to place: 83 plots of maize, counted by others.

W. H. Beckett and S. R. B. Fletcher (1929), A uniformity trial with maize, Gold Coast Dept. of
Agriculture Bulletin 16, 222–226: hills emerged of 121 in each plot.
"""

import csv
import random
from math import sqrt
from pathlib import Path

import pytest

from evenstand.engine.stand.place import Place
from evenstand.engine.stand.stand import stand

FILE = Path(__file__).parents[2] / "reference/agridat/beckett.maize.uniformity.txt"
HILLS = 121
TIMES = 2000


@pytest.fixture(scope="module")
def emerged():
    with FILE.open(encoding="utf-8") as lines:
        rows = csv.DictReader(lines, delimiter="\t")
        return [int(row["germination"]) for row in rows if row["germination"] != "NA"]


def test_plots_differ_far_more_than_luck_makes_them(emerged):
    """Mean 112.3; variance 12.7 times a binomial's: no count of seeds makes one place enough."""
    mean = sum(emerged) / len(emerged)
    variance = sum((x - mean) * (x - mean) for x in emerged) / (len(emerged) - 1)
    share = mean / HILLS
    assert (len(emerged), mean) == (83, pytest.approx(112.3, abs=0.05))
    assert variance / (HILLS * share * (1 - share)) == pytest.approx(12.7, abs=0.05)


@pytest.mark.simulated
def test_ranges_from_the_counts_own_scatter_hold_where_a_binomial_does_not(emerged):
    """Ten plots drawn again and again; the truth is the mean of all 83."""
    luck, truth = random.Random(1929), sum(emerged) / len(emerged)
    ours = theirs = 0
    for _ in range(TIMES):
        drawn = [luck.choice(emerged) for _ in range(10)]
        found = stand([Place(area=1.0, plants=count) for count in drawn])
        ours += found.range.low <= truth <= found.range.high
        share = sum(drawn) / 10 / HILLS
        reach = 1.96 * sqrt(HILLS * share * (1 - share) / 10)
        theirs += abs(share * HILLS - truth) <= reach
    # The plots lean to one side (some emerged badly), which costs t a few points at ten.
    assert 0.88 <= ours / TIMES <= 0.97
    assert theirs / TIMES < 0.5
