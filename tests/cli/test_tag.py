"""``evenstand tag``: the tag both ways, rates, what is asked back, what is refused."""

import json

import pytest

TAG = ("tag", "--purity", "98%", "--germination", "92%")
DAY = ("--today", "2026-11")


def change(arguments, flag, text):
    place = arguments.index(flag)
    return (*arguments[: place + 1], text, *arguments[place + 2 :])


def test_the_contract_s_keys(document):
    hard = ("--hard", "5%", "--seeds-per-lb", "18100", "--rate", "3 lb/ac", "--basis", "pls")
    found = document(*TAG, *hard, *DAY)
    results = ("pls", "pls_other_way", "pls_rate", "bulk_rate", "seeds_per_area")
    for key in results:
        assert set(found[key]) == {"value", "low", "high", "u", "unit"}
    # 0.98 × (0.92 + 0.05) = 0.9506, and 0.98 × 0.92 = 0.9016.
    assert found["pls"]["value"] == pytest.approx(95.06)
    assert found["pls_other_way"]["value"] == pytest.approx(90.16)
    assert found["pls_rate"]["value"] == pytest.approx(3)
    assert found["bulk_rate"]["value"] == pytest.approx(3 / 0.9506)
    # 3 lb/ac × 18,100 ÷ 43,560 ft².
    assert found["seeds_per_area"]["value"] == pytest.approx(3 * 18_100 / 43_560)
    assert found["seeds_per_area"]["unit"] == "seeds/ft²"
    assert isinstance(found["warnings"], list)
    assert {"say", "sum", "value", "unit", "source"} <= set(found["working"][0])


@pytest.mark.parametrize(
    ("purity", "germination", "dormant", "pls"),
    [
        # Texas Department of Transportation, Pure live seed; it rounds to 64 %.
        ("85%", "75%", "0%", 63.75),
        # A seed seller, What is PLS: 80.75 %.
        ("95%", "85%", "0%", 80.75),
        # NRCS Louisiana, Plant Materials Technical Note 11: dormant seed counts.
        ("98.75%", "88%", "5%", 91.8375),
    ],
)
def test_published_tags(document, *, purity, germination, dormant, pls):
    flags = ("--purity", purity, "--germination", germination, "--dormant", dormant)
    assert document("tag", *flags, *DAY)["pls"]["value"] == pytest.approx(pls)


def test_hard_seed_counts_as_one_chooses_or_as_the_species_lives(document):
    hard = (*TAG, "--hard", "5%", *DAY)
    assert document(*hard, "--count-hard", "no")["pls"]["value"] == pytest.approx(90.16)
    annual = document(*hard, "--species", "crimson clover")
    assert (annual["count_hard"], annual["pls_other_way"]["value"]) == (False, pytest.approx(95.06))
    assert any("lives one season" in each for each in annual["taken_as"])
    assert document(*hard, "--species", "alfalfa")["count_hard"] is True


def test_a_total_has_hard_seed_in_it(document, refusal):
    total = ("tag", "--purity", "99%", "--germination", "95%", "--total-viable", *DAY)
    found = document(*total)
    assert found["pls"]["value"] == pytest.approx(94.05)
    assert found["pls_other_way"] is None
    error = refusal(*total, "--hard", "5%")
    assert error["field"] == "--hard"
    assert "the total on this tag already includes hard and dormant seed" in error["need"]
    assert refusal(*total, "--count-hard", "no")["field"] == "--count-hard"


def test_bulk_the_other_way_round(document):
    found = document(*TAG, "--rate", "10 lb/ac", "--basis", "bulk", *DAY)
    assert found["pls_rate"]["value"] == pytest.approx(9.016)
    assert found["bulk_rate"]["value"] == pytest.approx(10)
    assert found["seeds_per_area"] is None
    metric = document(*TAG, "--rate", "10 kg/ha", "--basis", "bulk", *DAY, "--units", "metric")
    assert (metric["pls_rate"]["value"], metric["pls_rate"]["unit"]) == (
        pytest.approx(9.016),
        "kg/ha",
    )


