"""``evenstand calibrate FILE``: where the lever goes, and what is said of it.

The chart of the file is right to begin with: 1.8 lb/ac a notch in full gear,
so 30 gives 54. Twenty turns of 95 in under 20 rows at 7.5 in are 1979.2 ft²
or 0.045437 ac: 54 lb/ac on them weigh 39.26 oz.
"""

import pytest

OZ_PER_RATE = 0.045437 * 16  # ounces on that ground for 1 lb/ac


def catch(setting, ounces, *, gear="full", turns=20):
    return (
        f'\n[[catch]]\nsetting = {setting}\ngear = "{gear}"\nturns = {turns}\n'
        f'rows_caught = 20\nnet = "{ounces:.2f} oz"\n'
    )


def test_before_any_catch_the_chart_says_where_to_begin(document, heron):
    found = document("calibrate", heron(catch=""))
    assert (found["choose"]["setting"], found["choose"]["gear"]) == (30, "full")
    assert found["choose"]["rate"]["value"] == pytest.approx(54, abs=0.5)
    assert found["stop"] is False
    assert found["catches"] == []
    assert found["say"].startswith("Put the drive in full gear. Set the lever to 30")
    assert "The chart alone: " in found["say"]


def test_the_contract_s_keys(document, heron):
    found = document("calibrate", heron())
    assert {"choose", "stop", "say", "candidates", "catches"} <= set(found)
    assert {"setting", "gear", "rate", "odds"} <= set(found["choose"])
    assert set(found["choose"]["rate"]) == {"value", "low", "high", "u", "unit"}
    assert {"setting", "gear", "rate", "odds"} <= set(found["candidates"][0])
    assert {"setting", "gear", "static_rate", "field_rate"} <= set(found["catches"][0])


def test_a_light_catch_sends_the_lever_up(document, heron):
    # 48.6 lb/ac at 30 where 54 was looked for: a tenth less. 54 ÷ 0.9 ÷ 1.8 is 33.3.
    found = document("calibrate", heron(catch=catch(30, 48.6 * OZ_PER_RATE)))
    assert found["choose"]["setting"] in (33, 34)
    assert found["catches"][0]["static_rate"]["value"] == pytest.approx(48.6, abs=0.02)
    assert "Move the lever from 30 to 3" in found["say"]
    assert "coming up to it from below" in found["say"]


def test_one_catch_more_goes_on_to_the_end(document, heron):
    catches = catch(30, 48.6 * OZ_PER_RATE) + catch(33, 53.5 * OZ_PER_RATE)
    found = document("calibrate", heron(catch=catches))
    assert found["stop"] is True
    assert found["ending"] == "accepted"
    assert found["choose"]["setting"] == 33
    assert found["choose"]["odds"] >= 0.9
    assert "Caught at this notch and accepted" in found["say"]
    low, high = (found["target"][edge]["value"] for edge in ("low", "high"))
    assert (low, high) == (pytest.approx(51.3), pytest.approx(56.7))


def test_a_chart_that_cannot_be_right_is_said(document, heron):
    found = document("calibrate", heron(catch=catch(30, 12 * OZ_PER_RATE)))
    assert "Your chart can't be right: it says 54 lb/ac at 30" in found["say"]
    assert found["catches"][0]["fits"] is False


def test_a_catch_that_does_not_fit_the_others_is_said(document, heron):
    same = [catch(30, 48.6 * OZ_PER_RATE), catch(33, 53.5 * OZ_PER_RATE)] * 2
    found = document("calibrate", heron(catch="".join(same) + catch(33, 30 * OZ_PER_RATE)))
    assert "Catch 5 does not fit the others" in found["say"]
    assert [each["fits"] for each in found["catches"]] == [True] * 4 + [False]


def test_caught_in_full_gear_sown_in_half(document, heron):
    """Half speed: the same turns meter half the seed at the same setting."""
    half = ('gear = "full"\n\n[[catch]]', 'gear = "half"\n\n[[catch]]')
    found = document("calibrate", heron(('54 lb/ac"\ntol', '27 lb/ac"\ntol'), half))
    assert found["choose"]["gear"] == "half"
    # 55 lb/ac at 30 in full gear is 27.5 in half, so 30 stays right.
    assert found["choose"]["setting"] in (29, 30)
    assert "the same turns will meter half the seed" in found["say"]
    assert {each["gear"] for each in found["candidates"]} == {"half"}


def test_slip_makes_a_field_target_a_higher_one_at_the_stand(document, heron):
    # 54 in the field with 10 % slip are 60 at the stand: 33.3 on the chart.
    taped = ('rolled = "95 in"', 'taped = "95 in"\nslip = "10 ± 1%"')
    found = document("calibrate", heron(taped, catch=""))
    assert found["choose"]["setting"] in (33, 34)
    assert found["target"]["bench_rate"]["value"] == pytest.approx(60)
    assert "aim for 60 lb/ac stationary to seed 54 lb/ac" in found["say"]
    on_stand = ('on = "field"', 'on = "static"')
    assert document("calibrate", heron(taped, on_stand, catch=""))["choose"]["setting"] == 30


def test_a_field_ratio_does_the_same(document, heron):
    found = document("calibrate", heron(catch="", more='\n[field]\nratio = "0.9 ± 0.02"\n'))
    assert found["target"]["bench_rate"]["value"] == pytest.approx(60)


