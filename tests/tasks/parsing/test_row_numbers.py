"""How many rows were caught, or which: rows keep their numbers."""

import pytest

from evenstand.engine.drill.drill import Drill
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.tasks.parsing.given import Given
from evenstand.tasks.parsing.row_numbers import row_numbers

DRILL = Drill(rows=24, spacing=0.19)


def caught(text, drill=DRILL):
    return row_numbers(Given({"rows_caught": text}), drill=drill)


def firsts(text, weights):
    return [(bag.first, bag.rows) for bag in caught(text).bags(weights)]


@pytest.mark.parametrize(
    ("text", "weights", "expected"),
    [
        ("4", [1, 1, 1, 1], [(0, 1)] * 4),
        ("4 rows", [1], [(0, 4)]),
        ("24", [1], [(0, 24)]),
        ("24", [1, 1, 1, 1], [(1, 6), (7, 6), (13, 6), (19, 6)]),
        ("5, 10, 12, 18", [1, 1, 1, 1], [(5, 1), (10, 1), (12, 1), (18, 1)]),
        ("5,10;12 , 18", [1, 1, 1, 1], [(5, 1), (10, 1), (12, 1), (18, 1)]),
        ("1-6, 7–12", [1, 1], [(1, 6), (7, 6)]),
        ("1-6, 9-12", [1, 1], [(1, 6), (9, 4)]),
        ("5-8", [1, 1, 1, 1], [(5, 1), (6, 1), (7, 1), (8, 1)]),
        ("5-8", [1], [(5, 4)]),
        ("5, 10", [1], [(0, 2)]),  # one bag of rows that are no neighbors
    ],
)
def test_bags_know_their_rows(text, weights, expected):
    assert firsts(text, weights) == expected


def test_weights_that_do_not_go_round_are_no_bags():
    assert caught("5, 10, 12").bags([1, 1]) is None


@pytest.mark.parametrize("text", ["5, 5", "0-3", "23-25", "8-5", "5, x", "5, 10 lb"])
def test_rows_that_the_drill_has_not_are_refused(text):
    with pytest.raises(MeasurementError) as refusal:
        caught(text)
    assert refusal.value.field == "rows_caught"


def test_no_more_rows_than_drop_seed():
    with pytest.raises(MeasurementError) as refusal:
        caught("1-24", Drill(rows=24, spacing=0.19, blocked=2))
    assert refusal.value.field == "rows_caught"
