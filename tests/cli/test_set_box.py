"""``evenstand calibrate FILE --box``: each box with its own chart, scale and catches.

The grain box is wanted at 60 lb/ac and its chart is right: 1.8 lb/ac a notch, 33.3. The small-seed
box is wanted at 6 lb/ac, at 0.4 lb/ac a notch: 15.
"""

import pytest

GRAIN = ("[chart]\n", '[[chart]]\nbox = "grain"\n')
SMALL = """
[[chart]]
box = "small seed"
points = [[10, "4 lb/ac"], [20, "8 lb/ac"], [30, "12 lb/ac"]]
"""
# Twenty turns of 95 in under 20 rows at 7.5 in are 0.045437 ac.
ACRES = 0.045437


def catch(box, setting, rate):
    return (
        f'\n[[catch]]\nbox = "{box}"\nsetting = {setting}\nturns = 20\nrows_caught = 20\n'
        f'net = "{rate * ACRES * 16:.2f} oz"\n'
    )


def test_each_box_has_its_own_chart(document, bench):
    both = bench(GRAIN, more=SMALL)
    grain, small = (document("calibrate", both, "--box", box) for box in ("grain", "small seed"))
    assert grain["choose"]["setting"] in (33, 34)
    assert small["choose"]["setting"] == 15
    assert (grain["target"]["rate"]["value"], small["target"]["rate"]["value"]) == (
        pytest.approx(60),
        pytest.approx(6),
    )
    assert not any("without a box" in each for each in grain["taken_as"])


def test_each_box_has_its_own_catches(document, bench):
    more = SMALL + catch("grain", 33, 54) + catch("small seed", 15, 6.6) + catch("grain", 37, 60)
    both = bench(GRAIN, more=more)
    grain, small = (document("calibrate", both, "--box", box) for box in ("grain", "small"))
    assert [each["setting"] for each in grain["catches"]] == [33, 37]
    assert [each["setting"] for each in small["catches"]] == [15]
    assert small["choose"]["setting"] < 15


def test_a_box_may_have_a_scale_of_its_own(document, bench):
    own = ('volume = "4 bu"', 'volume = "4 bu"\nscale = {low = 0, high = 30, step = 5}')
    found = document("calibrate", bench(GRAIN, own, more=SMALL), "--box", "small seed")
    assert {each["setting"] for each in found["candidates"]} <= {0, 5, 10, 15, 20, 25, 30}
    assert document("calibrate", bench(GRAIN, own, more=SMALL), "--box", "grain")["choose"][
        "setting"
    ] in (33, 34)


def test_what_names_no_box_is_said_to_be_taken(document, bench):
    found = document("calibrate", bench(), "--box", "small seed")
    assert "chart without a box: small seed is assumed" in found["taken_as"]


def line_of(text, path):
    return path.read_text(encoding="utf-8").splitlines().index(text) + 1


def test_refusals_name_the_table_in_the_whole_file(refusal, bench, tmp_path):
    """The second catch of the file is the first of its box."""
    more = SMALL + catch("grain", 33, 54) + catch("small seed", 99, 6)
    error = refusal("calibrate", bench(GRAIN, more=more), "--box", "small seed")
    assert (error["field"], error["given"]) == ("[[catch]] 2 setting", "99")
    assert error["line"] == line_of("setting = 99", tmp_path / "bench.toml")
    more = SMALL.replace('"4 lb/ac"', '"4 lb"') + catch("grain", 33, 54)
    assert (
        refusal("calibrate", bench(GRAIN, more=more), "--box", "small")["field"]
        == "[[chart]] 2 points"
    )


def test_a_catch_that_cannot_be_measured_is_named_too(refusal, bench):
    more = SMALL + catch("small seed", 15, 6) + catch("grain", 33, 54)
    more = more.replace("rows_caught = 20", "rows_caught = 21")
    error = refusal("calibrate", bench(GRAIN, more=more), "--box", "grain")
    assert error["field"] == "[[catch]] 2 rows_caught"


def test_a_box_s_own_scale_is_named(refusal, bench):
    own = ('volume = "4 bu"', 'volume = "4 bu"\nscale = {low = 0, high = -1}')
    error = refusal("calibrate", bench(GRAIN, own, more=SMALL), "--box", "small seed")
    assert error["field"] == "[[boxes]] 2 scale"
    assert error["need"].startswith("high: ")
    bad = ('volume = "4 bu"', 'volume = "4 bu"\nscale = 3')
    assert refusal("boxes", bench(bad))["field"] == "[[boxes]] 2 scale"


def test_some_with_a_box_and_some_without(refusal, bench):
    mixed = catch("grain", 33, 54) + catch("x", 30, 50).replace('box = "x"\n', "")
    error = refusal("calibrate", bench(GRAIN, more=SMALL + mixed), "--box", "grain")
    assert error["field"] == "[[catch]] 2 box"
    assert "like the others" in error["need"]
    error = refusal("calibrate", bench(GRAIN, more=SMALL + catch("hopper", 3, 4)), "--box", "grain")
    assert error["field"] == "[[catch]] 1 box"


def test_a_file_of_boxes_asks_which(refusal, bench):
    error = refusal("calibrate", bench(GRAIN, more=SMALL + '\n[target]\nrate = "60 lb/ac"\n'))
    assert (error["field"], "grain or small seed" in error["need"]) == ("--box", True)
    need = refusal("calibrate", bench())["need"]
    assert (
        "use the mix's rate for grain or small seed: evenstand calibrate bench.toml --box NAME"
        in need
    )
