"""``evenstand turns`` against what every technician knows.

Common practice, no source: 24 rows at 7.5 in are 15 ft; 1/20 acre is then
145.2 ft; a 95-in wheel is 7.92 ft and needs 18 and a third turns.
"""

import re

import pytest

DRILL = ("turns", "--rows", "24", "--spacing", "7.5 in")
ROLLED = (*DRILL, "--rolled", "95 in", "--area", "1/20 ac")


def test_the_example_of_the_trade(document):
    found = document(*ROLLED)
    assert found["width"]["value"] == pytest.approx(15)
    assert found["width"]["unit"] == "ft"
    assert found["distance"]["value"] == pytest.approx(145.2)
    assert found["turns"]["value"] == pytest.approx(18 + 1 / 3, abs=0.01)
    assert found["turns"]["unit"] == "turns"


def test_a_quantity_has_its_range(document):
    turns = document(*ROLLED)["turns"]
    assert set(turns) == {"value", "low", "high", "u", "unit"}
    # ± 1 % on the wheel and ± 1/16 in on 7.5 in, each over √3: 0.75 %; twice that is 1.5 %.
    assert turns["u"] / turns["value"] == pytest.approx(0.0075, abs=0.0001)
    assert turns["high"] / turns["value"] - 1 == pytest.approx(0.0147, abs=0.0002)


def test_slip_counts_once_with_a_tape(document):
    taped = (*DRILL, "--taped", "95 in", "--slip", "3 ± 2%", "--area", "1/20 ac")
    # Each turn covers 95 in ÷ 0.97, so fewer are needed.
    assert document(*taped)["turns"]["value"] == pytest.approx(18.341 * 0.97, abs=0.001)
    assert [line["say"] for line in document(*taped)["working"] if "slip" in line["say"]] == [
        "After 3% slip",
        "Distance per wheel turn, taped: slip counted here only",
    ]


def test_metric_answers(document):
    found = document(*ROLLED, "--units", "metric")
    assert found["width"]["unit"] == "m"
    assert found["width"]["value"] == pytest.approx(4.572)


def test_rows_blocked_between_sown_rows_keep_the_width(document):
    assert document(*ROLLED, "--blocked", "2")["width"]["value"] == pytest.approx(15)
    assert document(*ROLLED, "--blocked-end", "2")["width"]["value"] == pytest.approx(13.75)


def test_pace_at_field_speed(document):
    # 5 mph are 7 1/3 ft/s: 7.917 ft take 1.08 s.
    found = document(*ROLLED, "--speed", "5 mph")
    assert found["seconds_per_turn"]["value"] == pytest.approx(1.08, abs=0.005)


def test_the_page_paces_and_writes_fractions_only_where_they_are_near(run):
    page = run(*ROLLED, "--speed", "5 mph").stdout
    assert "Turn at a steady 1.1 s per turn." in " ".join(re.sub("[│╲╱]", "", page).split())
    # 0.045 ac are 130.68 ft or 16.51 turns; 0.04 ac are 116.16 ft or 14.67; 0.0486 ac 17.83.
    for area, turns in (("0.045", "16.51 turns (16½)"), ("0.04", "14.67 turns (14⅔)")):
        assert f"Make {turns} of" in run(*ROLLED[:-1], f"{area} ac").stdout
    assert "Make 17.83 turns of" in run(*ROLLED[:-1], "0.0486 ac").stdout


def test_each_line_of_working_says_what_it_is(document):
    for line in document(*ROLLED)["working"]:
        assert set(line) == {"say", "sum", "value", "unit", "source"}


def test_the_page(run):
    page = run(*ROLLED).stdout
    assert "Make 18.34 turns (18⅓) of the drive wheel." in page
    assert "145.2 ft at a width of 15 ft" in page
    assert "Assumptions: rolled distance good to ± 1%" in page
    assert "Worksheet" not in page
    assert "24 rows × 7.5 in ÷ 12" in run(*ROLLED, "--working").stdout


def test_a_wheel_that_is_too_large_is_asked_about(run, document):
    tall = (*DRILL, "--rolled", "20 ft", "--area", "1/20 ac")
    assert "Please check --rolled: 20 ft/turn is above 15 ft/turn" in run(*tall).stderr
    assert document(*tall)["warnings"][0]["field"] == "--rolled"
