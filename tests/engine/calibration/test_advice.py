"""The sentences of the Set step, each for its case, and their odds never rounded up."""

import pytest

from evenstand.engine.calibration import advice
from evenstand.engine.calibration.chart import Chart, curve_from_charts
from evenstand.engine.calibration.choose import Candidate, CaughtAt, Choice, Odd
from evenstand.engine.catch.rate import measure
from evenstand.engine.catch.surer import Cure
from evenstand.engine.catch.target import Target
from evenstand.engine.catch.weighing import Bag, Prior, WeighScale
from evenstand.engine.drill.drill import Drill, Gear, Scale
from evenstand.engine.drill.travel import rolled, turned
from evenstand.engine.quantities.phrases import Style, say
from evenstand.engine.quantities.units import FOOT, INCH, OUNCE, POUND_PER_ACRE, ROWS, Amount
from evenstand.engine.statistics.budget import Estimate

LB = POUND_PER_ACRE
FULL, HALF = Gear(name="full"), Gear(name="half", ratio=0.5)
TARGET = Target(rate=54 * LB)
MORE_ROWS = Cure(
    name="rows not caught",
    say=say("catch {rows} more", rows=Amount(6, ROWS)),
    reach=0.05,
    reaches=True,
    minutes=3,
)


def notch(setting, rate, *, gear=FULL, odds=0.92, caught=0):
    around = Estimate(rate * LB, 0.95 * rate * LB, 1.05 * rate * LB, 0.025 * rate * LB)
    return Candidate(
        setting=setting, gear=gear, rate=around, odds=odds, loss=abs(rate - 54), caught=caught
    )


def choice(best, *others, ending="go on", gears=(FULL,), odd=()):
    drill = Drill(rows=20, spacing=0.19, scale=Scale(low=0, high=60), gears=gears)
    chart = Chart(points=((20, 36 * LB), (40, 72 * LB)), gear=gears[0].name)
    return Choice(
        best=best,
        ending=ending,
        candidates=(best, *others),
        odd=odd,
        curve=curve_from_charts([chart], drill),
        best_possible=0.99,
    )


def at(setting, *, gear=FULL, rate=50.0):
    return CaughtAt(setting=setting, gear=gear, rate=rate * LB, cv=0.02)


def said(sentences):
    return " ".join(str(sentence) for sentence in sentences)


def test_move_then_how_sure_then_what_to_do():
    text = said(advice.advise(choice(notch(33, 54)), target=TARGET, last=at(31)))
    assert text == (
        "Move the lever from 31 to 33, coming up to it from below. "
        "9 in 10 that this puts the field within 5 % of 54 lb/ac. Then catch there."
    )


def test_units_are_the_reader_s():
    sentence = advice.hope(notch(33, 54), Target(rate=54 * LB, on="static"))
    assert Style(system="metric").write(sentence) == (
        "9 in 10 that this puts the stand rate within 5 % of 60.5 kg/ha."
    )


@pytest.mark.parametrize(
    ("odds", "words"), [(0.9199, "9 in 10"), (0.8999, "6 in 7"), (0.0005, "less than 1 in 100")]
)
def test_odds_are_never_rounded_up(odds, words):
    assert str(advice.hope(notch(33, 54, odds=odds), TARGET)).startswith(f"{words} that")


def test_a_caught_notch_that_is_not_sure_yet_is_caught_again():
    far = advice.advise(choice(notch(33, 54, odds=0.8, caught=1)), target=TARGET, last=at(33))
    assert said(far).startswith("Leave the lever at 33, and catch again there. 4 in 5 that")
    assert said(far).endswith("9 in 10 is wanted.")
    near = advice.advise(choice(notch(33, 54, odds=0.905, caught=1)), target=TARGET, last=at(33))
    assert said(near).endswith("That is on the edge: one more catch settles it.")


def test_gears_are_named_where_there_are_several():
    two = (FULL, HALF)
    same = advice.advise(choice(notch(33, 54), gears=two), target=TARGET, last=at(31))
    assert said(same).startswith(
        "Move the lever from 31 to 33, coming up to it from below, in gear"
    )
    other = advice.advise(choice(notch(50, 54, gear=HALF), gears=two), target=TARGET, last=at(31))
    assert said(other).startswith("Put the drive in gear half. Set the lever to 50")


