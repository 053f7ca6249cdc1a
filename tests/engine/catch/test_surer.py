"""What would make a result surer: each cure is done for real and measured again."""

from math import sqrt

import pytest

import labels
from evenstand.engine.catch.rate import measure
from evenstand.engine.catch.surer import Effort, cures, half_range
from evenstand.engine.catch.weighing import Bag, Prior, WeighScale
from evenstand.engine.drill.drill import Drill
from evenstand.engine.drill.travel import rolled, taped, turned
from evenstand.engine.quantities.units import GRAM, INCH
from evenstand.engine.statistics.budget import Share, give_or_take


def catch(*, rows=4, turns=20, resolution=GRAM, repeats=1, wheel=None):
    """A drill of 24 rows that drops 3 g a turn and row."""
    bag = Bag(weight=0.003 * rows * turns, rows=rows)
    return measure(
        [(bag,)] * repeats,
        run=turned(wheel or rolled(2.4), turns),
        drill=Drill(rows=24, spacing=7.5 * INCH),
        scale=WeighScale(resolution=resolution),
        prior=Prior(),
    )


def advice(rate, *, wanted, rows=4, turns=20.0, resolution=GRAM, repeats=1, by_crank=False):
    effort = Effort(
        rows_caught=rows,
        open_rows=24,
        repeats=repeats,
        bags=1,
        turns=turns,
        by_crank=by_crank,
        row_length=2.4 * 20 * rows if turns is None else 2.4 * turns * rows,
        resolution=resolution,
        row_cv=0.05,
        prior=Prior(),
    )
    return cures(rate.shares, value=rate.field.value, wanted=wanted, effort=effort)


def test_more_turns_are_those_of_the_crank_where_one_is_turned():
    coarse = catch(rows=24, turns=10, resolution=30 * GRAM)
    given = {"wanted": 0.04, "rows": 24, "turns": 10.0, "resolution": 0.03}
    plain, cranked = (
        {cure.name: str(cure.say) for cure in advice(coarse, by_crank=by, **given)}
        for by in (False, True)
    )
    assert plain["scale reading"].endswith(" turns instead")
    assert cranked["scale reading"] == plain["scale reading"].replace(
        " instead", " of the crank instead"
    )


def test_half_range_is_that_of_the_estimate():
    rate = catch()
    half = (rate.field.high - rate.field.value) / rate.field.value
    assert half_range(rate.shares, rate.field.value) == pytest.approx(half, rel=1e-3)


def test_the_cheapest_cure_that_reaches_comes_first_and_keeps_its_word():
    first = advice(catch(), wanted=0.045)[0]
    assert first.reaches
    assert str(first.say).startswith("catch another ")
    more = int(str(first.say).split()[2])
    # Do it: catch that many more rows, and the range is what was promised or better.
    done = catch(rows=4 + more)
    assert half_range(done.shares, done.field.value) == pytest.approx(first.reach, rel=0.01)
    fewer = catch(rows=4 + more - 1)
    assert half_range(fewer.shares, fewer.field.value) > 0.045


def test_more_turns_cure_a_light_catch_on_a_coarse_scale():
    coarse = catch(rows=24, turns=10, resolution=30 * GRAM)
    by_name = {c.name: c for c in advice(coarse, wanted=0.04, rows=24, turns=10.0, resolution=0.03)}
    assert str(by_name["scale reading"].say).startswith("make ")
    turns = int(str(by_name["scale reading"].say).split()[1])
    done = catch(rows=24, turns=turns, resolution=30 * GRAM)
    reached = half_range(done.shares, done.field.value)
    assert reached == pytest.approx(by_name["scale reading"].reach, rel=0.05)


def test_a_taped_wheel_is_cured_by_rolling_it():
    slipping = catch(rows=24, turns=80, wheel=taped(2.4, slip=give_or_take(0.03, 0.03, "slip")))
    first = advice(slipping, wanted=0.036, rows=24, turns=80.0)[0]
    assert (first.name, first.reaches) == ("slip", True)
    done = catch(rows=24, turns=80, wheel=rolled(give_or_take(2.4, 0.012, "rolled distance")))
    assert half_range(done.shares, done.field.value) == pytest.approx(first.reach, rel=0.02)


@pytest.mark.parametrize(
    ("name", "limits"), [("slip", 0.005), ("rolled distance", 0.005), ("row spacing", 1 / 400)]
)
def test_a_cure_leaves_what_the_better_measurement_is_known_to(name, limits):
    """Limits ÷ √3 (JCGM 100:2008, 4.3.7) times 1.96."""
    effort = Effort(
        rows_caught=4,
        open_rows=24,
        repeats=1,
        bags=1,
        turns=20.0,
        row_length=192.0,
        resolution=GRAM,
        row_cv=0.05,
        prior=Prior(),
    )
    alone = (Share(name, 2.0),)  # of a rate of 100: 2 %
    (cure,) = cures(alone, value=100.0, wanted=0.02, effort=effort)
    assert cure.reach == pytest.approx(1.96 * limits / sqrt(3), rel=1e-3)


def test_more_repeats_average_a_catch_s_own_errors():
    effort = Effort(
        rows_caught=24,
        open_rows=24,
        repeats=2,
        bags=1,
        turns=None,
        row_length=192.0,
        resolution=GRAM,
        row_cv=0.05,
        prior=Prior(),
    )
    (cure,) = cures(
        (Share("catch-to-catch variation", 2.0),), value=100.0, wanted=0.029, effort=effort
    )
    # 3.92 % from two catches: four give 2.77 %, three 3.20 %.
    assert str(cure.say) == labels.REPEAT_MORE(catches="2 catches")
    assert cure.reach == pytest.approx(0.0277, abs=5e-5)


def test_shares_that_hardly_matter_get_no_cure():
    assert "scale reading" not in {c.name for c in advice(catch(turns=200), wanted=0.03)}


def test_what_cannot_reach_comes_after_what_can_and_is_not_driven_to_the_utmost():
    found = advice(catch(), wanted=0.045)
    reaching = [c.reaches for c in found]
    assert reaching == sorted(reaching, reverse=True)
    late = [c.reach for c in found if not c.reaches]
    assert late == sorted(late)


def test_nothing_reaches_a_wish_beyond_all_cures():
    assert not any(c.reaches for c in advice(catch(), wanted=0.001))


def test_without_turns_the_repeatability_asks_for_catches():
    rate = catch(rows=24)
    by_name = {c.name: c for c in advice(rate, wanted=0.02, rows=24, turns=None)}
    assert "another 3 catches" in str(by_name["catch-to-catch variation"].say)
