"""Where the lever goes next: what reaches the meter, and what is said."""

import re
from dataclasses import replace

import pytest

import labels
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.units import POUND_PER_ACRE
from evenstand.tasks.calibration.setting import where_next
from evenstand.tasks.job.file import read_job

# Twenty turns of 95 in under 20 rows at 7.5 in are 0.045437 ac: 39.26 oz are 54 lb/ac.
OZ = 0.045437 * 16


def job(*catches, **changed):
    file = {
        "drill": {
            "rows": 20,
            "spacing": "7.5 in",
            "taped": "95 in",
            "slip": "4 ± 2%",
            "scale": {"low": 0, "high": 60},
        },
        "chart": {"points": [[20, "36 lb/ac"], [30, "54 lb/ac"], [40, "72 lb/ac"]]},
        "target": {"rate": "54 lb/ac", "on": "static"},
        "catch": list(catches),
    }
    return read_job(file | changed)


def at(setting, rate, **more):
    made = {"setting": setting, "turns": 20, "rows_caught": 20, "net": f"{rate * OZ:.4f} oz"}
    return made | more


def test_the_meter_learns_static_rates():
    found = where_next(job(at(30, 50)))
    assert found.at[0].rate / POUND_PER_ACRE == pytest.approx(50, abs=0.01)
    assert found.at[0].setting == 30


def test_a_catch_in_work_is_brought_back_by_slip_and_field_ratio():
    made = at(30, 50, distance="158.3333 ft")
    del made["turns"]
    found = where_next(job(made, field={"ratio": "0.9"}))
    # Field rate 50 over (1 − 0.04) × 0.9.
    assert found.at[0].rate / POUND_PER_ACRE == pytest.approx(50 / 0.96 / 0.9, abs=0.01)


def test_what_all_catches_share_keeps_the_odds_down():
    some = replace_rows(job(*[at(30, 54)] * 6), 4)
    every = where_next(job(*[at(30, 54)] * 6))
    assert every.choice.best.odds > where_next(some).choice.best.odds


def replace_rows(a_job, rows):
    """The same rate from fewer rows."""
    catches = tuple(
        replace(
            each,
            bags=tuple(
                replace(bag, rows=rows, weight=bag.weight * rows / bag.rows) for bag in each.bags
            ),
        )
        for each in a_job.catches
    )
    return replace(a_job, catches=catches)


def test_slip_widens_a_field_target_and_leaves_a_static_one_alone():
    catches = [at(30, 54)] * 4
    static = where_next(job(*catches))
    same_notch = {"rate": f"{54 * 0.96} lb/ac", "on": "field"}
    field = where_next(job(*catches, target=same_notch))
    assert static.choice.best.setting == field.choice.best.setting == 30
    assert static.factor == 1
    assert field.factor == pytest.approx(0.96)
    # ± 2 % of slip over √3 and over 0.96 is 1.2 %, beside what the rest makes uncertain.
    spread = [s.choice.best.rate.u / s.choice.best.rate.value for s in (static, field)]
    assert spread[1] ** 2 - spread[0] ** 2 == pytest.approx(0.01203**2, rel=0.02)


def test_the_dear_side_moves_the_notch():
    coarse = {"drill": {"rows": 20, "spacing": "7.5 in", "rolled": "95 in", "scale": SCALE}}
    catches = [at(28, 49.5), at(32, 58.5)]
    wanted = {"rate": "54 lb/ac", "tolerance": "9%", "on": "static"}
    thin = where_next(job(*catches, **coarse, target=wanted | {"dearer": "thin stand"}))
    waste = where_next(job(*catches, **coarse, target=wanted | {"dearer": "wasted seed"}))
    assert (thin.choice.best.setting, waste.choice.best.setting) == (32, 28)


SCALE = {"low": 0, "high": 60, "step": 4}


