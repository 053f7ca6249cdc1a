"""``evenstand catch``: rates, verdict, budget and cures."""

import pytest

DRILL = ("catch", "--rows", "24", "--spacing", "7.5 in")
RUN = (*DRILL, "--rolled", "95 in", "--turns", "18 1/3", "--rows-caught", "4")
EIGHT = (*RUN, "--net", "8 oz", "--resolution", "1 g")


def test_eight_ounces_from_four_of_24_rows_are_60_pounds_an_acre(document):
    """Common practice, no source."""
    found = document(*EIGHT)
    assert found["static_rate"]["value"] == pytest.approx(60, abs=0.05)
    assert found["static_rate"]["unit"] == "lb/ac"
    assert found["field_rate"] == found["static_rate"]
    assert found["verdict"] is None
    assert found["odds_within"] is None


def test_shares_of_the_budget_add_up_to_one(document):
    shares = document(*EIGHT)["budget"]
    assert sum(share["share"] for share in shares) == pytest.approx(1)
    assert all(set(share) == {"name", "share", "common", "cure"} for share in shares)
    largest = shares[0]
    assert (largest["name"], largest["common"]) == ("the rows you didn't catch", True)
    assert largest["cure"] == "catch another 4 rows"


def test_a_share_that_hardly_matters_says_so(document):
    cures = {share["name"]: share["cure"] for share in document(*EIGHT)["budget"]}
    assert cures["scale reading"] == "leave it: it hardly matters"


@pytest.mark.parametrize(
    ("target", "verdict"),
    [
        ("60 lb/ac", "cannot tell yet"),
        ("90 lb/ac", "light"),
        ("40 lb/ac", "heavy"),
    ],
)
def test_verdicts_of_a_short_catch(document, target, verdict):
    assert document(*EIGHT, "--target", target)["verdict"] == verdict


def test_all_rows_and_many_turns_are_on_target(document):
    long = (*DRILL, "--rolled", "95 in", "--turns", "110", "--rows-caught", "24")
    # Six times the turns and six times the rows: 36 × 8 oz = 18 lb.
    found = document(*long, "--net", "18.00 lb", "--target", "60 lb/ac")
    assert found["verdict"] == "on target"
    assert found["odds_within"] > 0.95
    assert "the rows you didn't catch" not in {share["name"] for share in found["budget"]}


def test_bags_may_be_weighed_row_by_row_or_in_groups(document):
    apart = document(*RUN, "--weights", "2 oz, 2 oz, 2 oz, 2 oz")
    pairs = document(*RUN, "--weights", "4 oz; 4 oz")
    whole = document(*EIGHT)
    rate = whole["static_rate"]["value"]
    assert apart["static_rate"]["value"] == pytest.approx(rate)
    assert pairs["static_rate"]["value"] == pytest.approx(rate)


def test_gross_and_tare(document):
    gross = document(*RUN, "--gross", "10 oz", "--tare", "2 oz")
    assert gross["static_rate"]["value"] == pytest.approx(60, abs=0.05)


def test_repeats_are_averaged_and_weighed_as_the_first(document):
    net = document(*RUN, "--net", "7.9 oz", "--again", "8.1 oz", "--again", "8 oz")
    assert net["static_rate"]["value"] == pytest.approx(60, abs=0.05)
    assert net["repeats"] == 3
    bag = ("--gross", "9.9 oz", "--tare", "2 oz", "--again", "10.1 oz")
    assert document(*RUN, *bag)["static_rate"]["value"] == pytest.approx(60, abs=0.05)
    rows = ("--weights", "2, 2, 2, 1.9 oz", "--again", "2, 2, 2, 2.1 oz")
    assert document(*RUN, *rows)["static_rate"]["value"] == pytest.approx(60, abs=0.05)


def test_slip_of_a_taped_wheel_parts_field_from_stand(document):
    taped = (*DRILL, "--taped", "95 in", "--slip", "5%", "--turns", "18 1/3")
    found = document(*taped, "--rows-caught", "4", "--net", "8 oz")
    assert found["static_rate"]["value"] == pytest.approx(60, abs=0.05)
    assert found["field_rate"]["value"] == pytest.approx(57, abs=0.05)
    assert "slip exactly 5%" in found["taken_as"]


def test_crank_turns_by_ratio_and_by_ground(document):
    # 55 crank turns at 3 for one wheel turn are 18 1/3; 95 in ÷ 3 are 31.667 in for each.
    crank = ("--crank-turns", "55", "--rows-caught", "4", "--net", "8 oz")
    by_ratio = document(*DRILL, "--rolled", "95 in", *crank, "--per-turn", "3")
    by_ground = document(*DRILL, *crank, "--per-turn", "31 2/3 in")
    assert by_ratio["static_rate"]["value"] == pytest.approx(60, abs=0.05)
    assert by_ground["static_rate"]["value"] == pytest.approx(60, abs=0.05)


def test_a_measured_run_needs_no_wheel(document):
    run = ("--distance", "145.14 ft", "--rows-caught", "4", "--net", "8 oz")
    assert document(*DRILL, *run)["field_rate"]["value"] == pytest.approx(60, abs=0.05)