def test_a_rate_says_which_it_is(refusal):
    error = refusal(*TAG, "--rate", "10 lb/ac", *DAY)
    assert (error["field"], error["given"]) == ("--basis", None)
    assert "pls (pure live seed) or bulk (as in the bag)" in error["need"]
    assert refusal(*TAG, "--basis", "pls", *DAY)["field"] == "--basis"
    assert (
        "enter this seed's test weight"
        in refusal(*TAG, "--rate", "1 bu/ac", "--basis", "bulk")["need"]
    )


@pytest.mark.parametrize(
    ("count", "per_lb"),
    [
        (("--seeds-per-lb", "18,100"), 18_100),
        (("--seeds-per-lb", "40 seeds/g"), 40 * 453.59237),
        (("--tsw", "25 g"), 453.59237 / 25 * 1000),
        (("--replicates", "2.5; 2.5; 2.5; 2.5; 2.5; 2.5; 2.5; 2.5 g"), 453.59237 / 2.5 * 100),
        (("--counted", "400 in 10 g", "--counted", "408 in 10 g"), 453.59237 / 20 * 808),
        (("--coated-per-lb", "9000", "--coating", "1%"), 9000 / 0.98),
    ],
)
def test_every_way_to_a_count(document, *, count, per_lb):
    rate = ("--rate", "43560 lb/ac", "--basis", "pls")  # one pound of live seed on a square foot
    found = document(*TAG, *count, *rate, *DAY)
    assert found["seeds_per_area"]["value"] == pytest.approx(per_lb)


def test_a_count_from_the_table_is_said_and_wide(document):
    rate = ("--rate", "15 lb/ac", "--basis", "pls")
    table = document(*TAG, "--species", "hairy vetch", *rate, *DAY)
    counted = document(*TAG, "--species", "hairy vetch", "--seeds-per-lb", "16,400", *rate, *DAY)
    assert table["seeds_per_area"]["u"] > 3 * counted["seeds_per_area"]["u"]
    assert any("15,876" in each and "20,000" in each for each in table["taken_as"])
    assert any("Count your lot" in each["say"] for each in table["warnings"])


def test_eight_more_are_asked_for_where_eight_scatter(document):
    weights = "2.0; 2.6; 2.4; 2.7; 2.2; 2.5; 2.3; 2.6 g"
    found = document(*TAG, "--replicates", weights, *DAY)
    asked = [each for each in found["warnings"] if each["field"] == "--replicates"]
    assert "weigh another 8" in asked[0]["say"]


def test_a_home_test_is_joined_with_the_tag(document):
    # It lies between the two, and twelve points apart are more than luck.
    found = document(*TAG, "--home-test", "40/50", "--home-test", "40/50", *DAY)
    assert 98 * 0.80 < found["pls"]["value"] < 98 * 0.92
    assert any(
        each["field"] == "--home-test" and "differ by 12 points" in each["say"]
        for each in found["warnings"]
    )


@pytest.mark.parametrize(
    ("more", "field", "asked"),
    [
        (("--tested", "2026-03"), "--tested", "8 months old; interstate trade allows 5 months"),
        (("--tested", "2025-12", "--state", "KY"), "--tested", "Kentucky allows 9 months"),
        (("--tested", "3/2026", "--age-limit", "6"), "--tested", "the limit you entered"),
        (("--state", "OR"), "--state", "We have no age limit for OR"),
        ((), "--tested", "The tag's test month is missing"),
        (("--noxious", "dodder 18 seeds/lb"), "--noxious", "dodder, 18 seeds/lb"),
        (("--treated",), "--treated", "Do not feed it"),
        (("--inert", "2%", "--coating", "2%"), "--coating", "subtracted once"),
    ],
)
def test_what_is_odd_is_asked_about(document, *, more, field, asked):
    found = document(*TAG, *more, *DAY)
    said = [each["say"] for each in found["warnings"] if each["field"] == field]
    assert any(asked in each for each in said)


