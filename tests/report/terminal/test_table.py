"""Ruled tables keep to their paper, and shares fill it."""

from evenstand.report.terminal.notebook import Sheet
from evenstand.report.terminal.table import shares, table

HEADS = [("", "bulk", "cost"), ("", "lb/ac", "$/ac")]
ROWS = [("A rye", "44.4", "12.4"), ("B vetch", "7.73", "18.6")]


def plain(lines):
    return [line.plain for line in lines]


def test_heads_rows_and_foot_stand_apart():
    assert plain(table(Sheet(80), HEADS, ROWS, foot=("all", "52.1", "31"))) == [
        "           bulk  cost",
        "          lb/ac  $/ac",
        " ────────────────────",
        " A rye     44.4  12.4",
        " B vetch   7.73  18.6",
        " ────────────────────",
        " all       52.1    31",
    ]


def test_without_a_foot_there_is_one_rule():
    lines = plain(table(Sheet(80), HEADS, ROWS))
    assert [line[1] == "─" for line in lines] == [False, False, True, False, False]


def test_names_get_lines_of_their_own_where_the_paper_is_narrow():
    assert plain(table(Sheet(20), HEADS, ROWS)) == [
        "     bulk  cost",
        "    lb/ac  $/ac",
        " ──────────────",
        " A rye",
        "     44.4  12.4",
        " B vetch",
        "     7.73  18.6",
    ]


def test_shares_fill_the_line_between_them():
    """Twenty columns less name and margins are 10: 3.33, 3.33 and 3.33 of them."""
    drawn = plain(
        shares(Sheet(17), [("seed", [1 / 3] * 3), ("bulk", [0.9, 0.1, 0.0])], marks="ABC")
    )
    assert drawn == [" seed  AAABBBBCCC", " bulk  AAAAAAAAAB"]
