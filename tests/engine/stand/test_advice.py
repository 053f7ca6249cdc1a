"""What a stand asks for: sentences, and odds that keep their word."""

import random
import re

import pytest

import labels
from evenstand.engine.quantities.units import INCH, SQUARE_FOOT
from evenstand.engine.stand.advice import headline, next_thing, odds_of, published, surer, too_early
from evenstand.engine.stand.place import Place
from evenstand.engine.stand.stand import stand
from evenstand.engine.stand.tables import TABLES, tables_for
from evenstand.engine.statistics.budget import Estimate

TWELVE = [31, 27, 35, 22, 29, 33, 26, 30, 38, 24, 28, 34]
DAY = 86_400.0


def of(counts, area=1.875 * SQUARE_FOOT):
    return stand([Place(area=area, plants=count) for count in counts])


def test_headline():
    assert str(headline(of(TWELVE))) == (
        labels.THE_STAND_IS(
            stand="15.9 plants/ft²",
            low="14.3 plants/ft²",
            high="17.5 plants/ft²",
            places=labels.PLACES(n=12),
        )
    )
    assert re.match(labels.NO_PLANT_THERE.like(places=labels.PLACE), str(headline(of([0]))))


@pytest.mark.parametrize(
    ("counts", "wish", "said"),
    [
        (TWELVE, 12, "Keep this stand: 999 in 1000"),
        (TWELVE, 14.4, "Keep this stand: 19 in 20"),  # t(11) of 2.02: 0.966
        (TWELVE, 17.2, "Before you decide anything, walk the whole field: 19 in 20"),  # 1.84: 0.953
        (TWELVE, 22, "Before you decide anything, walk the whole field: 999 in 1000"),
        (
            TWELVE,
            15,
            "6 in 7 odds the stand meets your goal of 15 plants/ft². Count another 1 spot",
        ),
        (TWELVE, None, labels.COUNT_MORE_RANGE(places=labels.PLACE)),
        ([30, 31] * 6, None, labels.WRITE_STAND_DOWN),
        ([30, 31] * 6, 16.2, "3 in 4"),  # 16.27, t(11) of 0.83: 0.79
        ([30, 28], 12, labels.COUNT_MORE_FAR(places=labels.PLACES(n=3))),
        ([0, 0], 12, labels.LOOK_MORE_BEFORE(places=labels.PLACES(n=3))),
        ([5, 60, 9, 40, 3, 80], None, labels.COUNT_LONGER_PIECES),
        ([1, 0, 0, 0, 1, 0], None, labels.COUNT_LONGER_PIECES),
    ],
)
def test_the_one_next_thing(counts, wish, said):
    found = next_thing(of(counts), wish=wish and wish / SQUARE_FOOT)
    assert str(found).startswith(said)


def test_close_to_the_wish_more_counting_hardly_helps():
    assert str(next_thing(of([30, 31] * 6), wish=16.2 / SQUARE_FOOT)).endswith(
        labels.LIES_CLOSE_WHAT
    )


def test_advice_never_orders_to_sow_again():
    """Whatever is counted, no sentence tells to sow again: sources only would think of it."""
    for counts in ([0] * 6, [1] * 6, [5, 60, 9, 40, 3, 80], TWELVE):
        found = of(counts)
        said = [
            next_thing(found, wish=25 / SQUARE_FOOT),
            *published(found.range, TABLES, spacing=7.5 * INCH, wish=25 / SQUARE_FOOT),
        ]
        for text in map(str, said):
            assert "sow again" not in text
            assert "sowing again" not in text or "would think of" in text


@pytest.mark.simulated
def test_odds_of_a_wish_keep_their_word():
    """Stands drawn about a wish: among those given 6 to 9 in 10, so many had it."""
    rng, given, had = random.Random(8), [], []
    for _ in range(3000):
        true = rng.gauss(30, 3)
        counts = [max(0, round(rng.gauss(true, 6))) for _ in range(8)]
        odds = odds_of(of(counts, 1.0).range, 30.0)
        if 0.6 <= odds <= 0.9:
            given.append(odds)
            had.append(true >= 30)
    assert sum(had) / len(had) == pytest.approx(sum(given) / len(given), abs=0.04)


def test_what_others_publish():
    said = [
        str(text)
        for text in published(
            of(TWELVE).range,
            tables_for("winter wheat"),
            spacing=7.5 * INCH,
            wish=22 / SQUARE_FOOT,
        )
    ]
    assert said[0] == (
        "Penn State Extension (winter wheat): 15 plants/ft² to 18 plants/ft² gave 75% to 80% of"
        " full yield. 6 in 7 odds the stand is there or better."
    )
    assert labels.MORE_GAVE_FULL(low="11 plants/ft²", part="90%") in said[1]
    assert labels.KEEPS_EVEN_STAND(low="11 plants/ft²") in said[2]
    assert said[3].startswith(labels.SUCH_TABLES_ADVISE)


def test_tables_without_what_they_need_are_left_out():
    said = published(of(TWELVE).range, tables_for("winter wheat"))
    assert len(said) == 2
    assert published(of(TWELVE).range, ()) == ()


def test_a_thin_stand():
    low = Estimate(8 / SQUARE_FOOT, 6 / SQUARE_FOOT, 10 / SQUARE_FOOT, 1 / SQUARE_FOOT)
    said = str(published(low, tables_for("winter wheat")[:1])[0])
    assert labels.BELOW_WOULD_THINK(high="12 plants/ft²") + " 99" in said
    canola = str(published(Estimate(10.0, 8.0, 12.0, 1.0), tables_for("canola"))[0])
    assert canola == labels.THINNER_THAN_TABLE(source="Canola Council of Canada", crop="canola")
    some = str(published(low, tables_for("canola"))[0])
    assert labels.IT_AIMS_AT(low="5 plants/ft²", high="8 plants/ft²") in some
    less = Estimate(4 / SQUARE_FOOT, 3 / SQUARE_FOOT, 5 / SQUARE_FOOT, 0.5 / SQUARE_FOOT)
    assert labels.CALLS_ADEQUATE(low="3 plants/ft²", high="4 plants/ft²") in str(
        published(less, tables_for("canola"))[0]
    )
    open_ = published(less, tables_for("winter wheat")[2:], wish=9 / SQUARE_FOOT)
    assert "it makes no call from 3.6" in str(open_[0])


def test_surer():
    reason, clumps = surer(of([5, 60, 9, 40, 3, 80]))
    assert labels.COUNT_LONGER_PIECES_ACROSS in str(reason)
    assert re.search(labels.COUNTS_DIFFER_MORE.like(), str(clumps))
    (reason,) = surer(of(TWELVE))
    assert re.search(labels.COUNT_MORE_ABOUT.like(places=labels.PLACE), str(reason))
    assert surer(of([0])) == ()


@pytest.mark.parametrize(
    ("water", "days", "said"),
    [
        ("irrigated", 89, labels.DO_NOT_JUDGE),
        ("irrigated", 90, None),
        ("dryland", 200, labels.DO_NOT_JUDGE_DRY),
        ("dryland", 365, None),
    ],
)
def test_too_early_to_judge(water, days, said):
    """NRCS Montana, MT-5 (2009): 90 days where irrigated, a growing season on dry land."""
    found = too_early(perennial=True, water=water, since=days * DAY)
    assert (found is None) == (said is None)
    if said:
        assert str(found) == said(source="NRCS Montana, MT-5 (2009)")


def test_annuals_may_be_judged_at_once():
    assert too_early(perennial=False, water="dryland", since=0.0) is None