def test_a_catch_in_work_is_brought_back_to_the_stand(document, heron):
    taped = ('rolled = "95 in"', 'taped = "95 in"\nslip = "10 ± 1%"')
    pulled = ("turns = 20", 'distance = "158.333 ft"')
    # 54 lb/ac in the field at 33 are 60 at the stand, as the chart has it (59.4).
    made = catch(33, 54 * OZ_PER_RATE)
    found = document("calibrate", heron(taped, pulled, catch=made))
    assert found["choose"]["setting"] == 33
    assert found["catches"][0]["field_rate"]["value"] == pytest.approx(54, abs=0.02)


def test_no_chart_at_all(document, heron):
    lines = heron(catch="")
    with open(lines, encoding="utf-8") as file:
        text = file.read()
    start, end = text.index("[chart]"), text.index("[target]")
    with open(lines, "w", encoding="utf-8") as file:
        file.write(text[:start] + text[end:])
    found = document("calibrate", lines)
    assert "You have no chart, so this is only a starting point." in found["say"]
    assert 20 <= found["choose"]["setting"] <= 40


def test_own_history_says_more_than_a_chart(document, heron):
    past = '\n[[history]]\ngear = "full"\npoints = [[30, "48.6 lb/ac"], [34, "55 lb/ac"]]\n'
    found = document("calibrate", heron(catch="", more=past))
    assert found["choose"]["setting"] in (33, 34)
    assert found["choose"]["odds"] > document("calibrate", heron(catch=""))["choose"]["odds"]


def test_sprockets_levers_and_a_reversed_scale(document, heron):
    sprockets = ('name = "full"\nratio = 1', 'name = "full"\ndriver = 20\ndriven = 20')
    reversed_ = ('slack = "below"', 'slack = "above"\nreversed = true\nlevers = 2')
    points = [("[20, ", "[40, "), ('[40, "72', '[20, "72')]
    found = document("calibrate", heron(sprockets, reversed_, *points, catch=""))
    assert found["choose"]["setting"] == 30
    assert "Set all 2 levers to 30, coming down to it from above." in found["say"]


def test_no_notch_can_do_it(document, heron):
    coarse = [("step = 1\n", "step = 10\n"), ('tolerance = "5%"', 'tolerance = "2%"')]
    coarse.append(('rate = "54 lb/ac"\n', 'rate = "62 lb/ac"\n'))
    both = "".join([catch(30, 54 * OZ_PER_RATE), catch(40, 72 * OZ_PER_RATE)] * 3)
    found = document("calibrate", heron(*coarse, catch=both + catch(30, 54 * OZ_PER_RATE)))
    assert found["ending"] == "no notch"
    assert found["stop"] is True
    assert "No notch in full gear will do it" in found["say"]
    assert "30 drops 5" in found["say"]
    assert "40 drops 7" in found["say"]


def test_more_rows_not_more_times(document, heron):
    one_row = ("rows_caught = 20", "rows_caught = 1")
    many = catch(30, 54 * OZ_PER_RATE / 20, turns=20) * 8
    found = document("calibrate", heron(one_row, ('"5%"', '"3%"'), catch=many))
    assert found["ending"] == "common limits"
    assert "Catch more rows, not the same rows again: catch" in found["say"]


def test_a_bushel_target_by_the_seed_s_test_weight(document, heron):
    # 0.9 bu/ac at 60 lb/bu are 54 lb/ac; the chart was made for 60 lb/bu too.
    weights = ('gear = "full"\npoints', 'gear = "full"\ntest_weight = "60 lb/bu"\npoints')
    bushels = ('rate = "54 lb/ac"', 'rate = "0.9 bu/ac"')
    found = document(
        "calibrate", heron(weights, bushels, catch="", more='\n[seed]\ntest_weight = "60 lb/bu"\n')
    )
    assert found["choose"]["setting"] == 30


def test_chart_of_another_spacing(document, heron):
    # The same meters under rows twice as wide sow half as much: 27 at 30, so 54 at 60.
    wide = ('gear = "full"\npoints', 'gear = "full"\nspacing = "3.75 in"\npoints')
    assert document("calibrate", heron(wide, catch=""))["choose"]["setting"] == 60


def test_the_page(run, heron):
    page = run("calibrate", heron()).stdout
    assert page.startswith("Heron ")
    assert "Set, catch 1" in page
    assert "1 at 30" in page
    assert "The curve" in page
    assert "◆" in page
    assert "Worksheet" in run("calibrate", heron(), "--working").stdout


def test_rows_are_drawn_where_each_was_weighed(run, heron):
    weights = ", ".join(["2 oz"] * 19 + ["1 oz"])
    page = run("calibrate", heron(('net = "40 oz"', f'weights = "{weights}"'))).stdout
    assert "Rows caught" in page
    assert "row 20, 50% below average" in page


@pytest.mark.parametrize("columns", [60, 80, 120])
@pytest.mark.parametrize("units", ["us", "metric"])
def test_the_page_keeps_to_its_paper(run, heron, *, columns, units):
    page = run("calibrate", heron(), "--working", "--units", units, columns=columns).stdout
    assert max(map(len, page.splitlines())) <= min(columns, 80)


def test_nothing_but_plain_text_is_piped(run, heron):
    assert "\x1b" not in run("calibrate", heron()).stdout