def test_a_young_test_is_not_asked_about(document):
    for more in (("--tested", "March 2026", "--state", "KY"), ("--tested", "2026-06-15")):
        fields = [each["field"] for each in document(*TAG, *more, *DAY)["warnings"]]
        assert "--tested" not in fields


def test_the_clock_is_the_day_without_today(document, monkeypatch):
    import datetime

    class Day(datetime.date):
        @classmethod
        def today(cls):
            return cls(2027, 1, 15)

    monkeypatch.setattr("evenstand.cli.clock.date", Day)
    found = document(*TAG, "--tested", "2026-03")
    assert any("10 months old" in each["say"] for each in found["warnings"])


@pytest.mark.parametrize("count", ["1,810", "181,000"])
def test_a_count_ten_times_off_is_asked_about(document, count):
    found = document(*TAG, "--species", "cereal rye", "--seeds-per-lb", count, *DAY)
    asked = [each["say"] for each in found["warnings"] if each["field"] == "--seeds-per-lb"]
    assert any("about 10 times off" in each for each in asked)


@pytest.mark.parametrize(
    ("arguments", "field", "need"),
    [
        (change(TAG, "--purity", "102%"), "--purity", "above 0% to 100%"),
        (change(TAG, "--purity", "98"), "--purity", "percent sign"),
        (change(TAG, "--purity", "98 ± 1%"), "--purity", "without ±"),
        (change(TAG, "--germination", "0%"), "--germination", "above 0% to 100%"),
        ((*TAG, "--hard", "9%"), "--germination", "add up to 101%"),
        ((*TAG, "--inert", "3%"), "--purity", "add up to 101%"),
        ((*TAG, "--hard", "-1%"), "--hard", "0% to 100%"),
        ((*TAG, "--coating", "5%"), "--coating", "2% at most"),
        (
            (*TAG, "--coated-per-lb", "9000"),
            "--coated-per-lb",
            "enter the coating from the tag too",
        ),
        ((*TAG, "--tested", "2026-12"), "--tested", "it can't be after Nov 2026"),
        ((*TAG, "--tested", "3/26"), "--tested", "such as 2026-03"),
        ((*TAG, "--tested", "Smarch 2026"), "--tested", "such as 2026-03"),
        ((*TAG, "--tested", "2026-13"), "--tested", "from 1 to 12"),
        ((*TAG, "--seeds-per-lb", "0"), "--seeds-per-lb", "above 0"),
        ((*TAG, "--seeds-per-lb", "9", "--tsw", "9 g"), "--tsw", "clear --seeds-per-lb"),
        ((*TAG, "--tsw", "nan g"), "--tsw", "enter a weight per 1,000 seeds"),
        ((*TAG, "--replicates", "2 g, 2 g"), "--replicates", "weigh 100 seeds 8 times"),
        ((*TAG, "--counted", "400"), "--counted", "560 in 20 g"),
        ((*TAG, "--counted", "0 in 20 g"), "--counted", "enter a whole number of 1 or more"),
        ((*TAG, "--resolution", "1 g"), "--resolution", "use it together with --counted"),
        (
            (*TAG, "--home-test", "51/50"),
            "--home-test",
            "enter 0 to 50 seeds (the number laid out)",
        ),
        ((*TAG, "--home-test", "often"), "--home-test", "46/50"),
        (
            (*TAG, "--home-test", "46/50", "--home-hard", "5"),
            "--home-hard",
            "enter 0 to 4 seeds (the ones that did not sprout)",
        ),
        ((*TAG, "--home-hard", "5"), "--home-hard", "use it together with --home-test"),
        ((*TAG, "--noxious", "dodder"), "--noxious", "dodder 18 seeds/lb"),
        ((*TAG, "--price", "-1 $/lb"), "--price", "0 or more"),
        ((*TAG, "--age-limit", "0"), "--age-limit", "enter a whole number of 1 or more"),
        ((*TAG, "--count-hard", "maybe"), "--count-hard", "yes or no"),
        ((*TAG, "--species", "rye"), "--species", "Cereal rye, Annual (Italian) ryegrass"),
        ((*TAG, "--species", "hary vetch"), "--species", "Did you mean Hairy vetch?"),
        ((*TAG, "--seeds-tested", "0"), "--seeds-tested", "enter a whole number of 1 or more"),
        ((*TAG, "--today", "soon"), "--today", "such as 2026-03"),
    ],
)
def test_refusals_name_flag_and_remedy(refusal, *, arguments, field, need):
    day = () if "--today" in arguments else DAY
    error = refusal(*arguments, *day)
    assert error["field"] == field
    assert need in error["need"]


