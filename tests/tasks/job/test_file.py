"""A job file: every table, every key, and what is not known."""

import re

import pytest

import labels
from evenstand.engine.quantities.errors import MeasurementError, Path
from evenstand.engine.quantities.units import GRAM, INCH, OUNCE, POUND_PER_ACRE, POUND_PER_BUSHEL
from evenstand.engine.statistics.budget import nominal
from evenstand.tasks.job.file import read_job
from evenstand.tasks.job.tables import check_tables, in_tables


def tables(**changed):
    file = {
        "drill": {
            "name": "Plover",
            "rows": 24,
            "spacing": "7.5 in",
            "rolled": "95 in",
            "row_cv": "4%",
            "blocked": 2,
            "blocked_end": "1",
            "scale": {
                "low": 0,
                "high": 100,
                "step": "0.5",
                "closed": 5,
                "slack": "none",
                "reversed": False,
                "levers": 2,
            },
            "gears": [
                {"name": "fast", "driver": 20, "driven": 10},
                {"name": "slow", "ratio": "1/2"},
            ],
        },
        "chart": [
            {"gear": "fast", "spacing": "15 in", "test_weight": "60 lb/bu", "points": POINTS},
            {"gear": "slow", "test_weight": "60 lb/bu", "points": [[30, "12 lb/ac"]]},
        ],
        "history": [{"gear": "fast", "test_weight": "58 lb/bu", "points": [[40, "90 lb/ac"]]}],
        "seed": {"name": "rye", "test_weight": "58 lb/bu"},
        "target": {
            "rate": "1 bu/ac",
            "tolerance": "4%",
            "on": "static",
            "gear": "slow",
            "dearer": "thin stand",
        },
        "weighing": {"resolution": "0.1 g", "tolerance": "0.2 g"},
        "field": {"name": "Alder Bench", "ratio": "0.96 ± 0.03"},
        "catch": [
            {
                "setting": 40,
                "gear": "fast",
                "turns": "18 1/3",
                "rows_caught": 4,
                "net": "8 oz",
                "note": "wet",
            },
            {"setting": 41.5, "gear": "slow", "distance": "150 ft", "weights": ["22 g", "23 g"]},
            {"setting": 42, "gear": "slow", "area": "0.5 ac", "net": "20 lb"},
        ],
    }
    return file | changed


POINTS = [[20, "38 lb/ac"], [30, "0.9 bu/ac"]]


def test_every_key_arrives():
    job = read_job(tables())
    assert job.names == ("Plover", "rye", "Alder Bench")
    assert (job.drill.rows, job.drill.open_rows, job.drill.covered_rows) == (24, 21, 23)
    assert nominal(job.drill.spacing) == pytest.approx(7.5 * INCH)
    scale = job.drill.scale
    assert (scale.step, scale.closed, scale.slack, scale.levers) == (0.5, 5, "none", 2)
    assert [(gear.name, gear.ratio) for gear in job.drill.gears] == [("fast", 2), ("slow", 0.5)]
    assert job.charts[0].spacing == pytest.approx(15 * INCH)
    # 0.9 bu/ac at the chart's own 60 lb/bu are 54 lb/ac.
    assert job.charts[0].points[1][1] == pytest.approx(54 * POUND_PER_ACRE)
    assert job.charts[1].gear == "slow"
    assert job.history[0].points == ((40, pytest.approx(90 * POUND_PER_ACRE)),)
    assert job.test_weight == pytest.approx(58 * POUND_PER_BUSHEL)
    assert job.target.rate == pytest.approx(58 * POUND_PER_ACRE)
    assert (job.target.tolerance, job.target.on) == (pytest.approx(0.04), "static")
    assert (job.sown_in.name, job.dearer) == ("slow", "thin stand")
    assert (job.catches[0].scale.resolution, job.catches[0].scale.tolerance) == (
        pytest.approx(0.1 * GRAM),
        pytest.approx(0.2 * GRAM),
    )
    assert job.prior.row_cv == pytest.approx(0.04)
    assert nominal(job.field_ratio) == pytest.approx(0.96)


def test_catches_arrive():
    first, second, third = read_job(tables()).catches
    assert (first.setting, first.gear.name, first.note) == (40, "fast", "wet")
    assert first.run.turns == pytest.approx(18 + 1 / 3)
    assert [(bag.rows, bag.weight) for bag in first.bags] == [(4, pytest.approx(8 * OUNCE))]
    assert second.run.in_field
    assert [bag.rows for bag in second.bags] == [1, 1]
    assert third.bags[0].rows == 21  # seed weighed back is from every open row


