"""Rates found by the solver: asked by a form, shown with what binds, taken into the mix."""

import re

import pytest

import labels
from evenstand.book.kinds.shape import Typed

PLS = 0.98 * 0.90


def price(dollars):
    return Typed(value=dollars / 0.45359237, text=f"{dollars} $/lb")


@pytest.fixture
def job(visitor, shelf):
    """Rye at 18,000 seeds/lb for $0.30, vetch at 18,000 for $2.40; both without a rate."""
    job = visitor.job()
    rye = shelf(price=price(0.3))
    vetch = shelf("V-26", "hairy vetch", per_lb=18_000, price=price(2.4))
    visitor.mix(job, (rye, "40", "bulk|lb/ac"), (vetch, "12", "bulk|lb/ac"))
    return job


def goal(job, **limits):
    pairs = {"goal": "least cost", **limits}
    return f"{job}/mix/goal?" + "&".join(f"{key}={text}" for key, text in pairs.items())


LIMITS = {
    "limit1_what": "seeds",
    "limit1_at_least": "20",
    "limit2_what": "seed+share",
    "limit2_of": "legume",
    "limit2_at_least": "30",
}


def test_the_cheapest_mix_by_hand(visitor, job):
    """20 seeds/ft², 30% vetch: 6 of vetch, 14 of rye, each ÷ (18000 ÷ 43560 × 0.882) lb/ac.

    Rye 14 / 0.364463 = 38.41 lb/ac for $11.52, vetch 6 / 0.364463 = 16.46 lb/ac for $39.51.
    """
    pytest.importorskip("highspy", reason="the search needs its solver")
    page = visitor.read(goal(job, **LIMITS))
    assert "Cereal rye (R-26) 38.4 lb/ac" in page.text
    assert "Hairy vetch (V-26) 16.5 lb/ac" in page.text
    assert labels.NO_MIX_WITHIN(money="$51.03/ac") in page.text
    assert labels.LIMITS_HOLDING_BACK in page.text
    third = labels.AT_LEAST(value="30%")
    of_legumes = labels.OF_GROUP(group=labels.LEGUMES)
    assert labels.OF_THE_SEEDS(bound=third, scope=of_legumes) in page.text
    fields = {name: page.fields[name] for name in page.fields if not name.startswith("limit")}
    assert visitor.send(f"{job}/mix/edit", fields) == f"{job}/mix"
    rates = [m.rate.text for m in visitor.book.things("mix")[0].body.members]
    assert rates == ["38.413 lb/ac", "16.463 lb/ac"]
    assert labels.SEED_TOTAL(bulk="54.9 lb/ac") in visitor.read(f"{job}/mix").text


def test_seed_that_is_not_sown_leaves_the_mix_and_a_carrier_stays(visitor, shelf, book):
    pytest.importorskip("highspy", reason="the search needs its solver")
    job = visitor.job()
    lots = shelf(price=price(0.3)), shelf("V-26", "hairy vetch", price=price(2.4))
    lines = [(lots[1], "", ""), ("carrier", "6", "bulk|lb/ac"), (lots[0], "", "")]
    visitor.mix(job, *lines, line2_name="rice hulls")
    page = visitor.read(goal(job, limit1_what="seeds", limit1_at_least="20"))
    fields = {name: page.fields[name] for name in page.fields if not name.startswith("limit")}
    visitor.send(f"{job}/mix/edit", fields)
    [mix] = book.things("mix")
    names = [(m.name, m.rate.text) for m in mix.body.members]
    assert names == [("rice hulls", "6 lb/ac"), ("cereal rye", "54.875 lb/ac")]  # 20 / 0.364463


def test_nearest_to_the_wish_is_the_wish_where_nothing_binds(visitor, job):
    pytest.importorskip("highspy", reason="the search needs its solver")
    page = visitor.read(f"{job}/mix/goal?goal=nearest")
    assert "Cereal rye (R-26) 40 lb/ac" in page.text
    assert labels.NO_LIMIT_IN_THE_WAY in page.text


def test_limits_that_clash_are_told(visitor, job):
    pytest.importorskip("highspy", reason="the search needs its solver")
    limits = LIMITS | {"limit3_what": "cost", "limit3_at_most": "5"}
    page = visitor.read(goal(job, **limits), code=422)
    assert labels.NO_MIX_FOUND in page.text
    [wrong] = page.wrong
    assert wrong.startswith("limit")
    assert page.fields["limit3_at_most"] == "5"


@pytest.mark.parametrize(
    "case",
    [
        ({"goal": "best"}, "goal", labels.GIVE_ONE.like()),
        ({"limit1_at_least": "20 lb"}, "limit1_at_least", "20 lb is a weight"),
        ({"limit1_what": "cost"}, "limit1_at_least", labels.COST_UPPER_LIMIT_ONLY.like()),
        ({"limit1_what": "rate"}, "limit1_of", labels.SPECIES_OF_A_RATE.like()),
        (
            {"limit1_what": "species", "limit1_of": "hairy+vetch"},
            "limit1_of",
            labels.SPECIES_OF_ALL_OR_GROUP.like(),
        ),
        ({"limit1_at_most": "10"}, "limit1_at_least", ""),
    ],
)
def test_a_refusal_stands_at_its_field(visitor, job, case):
    pytest.importorskip("highspy", reason="the search needs its solver")
    changes, field, need = case
    base = {"limit1_what": "seeds", "limit1_at_least": "20"}
    page = visitor.read(goal(job, **{**base, **changes}), code=422)
    assert field in page.wrong, page.wrong
    assert re.search(need, page.wrong[field])


def test_a_missing_price_leads_to_its_lot(visitor, shelf):
    pytest.importorskip("highspy", reason="the search needs its solver")
    job, lot = visitor.job(), shelf()
    visitor.mix(job, (lot, "60", "bulk|lb/ac"))
    page = visitor.read(goal(job, limit1_what="seeds", limit1_at_least="20"), code=422)
    assert f"/seed/{lot}/edit" in page.links


def test_where_the_solver_is_missing_the_page_says_so_in_place(visitor, job, without):
    without("highspy")
    page = visitor.read(goal(job, **LIMITS), code=422)
    assert labels.NEEDS_OFFICE_COMPUTER in page.text
    assert page.fields["limit2_at_least"] == "30"


def test_another_missing_module_is_an_error(visitor, job, without):
    without("evenstand.gone")
    with pytest.raises(ModuleNotFoundError):
        visitor.read(goal(job, **LIMITS))


def test_the_goal_needs_a_mix(visitor):
    job = visitor.job()
    assert labels.ENTER_MIX_FIRST in visitor.read(f"{job}/mix/goal").text


def test_the_pages_do_not_load_the_solver():
    import subprocess
    import sys

    program = "import sys, evenstand.web.run.app; print([m for m in sys.modules if 'highs' in m])"
    found = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True
    )
    assert found.stdout.strip() == "[]"
