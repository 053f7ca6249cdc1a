"""Weights laid against their mean; plugged rows stand apart; what cannot be used is refused."""

from math import inf, nan

import pytest

import labels
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.rows.catch import row_catch


def test_by_hand():
    # Mean 0.1 kg.
    catch = row_catch([[0.09, 0.1, 0.11]])
    assert catch.mean == pytest.approx(0.1)
    assert catch.off == pytest.approx({1: -0.1, 2: 0.0, 3: 0.1})
    assert catch.plugged == frozenset()


def test_catches_of_different_length_count_alike():
    """A second catch twice as long: each is held against its own mean first."""
    catch = row_catch([[0.09, 0.1, 0.11], [0.22, 0.2, 0.18]])
    assert catch.off == pytest.approx({1: 0.0, 2: 0.0, 3: 0.0}, abs=1e-12)
    assert catch.mean == pytest.approx(0.15)


def test_a_plugged_row_does_not_move_the_others():
    catch = row_catch([[0.09, 0.1, 0.0, 0.11]])
    assert catch.plugged == {3}
    assert catch.running == pytest.approx({1: -0.1, 2: 0.0, 4: 0.1})
    assert catch.off[3] == -1


@pytest.mark.parametrize(("weight", "plugged"), [(0.0751, False), (0.0749, True)])
def test_a_quarter_below_the_middle_row_is_plugged(weight, plugged):
    catch = row_catch([[0.1, 0.1, weight, 0.1, 0.1]])
    assert (3 in catch.plugged) is plugged


@pytest.mark.parametrize(("weight", "plugged"), [(0.0751, False), (0.0749, True)])
def test_the_middle_of_an_even_number_lies_between_two(weight, plugged):
    catch = row_catch([[0.09, 0.11, weight, 0.13]])
    assert (3 in catch.plugged) is plugged


def test_plugged_rows_do_not_lower_the_middle():
    """Five of eight stopped: the middle is that of the rows with seed."""
    assert row_catch([[0, 0.1, 0, 0, 0.1, 0, 0.1, 0]]).plugged == {1, 3, 4, 6, 8}


def test_a_row_that_stopped_in_one_catch():
    catch = row_catch([[0.1, 0.1, 0.0, 0.1], [0.1, 0.1, 0.1, 0.1]])
    assert catch.stopped_once(3)
    assert not catch.stopped_once(1)


@pytest.mark.parametrize(
    ("weights", "need"),
    [
        ([], labels.GIVE_LEAST_ROWS),
        ([[0.1, 0.1]], labels.GIVE_LEAST_ROWS),
        ([[0.1, 0.1, 0.1], [0.1, 0.1]], labels.GIVE_EVERY_CATCH),
        ([[0.1] * 121], labels.COMPARE_ROWS(n=120)),
        ([[0.1, -0.1, 0.1]], labels.GIVE_WEIGHTS_MORE),
        ([[0.1, nan, 0.1]], labels.GIVE_WEIGHTS_MORE),
        ([[0.1, inf, 0.1]], labels.GIVE_WEIGHTS_MORE),
        ([[0, 0, 0]], labels.GIVE_CATCH_SEED),
        ([[0.1, 0.1, 0.1], [0, 0, 0]], labels.LEAVE_OUT_CATCH),
        ([[0.1, 0, 0, 0.1]], labels.CLEAR_ROWS_THEN(rows="2, 3")),
    ],
)
def test_refuses_what_cannot_be_compared(weights, need):
    with pytest.raises(MeasurementError) as refusal:
        row_catch(weights)
    assert refusal.value.field == "weights"
    assert need in str(refusal.value)


def test_rows_keep_the_numbers_they_were_caught_under():
    catch = row_catch([[0.09, 0.1, 0.0, 0.11]], [5, 10, 12, 18])
    assert catch.plugged == {12}
    assert catch.off == pytest.approx({5: -0.1, 10: 0.0, 12: -1.0, 18: 0.1})
    assert catch.stopped_once(12) is False
