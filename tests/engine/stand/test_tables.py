"""Published tables: where a stand lies in them."""

import pytest

from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.units import FOOT, INCH, SQUARE_FOOT
from evenstand.engine.stand.tables import (
    TABLES,
    YieldStep,
    YieldTable,
    step_of,
    tables_for,
    thickness,
)

PENN, GUELPH, KANSAS = tables_for("winter wheat")


def test_every_table_names_its_source():
    assert all(table.source and table.crop and table.steps for table in TABLES)
    assert [table.crop for table in tables_for("alfalfa")] == [
        "alfalfa, seeded this spring",
        "alfalfa, first hay year",
    ]
    assert tables_for("triticale") == ()


@pytest.mark.parametrize(
    ("plants", "least", "most"),
    [
        (40, 1.0, 1.0),
        (30, 1.0, 1.0),
        (22, 1.0, 1.0),
        (18.5, 0.90, 0.95),
        (15.9, 0.75, 0.80),
        (14.5, 0.60, 0.70),
    ],
)
def test_penn_state(plants, least, most):
    """Plants/ft² of winter wheat and the part of the full yield, as printed."""
    step = step_of(PENN, plants / SQUARE_FOOT)
    assert (step.least, step.most) == (least, most)


def test_penn_state_thinks_of_sowing_again_below_twelve():
    assert step_of(PENN, 11.9 / SQUARE_FOOT).word == "think"
    assert step_of(PENN, 0.0).word == "think"


@pytest.mark.parametrize(("plants", "part"), [(25, 1), (12, 0.95), (7, 0.9), (6.5, 0.85), (5, 0.8)])
def test_guelph_counts_along_the_row(plants, part):
    """Plants per foot of row: in rows 7.5 in apart 7 of them are 11.2 /ft²."""
    stand = plants * (1 + 1e-9) / FOOT / (7.5 * INCH)
    assert step_of(GUELPH, stand, spacing=7.5 * INCH).least == part


def test_thinner_than_the_table_goes():
    assert step_of(GUELPH, 4 / FOOT / (7 * INCH), spacing=7 * INCH) is None
    assert step_of(tables_for("canola")[0], 2 / SQUARE_FOOT) is None


@pytest.mark.parametrize(("part", "word"), [(0.8, "keep"), (0.45, "open"), (0.3, "think")])
def test_kansas_goes_by_what_was_intended(part, word):
    assert step_of(KANSAS, part * 200.0, wish=200.0).word == word


def test_canola_and_alfalfa():
    canola = tables_for("canola")[0]
    words = [step_of(canola, n / SQUARE_FOOT).word for n in (9, 5.1, 4.5, 3.1)]
    assert words == ["aimed at", "aimed at", "adequate", "adequate"]
    first, hay = tables_for("alfalfa")
    assert step_of(first, 15 / SQUARE_FOOT).word == "adequate"
    assert step_of(hay, 15 / SQUARE_FOOT).word == "aimed at"


def test_a_table_of_ones_own():
    own = YieldTable(
        crop="rye", source="our ten years", basis="ground", steps=(YieldStep(100.0, 200.0),)
    )
    assert tables_for("rye", (*TABLES, own)) == (own,)


@pytest.mark.parametrize(
    ("call", "field"),
    [
        (lambda: thickness(GUELPH, 1.0), "spacing"),
        (lambda: thickness(KANSAS, 1.0), "wish"),
        (
            lambda: YieldTable(
                crop="x",
                source="y",
                basis="ground",
                steps=(YieldStep(1.0, 2.0), YieldStep(3.0, 4.0)),
            ),
            "steps",
        ),
        (lambda: YieldTable(crop="x", source="y", basis="ground", steps=()), "steps"),
    ],
)
def test_what_is_missing_is_refused_under_its_field(call, field):
    with pytest.raises(MeasurementError) as refused:
        call()
    assert refused.value.field == field
