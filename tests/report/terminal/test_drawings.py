"""Drawings in characters: what stands where, and that it all fits its paper."""

from math import nan

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.text import Text

from evenstand.engine.catch.target import Target
from evenstand.engine.quantities.phrases import Style, say
from evenstand.engine.quantities.units import FOOT, LENGTH, POUND_PER_ACRE, ROWS, Amount, Terms
from evenstand.engine.quantities.working import Line
from evenstand.engine.statistics.budget import Estimate
from evenstand.report.axis import Axis, round_step
from evenstand.report.drawn import Bar
from evenstand.report.pen import Pen
from evenstand.report.terminal.notebook import Sheet, columns, console, fold, sheet
from evenstand.report.terminal.row_marks import row_marks
from evenstand.report.terminal.strip import Ruler, strip
from evenstand.report.terminal.worksheet import worksheet

LB = POUND_PER_ACRE
US, METRIC = Style(), Style(system="metric")
TARGET = Target(rate=54 * LB)


def plain(lines):
    return [line.plain.replace("\N{NO-BREAK SPACE}", " ") for line in lines]


def rate(value, half):
    return Estimate(value * LB, (value - half) * LB, (value + half) * LB, half / 2 * LB)


def test_a_strip_puts_value_range_and_band_over_one_axis():
    band, bar, axis, numbers = plain(
        strip(Sheet(80), [Bar("catch", rate(54, 2.7), "on target")], TARGET, style=US)
    )
    # A range as wide as the band of ± 5 % covers it end to end, its tick at the 54.
    assert (bar.index("├"), bar.index("┤")) == (band.index("▒"), band.rindex("▒"))
    middle = band.index(" 54 ") + 2
    assert abs(bar.index("┃") - middle) <= 1
    assert bar.endswith("on target")
    assert "54" in numbers
    assert axis.count("┴") >= 2
    assert numbers.endswith("lb/ac")


def test_a_strip_reads_without_its_band():
    bar, *_ = plain(strip(Sheet(60), [Bar("catch", rate(54, 2.7), "")], None, style=METRIC))
    assert "├" in bar


def test_what_lies_beyond_keeps_to_the_edge():
    far = strip(
        Sheet(60), [Bar("a", rate(10, 1), ""), Bar("b", rate(500, 5), "")], TARGET, style=US
    )
    assert all(len(line) <= 60 for line in plain(far))


@given(
    st.integers(40, 80),
    st.lists(st.tuples(st.floats(1, 400), st.floats(0.001, 0.5)), min_size=1, max_size=4),
)
def test_strips_fit_any_paper(width, ranges):
    bars = [Bar(str(i), rate(v, v * part), "light") for i, (v, part) in enumerate(ranges)]
    for line in plain(strip(Sheet(width), bars, TARGET, style=US)):
        assert len(line) <= width


@pytest.mark.parametrize(
    ("least", "step"), [(0.3, 0.5), (1, 1), (1.1, 2), (3, 5), (7, 10), (0.02, 0.02), (40, 50)]
)
def test_steps_are_round(least, step):
    assert round_step(least) == pytest.approx(step)


def test_ticks_are_round_and_inside():
    assert Axis(47.0, 59.0, 50).ticks(5) == pytest.approx([50, 55])


def test_a_ruler_writes_only_where_there_is_room():
    ruler = Ruler(Axis(0, 10, 11))
    for value in (5, 6, 10):
        ruler.mark(value, str(value))
    assert ruler.numbers == "     5   10"
    assert ruler.line == "─────┴────┴"


def test_rows_stand_above_and_below_their_mean():
    top, mean, low, *_, number = plain(row_marks(Sheet(80), [0.05, -0.05, 0.0], band=0.01))[:6]
    lines = plain(row_marks(Sheet(80), [0.10, -0.10, 0.0], odd={2}))
    column = {row: lines[-1].index(str(row)) for row in (1, 2, 3)}
    mean_line = next(i for i, line in enumerate(lines) if "mean" in line)
    first = next(i for i, line in enumerate(lines) if line[column[1] : column[1] + 1] == "●")
    second = next(i for i, line in enumerate(lines) if line[column[2] : column[2] + 1] == "✕")
    assert first < mean_line < second
    assert lines[mean_line][column[3]] == "●"
    assert all((top, mean, low, number))


def test_the_noise_of_the_catch_is_shaded():
    wide = "".join(plain(row_marks(Sheet(80), [0.05, -0.05], band=0.02)))
    assert "░" in wide
    assert "░" not in "".join(plain(row_marks(Sheet(80), [0.05, -0.05])))


@given(st.integers(40, 80), st.lists(st.floats(-1, 3), min_size=3, max_size=90))
def test_rows_fit_any_paper(width, offs):
    lines = plain(row_marks(Sheet(width), offs))
    assert max(map(len, lines)) <= width
    assert sum(line.count("●") for line in lines) == len(offs)


def test_a_worksheet_shows_words_sum_and_value():
    width = Line(
        say("Width: rows × row spacing"),
        Amount(15 * FOOT, LENGTH),
        ROWS(24) * LENGTH(7.5 * FOOT / 12),
        "common practice, no source",
    )
    given_only = Line(say("Run, as pulled"), Amount(100 * FOOT, LENGTH))
    lines = plain(worksheet(Sheet(60), Pen(US).work([width, given_only])))
    assert lines[0] == " Width: rows × row spacing"
    assert lines[1].startswith("    24 rows × ")
    assert lines[1].endswith("= 15 ft")
    assert lines[2].startswith(" Run, as pulled ...")
    assert lines[3] == " Sources: common practice, no source"
    assert {len(lines[1]), len(lines[2])} == {60}


def test_a_long_sum_goes_over_several_lines():
    rows = Terms(ROWS(100), tuple(("×", ROWS(n)) for n in range(101, 130)))
    lines = plain(worksheet(Sheet(60), Pen(US).work([Line(say("All"), Amount(1.0, ROWS), rows)])))
    assert max(len(part) for line in lines for part in line.splitlines()) <= 60
    text = " ".join(line.strip() for line in lines)
    assert all(f"{n} rows" in text for n in range(100, 130))


def test_a_tag_has_its_hole_and_fits():
    lines = plain(Sheet(60).tag("Move the lever from 31 to 33.", "9 in 10. " * 20))
    assert {len(line) for line in lines} == {60}
    assert sum("○" in line for line in lines) == 1
    assert plain(Sheet(60).tag("Go.", ""))[1].startswith(" ╱ ○ Go.")


def test_lines_break_where_no_number_loses_its_unit():
    assert fold("within 5% of 54 lb/ac", 20) == ["within 5% of", "54 lb/ac"]


def test_headings_and_columns():
    assert plain(Sheet(40).heading("Set", "catch 2"))[0] == "Set" + " " * 30 + "catch 2"
    long = Sheet(40).apart(Text("x" * 30), Text("y" * 20))
    assert long.plain.splitlines() == ["x" * 30, " " * 20 + "y" * 20]
    assert columns([("a", "1"), ("bb", "22")], right=(1,)) == ["a    1", "bb  22"]


def test_paper_is_as_wide_as_the_terminal_up_to_80_columns(monkeypatch):
    for width, paper in (("20", 40), ("60", 60), ("200", 80)):
        monkeypatch.setenv("COLUMNS", width)
        assert sheet(console()).width == paper


def test_what_is_not_finite_is_null():
    from evenstand.report.json import quantity

    written = quantity(Estimate(1.0, nan, float("inf"), 0.1), LENGTH, METRIC)
    assert (written["low"], written["high"]) == (None, None)
