"""``evenstand boxes FILE``: what goes where, what every species gets, whether a box sorts."""

import pytest

DAY = ("--today", "2026-11")


def of(found, name, key="species"):
    return next(each for each in found[key] if each["name"] == name)


def test_each_species_and_each_box(document, bench):
    """20 bu at 56 lb is 1,120 lb, 60 lb/ac: 18.67 ac. 4 bu at 60 lb is 240 lb, 6 lb/ac: 40 ac."""
    found = document("boxes", bench(), *DAY)
    assert {each["name"]: each["box"] for each in found["species"]} == {
        "Cereal rye": "grain",
        "Hairy vetch": "grain",
        "Crimson clover": "small seed",
    }
    grain, small = found["boxes"]
    assert set(grain["rate"]) == {"value", "low", "high", "u", "unit"}
    assert (grain["rate"]["value"], grain["rate"]["unit"]) == (pytest.approx(60), "lb/ac")
    assert grain["holds"]["value"] == pytest.approx(1120)
    assert grain["per_fill"]["value"] == pytest.approx(1120 / 60)
    assert small["per_fill"]["value"] == pytest.approx(40)
    # A measured test weight is good to 2 %, and so is the ground.
    assert small["per_fill"]["high"] < 41
    assert of(found, "Cereal rye")["weight_share"] == pytest.approx(0.75)
    assert found["say"].startswith("Set grain to 60 lb/ac and small seed to 6 lb/ac, bulk seed.")


def test_a_box_off_its_rate_takes_every_species_with_it(document, bench):
    """3% below 45 and 15 lb/ac is 43.65 and 14.55."""
    for written in ("grain 58.2 lb/ac", "grain -3%", "Grain −3%"):
        found = document("boxes", bench(), *DAY, "--achieved", written)["achieved"]
        assert of(found, "Cereal rye")["rate"]["value"] == pytest.approx(43.65)
        assert of(found, "Hairy vetch")["rate"]["value"] == pytest.approx(14.55)
        assert of(found, "Crimson clover")["off"] == 0
        assert of(found, "Cereal rye")["off"] == pytest.approx(-0.03)
    both = document("boxes", bench(), *DAY, "--achieved", "grain 60 ± 2 lb/ac, small seed +5%")
    rates = both["achieved"]
    assert (
        of(rates, "Cereal rye")["rate"]["low"] < 44 < 46 < of(rates, "Cereal rye")["rate"]["high"]
    )
    assert of(rates, "Crimson clover")["rate"]["value"] == pytest.approx(6.3)


def test_a_sample_as_filled_and_one_that_is_not(document, bench):
    """45 × 18,100 to 15 × 16,500 seeds are 76.7 to 23.3 in a hundred."""
    fair = document("boxes", bench(), *DAY, "--sample", "rye 160, vetch 49")["samples"][0]
    assert fair["sorts"] is False
    assert of(fair, "Cereal rye")["expected"]["value"] == pytest.approx(76.694, abs=0.001)
    assert of(fair, "Hairy vetch")["runs"] == "as filled"
    off = document("boxes", bench(), *DAY, "--sample", "rye 110; vetch: 99")["samples"][0]
    assert off["sorts"] is True
    assert of(off, "Hairy vetch")["runs"] == "ahead"
    assert of(off, "Hairy vetch")["seeds"] == 99
    assert of(off, "Hairy vetch")["ratio"]["value"] == pytest.approx(99 / 209 / 0.23306, rel=1e-4)


def test_live_seeds_and_shares_need_the_tag(document, bench):
    """45 lb of 18,100 at 98 × 90% on 43,560 ft² are 16.49; pure seed alone is in a sample."""
    reached = document("boxes", bench(), *DAY, "--achieved", "grain 60 lb/ac")["achieved"]
    assert of(reached, "Cereal rye")["live"]["value"] == pytest.approx(16.492, abs=0.001)
    chaff = bench(('purity = "98%"\ngermination = "82%"', 'purity = "80%"\ngermination = "82%"'))
    sample = document("boxes", chaff, *DAY, "--sample", "rye 160, vetch 40")["samples"][0]
    # 45 × 18,100 × 0.98 to 15 × 16,500 × 0.80.
    assert of(sample, "Cereal rye")["expected"]["value"] == pytest.approx(80.125, abs=0.001)


def test_a_box_by_its_classes(document, bench):
    box = '[[boxes]]\nname = "all"\nvolume = "20 bu"\ntakes = "large"\nmakes_do = "medium, small"\n'
    found = document("boxes", bench(boxes=box), *DAY)
    assert found["boxes"][0]["species"] == ["Cereal rye", "Hairy vetch", "Crimson clover"]
    assert ("class", 2) in {(each["about"], each["grade"]) for each in found["compromises"]}


def test_a_weighed_sample_is_turned_into_seeds(document, bench):
    """10 g of 18,100 to the pound are 399 seeds, 5 g of 16,500 are 182."""
    found = document("boxes", bench(), *DAY, "--sample", "rye 10 g, vetch 5 g")["samples"][0]
    assert [each["seeds"] for each in found["species"]] == [399, 182]


