"""``evenstand rows``: odd rows, patterns, limits."""

import csv
from pathlib import Path

import pytest

AGRIDAT = Path(__file__).parents[1] / "reference/agridat"
EIGHT = "22.6, 22.4, 22.9, 22.1, 18.3, 22.7, 22.5, 22.2 g"


def test_an_odd_row_is_found(document):
    found = document("rows", "--weights", EIGHT, "--resolution", "0.1 g")
    # The eight weigh 175.7 g, 21.9625 g each; row 5 is 18.3 ÷ 21.9625 = 0.8332 of it.
    assert found["mean"]["value"] * 28.349523125 == pytest.approx(21.9625)
    (odd,) = found["odd_rows"]
    assert odd["row"] == 5
    assert odd["percent"] == pytest.approx(-16.68, abs=0.01)
    assert odd["p"] < 0.01
    assert "Row 5 drops 17% less than average." in found["say"]
    assert found["cv"]["unit"] == "%"


def test_even_rows_show_nothing(document):
    found = document("rows", "--weights", "22, 22.3, 21.8, 22.1, 22.2, 21.9 g")
    assert (found["odd_rows"], found["patterns"], found["outside_limit"]) == ([], [], [])


def test_the_user_s_limit_stands_apart_from_the_statistics(document):
    found = document("rows", "--weights", EIGHT, "--limit", "2%")
    assert {each["row"] for each in found["outside_limit"]} > {5}
    assert len(found["odd_rows"]) == 1


def test_the_8_row_drill_of_wiebe_s_field_is_found(document):
    """Wiebe (1935), wheat sown by an 8-row drill; means of the first 96 rows, agridat."""
    with (AGRIDAT / "wiebe.wheat.uniformity.txt").open(encoding="utf-8") as lines:
        plots = list(csv.DictReader((line for line in lines if line[0] != "#"), delimiter="\t"))
    sums = {}
    for plot in plots:
        row = int(plot["row"])
        sums[row] = sums.get(row, 0) + float(plot["yield"])
    weights = ", ".join(f"{sums[row]:.1f} g" for row in sorted(sums)[:96])
    periods = [each["period"] for each in document("rows", "--weights", weights)["patterns"]]
    assert 8 in periods


def test_repeats_and_columns(document):
    first = "20, 22, 20.2, 22.1, 20.1, 22, 19.9, 22.1 g"
    again = "20.2, 21.9, 19.9, 22.1, 20, 22.2, 20.1, 21.9 g"
    found = document("rows", "--weights", first, "--again", again, "--columns", "rank: front, rear")
    assert found["patterns"][0]["name"] == "rank"
    assert found["patterns"][0]["p"] < 0.001


def test_columns_that_do_not_fit(refusal):
    assert refusal("rows", "--weights", EIGHT, "--columns", "a, b, c")["field"] == "--columns"


def test_repeats_of_other_rows(refusal):
    error = refusal("rows", "--weights", EIGHT, "--again", "22, 23, 24 g")
    assert error["need"] == "use the same rows in every catch"


def test_the_page(run):
    page = run("rows", "--weights", EIGHT, "--resolution", "0.1 g").stdout
    assert "Go check row 5." in page
    assert "✕" in page
    assert "Is the seed tube kinked" in page
    assert "Worksheet" in run("rows", "--weights", EIGHT, "--working").stdout
