"""``evenstand demo``: invented, said to be, and whole."""

import pytest

from evenstand.engine.drill.safety import BEFORE_TURNING


def test_it_plays_from_the_chart_to_an_accepted_notch(document):
    found = document("demo")
    assert found["invented"] is True
    assert found["steps"][0]["catches"] == []
    assert found["steps"][-1]["ending"] == "accepted"
    # Its truth: 1.86 lb/ac a notch from 5.5 on, slip 3 %; 35 gives 53.2 in the field.
    assert found["steps"][-1]["choose"]["setting"] in (35, 36)


def test_its_chart_is_off(document):
    first, last = document("demo")["steps"][0], document("demo")["steps"][-1]
    assert abs(first["choose"]["setting"] - last["choose"]["setting"]) >= 5


def test_it_says_first_that_all_is_made_up(run):
    page = run("demo").stdout
    top = " ".join(page[: page.index("Set: before the first catch")].split())
    assert "All of this is made up" in top


def test_it_says_what_to_do_before_the_first_turn(run):
    page = " ".join(run("demo").stdout.split())
    for caution in map(str, BEFORE_TURNING):
        assert page.index(caution) < page.index("The lever at")


def test_it_draws_curve_rows_and_worksheet(run):
    page = run("demo").stdout
    for part in ("The curve", "Rows caught", "Worksheet", "◆", "✕"):
        assert part in page


@pytest.mark.parametrize("columns", [60, 80, 200])
def test_it_keeps_to_its_paper(run, columns):
    page = run("demo", columns=columns).stdout
    assert max(map(len, page.splitlines())) <= min(columns, 80)
    assert len(page.splitlines()) < (330 if columns >= 80 else 420)


def test_the_same_seed_plays_the_same(run):
    assert run("demo", "--seed", "7").stdout == run("demo", "--seed", "7").stdout
    assert run("demo", "--seed", "7").stdout != run("demo", "--seed", "8").stdout


def test_its_job_file_can_be_kept_and_used(run, document, tmp_path):
    run("demo", "--save", "heron.toml")
    assert (tmp_path / "heron.toml").read_text(encoding="utf-8").startswith("# Invented data.\n")
    found = document("calibrate", "heron.toml", "--box", "grain")
    assert found["ending"] == "accepted"
    assert document("order", "heron.toml", "--today", "2026-11")["total"]["cost"] > 0


def test_a_seed_is_a_whole_number(refusal):
    assert refusal("demo", "--seed", "x")["field"] == "--seed"


def test_it_goes_from_the_mix_to_the_lever(document, run):
    """Rye 40, vetch 12 and radish 2 lb/ac are the 54 that the grain box is set to."""
    found = document("demo")
    assert list(found) == ["invented", "mix", "boxes", "order", "steps", "native"]
    assert found["boxes"]["boxes"][0]["rate"]["value"] == pytest.approx(54)
    assert found["steps"][0]["target"]["rate"]["value"] == pytest.approx(54)
    page = run("demo").stdout
    places = [
        page.index(part) for part in ("Mix · Alder", "Boxes · Alder", "Order · Alder", "Set,")
    ]
    assert places == sorted(places)


def test_native_grass_has_a_box_for_each_kind_and_a_scale_that_runs_backwards(document, run):
    native = document("demo", "--step", "native")["native"]
    where = {each["name"]: each["box"] for each in native["boxes"]["species"]}
    assert where["Big bluestem"] == "fluffy"
    assert where["Switchgrass"] == "small seed"
    assert where["Oats"] == "grain"
    assert native["boxes"]["boxes"][2]["carrier"] == "rice hulls"
    # Its chart has 14.5 lb/ac at 15 and 8 at 22: less seed at a higher number.
    assert native["set"]["choose"]["setting"] == 16
    assert "coming down to it from above" in " ".join(run("demo").stdout.split())


@pytest.mark.parametrize("step", ["mix", "boxes", "order", "set", "native"])
def test_a_step_can_be_played_alone(document, run, step):
    found = document("demo", "--step", step)
    assert list(found) == ["invented", {"set": "steps"}.get(step, step)]
    page = run("demo", "--step", step).stdout
    assert "All of this is made up" in page
    assert len(page.splitlines()) < 200


def test_a_step_that_is_none(refusal):
    assert refusal("demo", "--step", "sow")["field"] == "--step"