def test_seed_weighed_back_over_an_area_is_from_all_rows(document):
    # 30 lb on half an acre.
    found = document(*DRILL, "--area", "0.5 ac", "--net", "30 lb")
    assert found["field_rate"]["value"] == pytest.approx(60)
    assert found["rows_caught"] == 24


def test_a_field_ratio_is_the_field_s_alone(document):
    found = document(*EIGHT, "--field-ratio", "0.9 ± 0.03")
    assert found["field_rate"]["value"] / found["static_rate"]["value"] == pytest.approx(0.9)
    pulled = ("--distance", "145.14 ft", "--rows-caught", "4", "--net", "8 oz")
    in_work = document(*DRILL, *pulled, "--field-ratio", "0.9")
    assert in_work["field_rate"] == in_work["static_rate"]
    assert "field ratio not applied: the seed was caught while seeding" in in_work["taken_as"]


def test_the_target_may_be_on_the_stand_rate(document):
    on = ("--field-ratio", "0.5", "--target", "60 lb/ac", "--tolerance", "20%", "--on", "static")
    assert document(*EIGHT, *on)["verdict"] == "on target"


def test_a_target_in_bushels_needs_the_test_weight(document, refusal):
    # 1.2 bu/ac at 50 lb/bu are 60 lb/ac.
    wanted = ("--target", "1.2 bu/ac", "--tolerance", "20%")
    assert document(*EIGHT, *wanted, "--test-weight", "50 lb/bu")["verdict"] == "on target"
    assert refusal(*EIGHT, *wanted)["field"] == "--target"


def test_a_closer_scale_and_evener_rows_narrow_the_range(document):
    wide = document(*EIGHT)["field_rate"]["u"]
    fine = document(*RUN, "--net", "8 oz", "--resolution", "0.1 g", "--scale-tolerance", "0.1 g")
    even = document(*EIGHT, "--row-cv", "2%")
    assert fine["field_rate"]["u"] < wide
    assert even["field_rate"]["u"] < fine["field_rate"]["u"]


def test_the_page_says_the_next_thing_first(run):
    page = run(*EIGHT, "--target", "60 lb/ac").stdout
    assert "Too soon to tell. To be more certain, catch another 4 rows." in page
    assert "6 in 7 odds the field gets within 5% of 60 lb/ac." in page
    assert "the rows you didn't catch" in page
    assert "same in every catch; catch another 4 rows" in page
    assert "tolerance 5%" in " ".join(page.split())


def test_the_page_says_what_the_stand_must_show(run):
    page = run(*EIGHT, "--target", "54 lb/ac", "--field-ratio", "0.9 ± 0.01").stdout
    assert "aim for 60 lb/ac stationary to seed 54 lb/ac" in " ".join(page.split())


def test_pages_of_the_other_verdicts(run):
    light = run(*EIGHT, "--target", "66 lb/ac", "--tolerance", "3%").stdout
    assert "Running light: open the meter to drop 10% more, and catch again." in light
    heavy = run(*EIGHT, "--target", "54 lb/ac", "--tolerance", "3%").stdout
    assert "Running heavy: close the meter to drop 10% less, and catch again." in heavy
    done = run(*EIGHT, "--target", "60 lb/ac", "--tolerance", "10%").stdout
    assert "On target: leave the setting where it is." in done
    assert "The field gets 60 lb/ac, with 19 in 20 odds of being between 56.3" in run(*EIGHT).stdout


def test_a_strange_rate_is_asked_about_and_answered(run, document):
    much = (*RUN, "--net", "5 lb")
    assert run(*much).exit_code == 0
    assert "Please check static rate: 600 lb/ac is above 300 lb/ac" in run(*much).stderr
    assert document(*much)["warnings"]
    little = (*RUN, "--net", "20 g")
    assert "only a few steps on this scale" in run(*little).stderr


def test_the_scale_s_step_is_read_off_the_digits(document):
    def step(*weights):
        said = document(*RUN, *weights)["taken_as"]
        return next(text for text in said if text.startswith("scale read"))

    assert step("--net", "8 oz") == "scale read to 1 oz, as you typed it"
    assert step("--net", "8.0 oz") == "scale read to 0.1 oz, as you typed it"
    assert step("--net", "227 g", "--again", "225.5 g") == "scale read to 0.1 g, as you typed it"
    assert step("--gross", "10.2 oz", "--tare", "2 oz") == "scale read to 0.1 oz, as you typed it"
    assert step("--net", "8 oz", "--resolution", "2 g") == "scale reads to 2 g"


def test_a_catch_typed_in_whole_ounces_is_as_wide_as_its_scale(document):
    shares = document(*RUN, "--net", "8 oz")["budget"]
    spread = {share["name"]: share["share"] for share in shares}
    # Read twice to 1 oz: 1/6 oz² of variance; good to ± 1 oz, 1/3 oz²: twice as much.
    assert spread["scale error"] == pytest.approx(2 * spread["scale reading"], rel=0.02)
    assert spread["scale error"] + spread["scale reading"] > 0.5
