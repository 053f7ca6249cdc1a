"""A goal for a mix: what was typed is a job file's goal, and its refusals find their field."""

import pytest

from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Style, say
from evenstand.tasks.job.tables import InTables
from evenstand.tasks.mix.goal_form import GOALS, WHAT, goal_field, goal_table, limit_numbers
from evenstand.tasks.mix.limits import WHAT as KNOWN
from evenstand.tasks.mix.solving import GOALS as KNOWN_GOALS
from evenstand.tasks.parsing.given import Given


def typed(decimal=".", **texts):
    return Given(texts, decimal=decimal)


def test_it_offers_what_a_limit_can_be_on():
    assert tuple(WHAT) == KNOWN
    assert GOALS == KNOWN_GOALS


def test_bare_numbers_take_the_readers_unit():
    given = typed(
        goal="nearest",
        published="yes",
        least_seeds="2",
        limit1_what="seeds",
        limit1_at_least="25",
        limit3_what="species",
        limit3_of="grass",
        limit3_at_most="3",
        limit4_what="cost",
        limit4_at_most="40 $/ha",
    )
    assert limit_numbers(given) == [1, 3, 4]
    assert goal_table(given, Style()) == {
        "goal": "nearest",
        "published": "yes",
        "least_seeds": "2 seeds/ft²",
        "limits": [
            {"what": "seeds", "at_least": "25 seeds/ft²"},
            {"what": "species", "of": "grass", "at_most": "3"},
            {"what": "cost", "at_most": "40 $/ha"},
        ],
    }
    assert goal_table(given, Style(system="metric"))["least_seeds"] == "2 seeds/m²"


def test_a_decimal_comma_is_written_as_a_file_has_it():
    given = typed(",", goal="nearest", limit1_what="rate", limit1_at_most="2,5")
    assert goal_table(given, Style())["limits"][0]["at_most"] == "2.5 lb/ac"


@pytest.mark.parametrize(
    ("path", "where"),
    [
        (InTables("mix_goal", "limits", 2, "at_most"), "limit3_at_most"),
        (InTables("mix_goal", "limits", 1), "limit1_what"),
        (InTables("mix_goal", "goal"), "goal"),
        (InTables("mix_goal"), "goal"),
        (InTables("lots", 1, "price"), None),
    ],
)
def test_a_refusal_is_placed(path, where):
    given = typed(limit1_at_least="1", limit3_at_most="3")
    assert goal_field(MeasurementError(path, "x", say("give it")), given) == where