def test_a_small_file_is_enough():
    file = {"drill": {"rows": 20, "spacing": "19 cm"}, "target": {"rate": "60 kg/ha"}}
    job = read_job(file)
    assert (job.wheel, job.charts, job.sown_in, job.dearer) == (None, (), None, "neither")
    assert [str(each) for each in job.assumed] == [labels.TOLERANCE(tolerance="5%")]
    assert job.drill.gears[0].name == "only"


def test_one_chart_may_be_a_plain_table():
    job = read_job(tables(chart={"gear": "fast", "test_weight": "60 lb/bu", "points": POINTS}))
    assert len(job.charts) == 1


@pytest.mark.parametrize(
    ("changed", "field"),
    [
        ({"grill": {}}, "[grill]"),
        ({"drill.scale": {}}, "[drill.scale]"),
        ({"drill": {"rows": 20, "spacings": "7.5 in"}}, "[drill] spacings"),
        ({"drill": []}, "[drill]"),
        ({"catch": "8 oz"}, "[[catch]]"),
        ({"catch": [3]}, "[[catch]] 1"),
        ({"target": {"rate": {"lb": 60}}}, "[target] rate"),
        ({"chart": {"gear": "fast"}}, "[chart] points"),
        ({"chart": {"gear": "fast", "points": "30: 48 lb/ac"}}, "[chart] points"),
        ({"chart": {"points": POINTS}}, "[chart] gear"),
        ({"history": [{"gear": "fast", "points": [[30, 48]]}]}, "[[history]] 1 points"),
        ({"target": {"rate": "60 lb/ac", "gear": "medium"}}, "[target] gear"),
        ({"target": {"rate": "60 lb/ac", "dearer": "both"}}, "[target] dearer"),
        ({"weighing": {"resolution": "1 ft"}}, "[weighing] resolution"),
        ({"weighing": {"tolerance": "-1 g"}}, "[weighing] tolerance"),
        ({"field": {"ratio": "0"}}, "[field] ratio"),
        ({"seed": {"test_weight": "58 lb"}}, "[seed] test_weight"),
    ],
)
def test_refusals_name_table_and_key(changed, field):
    with pytest.raises(MeasurementError) as refusal:
        read_job(tables(**changed))
    assert refusal.value.field == field


@pytest.mark.parametrize(
    ("gear", "field"),
    [
        ({"name": "a", "ratio": 1, "driver": 2, "driven": 1}, "[[drill.gears]] 1 ratio"),
        ({"name": "a", "driver": 2}, "[[drill.gears]] 1 driven"),
        ({"name": "a"}, "[[drill.gears]] 1 ratio"),
        ({"ratio": 1}, "[[drill.gears]] 1 name"),
    ],
)
def test_gears_are_a_ratio_or_two_sprockets(gear, field):
    drill = {"rows": 20, "spacing": "7.5 in", "gears": [gear]}
    with pytest.raises(MeasurementError) as refusal:
        read_job({"drill": drill, "target": {"rate": "60 lb/ac"}})
    assert refusal.value.field == field


def test_turns_need_a_wheel():
    drill = {"rows": 20, "spacing": "7.5 in"}
    made = {"setting": 3, "turns": 20, "rows_caught": 4, "net": "8 oz"}
    with pytest.raises(MeasurementError) as refusal:
        read_job({"drill": drill, "target": {"rate": "60 lb/ac"}, "catch": [made]})
    assert refusal.value.field == "[drill] rolled"


def test_stops_one_by_one():
    drill = {"rows": 20, "spacing": "7.5 in"}
    drill["scale"] = {"low": 0, "high": 9, "stops": [1, 5, 3]}
    job = read_job({"drill": drill, "target": {"rate": "60 lb/ac"}})
    assert job.drill.scale.settings() == (1, 3, 5)


def test_all_tables_of_a_file_are_looked_through():
    check_tables(tables())
    with pytest.raises(MeasurementError) as refusal:
        check_tables(tables(weighing={"resolutoin": "1 g"}))
    assert refusal.value.field == "[weighing] resolutoin"
    assert re.search(labels.NOT_KNOWN_HERE_DID.like(near="resolution"), str(refusal.value.need))


@pytest.mark.parametrize(
    ("engine", "field", "given"),
    [
        (Path("target"), "[target] rate", "1 bu/ac"),
        (Path("catch", 1, "rows_caught"), "[[catch]] 1 rows_caught", "4"),
        (Path("catch", 2, "catch"), "[[catch]] 2 weights", "22 g; 23 g"),
        (Path("drill", "scale"), "[drill.scale] low", "0"),
        (Path("blocked"), "[drill] blocked", "2"),
    ],
)
def test_the_engine_s_fields_have_a_place_in_the_file(engine, field, given):
    from evenstand.engine.quantities.phrases import say

    with pytest.raises(MeasurementError) as refusal, in_tables(tables()):
        raise MeasurementError(engine, 0.1, say("no"))
    assert (refusal.value.field, refusal.value.given) == (field, given)