def test_a_target_beyond_every_notch_is_refused():
    with pytest.raises(MeasurementError) as refusal:
        where_next(job(target={"rate": "500 lb/ac"}))
    assert refusal.value.field == "target"
    assert re.search(labels.NO_NOTCH_COMES.like(setting=60), str(refusal.value.need))


def test_a_target_beyond_the_last_notch_is_answered_once_that_was_caught():
    drill = {"rows": 20, "spacing": "7.5 in", "rolled": "95 in", "scale": {"low": 0, "high": 40}}
    wanted = {"rate": "90 lb/ac", "on": "static"}
    found = where_next(job(*[at(40, 72)] * 5, drill=drill, target=wanted))
    assert (found.choice.ending, found.stop) == ("no notch", True)


def test_a_catch_that_cannot_be_measured_says_which():
    good = job(at(30, 54), at(31, 55))
    bad = replace(good, drill=replace_open(good.drill))
    with pytest.raises(MeasurementError) as refusal:
        where_next(bad)
    assert refusal.value.field == "catch 1 rows_caught"


def replace_open(drill):
    from evenstand.engine.drill.drill import Drill

    return Drill(rows=10, spacing=drill.spacing, scale=drill.scale, gears=drill.gears)


def test_no_scale_no_setting():
    with pytest.raises(MeasurementError) as refusal:
        where_next(job(drill={"rows": 20, "spacing": "7.5 in"}, chart=[]))
    assert refusal.value.field == "drill scale"


def test_what_was_taken_is_said():
    said = [str(each) for each in where_next(job(at(30, 54))).assumed]
    assert labels.TOLERANCE(tolerance="5%") in said
    assert any(labels.SCALE_TYPED(step="0.0001 oz") in each for each in said)


ROW = OZ * 54 / 20  # what a row gives at 54 lb/ac


def in_rows(setting, *ounces, rows="5, 10, 12, 18", **more):
    weights = ", ".join(f"{each:.3f}" for each in ounces) + " oz"
    return {"setting": setting, "turns": 20, "rows_caught": rows, "weights": weights} | more


def test_a_row_that_gave_nothing_stops_the_lever():
    """Three quarters of the seed is not a light drill but a plugged row."""
    found = where_next(job(in_rows(30, ROW, ROW, 0, ROW)))
    assert [each.rows for each in found.stopped] == [(12,)]
    assert found.advice[0].values["s0"].values["rows"].values["rows"] == "12"
    assert str(found.advice[-1]) == labels.LEAVE_LEVER(setting=30)
    assert found.caught[0].measured.verdict is None
    assert not found.stop


def test_nothing_is_learned_from_a_catch_with_a_stopped_row():
    good, plugged = at(30, 50), in_rows(30, ROW, ROW, 0, ROW)
    alone, after = where_next(job(good)), where_next(job(good, plugged))
    assert after.choice.candidates == alone.choice.candidates
    assert [each.stopped == () for each in after.catches] == [True, False]
    again = where_next(job(plugged, good))
    assert again.choice.candidates == alone.choice.candidates
    assert again.stopped == ()
    assert again.learned == (2,)


def test_a_conflict_names_the_catch_by_its_place_among_all():
    far = where_next(job(in_rows(30, ROW, ROW, 0, ROW), at(30, 54), at(30, 54), at(30, 90)))
    assert [each.fits for each in far.catches] == [True, True, True, False]


def test_what_one_catch_and_all_together_say_is_reconciled():
    """Four rows of twenty, 5% light, tell little after six whole catches."""
    wide = {"rate": "54 lb/ac", "tolerance": "8%", "on": "static"}
    alone = in_rows(30, *[0.95 * ROW] * 4)
    found = where_next(job(*[at(30, 54)] * 6, alone, target=wide))
    assert found.caught[-1].measured.verdict.word == "cannot tell yet"
    assert found.choice.ending == "accepted"
    assert labels.BY_ITSELF(n=7) in map(str, found.notes)
    settled = where_next(job(*[at(30, 54)] * 6, target=wide))
    assert labels.BY_ITSELF(n=6) not in map(str, settled.notes)