@pytest.mark.parametrize("taken_out", ["--purity", "--germination"])
def test_what_is_missing_is_named(refusal, taken_out):
    place = TAG.index(taken_out)
    error = refusal(*TAG[:place], *TAG[place + 2 :])
    assert (error["field"], error["given"]) == (taken_out, None)


def test_live_seed_has_its_price(document):
    # Hay & Forage Grower: 70 % × 80 % = 56 % at $4 is $7.14.
    tag = ("tag", "--purity", "70%", "--germination", "80%", "--price", "$4/lb")
    found = document(*tag, *DAY)
    assert found["price_per_pls"]["value"] == pytest.approx(4 / 0.56)
    assert found["price_per_pls"]["unit"] == "$/lb"


@pytest.mark.parametrize("columns", [60, 80, 120])
@pytest.mark.parametrize("units", ["us", "metric"])
def test_the_page_keeps_to_its_paper(run, *, columns, units):
    more = ("--species", "hairy vetch", "--hard", "5%", "--rate", "15 lb/ac", "--basis", "pls")
    done = run(*TAG, *more, *DAY, "--working", "--units", units, columns=columns)
    assert done.exit_code == 0
    assert max(map(len, done.stdout.splitlines())) <= min(columns, 80)
    for part in ("bulk to seed", "Where the uncertainty comes from", "Assumptions", "Worksheet"):
        assert part in " ".join(done.stdout.split())
    assert "Please check --tested" in done.stderr
    assert "\x1b" not in done.stdout


def test_json_is_all_that_is_written(run):
    done = run(*TAG, *DAY, "--json")
    assert json.loads(done.stdout)
    assert done.stderr == ""


def test_a_chaffy_species_is_less_sure_of_its_purity(document):
    tag = ("tag", "--purity", "80%", "--germination", "90%", *DAY)
    smooth, chaffy = (document(*tag, "--species", name) for name in ("switchgrass", "big bluestem"))
    assert chaffy["pls"]["u"] > smooth["pls"]["u"]


def test_chaffy_weights_may_scatter_more(document):
    """These eight scatter by 5%: above the 4% of smooth kinds, below the 6% of chaffy ones."""
    weights = "1.90; 2.10; 1.90; 2.10; 1.90; 2.10; 1.95; 2.05 g"
    for species, asked in (("switchgrass", True), ("big bluestem", False)):
        found = document(*TAG, "--replicates", weights, "--species", species, *DAY)
        assert any("weigh another 8" in each["say"] for each in found["warnings"]) is asked


def test_a_coarse_scale_makes_a_count_less_sure(document):
    count = ("--counted", "400 in 10 g", "--rate", "9 lb/ac", "--basis", "pls")
    fine, coarse = (
        document(*TAG, *count, "--resolution", step, *DAY) for step in ("0.01 g", "1 g")
    )
    # One step of 1 g on 10 g is 1 ÷ (10 √12), 2.9 %.
    parts = [
        found["seeds_per_area"]["u"] / found["seeds_per_area"]["value"] for found in (fine, coarse)
    ]
    assert parts[1] ** 2 - parts[0] ** 2 == pytest.approx(0.0288675**2, rel=1e-3)


def test_seed_sealed_against_moisture_may_be_older(document):
    for more, asked in (((), True), (("--hermetic",), False)):
        found = document(*TAG, "--tested", "2025-03", *more, *DAY)
        assert ("--tested" in [each["field"] for each in found["warnings"]]) is asked


def test_a_gift_has_a_price_too(document):
    assert document(*TAG, "--price", "$0/lb", *DAY)["price_per_pls"]["value"] == 0
