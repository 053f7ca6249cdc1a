"""Part of the row in gaps, by hand."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

import labels
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Style
from evenstand.engine.stand.gaps import gaps, gaps_sentence
from evenstand.engine.stand.place import Place


def looked(*gap_lists, row=2.0):
    return [Place(area=0.4, plants=9, row=row, gaps=tuple(each)) for each in gap_lists]


def test_by_hand():
    """0.5, 0, 0.4 and 0.3 m in gaps of 2 m each: 1.2 ÷ 8 = 15%.

    Gaps from 0.3: 0.2, −0.3, 0.1, 0; Σ² 0.14 × 4 ÷ 3 = 0.1867, √ ÷ 8 = 5.40%.
    On the log scale t(3) = 3.182 of 0.360: 15% ÷ and × 3.144.
    """
    found = gaps(looked([0.3, 0.2], [], [0.4], [0.1, 0.1, 0.1]))
    assert found.share.value == pytest.approx(0.15)
    assert found.share.u == pytest.approx(0.0540, abs=5e-5)
    assert found.share.low == pytest.approx(0.15 / 3.144, rel=1e-3)
    assert found.share.high == pytest.approx(0.15 * 3.144, rel=1e-3)
    assert (found.number, found.longest, found.held_up) == (6, 0.4, 3)
    assert (found.row, found.share.dof) == (8.0, 3)


def test_one_place_has_no_range():
    share = gaps(looked([0.5])).share
    assert (share.value, share.low, share.high) == (0.25, 0.0, 1.0)


def test_two_places_have_a_range_and_six_inches_count():
    found = gaps(looked([0.1524], [0.1]))
    assert found.share.dof == 1
    assert found.held_up == 1


def test_places_without_a_length_are_left_out():
    places = [*looked([0.5]), Place(area=1.0, plants=3)]
    assert gaps(places).row == 2.0


@given(st.lists(st.floats(0, 1), min_size=2, max_size=9), st.floats(0.1, 10))
def test_it_is_a_share_in_any_unit(parts, factor):
    once = gaps([Place(area=1.0, plants=1, row=1.0, gaps=(p,) if p else ()) for p in parts])
    again = gaps(
        [
            Place(area=1.0, plants=1, row=factor, gaps=(p * factor,) if p * factor else ())
            for p in parts
        ]
    )
    assert 0 <= once.share.low <= once.share.value <= once.share.high <= 1
    assert again.share.value == pytest.approx(once.share.value)


def test_sentences():
    metric = Style("metric")
    assert metric.write(gaps_sentence(gaps(looked([], [])))) == labels.NO_GAP_ROW(row="4 m")
    short = metric.write(gaps_sentence(gaps(looked([0.1], []))))
    assert short == labels.ROW_LIES_GAPS(share="2.5%", longest="0.1 m")
    assert re.search(
        labels.ROW_LIES_GAPS_LONGEST.like(), metric.write(gaps_sentence(gaps(looked([0.2], []))))
    )


def test_without_any_length_it_is_refused():
    with pytest.raises(MeasurementError) as refused:
        gaps([Place(area=1.0, plants=3)])
    assert refused.value.field == "row"