def test_samples_of_a_box_as_it_empties(document, run, bench):
    samples = ("--sample", "rye 160, vetch 49", "--sample", "rye 110, vetch 99, out 50%")
    trend = document("boxes", bench(), *DAY, *samples)["trends"][0]
    assert trend["sorts"] is True
    assert of(trend, "Hairy vetch")["shares"] == pytest.approx([49 / 209, 99 / 209])
    page = " ".join(run("boxes", bench(), *DAY, *samples).stdout.split())
    assert "Hairy vetch rises from 23% to 47% of the seeds." in page


def test_the_file_s_own_way_and_a_better_one(document, run, bench):
    own = bench(('bulk = "6 lb/ac"', 'bulk = "6 lb/ac"\nbox = "Grain"'))
    found = document("boxes", own, *DAY)
    assert found["placed"] == {"Crimson clover": "grain"}
    assert of(found, "Crimson clover")["box"] == "grain"
    assert found["boxes"][1]["rate"] is None
    assert found["better"]["boxes"]["small seed"] == ["Crimson clover"]
    page = " ".join(run("boxes", own, *DAY).stdout.split())
    assert "This plan has fewer trade-offs: In grain: Cereal rye, Hairy vetch." in page
    assert "Crimson clover will likely settle under Hairy vetch" in page


def test_a_carrier_goes_with_its_box_and_adds_no_live_seed(document, bench):
    hulls = '[[mix]]\ncarrier = true\nname = "rice hulls"\nbulk = "10 lb/ac"\nbox = "small seed"\n'
    bare, found = document("boxes", bench(), *DAY), document("boxes", bench(more=hulls), *DAY)
    assert found["boxes"][1]["rate"]["value"] == pytest.approx(16)
    assert found["boxes"][1]["carrier"] == "rice hulls"
    # 6 lb of 60 lb/bu and 10 lb of 9 lb/bu fill 1.2111 bu: 13.21 lb/bu, 4 bu: 52.84 lb.
    assert found["boxes"][1]["holds"]["value"] == pytest.approx(52.84, rel=1e-3)
    assert of(found, "Crimson clover")["rate"] == of(bare, "Crimson clover")["rate"]


def test_two_lots_of_one_species_go_by_their_names(document, bench):
    two = (
        '[[lots]]\nname = "old"\nspecies = "cereal rye"\npurity = "98%"\ngermination = "85%"\n'
        'tested = "2026-08"\nseeds_per_lb = 19000\n[[mix]]\nlot = "old"\nbulk = "5 lb/ac"\n'
    )
    changes = (
        ('species = "cereal rye"\npurity', 'name = "new"\nspecies = "cereal rye"\npurity'),
        ('species = "cereal rye"\nbulk', 'lot = "new"\nbulk'),
    )
    found = document("boxes", bench(*changes, more=two), *DAY)
    rates = {each["name"]: each["rate"]["value"] for each in found["species"]}
    assert rates["Cereal rye (new)"] == pytest.approx(45)
    assert rates["Cereal rye (old)"] == pytest.approx(5)
    assert found["boxes"][0]["rate"]["value"] == pytest.approx(65)


def test_metric_and_working(document, run, bench):
    found = document("boxes", bench(), *DAY, "--units", "metric")
    assert found["boxes"][0]["rate"]["unit"] == "kg/ha"
    assert found["boxes"][0]["rate"]["value"] == pytest.approx(60 * 1.120851)
    page = run("boxes", bench(), *DAY, "--working").stdout
    assert "Target rate for grain: Cereal rye, Hairy vetch" in page
    assert "45 lb/ac + 15 lb/ac" in page


@pytest.mark.parametrize("columns", [60, 80])
def test_it_keeps_to_its_paper(run, bench, columns):
    flags = ("--sample", "rye 160, vetch 49", "--achieved", "grain 58 lb/ac", "--working")
    page = run("boxes", bench(), *DAY, *flags, columns=columns).stdout
    assert max(map(len, page.splitlines())) <= columns


def test_set_takes_its_target_from_the_box(document, bench, refusal):
    found = document("calibrate", bench(), "--box", "grain")
    assert found["target"]["rate"]["value"] == pytest.approx(60)
    assert any(
        "target 60 lb/ac, what the seed in grain calls for" in each for each in found["taken_as"]
    )
    written = bench(more='[target]\nrate = "54 lb/ac"\n')
    assert document("calibrate", written, "--box", "grain")["target"]["rate"]["value"] == 54
    error = refusal("calibrate", bench(), "--box", "hopper")
    assert (error["field"], error["given"]) == ("--box", "hopper")
    assert "grain, small seed" in error["need"]
    assert refusal("calibrate", "--box", "grain")["field"] == "--box"
    own = bench(('bulk = "6 lb/ac"', 'bulk = "6 lb/ac"\nbox = "grain"'))
    assert "this box gets no seed" in refusal("calibrate", own, "--box", "small seed")["need"]
    assert refusal("calibrate", bench())["field"] == "[target] rate"


def test_a_chart_with_a_test_weight_gets_that_of_the_box(document, bench):
    chart = ("[chart]\n", '[chart]\ntest_weight = "54 lb/bu"\n')
    found = document("calibrate", bench(chart), "--box", "grain")
    assert any("test weight 56 lb/bu" in each for each in found["taken_as"])


