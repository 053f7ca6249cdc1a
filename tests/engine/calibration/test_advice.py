"""The sentences of the Set step, each for its case, and their odds never rounded up."""

import re

import pytest

import labels
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
    name="the rows you didn't catch",
    say=say("catch another {rows}", rows=Amount(6, ROWS)),
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
        labels.MOVE_FROM_TO(levers=labels.THE_LEVER, from_=31, to=33)
        + ", "
        + labels.COMING_UP_BELOW
        + ". "
        + labels.PUTS_WITHIN(
            odds="9 in 10", where=labels.THE_FIELD, tolerance="5%", rate="54 lb/ac"
        )
        + " "
        + labels.THEN_CATCH_THERE
    )


def test_units_are_the_reader_s():
    sentence = advice.hope(notch(33, 54), Target(rate=54 * LB, on="static"))
    assert Style(system="metric").write(sentence) == (
        labels.PUTS_WITHIN(
            odds="9 in 10", where=labels.STAND_RATE, tolerance="5%", rate="60.5 kg/ha"
        )
    )


@pytest.mark.parametrize(
    ("odds", "words"),
    [(0.9199, "9 in 10"), (0.8999, "6 in 7"), (0.0005, labels.LESS_THAN(part=1, whole=100))],
)
def test_odds_are_never_rounded_up(odds, words):
    assert str(advice.hope(notch(33, 54, odds=odds), TARGET)).startswith(f"{words} odds")


def test_a_caught_notch_that_is_not_sure_yet_is_caught_again():
    far = advice.advise(choice(notch(33, 54, odds=0.8, caught=1)), target=TARGET, last=at(33))
    assert re.match(
        " ".join(
            [
                labels.CATCH_AGAIN_THERE.like(go=labels.LEAVE_AT(levers=labels.THE_LEVER, to=33)),
                labels.PUTS_WITHIN.like(odds="4 in 5"),
            ]
        ),
        said(far),
    )
    assert said(far).endswith(labels.IS_WANTED(odds="9 in 10"))
    near = advice.advise(choice(notch(33, 54, odds=0.905, caught=1)), target=TARGET, last=at(33))
    assert said(near).endswith(labels.EDGE_ONE_MORE)


def test_gears_are_named_where_there_are_several():
    two = (FULL, HALF)
    same = advice.advise(choice(notch(33, 54), gears=two), target=TARGET, last=at(31))
    assert re.match(
        labels.IN_GEAR.like(go="Move the lever from 31 to 33, coming up to it from below"),
        said(same),
    )
    other = advice.advise(choice(notch(50, 54, gear=HALF), gears=two), target=TARGET, last=at(31))
    assert said(other).startswith("Put the drive in half gear. Set the lever to 50")


def test_no_notch_names_the_nearest_on_both_sides():
    light, heavy = notch(33, 50, caught=2), notch(34, 58)
    text = said(advice.advise(choice(light, heavy, ending="no notch"), target=TARGET, last=at(33)))
    assert text.startswith(labels.NO_NOTCH_CAN(rate="54 lb/ac", tolerance="5%"))
    assert (
        " ".join(
            [labels.GIVES(setting=33, rate="50 lb/ac"), labels.GIVES(setting=34, rate="58 lb/ac")]
        )
        in text
    )
    alone = advice.advise(
        choice(light, ending="no notch", gears=(FULL, HALF)), target=TARGET, last=at(33)
    )
    assert re.search(labels.NO_NOTCH_GEAR.like(gear="full"), said(alone))


def test_more_rows_not_more_times():
    found = choice(notch(33, 54, odds=0.8, caught=3), ending="common limits")
    text = said(advice.advise(found, target=TARGET, last=at(33), cure=MORE_ROWS))
    assert labels.CATCH_MORE_ROWS(cure=labels.CATCH_MORE(rows="6 rows")) in text
    rolling = Cure(name="slip", say=say("roll the wheel"), reach=0.1, reaches=False, minutes=9)
    text = said(advice.advise(found, target=TARGET, last=at(33), cure=rolling))
    assert labels.ALL_CATCHES_SHARE(cure="roll the wheel") in text
    bare = said(advice.advise(found, target=TARGET, last=at(33)))
    assert re.search(labels.PUTS_WITHIN.like(tolerance="5%", rate="54 lb/ac") + "$", bare)


def test_a_first_catch_against_the_chart_and_a_later_one_against_the_others():
    odd = Odd(catch=1, expected=54 * LB, odds=0.004)
    text = str(advice.conflict(odd, at(30, rate=20), trusted=True))
    assert re.match(
        labels.YOUR_CHART_CANNOT.like(expected="54 lb/ac", setting=30, gave="20 lb/ac"), text
    )
    for first, trusted in ((1, False), (3, True)):
        odd = Odd(catch=first, expected=54 * LB, odds=0.004)
        text = str(advice.conflict(odd, at(30, rate=20), trusted=trusted))
        assert text.startswith(f"Catch {first} does not fit the others")


def test_half_speed_meters_half_the_seed():
    """Common practice, no source: the turns per acre do not change, the setting must."""
    text = str(advice.other_gear(FULL, HALF))
    assert re.search(labels.CAUGHT_GEAR_SOWN.like(part=labels.HALF), text)
    assert re.search(labels.CAUGHT_GEAR_SOWN.like(), text)
    assert re.search(
        labels.CAUGHT_GEAR_SOWN.like(part=labels.TIMES(n=2)), str(advice.other_gear(HALF, FULL))
    )


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
        (6.0, labels.OPEN_METER_DROP(off="33%")),
        (10.0, labels.CLOSE_METER_DROP(off="20%")),
        (8.0, labels.CANNOT_TOLD_YET),
    ],
)
def test_one_catch_has_one_next_thing(ounces, first):
    # 60 ÷ 45 is a third more, 60 ÷ 75 a fifth less.
    sentences = advice.of_one_catch(caught(ounces), Target(rate=60 * LB), cure=None)
    assert str(sentences[0]) == first


def test_what_makes_it_surer_is_the_next_thing_when_nothing_can_be_told():
    sentences = advice.of_one_catch(caught(8), Target(rate=60 * LB), cure=MORE_ROWS)
    assert str(sentences[0]) == labels.CANNOT_TOLD_YET_SURER(cure=labels.CATCH_MORE(rows="6 rows"))
    bare = advice.of_one_catch(caught(8), None, cure=MORE_ROWS)
    assert str(bare[1]) == labels.TO_BE_SURER(cure=labels.CATCH_MORE(rows="6 rows"))
