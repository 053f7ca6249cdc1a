"""Depths dug up: by hand, what is said of rows, refusals."""

import re
from math import nan

import pytest

import labels
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.units import INCH, MILLIMETRE
from evenstand.engine.seeding.depth_check import depths

MM = MILLIMETRE


def dug(*rows, wanted=25):
    return depths([[d * MM for d in row] for row in rows], wanted=wanted * MM)


def test_by_hand():
    """20 25 30 25 22 28: mean 25, s² = (25+0+25+0+9+9) ÷ 5 = 13.6, t₅ = 2.571."""
    found = dug([20, 25], [30, 25], [22, 28])
    assert found.mean.value / MM == pytest.approx(25)
    assert found.sd / MM == pytest.approx(13.6**0.5)
    assert found.mean.high / MM == pytest.approx(25 + 2.571 * (13.6 / 6) ** 0.5, abs=2e-3)
    assert found.within == 1
    assert found.fault == "none"
    assert str(found.next) == labels.DIG_UP_MORE(n=4)


def test_enough_and_even_is_let_go():
    found = dug(*[[24, 26, 25]] * 4)
    assert str(found.next) == labels.GO_DEPTH_FITS
    assert re.match(labels.SEED_LIES_DEEP.like(mean="0.98 in"), str(found.say))


@pytest.mark.parametrize(
    ("rows", "fault", "words"),
    [
        ([[8, 10, 9, 12], [11, 9, 8, 10]], "shallow", labels.DOWN_PRESSURE_ENOUGH),
        ([[45, 47, 44, 46], [46, 45, 48, 44]], "deep", labels.DEPTH_WHEELS_STOPS),
        ([[25, 26, 24, 25], [45, 46, 44, 47]], "rows", labels.DO_DEPTH_STOPS),
        ([[5, 45, 8, 44], [44, 6, 46, 7]], "uneven", labels.SPEED_TOO_HIGH),
    ],
)
def test_each_fault_has_its_first_check(rows, fault, words):
    found = dug(*rows)
    assert found.fault == fault
    assert re.match(labels.STOP_CHECK.like(), str(found.next))
    assert words in str(found.next)
    assert found.causes


def test_rows_apart_are_told_from_seeds_apart():
    """Rows 20 mm apart, seeds within 1 mm: the rows' own spread is √((20²/2) − ¼ s²)."""
    found = dug([25, 26, 24, 25], [45, 46, 44, 45])
    assert found.row_sd / MM == pytest.approx((20**2 / 2 - 2 / 3 / 4) ** 0.5, rel=1e-6)
    assert dug([25], [30]).row_sd is None
    assert dug([25, 25], [25, 25]).row_sd is None


def test_an_allowance_that_was_given_is_not_assumed():
    rows = [[INCH, 1.1 * INCH]]
    assert len(depths(rows, wanted=INCH).assumed) == 2
    assert len(depths(rows, wanted=INCH, allowed=0.5 * INCH).assumed) == 1


@pytest.mark.parametrize(
    ("rows", "changed", "field"),
    [
        ([[0.02]], {}, "depths"),
        ([[0.02, -0.01]], {}, "depths"),
        ([[0.02, nan]], {}, "depths"),
        ([[0.02, 0.03]], {"wanted": 0.0}, "wanted"),
        ([[0.02, 0.03]], {"allowed": 0.0}, "allowed"),
    ],
)
def test_refuses_and_names_the_field(rows, changed, field):
    with pytest.raises(MeasurementError) as refusal:
        depths(rows, **({"wanted": 0.025} | changed))
    assert refusal.value.field == field