@pytest.mark.parametrize(
    ("old", "new", "field", "need"),
    [
        ('volume = "20 bu"', 'volume = "0 bu"', "[[boxes]] 1 volume", "above 0"),
        ('volume = "20 bu"', 'volume = "-3 bu"', "[[boxes]] 1 volume", "above 0"),
        ('volume = "20 bu"', 'volume = "20 lb"', "[[boxes]] 1 volume", "this needs a volume"),
        ('volume = "4 bu"\n', "", "[[boxes]] 2 volume", "this is missing"),
        ('takes = "grain"', 'takes = "sacks"', "[[boxes]] 1 takes", "enter grain, small seed"),
        ('takes = "grain"', 'takes = "grain"\nmakes_do = "small"', "[[boxes]] 1 makes_do", "leave"),
        (
            'name = "small seed"',
            'name = "Grain"',
            "[[boxes]] 2 name",
            "use a different name for each box",
        ),
        ('takes = "grain"', 'takes = "grain"\ndead = "100%"', "[[boxes]] 1 dead", "less than 100%"),
        ('takes = "grain"', 'takes = "grain"\nfull = "120%"', "[[boxes]] 1 full", "up to 100%"),
        (
            'takes = "grain"',
            'takes = "grain"\nleast = "60 lb/ac"\nmost = "50 lb/ac"',
            "[[boxes]] 1 most",
            "enter more than the minimum",
        ),
        (
            'takes = "grain"',
            'takes = "grain"\nvolum = 3',
            "[[boxes]] 1 volum",
            "did you mean volume",
        ),
        (
            'bulk = "45 lb/ac"',
            'bulk = "45 lb/ac"\nbox = "small seed"',
            "[[mix]] 1 box",
            "put it in grain",
        ),
        ('bulk = "45 lb/ac"', 'bulk = "45 lb/ac"\nbox = "hopper"', "[[mix]] 1 box", "grain"),
    ],
)
def test_boxes_that_cannot_be(refusal, bench, *, old, new, field, need):
    error = refusal("boxes", bench((old, new)), *DAY)
    assert error["field"] == field
    assert need in error["need"]
    assert isinstance(error["line"], int)


def test_no_boxes_and_no_box_that_takes_it(refusal, bench):
    assert refusal("boxes", bench(boxes=""), *DAY)["field"] == "[[boxes]]"
    small = '[[boxes]]\nname = "small seed"\nvolume = "4 bu"\ntakes = "small seed"\n'
    error = refusal("boxes", bench(boxes=small), *DAY)
    assert error["field"] == "[[boxes]]"
    assert "No box on this drill can handle Cereal rye, Hairy vetch" in error["need"]


def test_a_carrier_must_say_its_box(refusal, bench):
    hulls = '[[mix]]\ncarrier = true\nname = "rice hulls"\nbulk = "10 lb/ac"\n'
    error = refusal("boxes", bench(more=hulls), *DAY)
    assert (error["field"], error["given"]) == ("[[mix]] 4 box", None)
    assert "one of grain, small seed" in error["need"]
    twice = hulls + 'box = "grain"\n' + hulls.replace("rice hulls", "grit") + 'box = "grain"\n'
    error = refusal("boxes", bench(more=twice), *DAY)
    assert error["field"] == "[[mix]] 5 box"
    assert "grain already has a carrier" in error["need"]


@pytest.mark.parametrize(
    ("sample", "need"),
    [
        ("rye, vetch", "enter names with amounts"),
        ("rye 160, oats 20", "oats is not one of"),
        ("rye 160", "Hairy vetch: enter how many you found, 0 if none"),
        ("rye 160, clover 20", "separate each box on its own"),
        ("clover 20", "nothing can separate in small seed"),
        ("rye 160, vetch 12 g", "enter all of them as counts, or all as weights"),
        ("rye 160.5, vetch 12", "whole number"),
        ("rye 0, vetch 0", "at least one seed"),
        ("rye 160, vetch 12, rye 3", "enter Cereal rye only once"),
        ("rye 160, vetch 12, out 120%", "0% to 100%"),
        ("out 50%", "enter each species with its count"),
        ("", "it is empty"),
    ],
)
def test_samples_that_cannot_be(refusal, bench, *, sample, need):
    error = refusal("boxes", bench(), *DAY, "--sample", sample)
    assert (error["field"], error["given"]) == ("--sample", sample)
    assert need in error["need"]


@pytest.mark.parametrize(
    ("achieved", "need"),
    [
        ("grain", "enter names with amounts"),
        ("hopper 60 lb/ac", "hopper is not one of grain, small seed"),
        ("grain 0 lb/ac", "above 0"),
        ("grain -100%", "above 0"),
        ("grain 60 oz", "this needs a rate by weight"),
    ],
)
def test_rates_that_cannot_be(refusal, bench, *, achieved, need):
    error = refusal("boxes", bench(), *DAY, "--achieved", achieved)
    assert error["field"] == "--achieved"
    assert need in error["need"]