def test_no_notch_names_the_nearest_on_both_sides():
    light, heavy = notch(33, 50, caught=2), notch(34, 58)
    text = said(advice.advise(choice(light, heavy, ending="no notch"), target=TARGET, last=at(33)))
    assert text.startswith("No notch can do it: none gives 54 lb/ac within 5 %.")
    assert "33 gives 50 lb/ac. 34 gives 58 lb/ac." in text
    alone = advice.advise(
        choice(light, ending="no notch", gears=(FULL, HALF)), target=TARGET, last=at(33)
    )
    assert "No notch in gear full can do it" in said(alone)


def test_more_rows_not_more_times():
    found = choice(notch(33, 54, odds=0.8, caught=3), ending="common limits")
    text = said(advice.advise(found, target=TARGET, last=at(33), cure=MORE_ROWS))
    assert "Catch more rows, not more times: catch 6 rows more." in text
    rolling = Cure(name="slip", say=say("roll the wheel"), reach=0.1, reaches=False, minutes=9)
    text = said(advice.advise(found, target=TARGET, last=at(33), cure=rolling))
    assert "All catches share one error. To make it smaller, roll the wheel." in text
    bare = said(advice.advise(found, target=TARGET, last=at(33)))
    assert bare.endswith("within 5 % of 54 lb/ac.")


def test_a_first_catch_against_the_chart_and_a_later_one_against_the_others():
    odd = Odd(catch=1, expected=54 * LB, odds=0.004)
    text = str(advice.conflict(odd, at(30, rate=20), trusted=True))
    assert text.startswith(
        "Your chart cannot be right: it says 54 lb/ac at 30, the drill gave 20 lb/ac"
    )
    for first, trusted in ((1, False), (3, True)):
        odd = Odd(catch=first, expected=54 * LB, odds=0.004)
        text = str(advice.conflict(odd, at(30, rate=20), trusted=trusted))
        assert text.startswith(f"Catch {first} does not fit the others")


def test_half_speed_meters_half_the_seed():
    """Common practice, no source: the turns per acre do not change, the setting must."""
    text = str(advice.other_gear(FULL, HALF))
    assert "the same turns meter half the seed." in text
    assert "The turns for a piece of ground do not change, the setting does." in text
    assert "2 times the seed" in str(advice.other_gear(HALF, FULL))


def caught(ounces, *, on="field"):
    """Rate of 8 oz from 4 of 24 rows over 18 1/3 turns of 95 in: 60 lb/ac."""
    drill = Drill(rows=24, spacing=7.5 * INCH)
    return measure(
        [(Bag(weight=ounces * OUNCE, rows=4),)],
        run=turned(rolled(95 / 12 * FOOT), 18 + 1 / 3),
        drill=drill,
        scale=WeighScale(),
        prior=Prior(),
        target=Target(rate=60 * LB, on=on),
    )


@pytest.mark.parametrize(
    ("ounces", "first"),
    [
        (6.0, "Open the meter to drop 33 % more, and catch again: it is light."),
        (10.0, "Close the meter to drop 20 % less, and catch again: it is heavy."),
        (8.0, "It cannot be told yet: catch again."),
    ],
)
def test_one_catch_has_one_next_thing(ounces, first):
    # 60 ÷ 45 is a third more, 60 ÷ 75 a fifth less.
    sentences = advice.of_one_catch(caught(ounces), Target(rate=60 * LB), cure=None)
    assert str(sentences[0]) == first


def test_what_makes_it_surer_is_the_next_thing_when_nothing_can_be_told():
    sentences = advice.of_one_catch(caught(8), Target(rate=60 * LB), cure=MORE_ROWS)
    assert str(sentences[0]) == "It cannot be told yet. To be surer, catch 6 rows more."
    bare = advice.of_one_catch(caught(8), None, cure=MORE_ROWS)
    assert str(bare[1]) == "To be surer, catch 6 rows more."
