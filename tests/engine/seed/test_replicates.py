"""Replicates of one test: the published ranges, the exact odds, and published dishes."""

from collections import defaultdict
from pathlib import Path

import pytest

import labels
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.seed.replicates import Dish, agree, largest_range, range_by_chance, scatter

AGRIDAT = Path(__file__).parents[2] / "reference/agridat"


def hundreds(*sprouted):
    return [Dish(n, 100) for n in sprouted]


def dishes(name, *, sprouted, seeds, by):
    """Dishes of a file of agridat, grouped by some of its columns."""
    header, *lines = (AGRIDAT / name).read_text(encoding="utf-8").splitlines()
    groups = defaultdict(list)
    for line in lines:
        row = dict(zip(header.split("\t"), line.split("\t"), strict=True))
        groups[tuple(row[column] for column in by)].append(
            Dish(int(row[sprouted]), int(row[seeds]))
        )
    return list(groups.values())


@pytest.mark.parametrize("replicates", [4, 2])
def test_table_of_ranges_whole(published, replicates):
    rows = published("tolerance_replicates.csv")
    assert len(rows) == 49
    for row in rows:
        printed = row[f"replicates_{replicates}"]
        for percent in (row["percent"], 101 - row["percent"]):
            if printed == "":
                with pytest.raises(MeasurementError):
                    largest_range(percent / 100, replicates=replicates)
            else:
                found = largest_range(percent / 100, replicates=replicates)
                assert found == pytest.approx(printed / 100)


def test_the_copy_prints_two_mirrors_one_too_low(published):
    rows = published("tolerance_replicates.csv")
    odd = [row["percent"] for row in rows if row["mirror_as_printed"] != 101 - row["percent"]]
    assert odd == [62, 52]


@pytest.mark.parametrize(
    ("percent", "range_"),
    [
        *((98, 6), (97, 7), (96, 8), (95, 9), (92, 11), (90, 12), (88, 13), (85, 14)),
        *((82, 15), (79, 16), (75, 17), (70, 18), (60, 19), (52, 20)),
    ],
)
def test_exact_odds_give_the_ista_table(percent, range_):
    """ISTA table 5B, not read: the 97.5% point of the range of four binomial counts.

    The two rows that differ, 99 (5) and 94 (10), are one lower by the exact odds.
    """
    assert range_by_chance(percent / 100) == range_


def test_exact_odds_where_the_table_is_one_higher():
    assert range_by_chance(0.99) == 4
    assert range_by_chance(0.94) == 9


def test_exact_odds_lie_within_one_of_the_federal_table(published):
    for row in published("tolerance_replicates.csv"):
        for replicates in (4, 2):
            printed = row[f"replicates_{replicates}"]
            if printed != "":
                found = range_by_chance(row["percent"] / 100, replicates=replicates)
                assert abs(found - printed) <= 1


def test_exact_odds_by_hand():
    """Two seeds of two coins each: ranges 0, 1, 2 have odds 6/16, 8/16, 2/16."""
    assert range_by_chance(0.5, replicates=2, seeds=2, level=5.9 / 16) == 0
    assert range_by_chance(0.5, replicates=2, seeds=2, level=13.9 / 16) == 1
    assert range_by_chance(0.5, replicates=2, seeds=2, level=14.1 / 16) == 2
    assert range_by_chance(1.0) == 0


@pytest.mark.parametrize(
    ("by", "deviance", "dof"),
    [
        ((), 1193.80, 63),
        (("temp",), 430.11, 60),
        (("conc",), 980.10, 60),
        (("temp", "conc"), 55.64, 48),
    ],
)
def test_mead_germination_deviance(by, deviance, dof):
    """Mead et al. (2002), 64 dishes of 50: the deviance of each model, printed to 0.01."""
    found = scatter(dishes("mead.germination.txt", sprouted="germ", seeds="seeds", by=by))
    assert found.deviance == pytest.approx(deviance, abs=0.005)
    assert found.dof == dof


def test_mead_dishes_scatter_as_the_draw_has_it():
    """None of the 16 sets of four dishes leaves the exact 97.5% range."""
    cells = dishes("mead.germination.txt", sprouted="germ", seeds="seeds", by=("temp", "conc"))
    assert len(cells) == 16
    for cell in cells:
        counts = [dish.sprouted for dish in cell]
        allowed = range_by_chance(sum(counts) / 200, replicates=4, seeds=50)
        assert max(counts) - min(counts) <= allowed
    assert scatter(cells).p > 0.025


def test_crowder_germination_deviance():
    """Crowder (1978), 21 plates: deviance 33.28 on 17, Pearson φ 1.862, beyond the binomial."""
    found = scatter(dishes("crowder.seeds.txt", sprouted="germ", seeds="n", by=("gen", "extract")))
    assert found.deviance == pytest.approx(33.28, abs=0.005)
    assert found.dof == 17
    assert found.factor == pytest.approx(1.862, abs=0.0005)
    assert found.p < 0.02


def test_scatter_by_hand():
    """8 and 12 of 20: expected 10 each; χ² = 4 × 2²/10 = 1.6."""
    found = scatter([[Dish(8, 20), Dish(12, 20)]])
    assert found.chi_square == pytest.approx(1.6)
    assert scatter([[Dish(20, 20), Dish(20, 20)]]).chi_square == 0


def test_four_hundreds_are_held_to_the_table():
    """Mean 90: 84 to 96 is the 12 allowed; 84 to 97 is not, at the same mean."""
    assert agree(hundreds(84, 96, 90, 90)) is None
    assert labels.RANGE_OVER_CFR(spread="13%", allowed="12%") in str(
        agree(hundreds(84, 97, 90, 90))
    )


def test_other_dishes_are_held_to_chance():
    assert agree([Dish(40, 50), Dish(42, 50), Dish(39, 50)]) is None
    assert labels.MORE_THAN_LUCK in str(agree([Dish(45, 50), Dish(30, 50)]))


def test_two_hundreds_that_the_table_does_not_have():
    assert agree(hundreds(99, 98)) is None
    assert agree(hundreds(100, 100, 100, 100)) is None


@pytest.mark.parametrize(
    ("call", "field"),
    [
        (lambda: Dish(11, 10), "sprouted"),
        (lambda: Dish(-1, 10), "sprouted"),
        (lambda: Dish(0, 0), "seeds"),
        (lambda: largest_range(0.9, replicates=3), "replicates"),
        (lambda: largest_range(1.1, replicates=4), "mean"),
        (lambda: largest_range(1.0, replicates=4), "mean"),
        (lambda: range_by_chance(1.1), "p"),
        (lambda: range_by_chance(0.9, level=2), "level"),
        (lambda: range_by_chance(0.9, replicates=1), "replicates"),
        (lambda: scatter([[Dish(1, 2)]]), "dishes"),
        (lambda: scatter([]), "dishes"),
        (lambda: agree([]), "dishes"),
    ],
)
def test_refuses_and_names_the_field(call, field):
    with pytest.raises(MeasurementError) as refusal:
        call()
    assert refusal.value.field == field
