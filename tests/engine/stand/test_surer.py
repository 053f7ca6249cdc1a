"""How many places to count, and the cure of the largest reason."""

import random

import pytest

import labels
from evenstand.engine.stand.place import Place
from evenstand.engine.stand.stand import stand
from evenstand.engine.stand.surer import (
    fewest_more,
    in_places,
    largest_reason,
    more_places,
    places_needed,
)
from evenstand.engine.statistics.budget import Share, give_or_take


def of(counts, area=1.0):
    return stand([Place(area=area, plants=count) for count in counts])


@pytest.mark.parametrize(
    ("cv", "wanted", "places"),
    [
        (0.175, 0.10, 15),  # t(14) 2.145 × 0.175 ÷ √15 = 0.0969; t(13) 2.160 ÷ √14: 0.1010
        (0.40, 0.10, 64),  # t(63) 1.998 × 0.40 ÷ 8 = 0.0999; t(62) 1.999 ÷ √63: 0.1007
        (0.22, 0.10, 22),  # t(21) 2.080 × 0.22 ÷ √22 = 0.0975; t(20) 2.086 ÷ √21: 0.1001
        (0.0, 0.10, 2),
        (0.9, 0.10, None),  # 1.97 × 0.9 ÷ √200 = 0.125
    ],
)
def test_places_needed_by_hand(cv, wanted, places):
    """With 1.96 in place of t it would be 12 and 62, as guides reckon."""
    assert places_needed(cv, wanted=wanted) == places


def test_what_places_share_sets_a_floor():
    # t(16) 2.120 × √(0.01 ÷ 17 + 0.0016) = 0.0992; t(15) 2.131 × √(0.01 ÷ 16 + 0.0016) = 0.1005
    assert places_needed(0.1, common=0.04) == 17
    assert places_needed(0.1, common=0.06) is None


def test_so_many_places_give_that_range():
    """Counted as many as it says, nine fields in ten have a range near ± 10%."""
    rng, wide = random.Random(4), []
    for _ in range(200):
        found = of([max(0, round(rng.gauss(400, 80))) for _ in range(places_needed(0.2))])
        wide.append((found.range.high - found.range.low) / 2 / found.range.value)
    assert sum(wide) / len(wide) == pytest.approx(0.10, abs=0.008)


def test_more_places():
    """Twelve of CV 15.84% need 13: t(12) 2.179 × 0.1584 ÷ √13 = 0.0957."""
    assert more_places(of([31, 27, 35, 22, 29, 33, 26, 30, 38, 24, 28, 34])) == 1
    assert more_places(of([30, 31] * 5)) == 0
    assert more_places(of([0, 0])) is None
    assert [fewest_more(of([9] * n)) for n in (1, 4, 5, 9)] == [4, 1, 0, 0]


def test_the_largest_reason_has_its_cure():
    counted = of([31, 27, 35, 22, 29, 33])
    (said,) = largest_reason(counted.budget, more=3)
    assert str(said) == (
        labels.UNCERTAINTY_PLACES_DIFFER(
            part="100%", cure=labels.COUNT_MORE_ABOUT(places=labels.PLACES(n=3), wanted="10%")
        )
    )
    (said,) = largest_reason(counted.budget, more=0)
    assert labels.EVERY_FURTHER_PLACE in str(said)
    for more, longer in ((None, False), (3, True)):
        (said,) = largest_reason(counted.budget, more=more, longer=longer)
        assert labels.COUNT_LONGER_PIECES_ACROSS in str(said)
    taped = of([30, 31] * 6, give_or_take(0.36, 0.05, "row spacing"))
    (said,) = largest_reason(taped.budget, more=0)
    assert "comes from the row spacing: measure from the first opener" in str(said)
    assert largest_reason((), more=1) == ()
    assert largest_reason((Share("moon", 1.0),), more=1) == ()


def test_places_in_words():
    assert [str(in_places(n)) for n in (1, 2)] == [labels.PLACE, labels.PLACES(n=2)]
