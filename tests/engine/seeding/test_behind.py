"""Seeds behind the drill: published seeds per foot, coverage by drawing, odd rows, refusals."""

import re
from random import Random

import pytest

import labels
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import FOOT, INCH, POUND, POUND_PER_ACRE
from evenstand.engine.seeding.behind import count_behind

WHEAT = {"length": 3 * FOOT, "spacing": 7.5 * INCH, "seeds_per_kg": 12_000 / POUND}


def counted(counts, **changed):
    given = WHEAT | {"rate": 100 * POUND_PER_ACRE}
    return count_behind(counts, **(given | changed))


def test_seeds_per_row_as_published(published):
    """Iowa State, Kentucky and a Russian page: seeds per length from seeds per ground."""
    for row in published("seeds_per_row.csv"):
        found = count_behind(
            [10], length=1.0, spacing=row["spacing"], rate=row["per_area"] / 1e4, seeds_per_kg=1e4
        )
        assert found.expected.value == pytest.approx(row["per_metre"], rel=row["rel"])


def test_soybeans_of_a_published_example():
    """200,000 seeds/ac in 15-in rows are 5.74 to the foot: a university course in agronomy."""
    found = count_behind(
        [6], length=FOOT, spacing=15 * INCH, rate=100 * POUND_PER_ACRE, seeds_per_kg=2000 / POUND
    )
    assert found.expected.value == pytest.approx(5.74, abs=0.005)


def test_a_count_by_hand():
    """100 lb/ac × 12,000 × 0.625 ft × 3 ft ÷ 43,560 = 51.65 a row; u² = 310 + (0.05 · 310)² ÷ 6."""
    found = counted([52, 49, 55, 50, 47, 60])
    assert found.expected.value == pytest.approx(6 * 51.653, rel=1e-4)
    assert found.expected.u**2 == pytest.approx(309.92 + (0.05 * 309.92) ** 2 / 6, rel=1e-4)
    assert found.fits
    assert str(found.say) == labels.FOUND_ROWS_SHOULD(
        found="313 seeds", n=6, expected="310 seeds", low=273, high=347
    )
    assert str(found.next) == labels.GO_COUNT_FITS
    line = found.working[0]
    assert line.sum(Style()).startswith("100 lb/ac × 12,000 seeds/lb × 7.5 in × 3 ft × 6")


def _poisson(rng, mean):
    """Knuth's product of uniforms, in pieces."""
    total = 0
    while mean > 0:
        part, mean = min(mean, 30.0), mean - 30.0
        limit, product = 2.718281828459045**-part, rng.random()
        while product > limit:
            total, product = total + 1, product * rng.random()
    return total


def test_sound_drills_fit_19_times_in_20():
    rng, fits, flagged, n = Random(5), 0, 0, 1500
    for _ in range(n):
        rows = [_poisson(rng, 51.653 * rng.gauss(1, 0.05)) for _ in range(6)]
        found = counted(rows)
        fits += found.fits
        flagged += any(row.odd for row in found.rows)
    assert fits / n == pytest.approx(0.95, abs=0.02)
    assert flagged / n == pytest.approx(0.05, abs=0.03)


def test_poisson_alone_would_be_too_narrow_with_uneven_rows():
    wide, narrow = counted([50] * 6), counted([50] * 6, row_cv=0.0)
    assert wide.expected.u > narrow.expected.u
    assert labels.ROWS_SPREAD_ABOUT(cv="5%") in [str(t) for t in wide.assumed]
    assert len(narrow.assumed) == 1


def test_a_row_that_drops_nothing_is_found():
    found = counted([52, 49, 0, 50, 47, 60])
    assert [row.number for row in found.rows if row.odd] == [3]
    assert str(found.next) == labels.LOOK_ROW_FIRST(rows=3)
    assert labels.GATE_SLIDE_METER in str(found.causes[0].say)


def test_half_the_seed_is_told():
    found = counted([25, 27, 24, 26, 28, 25])
    assert not found.fits
    assert found.odds < 0.01
    assert found.rate.value / POUND_PER_ACRE == pytest.approx(100 * 155 / 309.9, abs=0.1)
    assert re.search(labels.UNCOVER_MORE_ROWS.like(), str(found.next))
    assert re.search(labels.UNCOVER_MORE_ROWS_SO.like(), str(counted([85] * 6).next))
    assert counted([12]).rows[0].odd is False


@pytest.mark.parametrize(
    ("counts", "changed", "field"),
    [
        ([], {}, "counts"),
        ([-1], {}, "counts"),
        ([5], {"length": 0.0}, "length"),
        ([5], {"spacing": 0.0}, "spacing"),
        ([5], {"rate": 0.0}, "rate"),
        ([5], {"seeds_per_kg": 0.0}, "seeds_per_kg"),
    ],
)
def test_refuses_and_names_the_field(counts, changed, field):
    with pytest.raises(MeasurementError) as refusal:
        counted(counts, **changed)
    assert refusal.value.field == field
