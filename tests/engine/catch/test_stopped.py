"""A bag with nothing in it, or far less than the others, is about its rows."""

import pytest

from evenstand.engine.catch.stopped import stopped
from evenstand.engine.catch.weighing import Bag
from evenstand.engine.quantities.units import GRAM


def bags(*grams, rows=1, firsts=()):
    found = firsts or [0] * len(grams)
    return tuple(
        Bag(weight=g * GRAM, rows=rows, first=first) for g, first in zip(grams, found, strict=True)
    )


def test_a_row_that_gave_nothing_is_named_by_its_number():
    (row,) = stopped(bags(22.4, 22.9, 0, 22.6, firsts=(5, 10, 12, 18)), resolution=0.1 * GRAM)
    assert (row.rows, row.bag, row.off) == ((12,), 3, -1)
    assert str(row.name) == "Row 12"


def test_rows_that_are_not_known_go_by_their_bag():
    (bag,) = stopped(bags(22.4, 22.9, 0, 22.6), resolution=0.1 * GRAM)
    assert (bag.rows, str(bag.name)) == ((), "Bag 3")


def test_a_bag_of_neighbors_names_them_all():
    found = stopped(bags(130, 95, 131, 128, rows=6, firsts=(1, 7, 13, 19)), resolution=GRAM)
    assert [str(bag.name) for bag in found] == ["Rows 7–12"]
    # The middle of 128, 130 and 131 with 95 is 129.
    assert found[0].off == pytest.approx(95 / 129 - 1)


@pytest.mark.parametrize(("grams", "found"), [(75.1, False), (74.9, True)])
def test_a_quarter_below_the_middle_is_too_far(grams, found):
    assert bool(stopped(bags(100, 100, grams, 100), resolution=GRAM)) is found


@pytest.mark.parametrize(("grams", "found"), [(76, False), (74, True)])
def test_of_two_alone_the_emptier_one_is_asked_about(grams, found):
    assert bool(stopped(bags(grams, 100), resolution=GRAM)) is found


def test_the_emptiest_comes_first():
    found = stopped(bags(100, 60, 100, 0, 100, firsts=(1, 2, 3, 4, 5)), resolution=GRAM)
    assert [each.rows for each in found] == [(4,), (2,)]


@pytest.mark.parametrize(("ounces", "found"), [((3, 2, 3, 3), 0), ((3, 1, 3, 3), 1), ((1, 0), 0)])
def test_less_than_two_steps_of_the_scale_tell_nothing(ounces, found):
    """On a kitchen scale in whole ounces 2 beside 3 may be 2.4 beside 2.6."""
    ounce = 28.349523125 * GRAM
    catch = tuple(Bag(weight=each * ounce) for each in ounces)
    assert len(stopped(catch, resolution=ounce)) == found


def test_all_seed_in_one_bag_tells_nothing_of_rows():
    assert stopped(bags(500, rows=20), resolution=GRAM) == ()
